// SPDX-License-Identifier: GPL-3.0-or-later
// Room recommend: what the control is to be set to, derived from the units that are placed and from what the
// customer wishes, with the reason, the source, and what contradicts what. Hands out ids and figures, never
// sentences. Must not know checklists, jobs, drawings or languages.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "equipment/profile.h"
#include "quantity/quantity.h"
#include "recommend/form.h"
#include "recommend/wishes.h"
#include "sheet/sheet.h"
#include "verify/finding.h"

namespace ww::recommend {

/// A figure or word of a reason or a conflict: the value that this key of form.h has.
struct Term {
  std::string name;   ///< in the sentence
  std::string key;    ///< decides how the value is told
  std::string value;  ///< as in Setting
  friend bool operator==(const Term&, const Term&) = default;
};

/// How a value came to stand.
enum class Origin {
  derived,     ///< follows from equipment and wishes
  toConfirm,   ///< derived from custom alone: a person has to look at it
  confirmed,   ///< looked at, and left as derived
  overridden,  ///< the installer set something else, and said why
  differs      ///< the sheet has another value and nobody said why
};

/// One setting of the control.
struct Setting {
  std::string key;
  std::string value;    ///< in force: a word of its form, or a number in the unit of its form (C locale)
  std::string derived;  ///< what equipment and wishes give
  std::string reason;   ///< id of the sentence; its figures are `terms`
  std::vector<Term> terms;
  std::string source;  ///< "nameplate", "profile", "circuit", "wish", "custom", "memory", "cycling"
  Origin origin = Origin::derived;
  std::string note, by;  ///< of the choice, when there is one
  bool wired = false;    ///< the value stands on the sheet and decides what the circuit does
  friend bool operator==(const Setting&, const Setting&) = default;
};

/// Settings that contradict each other, the equipment or a wish. Rules: "lock-out-gap" {above, below} (stop);
/// "fan-starter-element" (stop), an element glows without air, "fan-starter-none" (fail), no air,
/// "fan-starter" (note), needless; "valve-sense" {set, unit} (fail); "set-points-cross" {heat, cool, band}
/// (fail); "lock-out-short" {above, balance} (warn), too little heat between the two; "set-point-outside"
/// {point, limit}, "fed-otherwise" {set, unit}, "off-time-short" {off, custom} (warn); "rate-held" {most,
/// share, busiest, off}, "wish-unfit" (note).
struct Conflict {
  std::string rule;
  verify::Severity severity = verify::Severity::note;
  std::vector<std::string> keys;  ///< settings, and wishes as "wish.changeover"
  std::vector<Term> terms;
  friend bool operator==(const Conflict&, const Conflict&) = default;
};

/// The whole sheet of settings. Conflicts worst first.
struct Sheet {
  std::vector<Setting> settings;  ///< in the order of kForms
  std::vector<Conflict> conflicts;

  const Setting* find(std::string_view key) const;
  /// Settings that a person still has to look at: to confirm, or different without a note.
  size_t open() const;
};

/// Derives all settings that mean something to the units placed; none without a unit. Choices for settings
/// that are not there are left alone.
Sheet recommend(const sheet::Sheet& sheet, const equipment::Library& library, const Control& control);

/// The off time that a rate of starts ("cycles.<duty>") is held to: the compressor's, nothing for other
/// stages.
quantity::Seconds offTimeOf(const Sheet& sheet, const Setting& rate);

/// The sheet with every wired setting that nobody set yet at its derived value, where that is certain and
/// another than holds while nobody sets it.
sheet::Sheet withDerived(sheet::Sheet sheet, const equipment::Library& library);

/// The sheet with a wired setting at this value for all units that know the key.
sheet::Sheet withValue(sheet::Sheet sheet, const equipment::Library& library, const std::string& key,
                       const std::string& value);

}  // namespace ww::recommend
