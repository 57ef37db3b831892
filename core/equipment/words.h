// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string_view>

#include "equipment/profile.h"
#include "quantity/json.h"

// The words that profiles are written with. Private to the room.
namespace ww::equipment {

inline const quantity::Fields::Words<Kind> kKindWords{
    {"roomControl", Kind::roomControl}, {"furnace", Kind::furnace},         {"airHandler", Kind::airHandler},
    {"coolingCoil", Kind::coolingCoil}, {"outdoorUnit", Kind::outdoorUnit}, {"boiler", Kind::boiler},
    {"zoneValve", Kind::zoneValve},     {"accessory", Kind::accessory},     {"refused", Kind::refused}};

inline const quantity::Fields::Words<Column> kColumnWords{{"control", Column::control},
                                                          {"indoor", Column::indoor},
                                                          {"outdoor", Column::outdoor},
                                                          {"accessory", Column::accessory}};

inline const quantity::Fields::Words<Bond> kBondWords{
    {"bonded", Bond::bonded}, {"floating", Bond::floating}, {"unknown", Bond::unknown}};

inline const quantity::Fields::Words<Role> kRoleWords{{"hot", Role::hot},
                                                      {"hotCool", Role::hotCool},
                                                      {"hotHeat", Role::hotHeat},
                                                      {"common", Role::common},
                                                      {"callIn", Role::callIn},
                                                      {"callOut", Role::callOut},
                                                      {"auxOut", Role::auxOut},
                                                      {"tie", Role::tie},
                                                      {"dry", Role::dry},
                                                      {"sense", Role::sense},
                                                      {"millivolt", Role::millivolt},
                                                      {"line", Role::line},
                                                      {"data", Role::data}};

inline constexpr std::array<std::string_view, 18> kPurposes{
    "hot",    "common",         "compressor1", "compressor2", "blower",   "heat1",
    "heat2",  "reversingValve", "emergency",   "defrostHeat", "humidify", "valve",
    "damper", "pairA",          "pairB",       "sensorA",     "sensorB",  "occupied"};

/// Calls a room control can make, and the outdoor state "defrost".
inline constexpr std::array<std::string_view, 9> kCalls{"rest",  "fan",   "cool1",     "cool2",  "heat1",
                                                        "heat2", "heat3", "emergency", "defrost"};

/// Duties; those that end in a digit here may carry any number from 1 to 99.
inline constexpr std::array<std::string_view, 13> kDuties{
    "compressor1", "blower",     "burner1", "electricHeat1", "reversingValve", "outdoorFan", "pump",
    "boiler",      "zoneValve1", "damper1", "humidify",      "ventilate",      "defrost"};

inline constexpr std::array<std::string_view, 5> kBlowerSpeeds{"circulate", "heat", "heat2", "cool1",
                                                               "cool2"};

/// How far a ventilation damper is open: for fresh air, or for cooling with outdoor air.
inline constexpr std::array<std::string_view, 2> kDamperPositions{"minimum", "free"};

/// Why a unit is refused.
inline constexpr std::array<std::string_view, 4> kRefusals{"lineVoltage", "dataBus", "modulating", "unknown"};

inline constexpr std::array<std::string_view, 2> kLanguages{"en", "es"};

template <class Words>
bool isWordOf(const Words& words, std::string_view word) {
  for (const std::string_view known : words)
    if (known == word) return true;
  return false;
}

template <class Words>
std::string listOf(const Words& words) {
  std::string text;
  for (const std::string_view word : words) text += (text.empty() ? "" : ", ") + std::string(word);
  return text;
}

/// A name that the logic can speak of: a letter, then letters, digits and "_"; at most 40 characters.
bool isName(std::string_view text);
/// A part's name in the library ("C7", "B2.5"): as isName, with points.
bool isPartName(std::string_view text);
/// A setting's choice: letters, digits, "_", "." and "+"; at most 40 characters.
bool isChoice(std::string_view text);
/// A profile's id or the key of a caution: small letters and digits in groups joined by "-".
bool isHyphenated(std::string_view text);

/// A format mark and a version: "wrong-format" {want, found}, "version-newer" {found, known}.
void readFormat(quantity::Fields& fields, std::string_view format, int known);

}  // namespace ww::equipment
