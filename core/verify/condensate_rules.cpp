// SPDX-License-Identifier: GPL-3.0-or-later
// What a condensate float stops, and what it leaves running.
#include <algorithm>
#include <set>

#include "verify/forbidden.h"
#include "verify/rules.h"
#include "verify/why.h"

namespace ww::verify {

namespace {

bool contains(const std::vector<Place>& loads, sheet::UnitId unit, const std::string& part) {
  return std::any_of(loads.begin(), loads.end(),
                     [&](const Place& load) { return load.unit == unit && load.part == part; });
}

/// Some element that a duty of the unit hangs on is among the loads.
bool touches(const std::vector<Place>& loads, const asbuilt::PlacedUnit& unit, const char* duty) {
  const auto names = driverNames(*unit.profile, duty);
  return std::any_of(names.begin(), names.end(),
                     [&](const std::string& name) { return contains(loads, unit.id, name); });
}

/// The cooling input of an indoor board: it gives the airflow of cooling.
const equipment::Element* coolingInput(const asbuilt::PlacedUnit& unit) {
  if (unit.profile->column != equipment::Column::indoor) return nullptr;
  for (const auto& element : unit.profile->elements) {
    const auto* terminal = unit.profile->terminal(element.a);
    if (terminal != nullptr && terminal->purpose == "compressor1" &&
        std::holds_alternative<equipment::InputPart>(element.part))
      return &element;
  }
  return nullptr;
}

/// A condensing burner makes water in winter: its drain has a place for a float of its own.
bool condenses(const equipment::Profile& profile) {
  return std::any_of(profile.insertPoints.begin(), profile.insertPoints.end(),
                     [](const auto& point) { return point.name == "DRAIN"; });
}

/// The compressor stops and the board keeps its cooling airflow, or a second compressor stage stays called.
void side(const Inspection& in, const Guard& guard) {
  const auto stops = [&](const char* duty) {
    return std::any_of(in.circuit.units.begin(), in.circuit.units.end(),
                       [&](const auto& unit) { return touches(guard.guarded, unit, duty); });
  };
  if (!stops("compressor1")) return;
  for (const auto& unit : in.circuit.units)
    if (const auto* input = coolingInput(unit);
        input != nullptr && contains(guard.free, unit.id, input->id)) {
      in.add("float-side", {guard.safety, atPart(unit.id, input->id)});
      return;
    }
}

void heatSide(const Inspection& in, const Guard& guard) {
  for (const auto& unit : in.circuit.units)
    if (condenses(*unit.profile) && !touches(guard.guarded, unit, "burner1"))
      in.add("condensate-heat-side", {guard.safety, atUnit(unit.id)});
}

}  // namespace

void condensateRules(const Inspection& in) {
  const auto isFloat = [](const asbuilt::PlacedUnit& unit) { return unit.profile->guards == "condensate"; };
  if (std::none_of(in.circuit.units.begin(), in.circuit.units.end(), isFloat)) return;
  for (const Guard& guard : in.standing.guards) {
    if (!guard.landed || guard.guarded.empty()) continue;  // told as misplaced
    if (!isFloat(in.circuit.units[size_t(in.circuit.unitIndex(guard.safety.unit))])) continue;
    side(in, guard);
    heatSide(in, guard);
  }
}

}  // namespace ww::verify
