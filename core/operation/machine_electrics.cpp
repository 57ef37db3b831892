// SPDX-License-Identifier: GPL-3.0-or-later
// What settles without time passing: coils, supplies, and the fuses that melt before anything else moves.
#include "operation/machine_parts.h"

namespace ww::operation {

int weakestSupply(const asbuilt::AsBuilt& circuit, const asbuilt::Positions& positions,
                  circuit::Solver<circuit::Phasor>& solver) {
  constexpr double tie = 1e-9;
  int weakest = -1;
  double fewest = 0, most = 0;
  for (size_t i = 0; i < positions.supplyOn.size(); ++i) {
    const auto& device = circuit.devices[i];
    if (!positions.supplyOn[i] || !std::holds_alternative<SupplyPart>(device.part)) continue;
    const auto port = solver.thevenin(device.a, device.b);
    const bool solid = port.quality == circuit::Quality::solid;
    const double volts = solid ? std::abs(port.openVolts) : 0;
    const double ohms = volts > 0 ? std::abs(port.impedance) : 0;
    const bool same = std::abs(volts - fewest) <= tie * fewest;
    if (weakest >= 0 && (same ? ohms <= most * (1 + tie) : volts > fewest)) continue;
    weakest = int(i);
    fewest = volts;
    most = ohms;
  }
  return weakest;
}

int solveLettingGo(const asbuilt::AsBuilt& circuit, const asbuilt::Stamp& stamp,
                   asbuilt::Positions& positions, circuit::Solver<circuit::Phasor>& solver) {
  int letGo = 0;
  while (stamp.solve(positions, solver) == circuit::PowerOutcome::collapse) {
    const int weakest = weakestSupply(circuit, positions, solver);
    if (weakest < 0) break;
    positions.supplyOn[size_t(weakest)] = 0;
    ++letGo;
  }
  return letGo;
}

/// Where no operating point exists a fuse melts if one carries that much even without the supplies; if none
/// does, the weakest supply lets go. It is a collapse where one lets go that has volts enough as long as it
/// draws nothing. Often only time has passed, and the volts are known.
void Machine::solve() {
  if (solvedFor_ == positions_) return;
  while (stamp_.solve(positions_, solver_) == circuit::PowerOutcome::collapse) {
    if (meltQuickFuses()) continue;
    const int weakest = weakestSupply(*circuit_, positions_, solver_);
    if (weakest < 0) break;
    const auto i = size_t(weakest);
    const bool enough = volts(weakest) >= part<SupplyPart>(i)->outBelow.si();
    setSupply(i, false);
    noPoint_[i] = enough;
  }
  solvedFor_ = positions_;
}

void Machine::settleElectrics() {
  solve();
  bool still = false;
  for (int round = 0; round < kMostRounds && !still; ++round) {
    ++rounds_;
    // With the starting coils at inrush the volts are at their lowest: what cannot hold lets go now.
    while (dropOut()) solve();
    for (int pull = 0; pullInRound(pull); ++pull, ++rounds_) solve();
    // What still flows when everything has pulled in that can, flows on: a fuse melts before a supply lets
    // go, and with it out of the way the coils move again.
    bool melted = false;
    while (meltQuickFuses()) {
      solve();
      melted = true;
    }
    const bool supplies = cutSupplies();
    const bool coils = dropOut();
    still = !supplies && !coils && !melted;
    if (!still) solve();
  }
  oscillates_ |= !still;
}

/// Moves every starting coil that reaches its typical pull-in; true when one moved.
bool Machine::pullInRound(int round) {
  bool any = false;
  for (const size_t i : roster_->coils) {
    if (positions_.pulledIn[i]) continue;
    const auto* coil = part<CoilPart>(i);
    const asbuilt::Hold& hold = holds_[i];
    const bool free = !hold.dead && hold.armature == 0;
    if (hold.armature != 1 && !(free && ownVolts(int(i)) >= coil->pullInTypical.si())) continue;
    positions_.pulledIn[i] = 1;
    late_[i] = round > 0;
    log(i, true);
    any = true;
  }
  return any;
}

bool Machine::dropOut() {
  bool any = false;
  for (const size_t i : roster_->coils) {
    if (!positions_.pulledIn[i] || holds_[i].armature == 1) continue;
    const double least = part<CoilPart>(i)->dropOut.si();
    const bool holds = !holds_[i].dead && holds_[i].armature == 0 && ownVolts(int(i)) >= least;
    if (holds) continue;
    positions_.pulledIn[i] = 0;
    late_[i] = 0;
    log(i, false);
    any = true;
  }
  return any;
}

void Machine::setSupply(size_t device, bool on) {
  positions_.supplyOn[device] = on;
  if (on) {
    noPoint_[device] = 0;
    logic_[unitOf(device)].powerUp(now_);
    looks_[unitOf(device)] = 1;
  } else {
    letGo_[device] = 1;
  }
  log(device, on);
}

/// Whether a supply has what it needs, with hysteresis. One that feeds on its load needs volts across it when
/// open and amps through it when closed.
bool Machine::feeds(size_t device) const {
  if (holds_[device].dead) return false;
  const bool was = positions_.supplyOn[device] != 0;
  const double v = volts(int(device));
  if (const auto* supply = part<SupplyPart>(device))
    return v >= (was ? supply->outBelow : supply->backAt).si();
  const auto& output = *part<SolidStatePart>(device);
  if (positions_.closed[device]) return amps(int(device)) >= output.leastAmps.si();
  return v >= (was ? output.outBelow : output.backAt).si();
}

bool Machine::cutSupplies() {
  bool any = false;
  for (const size_t i : roster_->feeding) {
    const bool on = feeds(i);
    if (on == (positions_.supplyOn[i] != 0)) continue;
    const auto* supply = part<SupplyPart>(i);
    if (supply != nullptr && positions_.supplyVoltAmps[i] == 0)
      positions_.supplyVoltAmps[i] = supply->power.si();
    setSupply(i, on);
    any = true;
  }
  return any;
}

/// Counts the energised board relays; true when some supply now draws something else.
bool Machine::updateSupplyLoad() {
  bool changed = false;
  for (const size_t i : roster_->supplies) {
    const auto* supply = part<SupplyPart>(i);
    const auto& device = circuit_->devices[i];
    double load = supply->power.si();
    for (const int relay : circuit_->element(device).relays)
      if (logic_[size_t(device.unit)].value(relay)) load += supply->perRelay.si();
    changed |= positions_.supplyOn[i] && load != positions_.supplyVoltAmps[i];
    positions_.supplyVoltAmps[i] = load;
  }
  return changed;
}

}  // namespace ww::operation
