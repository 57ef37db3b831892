// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/operation_table_air.h"

#include <algorithm>

namespace ww::operation {

namespace {

using equipment::Role;

const equipment::Terminal* occupiedTerminal(const equipment::Profile& profile, Role role) {
  for (const auto& terminal : profile.terminals)
    if (terminal.purpose == "occupied" && terminal.role == role) return &terminal;
  return nullptr;
}

/// A fact of a unit as it is told, else as its profile says; nothing for a unit that does not ask for it.
std::optional<bool> factOf(const asbuilt::PlacedUnit& unit, const char* fact, const Facts& facts) {
  const auto standard = unit.profile->world.find(fact);
  if (standard == unit.profile->world.end()) return std::nullopt;
  const auto told = facts.world.find({unit.id, fact});
  return told == facts.world.end() ? standard->second : told->second;
}

/// By the control that says so; a bridged input is always occupied.
bool occupied(const asbuilt::AsBuilt& circuit, const Facts& facts) {
  for (const auto& unit : circuit.units)
    if (unit.profile->kind == equipment::Kind::roomControl)
      if (const auto fact = factOf(unit, std::string(kOccupiedFact).c_str(), facts)) return *fact;
  return true;
}

void must(CallDemand& demand, const std::string& duty) {
  const auto same = [&](const std::string& other) { return dutyName(other) == dutyName(duty); };
  if (std::none_of(demand.must.begin(), demand.must.end(), same)) demand.must.push_back(duty);
}

}  // namespace

int freshAirUnit(const asbuilt::AsBuilt& circuit) {
  for (size_t unit = 0; unit < circuit.units.size(); ++unit) {
    const auto& profile = *circuit.units[unit].profile;
    if (profile.offers("ventilate") && occupiedTerminal(profile, Role::callIn) != nullptr) return int(unit);
  }
  return -1;
}

sheet::TerminalRef occupiedInput(const asbuilt::AsBuilt& circuit, int unit) {
  const auto& placed = circuit.units[size_t(unit)];
  return {placed.id, occupiedTerminal(*placed.profile, Role::callIn)->id};
}

bool isLanded(const asbuilt::AsBuilt& circuit, const sheet::TerminalRef& screw) {
  const int node = circuit.node(screw);
  const auto touches = [&](const asbuilt::Wire& wire) { return wire.a == node || wire.b == node; };
  if (std::any_of(circuit.wires.begin(), circuit.wires.end(), touches)) return true;
  return std::any_of(circuit.nodeOfTerminal.begin(), circuit.nodeOfTerminal.end(),
                     [&](const auto& entry) { return entry.second == node && entry.first != screw; });
}

void leaveFreshAir(CallDemand& demand) { std::erase(demand.may, "ventilate"); }

bool tellsOccupied(const asbuilt::AsBuilt& circuit) {
  if (freshAirUnit(circuit) < 0) return false;
  return std::any_of(circuit.units.begin(), circuit.units.end(), [&](const asbuilt::PlacedUnit& unit) {
    const auto* screw = occupiedTerminal(*unit.profile, Role::callOut);
    return screw != nullptr && isLanded(circuit, {unit.id, screw->id});
  });
}

void addFreshAir(const asbuilt::AsBuilt& circuit, const Facts& facts, CallDemand& demand) {
  const int unit = freshAirUnit(circuit);
  if (unit < 0) return;
  leaveFreshAir(demand);  // only while somebody is in
  if (!isLanded(circuit, occupiedInput(circuit, unit)) || !occupied(circuit, facts)) return;
  const bool coolOutside = factOf(circuit.units[size_t(unit)], "freeAir", facts).value_or(false);
  const bool free = coolOutside && (demand.call == "cool1" || demand.call == "cool2");
  if (free) std::erase(demand.must, demand.call == "cool1" ? "compressor1" : "compressor2");
  must(demand, "blower");
  must(demand, free ? "ventilate:free" : "ventilate:minimum");
}

}  // namespace ww::operation
