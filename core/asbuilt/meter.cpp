// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/meter.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ww::asbuilt {

namespace {

using circuit::Phasor;
using circuit::Quality;

constexpr double kBetweenConductors = 80e-12, kToMetal = 20e-12;  // farads a metre
constexpr double kFloatingCommon = 1e-9;                          // farads
constexpr int kNeighbours = 6;  // in a cable of many cores the rest are too far away to matter
constexpr double kGhostBand = 0.5;
constexpr double kMostOhms = 40e6;

Phasor impedanceOf(const Meter& meter, double frequency) {
  if (meter.kind == MeterKind::lowImpedance) return 3000;
  return 1.0 / Phasor(1e-7, 2 * std::numbers::pi * frequency * 100e-12);
}

Shown shown(double value, Quality quality, const Meter& meter) {
  const double read = value * meter.gain;
  const double off = meter.accuracy * std::abs(read) + meter.counts * meter.digit;
  const double ghost = quality == Quality::ghost ? kGhostBand * std::abs(read) : 0;
  return {read, quality, read - off - ghost, read + off + ghost};
}

}  // namespace

Coupling::Coupling(const AsBuilt& circuit) : pattern_(circuit.plan->pattern()) {
  for (const Bonding& bonding : circuit.bondings) earth_ = bonding.b;
  if (earth_ < 0) earth_ = pattern_.nodes++;
  first_ = int(pattern_.branches.size());
  std::vector<std::vector<int>> cables(circuit.cables);
  for (size_t w = 0; w < circuit.wires.size(); ++w) cables[size_t(circuit.wires[w].cable)].push_back(int(w));
  for (const auto& cores : cables)
    for (size_t i = 0; i < cores.size(); ++i) {
      const Wire& wire = circuit.wires[size_t(cores[i])];
      for (const int end : {wire.a, wire.b}) add(end, earth_, {kToMetal / 2, cores[i]});
      for (size_t j = i + 1; j < std::min(cores.size(), i + 1 + kNeighbours); ++j) {
        const Wire& other = circuit.wires[size_t(cores[j])];
        add(wire.a, other.a, {kBetweenConductors / 2, cores[i]});
        add(wire.b, other.b, {kBetweenConductors / 2, cores[i]});
      }
    }
  for (size_t u = 0; u < circuit.units.size(); ++u)
    if (circuit.units[u].profile->bond == equipment::Bond::floating && circuit.commonNode(int(u)) >= 0)
      add(circuit.commonNode(int(u)), earth_, {kFloatingCommon, -1});
  plan_ = circuit::makePlan(std::move(pattern_));
}

void Coupling::add(int a, int b, Capacitor capacitor) {
  pattern_.branches.push_back({a, b, true});
  capacitors_.push_back(capacitor);
}

void Coupling::stamp(const AsBuilt& circuit, const Conditions& conditions,
                     circuit::Solver<Phasor>& solver) const {
  const double omega = 2 * std::numbers::pi * circuit.frequency;
  for (size_t k = 0; k < capacitors_.size(); ++k) {
    double farads = capacitors_[k].perMetre;
    if (capacitors_[k].wire >= 0) {
      const Wire& wire = circuit.wires[size_t(capacitors_[k].wire)];
      const auto cable = size_t(wire.cable);
      farads *= wire.length.si() * (cable < conditions.cableScale.size() ? conditions.cableScale[cable] : 1);
    }
    solver.setBranch(first_ + int(k), Phasor(0, omega * farads));
  }
}

LiveState::LiveState(const AsBuilt& circuit, const Coupling& coupling, const Positions& positions,
                     const Conditions& conditions)
    : circuit_(&circuit), solver_(coupling.plan()) {
  // The supplies' operating points are those of the circuit without capacitances, which carry microamps.
  Conditions known = conditions;
  circuit::Solver<Phasor> ordinary(planFor(circuit, known.overrides));
  solve(circuit, positions, known, ordinary);
  circuit::Pattern wider = coupling.plan()->pattern();
  bool bridged = false;
  for (const Override& change : known.overrides) {
    if (change.kind != Override::Kind::bridge) continue;
    wider.branches.push_back({change.a, change.b, false});
    bridged = true;
  }
  if (bridged) solver_ = circuit::Solver<Phasor>(circuit::makePlan(std::move(wider)));
  const int own = circuit.plan->branches();
  const int bridges = ordinary.plan().branches() - own;
  const int coupled = coupling.plan()->branches();
  for (int branch = 0; branch < own; ++branch)
    solver_.setBranch(branch, ordinary.admittance(branch), ordinary.emf(branch));
  for (int k = 0; k < bridges; ++k) solver_.setBranch(coupled + k, ordinary.admittance(own + k));
  coupling.stamp(circuit, known, solver_);
  solver_.solve();
}

/// Whether the node's part is fed by thermopiles and nothing else.
bool LiveState::isDirect(int node) const {
  bool pile = false;
  for (const Device& device : circuit_->devices) {
    const bool joined = solver_.quality(node, device.b) == Quality::solid;
    if (joined && std::holds_alternative<equipment::TransformerPart>(device.part)) return false;
    pile |= joined && std::holds_alternative<equipment::PilePart>(device.part);
  }
  return pile;
}

Shown LiveState::volts(int plus, int minus, const Meter& meter) {
  const auto reading = solver_.readThrough(plus, minus, impedanceOf(meter, circuit_->frequency));
  if (!reading.value) return {std::nullopt, reading.quality, 0, 0};
  const bool direct = isDirect(plus) || isDirect(minus);
  if (direct != meter.direct) return shown(0, reading.quality, meter);
  return shown(direct ? reading.value->real() : std::abs(*reading.value), reading.quality, meter);
}

Shown LiveState::clampAmps(std::span<const int> wires, const Meter& clamp) const {
  Phasor sum{};
  for (const int wire : wires) sum += solver_.current(circuit_->wires[size_t(wire)].branch);
  const bool direct = !wires.empty() && isDirect(circuit_->wires[size_t(wires.front())].a);
  return shown(direct != clamp.direct ? 0 : std::abs(sum), Quality::solid, clamp);
}

DeadState::DeadState(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
                     const std::vector<char>& lifted)
    : solver_(circuit.plan) {
  Conditions known = conditions;
  solver_ = circuit::Solver<double>(planFor(circuit, known.overrides));
  stampDead(circuit, positions, known, lifted, solver_);
}

Shown DeadState::ohms(int a, int b, const Meter& meter) {
  const auto port = solver_.thevenin(a, b);
  if (port.quality == Quality::floating || port.impedance > kMostOhms)
    return {std::nullopt, port.quality, 0, 0};
  return shown(port.impedance, port.quality, meter);
}

Shown readVolts(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions, int plus,
                int minus, const Meter& meter) {
  const Coupling coupling(circuit);
  return LiveState(circuit, coupling, positions, conditions).volts(plus, minus, meter);
}

}  // namespace ww::asbuilt
