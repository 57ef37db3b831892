// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/why.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ww::verify {

namespace {

using circuit::Phasor;
using equipment::Op;
using AcSolver = circuit::Solver<Phasor>;

AcSolver solved(const operation::Solution& solution, const operation::SolvedCall& call) {
  AcSolver solver(solution.circuit->plan);
  asbuilt::solve(*solution.circuit, call.positions, {}, solver);
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

}  // namespace

std::vector<Driver> driversOf(const operation::Solution& solution, const operation::SolvedCall& call,
                              sheet::UnitId unit, std::string_view duty) {
  const auto& circuit = *solution.circuit;
  const int index = circuit.unitIndex(unit);
  if (index < 0) return {};
  const auto& profile = *circuit.units[size_t(index)].profile;
  std::set<std::string> names;
  std::set<int> visited;
  for (const auto& entry : profile.duties)
    if (entry.name == duty) collect(profile.logic, entry.running, visited, names);
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
  const auto joints = jointsOf(circuit);
  const auto& load = circuit.devices[size_t(device)];
  const Phasor through = solver.current(load.branch);
  if (std::abs(through) < 1e-6) return {};
  // Seen from the load, upstream is the side its current comes in from.
  const Phasor volts = solver.voltage(load.a, load.b);
  int node = std::real(volts * std::conj(through)) >= 0 ? load.a : load.b;
  // Of the two ends the hot one is further from the transformer's common; the path starts there.
  for (const auto& source : circuit.devices)
    if (std::holds_alternative<equipment::TransformerPart>(source.part) &&
        solver.quality(node, source.b) == circuit::Quality::solid) {
      const double fromA = std::abs(solver.voltage(load.a, source.b));
      const double fromB = std::abs(solver.voltage(load.b, source.b));
      node = fromA >= fromB ? load.a : load.b;
      break;
    }
  const Phasor towards = node == load.a ? through : -through;  // current that enters the load at `node`

  Path path;
  std::set<int> visited{load.branch};
  appendTerminal(circuit, node, path);
  for (;;) {
    const Joint* strongest = nullptr;
    double most = 1e-6;
    for (const Joint& joint : joints) {
      if (visited.contains(joint.branch) || (joint.a != node && joint.b != node) || joint.a == joint.b)
        continue;
      const Phasor into = joint.b == node ? solver.current(joint.branch) : -solver.current(joint.branch);
      const double along = std::real(into * std::conj(towards)) / std::abs(towards);
      if (along > most) {
        most = along;
        strongest = &joint;
      }
    }
    if (strongest == nullptr || strongest->source) break;
    visited.insert(strongest->branch);
    if (strongest->place.conductor != sheet::ConductorId{}) path.push_back(strongest->place);
    node = strongest->a == node ? strongest->b : strongest->a;
    appendTerminal(circuit, node, path);
  }
  std::reverse(path.begin(), path.end());
  return path;
}

}  // namespace ww::verify
