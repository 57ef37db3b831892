// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

namespace ww::operation {

/// Before a call that all controls make at once: "zones.heat1".
inline constexpr std::string_view kAllZones = "zones.";
/// Before a call that is made while it is colder outdoors than where a heat pump gives over to its burner:
/// "cold.heat1", "zone2.cold.heat1". The fact is true then for every unit that asks for it and is told
/// nothing else.
inline constexpr std::string_view kBelowChangeover = "cold.";
inline constexpr std::string_view kChangeoverFact = "belowChangeover";
/// Before a call that is made while a control's schedule says that nobody is in: "unoccupied.cool1". The fact
/// is false then for every unit that asks for it and is told nothing else.
inline constexpr std::string_view kUnoccupied = "unoccupied.";
inline constexpr std::string_view kOccupiedFact = "occupied";

/// What a call's name is made of; parts that are not there are empty. Views of the name.
struct CallParts {
  std::string_view group;      ///< "zone2." of the second control, "zones." of all
  std::string_view condition;  ///< "cold.", "unoccupied."
  std::string_view call;       ///< "heat1"
};

constexpr CallParts partsOf(std::string_view name) {
  CallParts parts{{}, {}, name};
  if (name.starts_with("zone")) {
    const size_t end = name.find('.') + 1;
    parts = {name.substr(0, end), {}, name.substr(end)};
  }
  for (const std::string_view condition : {kBelowChangeover, kUnoccupied})
    if (parts.call.starts_with(condition)) {
      parts.condition = condition;
      parts.call.remove_prefix(condition.size());
    }
  return parts;
}

}  // namespace ww::operation
