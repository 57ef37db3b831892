// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/power_port.h"

#include "circuit/arithmetic.h"
#include "circuit/power_flow.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace ww::circuit {
namespace {

bool draws(const PowerPort& port) { return port.voltAmps != Phasor{}; }

Branch branchOf(const Solver<Phasor>& solver, const PowerPort& port) {
  return solver.plan().pattern().branches[static_cast<std::size_t>(port.branch)];
}

Phasor admittanceAt(const PowerPort& port, double volts) {
  return std::conj(port.voltAmps) / (volts * volts);
}

/// One port needs no workspace.
PowerOutcome solveOne(Solver<Phasor>& solver, const PowerPort& load) {
  const Branch branch = branchOf(solver, load);
  const Port<Phasor> port = solver.thevenin(branch.a, branch.b);
  if (port.quality == Quality::floating) return PowerOutcome::collapse;
  const auto volts = operatingVolts(port.openVolts, port.impedance, load.voltAmps);
  if (!volts || *volts < load.cutOutVolts) return PowerOutcome::collapse;
  solver.setBranch(load.branch, admittanceAt(load, *volts));
  solver.solve();
  return PowerOutcome::settled;
}

constexpr std::size_t kMany = 8;

/// With many loads a few whole solves cost less than one right-hand side for each. Every load stands as the
/// admittance it has at the volts of the round before; true where each round at least halves what is left, up
/// to the end. Else the loads are taken off again.
bool solveByRounds(Solver<Phasor>& solver, std::span<const PowerPort> loads) {
  constexpr int mostRounds = 60;
  std::vector<double> volts;
  double scale = 0, before = HUGE_VAL;
  const auto across = [&](const PowerPort& load) {
    const Branch branch = branchOf(solver, load);
    return magnitude(solver.voltage(branch.a, branch.b));
  };
  for (const PowerPort& load : loads) {
    volts.push_back(across(load));
    scale = std::max(scale, volts.back());
  }
  for (int round = 0; round < mostRounds; ++round) {
    for (std::size_t i = 0; i < loads.size(); ++i)
      solver.setBranch(loads[i].branch, admittanceAt(loads[i], volts[i]));
    solver.solve();
    double change = 0;
    for (std::size_t i = 0; i < loads.size(); ++i) {
      const double now = across(loads[i]);
      change = std::max(change, std::abs(now - volts[i]));
      volts[i] = now;
    }
    if (change <= 1e-13 * scale) return true;
    if (!(change <= before / 2)) break;
    before = change;
  }
  for (const PowerPort& load : loads) solver.setBranch(load.branch, {});
  solver.solve();
  return false;
}

PowerOutcome solveSeveral(Solver<Phasor>& solver, std::span<const PowerPort> loads) {
  PowerNetwork network;
  std::vector<Branch> ends;
  for (const PowerPort& load : loads) {
    const Branch branch = branchOf(solver, load);
    const Reading<Phasor> open = solver.read(branch.a, branch.b);
    if (!open.value) return PowerOutcome::collapse;
    ends.push_back(branch);
    network.openVolts.push_back(*open.value);
    network.voltAmps.push_back(load.voltAmps);
  }
  if (loads.size() > kMany && solveByRounds(solver, loads)) {
    const bool carried = std::all_of(loads.begin(), loads.end(), [&](const PowerPort& load) {
      const Branch branch = branchOf(solver, load);
      return magnitude(solver.voltage(branch.a, branch.b)) >= load.cutOutVolts;
    });
    if (carried) return PowerOutcome::settled;
    for (const PowerPort& load : loads) solver.setBranch(load.branch, {});
    solver.solve();
    return PowerOutcome::collapse;
  }
  std::vector<Phasor> volts(static_cast<std::size_t>(solver.plan().nodes()));
  for (const Branch& from : ends) {
    solver.solvePort(from.a, from.b, volts);
    for (const Branch& to : ends)
      network.impedance.push_back(volts[static_cast<std::size_t>(to.a)] -
                                  volts[static_cast<std::size_t>(to.b)]);
  }
  const auto settled = operatingVolts(network);
  if (!settled) return PowerOutcome::collapse;
  for (std::size_t i = 0; i < loads.size(); ++i)
    if (std::abs((*settled)[i]) < loads[i].cutOutVolts) return PowerOutcome::collapse;
  for (std::size_t i = 0; i < loads.size(); ++i)
    solver.setBranch(loads[i].branch, admittanceAt(loads[i], std::abs((*settled)[i])));
  solver.solve();
  return PowerOutcome::settled;
}

}  // namespace

PowerOutcome solveWithConstantPower(Solver<Phasor>& solver, std::span<const PowerPort> ports) {
  std::size_t drawing = 0;
  const PowerPort* last = nullptr;
  for (const PowerPort& port : ports) {
    solver.setBranch(port.branch, {});
    if (!draws(port)) continue;
    ++drawing;
    last = &port;
  }
  solver.solve();
  if (drawing == 0) return PowerOutcome::settled;
  if (drawing == 1) return solveOne(solver, *last);
  std::vector<PowerPort> loads;
  for (const PowerPort& port : ports)
    if (draws(port)) loads.push_back(port);
  return solveSeveral(solver, loads);
}

PowerOutcome solveWithConstantPower(Solver<Phasor>& solver, std::span<const PowerPort> ports,
                                    std::span<const DropPort> drops) {
  constexpr int mostRounds = 200;
  for (const DropPort& drop : drops) solver.setBranch(drop.branch, 1 / drop.leastOhms);
  PowerOutcome outcome = solveWithConstantPower(solver, ports);
  // current() needs only the volts of the last solve and the branch itself, so each branch may be changed as
  // soon as its own current is read.
  bool agrees = drops.empty();
  for (int round = 0; round < mostRounds && !agrees; ++round) {
    agrees = true;
    for (const DropPort& drop : drops) {
      const double amps = std::abs(solver.current(drop.branch));
      const double was = 1 / solver.admittance(drop.branch).real();
      const bool conducts = amps * drop.mostOhms > drop.volts;
      const double ohms = conducts ? std::max(drop.leastOhms, drop.volts / amps) : drop.mostOhms;
      agrees = agrees && std::abs(ohms - was) <= 1e-10 * was;
      solver.setBranch(drop.branch, 1 / ohms);
    }
    outcome = solveWithConstantPower(solver, ports);
  }
  return outcome;
}

}  // namespace ww::circuit
