// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/duty_numbers.h"

namespace ww::operation {

namespace {

bool isCounted(std::string_view stem) { return stem == "zoneValve" || stem == "damper"; }

std::string_view stemOf(std::string_view duty) {
  return duty.substr(0, duty.find_last_not_of("0123456789") + 1);
}

bool isNumbered(const std::string& duty) {
  const std::string_view stem = stemOf(duty);
  return isCounted(stem) && stem.size() < duty.size();
}

/// How many duties of that kind a unit offers.
int offered(const equipment::Profile& profile, const std::string& duty) {
  int count = 0;
  for (const auto& other : profile.duties) count += stemOf(other.name) == stemOf(duty);
  return count;
}

std::string movedBy(const std::string& duty, int before) {
  const std::string_view stem = stemOf(duty);
  return std::string(stem) + std::to_string(std::stoi(duty.substr(stem.size())) + before);
}

}  // namespace

std::string numberedDuty(const asbuilt::AsBuilt& circuit, int unit, const std::string& duty) {
  if (!isNumbered(duty)) return duty;
  int before = 0;
  for (int other = 0; other < unit; ++other) before += offered(*circuit.units[size_t(other)].profile, duty);
  return movedBy(duty, before);
}

std::string numberedDuty(const sheet::Sheet& sheet, const equipment::Library& library, sheet::UnitId unit,
                         const std::string& duty) {
  if (!isNumbered(duty)) return duty;
  int before = 0;
  for (const sheet::Unit& other : sheet.units) {
    if (other.id == unit) break;
    if (const auto* profile = library.find(other.profile)) before += offered(*profile, duty);
  }
  return movedBy(duty, before);
}

}  // namespace ww::operation
