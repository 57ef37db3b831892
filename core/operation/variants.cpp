// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/variants.h"

#include <algorithm>

#include "operation/describe.h"
#include "operation/machine_parts.h"

namespace ww::operation {

namespace {

constexpr double kCarries = 1e-9;  // amps; below it is rounding
constexpr size_t kManyUnits = 40, kTooManyUnits = 100;

/// Units in which something stands otherwise than at rest.
std::vector<char> movedUnits(const asbuilt::AsBuilt& circuit, const Machine& rest, const Machine& end) {
  std::vector<char> moved(circuit.units.size(), 0);
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const bool same = rest.positions().closed[i] == end.positions().closed[i] &&
                      rest.positions().pulledIn[i] == end.positions().pulledIn[i] &&
                      rest.positions().supplyOn[i] == end.positions().supplyOn[i] &&
                      rest.senses().seen[i] == end.senses().seen[i];
    if (!same) moved[size_t(circuit.devices[i].unit)] = 1;
  }
  return moved;
}

LoadState loadOf(const asbuilt::AsBuilt& circuit, const Machine& machine, size_t device, bool chatters) {
  const double volts = machine.volts(int(device));
  LoadState load{int(device), CoilState::out, quantity::Volts(volts)};
  const bool dead = machine.holds()[device].dead;
  if (const auto* coil = std::get_if<CoilPart>(&circuit.devices[device].part)) {
    const bool hums = volts >= coil->dropOut.si() && machine.amps(int(device)) > 0 && !dead;
    if (machine.positions().pulledIn[device])
      load.state = machine.late()[device] ? CoilState::late : CoilState::in;
    else if (hums)
      load.state = CoilState::hum;
    if (chatters && machine.moved()[device]) load.state = CoilState::chatter;
  } else if (machine.senses().hot[device]) {
    load.state = CoilState::in;
  }
  return load;
}

Variant described(const asbuilt::AsBuilt& circuit, const Machine& machine, RunEnd end) {
  Variant variant;
  for (const auto& [unit, duty] : machine.runningDuties())
    variant.duties.push_back(runningDuty(circuit, unit, duty));
  const auto worsen = [&](CallState state) { variant.state = std::max(variant.state, state); };
  if (end == RunEnd::race) worsen(CallState::race);
  if (end == RunEnd::chatter) worsen(CallState::chatter);
  if (machine.collapsed()) worsen(CallState::collapse);
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const asbuilt::Device& device = circuit.devices[i];
    if (std::holds_alternative<CoilPart>(device.part) || std::holds_alternative<ThermalPart>(device.part)) {
      variant.loads.push_back(loadOf(circuit, machine, i, end == RunEnd::chatter));
      if (variant.loads.back().state == CoilState::hum) worsen(CallState::hum);
      if (variant.loads.back().state == CoilState::late) worsen(CallState::late);
    } else if (std::holds_alternative<TransformerPart>(device.part)) {
      variant.sources.push_back(sourceResult(circuit, machine.solver(), device));
    }
    if (machine.melted()[i].amps > 0) worsen(CallState::fuseOpen);
  }
  return variant;
}

}  // namespace

std::vector<Variant> variantsOf(const asbuilt::AsBuilt& circuit, const Machine& rest, const Machine& end,
                                const Facts& facts, LineRange lines, std::optional<Machine>& trial,
                                Work& work) {
  std::vector<Variant> variants;
  const auto carryOn = [&](asbuilt::Conditions conditions, double line, int safety) {
    if (trial)
      *trial = end;
    else
      trial = end;
    trial->setConditions(std::move(conditions));
    const RunEnd runEnd = trial->run(facts);
    work += trial->work().since(end.work());
    variants.push_back(described(circuit, *trial, runEnd));
    variants.back().line = line;
    variants.back().safety = safety;
  };
  if (circuit.units.size() > kTooManyUnits) return variants;
  const bool many = circuit.units.size() > kManyUnits;
  const std::vector<char> moved = many ? movedUnits(circuit, rest, end) : std::vector<char>();
  for (const double line : {lines.low, lines.high}) {
    if (many) break;
    asbuilt::Conditions conditions = end.conditions();
    conditions.line *= line;
    carryOn(std::move(conditions), line, -1);
  }
  for (const size_t i : end.roster().safeties) {
    if (!end.positions().closed[i]) continue;
    if (many && !moved[size_t(circuit.devices[i].unit)]) continue;
    if (end.amps(int(i)) < kCarries && !end.roster().lookedAt[i]) continue;
    asbuilt::Conditions conditions = end.conditions();
    conditions.overrides.push_back({asbuilt::Override::Kind::stuckOpen, circuit.devices[i].branch, 0, 0, 0});
    carryOn(std::move(conditions), 1, int(i));
  }
  return variants;
}

}  // namespace ww::operation
