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

// These leave the ports as they found them to stand, and the network to be solved with them.

/// One port needs no workspace.
PowerOutcome solveOne(Solver<Phasor>& solver, const PowerPort& load) {
  const Branch branch = branchOf(solver, load);
  const Port<Phasor> port = solver.thevenin(branch.a, branch.b);
  if (port.quality == Quality::floating) return PowerOutcome::collapse;
  const auto volts = operatingVolts(port.openVolts, port.impedance, load.voltAmps);
  if (!volts || *volts < load.cutOutVolts) return PowerOutcome::collapse;
  solver.setBranch(load.branch, admittanceAt(load, *volts));
  return PowerOutcome::settled;
}

constexpr std::size_t kMany = 8;

/// As far as the ports need it.
void solveForPorts(Solver<Phasor>& solver, bool late) {
  if (late)
    solver.solveLate();
  else
    solver.solve();
}

/// With many loads a few whole solves cost less than one right-hand side for each. Every load stands as the
/// admittance it has at the volts of the round before; true where each round at least halves what is left, up
/// to the end. Else the loads are taken off again.
bool solveByRounds(Solver<Phasor>& solver, std::span<const PowerPort> loads, bool late) {
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
    solveForPorts(solver, late);
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
  solveForPorts(solver, late);
  return false;
}

/// Memory that is kept from solve to solve.
struct Workspace {
  std::vector<PowerPort> loads;
  bool late = true;  ///< all of them stand between late nodes
  std::vector<Branch> ends;
  PowerNetwork network;
  std::vector<Phasor> volts;
};

PowerOutcome solveSeveral(Solver<Phasor>& solver, Workspace& work) {
  const std::vector<PowerPort>& loads = work.loads;
  PowerNetwork& network = work.network;
  work.ends.clear();
  network.openVolts.clear();
  network.voltAmps.clear();
  for (const PowerPort& load : loads) {
    const Branch branch = branchOf(solver, load);
    const Reading<Phasor> open = solver.read(branch.a, branch.b);
    if (!open.value) return PowerOutcome::collapse;
    work.ends.push_back(branch);
    network.openVolts.push_back(*open.value);
    network.voltAmps.push_back(load.voltAmps);
  }
  if (loads.size() > kMany && solveByRounds(solver, loads, work.late)) {
    const bool carried = std::all_of(loads.begin(), loads.end(), [&](const PowerPort& load) {
      const Branch branch = branchOf(solver, load);
      return magnitude(solver.voltage(branch.a, branch.b)) >= load.cutOutVolts;
    });
    if (carried) return PowerOutcome::settled;
    for (const PowerPort& load : loads) solver.setBranch(load.branch, {});
    return PowerOutcome::collapse;
  }
  network.impedance.resize(loads.size() * loads.size());
  solver.portOhms(work.ends, network.impedance);
  if (!operatingVolts(network, work.volts)) return PowerOutcome::collapse;
  for (std::size_t i = 0; i < loads.size(); ++i)
    if (magnitude(work.volts[i]) < loads[i].cutOutVolts) return PowerOutcome::collapse;
  for (std::size_t i = 0; i < loads.size(); ++i)
    solver.setBranch(loads[i].branch, admittanceAt(loads[i], magnitude(work.volts[i])));
  return PowerOutcome::settled;
}

}  // namespace

PowerOutcome solveWithConstantPower(Solver<Phasor>& solver, std::span<const PowerPort> ports) {
  thread_local Workspace work;
  work.loads.clear();
  work.late = true;
  for (const PowerPort& port : ports) {
    solver.setBranch(port.branch, {});
    if (!draws(port)) continue;
    work.loads.push_back(port);
    work.late = work.late && solver.plan().isLate(port.branch);
  }
  PowerOutcome outcome = PowerOutcome::settled;
  if (!work.loads.empty()) {
    // What the ports look like from outside is all that is asked of the network without them.
    solveForPorts(solver, work.late);
    outcome = work.loads.size() == 1 ? solveOne(solver, work.loads.front()) : solveSeveral(solver, work);
  }
  solver.solve();
  return outcome;
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
