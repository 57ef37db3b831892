// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/why.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "operation/duty_numbers.h"

namespace ww::verify {

namespace {

using circuit::Phasor;
using equipment::Op;
using AcSolver = circuit::Solver<Phasor>;

AcSolver solved(const operation::Solution& solution, const operation::SolvedCall& call) {
  AcSolver solver(solution.circuit->plan);
  asbuilt::solve(*solution.circuit, call.positions, solution.conditions, solver);
  return solver;
}

double across(const AcSolver& solver, const asbuilt::Device& device) {
  const auto reading = solver.read(device.a, device.b);
  return reading.quality == circuit::Quality::solid && reading.value ? std::abs(*reading.value) : 0;
}

/// Names of the elements that an expression looks at, through the signals it uses.
void collect(const equipment::Logic& logic, int node, std::set<int>& visited, std::set<std::string>& names) {
  if (node < 0 || !visited.insert(node).second) return;
  const auto& entry = logic.nodes[size_t(node)];
  if (entry.op == Op::in || entry.op == Op::powered || entry.op == Op::hot || entry.op == Op::seen)
    names.insert(entry.name);
  if (entry.op == Op::signal)
    for (const auto& statement : logic.statements)
      if (std::find(statement.names.begin(), statement.names.end(), entry.name) != statement.names.end())
        collect(logic, statement.expression, visited, names);
  for (const int arg : entry.args) collect(logic, arg, visited, names);
}

bool isOn(const operation::Solution& solution, const operation::SolvedCall& call, size_t device,
          double volts) {
  const auto& d = solution.circuit->devices[device];
  if (std::holds_alternative<equipment::CoilPart>(d.part)) return call.positions.pulledIn[device] != 0;
  if (const auto* input = std::get_if<equipment::InputPart>(&d.part)) return volts >= input->seenFrom.si();
  if (const auto* heater = std::get_if<equipment::ThermalPart>(&d.part)) return volts >= heater->never.si();
  return false;
}

/// One joint of the circuit as the path sees it.
struct Joint {
  int branch, a, b;
  Place place;  ///< conductor, or nothing for elements
  bool source;
};

std::vector<Joint> jointsOf(const asbuilt::AsBuilt& circuit) {
  std::vector<Joint> joints;
  for (const auto& wire : circuit.wires) {
    Place place;
    place.conductor = wire.conductor;
    joints.push_back({wire.branch, wire.a, wire.b, place, false});
  }
  for (const auto& device : circuit.devices)
    joints.push_back({device.branch,
                      device.a,
                      device.b,
                      {},
                      std::holds_alternative<equipment::TransformerPart>(device.part)});
  return joints;
}

void appendTerminal(const asbuilt::AsBuilt& circuit, int node, Path& path) {
  const auto& terminal = circuit.nodeTerminals[size_t(node)];
  if (!terminal) return;
  Place place;
  place.unit = terminal->unit;
  place.terminal = terminal->terminal;
  path.push_back(std::move(place));
}

/// Where an element meets the hot and where the common side: further from, nearer to the common of a
/// transformer that it is joined with.
struct Ends {
  int hot, cold;
};

Ends endsOf(const asbuilt::AsBuilt& circuit, const AcSolver& solver, const asbuilt::Device& load) {
  const Phasor through = solver.current(load.branch);
  const bool forward = std::real(solver.voltage(load.a, load.b) * std::conj(through)) >= 0;
  for (const auto& source : circuit.devices)
    if (std::holds_alternative<equipment::TransformerPart>(source.part) &&
        solver.quality(load.a, source.b) == circuit::Quality::solid) {
      const bool far =
          std::abs(solver.voltage(load.a, source.b)) >= std::abs(solver.voltage(load.b, source.b));
      return far ? Ends{load.a, load.b} : Ends{load.b, load.a};
    }
  return forward ? Ends{load.a, load.b} : Ends{load.b, load.a};
}

/// From an end of the element along the strongest current, towards where `flow` comes from (the current that
/// enters the element there, reversed at its other end), up to a transformer.
Path strongest(const asbuilt::AsBuilt& circuit, const AcSolver& solver, int from, int element, Phasor flow) {
  const auto joints = jointsOf(circuit);
  Path path;
  std::set<int> visited{element};
  int node = from;
  appendTerminal(circuit, node, path);
  for (;;) {
    const Joint* best = nullptr;
    double most = 1e-6;
    for (const Joint& joint : joints) {
      if (visited.contains(joint.branch) || (joint.a != node && joint.b != node) || joint.a == joint.b)
        continue;
      const Phasor into = joint.b == node ? solver.current(joint.branch) : -solver.current(joint.branch);
      const double along = std::real(into * std::conj(flow)) / std::abs(flow);
      if (along > most) {
        most = along;
        best = &joint;
      }
    }
    if (best == nullptr || best->source) return path;
    visited.insert(best->branch);
    if (best->place.conductor != sheet::ConductorId{}) path.push_back(best->place);
    node = best->a == node ? best->b : best->a;
    appendTerminal(circuit, node, path);
  }
}

bool hasConductor(const Path& path) {
  return std::any_of(path.begin(), path.end(),
                     [](const Place& place) { return place.conductor != sheet::ConductorId{}; });
}

}  // namespace

std::string purposeOf(std::string_view duty) {
  if (duty == "electricHeat1" || duty == "burner1" || duty == "boiler") return "heat1";
  if (duty == "electricHeat2" || duty == "burner2") return "heat2";
  if (duty == "outdoorFan") return "compressor1";
  return std::string(duty);
}

namespace {

/// The longest way from a node along conductors alone.
Path alongConductors(const asbuilt::AsBuilt& circuit, int node, std::set<sheet::ConductorId>& used) {
  Path longest;
  for (const auto& wire : circuit.wires) {
    if ((wire.a != node && wire.b != node) || wire.a == wire.b || !used.insert(wire.conductor).second)
      continue;
    Path way;
    Place place;
    place.conductor = wire.conductor;
    way.push_back(place);
    const int far = wire.a == node ? wire.b : wire.a;
    appendTerminal(circuit, far, way);
    const Path rest = alongConductors(circuit, far, used);
    way.insert(way.end(), rest.begin(), rest.end());
    if (way.size() > longest.size()) longest = std::move(way);
  }
  return longest;
}

}  // namespace

std::set<std::string> driverNames(const equipment::Profile& profile, std::string_view duty) {
  std::set<std::string> names;
  std::set<int> visited;
  for (const auto& entry : profile.duties)
    if (entry.name == duty) collect(profile.logic, entry.running, visited, names);
  return names;
}

std::vector<Driver> driversOf(const operation::Solution& solution, const operation::SolvedCall& call,
                              sheet::UnitId unit, std::string_view duty) {
  const auto& circuit = *solution.circuit;
  const int index = circuit.unitIndex(unit);
  if (index < 0) return {};
  const auto& profile = *circuit.units[size_t(index)].profile;
  std::set<std::string> names;
  for (const auto& entry : profile.duties)
    if (operation::numberedDuty(circuit, index, entry.name) == duty)
      names.merge(driverNames(profile, entry.name));
  const AcSolver solver = solved(solution, call);
  std::vector<Driver> drivers;
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const auto& device = circuit.devices[i];
    if (device.unit != index || !names.contains(circuit.element(device).id)) continue;
    const double volts = across(solver, device);
    drivers.push_back(
        {int(i), volts, std::abs(solver.current(device.branch)), isOn(solution, call, i, volts)});
  }
  return drivers;
}

Path currentPath(const operation::Solution& solution, const operation::SolvedCall& call, int device) {
  const auto& circuit = *solution.circuit;
  const AcSolver solver = solved(solution, call);
  const auto& load = circuit.devices[size_t(device)];
  const Phasor through = solver.current(load.branch);
  if (std::abs(through) < 1e-6) return {};
  const int hot = endsOf(circuit, solver, load).hot;
  Path path = strongest(circuit, solver, hot, load.branch, hot == load.a ? through : -through);
  std::reverse(path.begin(), path.end());
  return path;
}

Path returnPath(const operation::Solution& solution, const operation::SolvedCall& call, int device) {
  const auto& circuit = *solution.circuit;
  const AcSolver solver = solved(solution, call);
  const auto& load = circuit.devices[size_t(device)];
  const Phasor through = solver.current(load.branch);
  if (std::abs(through) < 1e-6) return {};
  const int cold = endsOf(circuit, solver, load).cold;
  const Path path = strongest(circuit, solver, cold, load.branch, cold == load.a ? through : -through);
  return hasConductor(path) ? path : Path{};
}

std::optional<Reach> reachOf(const operation::Solution& solution, const operation::SolvedCall& call,
                             std::string_view duty, int device) {
  const auto& circuit = *solution.circuit;
  const std::string purpose = purposeOf(duty);
  for (const auto& unit : circuit.units) {
    if (unit.profile->kind != equipment::Kind::roomControl) continue;
    for (const auto& terminal : unit.profile->terminals) {
      if (terminal.role != equipment::Role::callOut || terminal.purpose != purpose) continue;
      const int node = circuit.node({unit.id, terminal.id});
      std::set<sheet::ConductorId> used;
      const Path way = alongConductors(circuit, node, used);
      if (way.empty() || way.back().terminal.empty()) continue;
      const int common = circuit.commonNode(circuit.devices[size_t(device)].unit);
      if (common < 0) return std::nullopt;
      const AcSolver solver = solved(solution, call);
      const auto reading = solver.read(circuit.node({way.back().unit, way.back().terminal}), common);
      if (reading.quality != circuit::Quality::solid || !reading.value) return std::nullopt;
      Reach reach{{}, std::abs(*reading.value)};
      appendTerminal(circuit, node, reach.path);
      reach.path.insert(reach.path.end(), way.begin(), way.end());
      return reach;
    }
  }
  return std::nullopt;
}

}  // namespace ww::verify
