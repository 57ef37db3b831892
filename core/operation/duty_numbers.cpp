// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/duty_numbers.h"

namespace ww::operation {

namespace {

bool isCounted(std::string_view stem) { return stem == "zoneValve" || stem == "damper"; }

std::string_view stemOf(std::string_view duty) {
  return duty.substr(0, duty.find_last_not_of("0123456789") + 1);
}

}  // namespace

std::string numberedDuty(const asbuilt::AsBuilt& circuit, int unit, const std::string& duty) {
  const std::string_view stem = stemOf(duty);
  if (!isCounted(stem) || stem.size() == duty.size()) return duty;
  int number = std::stoi(duty.substr(stem.size()));
  for (int before = 0; before < unit; ++before)
    for (const auto& other : circuit.units[size_t(before)].profile->duties)
      number += stemOf(other.name) == stem;
  return std::string(stem) + std::to_string(number);
}

}  // namespace ww::operation
