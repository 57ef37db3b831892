// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/describe.h"

#include <algorithm>
#include <cmath>

#include "asbuilt/half_wave.h"
#include "operation/duty_numbers.h"

namespace ww::operation {

namespace {

using circuit::Phasor;
using circuit::Quality;
using equipment::CoilPart;
using equipment::InputPart;
using equipment::ThermalPart;
using equipment::TransformerPart;
using quantity::Amps;
using quantity::Volts;

constexpr double kLiveVolts = 6;    // what a board no longer takes for nothing
constexpr double kFlowing = 0.001;  // amps; below it a conductor only stands at volts
constexpr double kNothing = 1e-9;   // amps; below it is rounding
constexpr double kRatedVolts =
    24;  // shown VA are secondary amps x 24 V, so that they agree with the percentage

using AcSolver = circuit::Solver<Phasor>;

double across(const AcSolver& solver, const asbuilt::Device& device) {
  const auto reading = solver.read(device.a, device.b);
  return reading.quality == Quality::solid && reading.value ? std::abs(*reading.value) : 0;
}

/// The end state again, everything held where it is; only supplies that find no operating point let go.
/// Volts of the loads.
std::vector<double> held(const asbuilt::AsBuilt& circuit, const Machine& machine, const asbuilt::Stamp& stamp,
                         bool inrush, AcSolver& solver) {
  asbuilt::Positions positions = machine.positions();
  positions.allAtInrush = inrush;
  solveLettingGo(circuit, stamp, positions, solver);
  std::vector<double> volts(circuit.devices.size());
  for (const auto* loads : {&machine.roster().coils, &machine.roster().thermals})
    for (const size_t i : *loads) volts[i] = across(solver, circuit.devices[i]);
  return volts;
}

CoilState stateOfCoil(const CoilPart& coil, const CoilResult& result, bool in, bool late, bool chatters) {
  if (chatters) return CoilState::chatter;
  if (!in) return result.sealed >= coil.dropOut && result.amps.si() > 0 ? CoilState::hum : CoilState::out;
  if (late) return CoilState::late;
  return result.pullIn < coil.pullInGuaranteed ? CoilState::under : CoilState::in;
}

CoilState stateOfHeater(const ThermalPart& part, const CoilResult& result, bool hot) {
  if (hot) return result.sealed < part.marginal ? CoilState::late : CoilState::in;
  return result.sealed >= part.never * 0.5 ? CoilState::under : CoilState::out;
}

class Description {
 public:
  Description(const asbuilt::AsBuilt& circuit, const Machine& machine, RunEnd end, const asbuilt::Stamp& low,
              CallResult& result)
      : circuit_(circuit),
        machine_(machine),
        solver_(machine.solver()),
        end_(end),
        low_(low),
        result_(result) {}

  Work fill() {
    references_.assign(circuit_.nodeNames.size(), kUnknown);
    duties();
    const Work work = devices();
    terminals();
    wires();
    roundabout();
    return work;
  }

 private:
  const asbuilt::PlacedUnit& unitOf(const asbuilt::Device& device) const {
    return circuit_.units[size_t(device.unit)];
  }

  void roundabout() {
    result_.period = quantity::Seconds(double(machine_.period()) / 1000);
    for (const RaceOutcome& outcome : machine_.outcomes()) {
      const asbuilt::Device& coil = circuit_.devices[size_t(outcome.quickest)];
      RaceEnd end{unitOf(coil).id, circuit_.element(coil).id, {}};
      for (const auto& [unit, duty] : outcome.duties) end.duties.push_back(runningDuty(circuit_, unit, duty));
      result_.raceEnds.push_back(std::move(end));
    }
  }

  void duties() {
    for (const auto& [unit, duty] : machine_.runningDuties())
      result_.duties.push_back(runningDuty(circuit_, unit, duty));
  }

  Work devices() {
    AcSolver solver = solver_;
    const auto inrush = held(circuit_, machine_, machine_.stamp(), true, solver);
    const auto inrushLow = held(circuit_, machine_, low_, true, solver);
    const auto sealedLow = held(circuit_, machine_, low_, false, solver);
    for (size_t i = 0; i < circuit_.devices.size(); ++i) {
      const asbuilt::Device& device = circuit_.devices[i];
      const bool coil = std::holds_alternative<CoilPart>(device.part);
      if (coil || std::holds_alternative<ThermalPart>(device.part)) {
        CoilResult entry{unitOf(device).id,
                         circuit_.element(device).id,
                         CoilState::out,
                         Volts(coil ? inrush[i] : across(solver_, device)),
                         Volts(across(solver_, device)),
                         Volts(coil ? inrushLow[i] : sealedLow[i]),
                         Volts(sealedLow[i]),
                         Amps(machine_.amps(int(i)))};
        entry.state = stateOfLoad(i, entry);
        result_.coils.push_back(std::move(entry));
      } else if (std::holds_alternative<TransformerPart>(device.part)) {
        result_.sources.push_back(sourceResult(circuit_, solver_, device));
      } else if (std::holds_alternative<InputPart>(device.part) && machine_.marginalInput()[i]) {
        if (const auto& terminal = circuit_.nodeTerminals[size_t(device.a)])
          result_.marginalInputs.push_back(*terminal);
      }
      if (const Melting& melting = machine_.melted()[i]; melting.amps > 0)
        result_.melted.push_back({unitOf(device).id, circuit_.element(device).id, Amps(melting.amps),
                                  quantity::Seconds(melting.afterSeconds), melting.cause,
                                  std::holds_alternative<TransformerPart>(device.part)});
      if (machine_.letGo()[i])
        result_.dips.push_back(
            {unitOf(device).id, circuit_.element(device).id, machine_.positions().supplyOn[i] != 0});
    }
    return {solver.solves() - solver_.solves(), solver.admittancesTaken() - solver_.admittancesTaken(), 0, 0};
  }

  CoilState stateOfLoad(size_t i, const CoilResult& entry) const {
    const asbuilt::Device& device = circuit_.devices[i];
    if (const auto* heater = std::get_if<ThermalPart>(&device.part))
      return stateOfHeater(*heater, entry, machine_.senses().hot[i] != 0);
    if (machine_.holds()[i].dead) return CoilState::out;
    return stateOfCoil(std::get<CoilPart>(device.part), entry, machine_.positions().pulledIn[i] != 0,
                       machine_.late()[i] != 0, end_ == RunEnd::chatter && machine_.moved()[i]);
  }

  int referenceOf(int node) {
    int& known = references_[size_t(node)];
    if (known == kUnknown) known = referenceNode(circuit_, solver_, node);
    return known;
  }

  /// As referenceNode; where the common of the source is on no strip, the smallest terminal of the part.
  int referenceTerminal(int node) {
    const int reference = referenceOf(node);
    if (reference < 0 || circuit_.nodeTerminals[size_t(reference)]) return reference;
    for (const auto& [terminal, candidate] : circuit_.nodeOfTerminal)
      if (node == candidate || solver_.quality(node, candidate) == Quality::solid) return candidate;
    return -1;
  }

  void terminals() {
    for (const auto& [terminal, node] : circuit_.nodeOfTerminal) {
      const int reference = referenceTerminal(node);
      TerminalResult entry{terminal, {}, terminal, Quality::floating};
      if (reference >= 0 && circuit_.nodeTerminals[size_t(reference)]) {
        entry.reference = *circuit_.nodeTerminals[size_t(reference)];
        entry.quality = solver_.quality(node, reference);
        if (entry.quality != Quality::floating) entry.volts = solver_.voltage(node, reference);
      }
      result_.terminals.push_back(std::move(entry));
    }
  }

  /// Half waves of any live source, which the solved volts do not show.
  bool carriesHalfWaves(int node) const {
    if (halfWaves_.empty() || !halfWaves_[size_t(node)]) return false;
    return std::any_of(circuit_.devices.begin(), circuit_.devices.end(), [&](const asbuilt::Device& source) {
      if (!std::holds_alternative<TransformerPart>(source.part)) return false;
      const asbuilt::HalfWaves waves = ways_->at(node, source.b);
      return waves.positive > 0 || waves.negative > 0;
    });
  }

  void wires() {
    if (!asbuilt::halfWaveRelays(circuit_).empty()) {
      halfWaves_ = asbuilt::sharedNodes(circuit_);
      ways_.emplace(circuit_, machine_.positions(), solver_);
    }
    for (const asbuilt::Wire& wire : circuit_.wires) {
      WireResult entry{wire.conductor, solver_.current(wire.branch), {}, false, false};
      const int reference = referenceOf(wire.a);
      if (reference >= 0) entry.volts = solver_.voltage(wire.a, reference);
      entry.live =
          std::abs(entry.volts) >= kLiveVolts || std::abs(entry.amps) >= kFlowing || carriesHalfWaves(wire.a);
      // Phase against the feeding transformer's own current tells hot-to-common on both legs.
      if (const asbuilt::Device* source = feeding(wire.a)) {
        const Phasor supplied = -solver_.current(source->branch);
        entry.fromHot = std::abs(entry.amps) > kNothing && std::real(entry.amps * std::conj(supplied)) > 0;
      }
      result_.wires.push_back(entry);
    }
  }

  /// The first transformer of the part that supplies something.
  const asbuilt::Device* feeding(int node) const {
    for (const size_t i : machine_.roster().transformers) {
      const auto& device = circuit_.devices[i];
      if (machine_.amps(int(i)) > kNothing && solver_.quality(node, device.b) == Quality::solid)
        return &device;
    }
    return nullptr;
  }

  const asbuilt::AsBuilt& circuit_;
  const Machine& machine_;
  const AcSolver& solver_;
  RunEnd end_;
  const asbuilt::Stamp& low_;
  CallResult& result_;
  std::vector<char> halfWaves_;  ///< by node; empty: no calls share a conductor
  std::optional<asbuilt::HalfWaveWays> ways_;
  static constexpr int kUnknown = -2;
  std::vector<int> references_;  ///< by node
};

}  // namespace

RunningDuty runningDuty(const asbuilt::AsBuilt& circuit, int unit, int duty) {
  const asbuilt::PlacedUnit& placed = circuit.units[size_t(unit)];
  const equipment::Duty& row = placed.profile->duties[size_t(duty)];
  const std::string name = numberedDuty(circuit, unit, row.name);
  return {row.speed.empty() ? name : name + ":" + row.speed, placed.id};
}

SourceResult sourceResult(const asbuilt::AsBuilt& circuit, const AcSolver& solver,
                          const asbuilt::Device& transformer) {
  const auto& part = std::get<TransformerPart>(transformer.part);
  const Amps amps(std::abs(solver.current(transformer.branch)));
  const Amps rated(part.rating.si() / part.rated.si());
  return {circuit.units[size_t(transformer.unit)].id,
          circuit.element(transformer).id,
          amps,
          Volts(across(solver, transformer)),
          100 * (amps / rated),
          Volts(kRatedVolts) * amps,
          part.rating};
}

int referenceNode(const asbuilt::AsBuilt& circuit, const AcSolver& solver, int node) {
  for (const auto& device : circuit.devices)
    if (std::holds_alternative<TransformerPart>(device.part) &&
        solver.quality(node, device.b) == Quality::solid)
      return device.b;
  for (const auto& [terminal, candidate] : circuit.nodeOfTerminal)
    if (solver.quality(node, candidate) == Quality::solid || node == candidate) return candidate;
  return -1;
}

Work describe(const asbuilt::AsBuilt& circuit, const Machine& machine, RunEnd end, const asbuilt::Stamp& low,
              CallResult& result) {
  return Description(circuit, machine, end, low, result).fill();
}

Work describe(const asbuilt::AsBuilt& circuit, const Machine& machine, RunEnd end, LineRange lines,
              CallResult& result) {
  asbuilt::Conditions low = machine.conditions();
  low.line *= lines.low;
  return describe(circuit, machine, end, asbuilt::Stamp(circuit, low), result);
}

}  // namespace ww::operation
