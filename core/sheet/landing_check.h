// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <set>
#include <string>
#include <string_view>

#include "equipment/profile.h"
#include "quantity/json.h"
#include "quantity/loaded.h"
#include "sheet/sheet.h"

namespace ww::sheet {

using quantity::enough;
using quantity::kMostProblems;

inline constexpr size_t kMostSheetBytes = size_t{4} << 20;  ///< of a CSV or JSON sheet
inline constexpr size_t kMostRows = 20'000;  ///< of a CSV sheet; also conductors and cables of a JSON one
inline constexpr size_t kMostUnits = 500;
inline constexpr size_t kMostSettings = 2'000;
inline constexpr double kMostMetres = 1'000;  ///< longest believable cable

/// A tag names a unit in CSV, commands and settings ("F.tap"): 1 to 24 bytes without blanks and without the
/// marks those use ( . / * # , ; : " ).
bool fitTag(std::string_view tag);

/// The name of a cable or a splice: 1 to 40 bytes, no blanks around it, no '#' or '*' in front, no line
/// break.
bool fitName(std::string_view name);

/// What both readers of a sheet check, whatever form it came in. Every complaint goes to `problems` with the
/// place the caller gives. A unit whose profile is unknown is complained about once; its landings are not.
class LandingCheck {
 public:
  LandingCheck(const equipment::Library& library, quantity::Problems& problems)
      : library_(library), problems_(problems) {}

  /// Says "unfit-tag" {tag}, "tag-doubled" {tag} at `tagAt`; "unknown-profile" {profile, known} at
  /// `profileAt`.
  void unit(const Unit& unit, const std::string& tagAt, const std::string& profileAt);

  /// 0 < metres <= 1000; else (NaN too) "length-out-of-range" {metres, most}.
  void length(quantity::Metres length, const std::string& at);

  /// "unfit-name" {name} for a cable or a splice.
  void name(std::string_view name, const std::string& at);

  /// A cable runs between two units: "cable-one-unit" {cable, unit} when both ends name the same.
  void cableEnds(const std::string& cable, const Unit& endA, const Unit& endB, const std::string& at);

  /// "unknown-terminal" {unit, profile, terminal, known}, or "terminal-by-screw-text" {unit, terminal, id}
  /// when the text is what one setting prints at the screw of terminal `id`.
  void terminal(const Unit& unit, std::string_view terminal, const std::string& at);

  /// A jumper's ends lie at one unit, else "jumper-between-units" {unit_a, unit_b}.
  void jumper(const Unit& endA, const Unit& endB, const std::string& at);

  /// Each key is a fact of the site (lineVolts 50-600, lineFrequency 50 or 60) or declared by a placed unit,
  /// each value among its choices. Says "unknown-setting" {setting, known}, "setting-without-unit" {setting,
  /// unit, known}, "setting-value" {setting, value, choices} (a range as "50 - 600", or "number").
  void settings(const Sheet& sheet, const std::function<std::string(const std::string& key)>& placeOf);

 private:
  void complain(const std::string& at, std::string key,
                std::vector<std::pair<std::string, std::string>> args);
  bool siteFact(const std::string& key, const std::string& value, const std::string& at);
  void unitSetting(const Sheet& sheet, const std::string& key, const std::string& value,
                   const std::string& at);
  void commonSetting(const Sheet& sheet, const std::string& key, const std::string& value,
                     const std::string& at);
  void among(const equipment::Setting& setting, const std::string& key, const std::string& value,
             const std::string& at);

  const equipment::Library& library_;
  quantity::Problems& problems_;
  std::set<std::string, std::less<>> tags_;
};

}  // namespace ww::sheet
