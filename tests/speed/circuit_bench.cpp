// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/power_port.h"
#include "circuit/solver.h"
#include "support/random_network.h"
#include "support/spice.h"

#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <functional>
#include <numbers>

using namespace ww::circuit;
using ww::oracle::Random;
using ww::spice::number;
using ww::spice::Simulator;

namespace {

constexpr double hertz = 60;

struct Network {
  int nodes = 0;
  std::vector<ww::oracle::Branch> branches;
};

/// Trees with a third as many branches across them again: what control wiring looks like to a solver. Ohms
/// and henries only; two sources.
Network wiring(int nodes) {
  Random random(static_cast<std::uint64_t>(nodes));
  Network network{nodes, ww::oracle::randomWiring(random, nodes, nodes / 3)};
  for (auto& branch : network.branches)
    branch.admittance = ww::oracle::Long(1.0 / Phasor{random.logUniform(0.02, 60), random.uniform(0, 60)});
  network.branches.front().emf = 27;
  network.branches.back().emf = 27;
  return network;
}

/// A sheet of units of twelve terminals: each terminal loaded to its unit's common, cables between units.
Network sheet(int units) {
  constexpr int terminals = 12;
  Network network{units * terminals, {}};
  const auto join = [&](int a, int b, const Phasor& ohms) {
    network.branches.push_back({a, b, ww::oracle::Long(1.0 / ohms), {}});
  };
  for (int unit = 0; unit < units; ++unit) {
    const int common = unit * terminals;
    for (int terminal = 1; terminal < terminals; ++terminal) join(common + terminal, common, {40, 50});
    for (int terminal = 0; unit > 0 && terminal < 8; ++terminal)
      join(common + terminal, (unit - 1) / 2 * terminals + terminal, 0.5);
  }
  network.branches.front().emf = 27;
  return network;
}

Solver<Phasor> solverOf(const Network& network) {
  Pattern pattern{network.nodes, {}};
  for (const auto& branch : network.branches) pattern.branches.push_back({branch.a, branch.b});
  return Solver<Phasor>(makePlan(pattern));
}

struct Values {
  std::vector<Phasor> admittance, emf;
  explicit Values(const Network& network) {
    for (const auto& branch : network.branches) {
      admittance.emplace_back(branch.admittance);
      emf.emplace_back(branch.emf);
    }
  }
};

void solveOnce(Solver<Phasor>& solver, const Values& values) {
  solver.clear();  // else what has not changed is not solved again
  for (std::size_t i = 0; i < values.emf.size(); ++i)
    solver.setBranch(static_cast<int>(i), values.admittance[i], values.emf[i]);
  solver.solve();
  benchmark::DoNotOptimize(solver.voltage(1, 0));
}

void describe(benchmark::State& state, const Solver<Phasor>& solver) {
  state.counters["nodes"] = solver.plan().nodes();
  state.counters["branches"] = solver.plan().branches();
  state.counters["operations"] = static_cast<double>(solver.plan().operations());
}

void stampFactorSolve(benchmark::State& state, const Network& network) {
  auto solver = solverOf(network);
  const Values values(network);
  for (auto _ : state) solveOnce(solver, values);
  describe(state, solver);
}

void furtherRightHandSide(benchmark::State& state, const Network& network) {
  auto solver = solverOf(network);
  solveOnce(solver, Values(network));
  std::vector<Phasor> volts(static_cast<std::size_t>(network.nodes));
  for (auto _ : state) {
    solver.solvePort(1, network.nodes - 1, volts);
    benchmark::DoNotOptimize(volts.data());
  }
  describe(state, solver);
}

void portByItsPath(benchmark::State& state, const Network& network) {
  auto solver = solverOf(network);
  solveOnce(solver, Values(network));
  for (auto _ : state) benchmark::DoNotOptimize(solver.thevenin(1, network.nodes - 1));
  describe(state, solver);
}

void solveAndCertify(benchmark::State& state, const Network& network) {
  auto solver = solverOf(network);
  const Values values(network);
  for (auto _ : state) {
    solveOnce(solver, values);
    benchmark::DoNotOptimize(solver.certificate());
  }
  describe(state, solver);
}

void oneConstantPowerLoad(benchmark::State& state, Network network) {
  network.branches.push_back({network.nodes - 1, 0, {}, {}});
  auto solver = solverOf(network);
  const std::vector<PowerPort> ports{{static_cast<int>(network.branches.size()) - 1, 0.05, 0}};
  const Values values(network);
  for (auto _ : state) {
    solver.clear();
    for (std::size_t i = 0; i < values.emf.size(); ++i)
      solver.setBranch(static_cast<int>(i), values.admittance[i], values.emf[i]);
    if (solveWithConstantPower(solver, ports) != PowerOutcome::settled) state.SkipWithError("collapse");
  }
  describe(state, solver);
}

void symbolic(benchmark::State& state, const Network& network) {
  Pattern pattern{network.nodes, {}};
  for (const auto& branch : network.branches) pattern.branches.push_back({branch.a, branch.b});
  for (auto _ : state) benchmark::DoNotOptimize(makePlan(pattern));
}

std::string netlist(const Network& network) {
  std::string text = "wiring\n.options noopac\n";
  for (std::size_t i = 0; i < network.branches.size(); ++i) {
    const auto& branch = network.branches[i];
    if (branch.a == branch.b) continue;
    const std::string tag = std::to_string(i);
    const auto name = [](int node) { return node == 0 ? std::string("0") : "n" + std::to_string(node); };
    std::string from = name(branch.a);
    const Phasor ohms = Phasor(1.0L / branch.admittance);
    if (branch.emf != ww::oracle::Long{}) {
      text += "v" + tag + " " + from + " e" + tag + " dc 0 ac 27\n";
      from = "e" + tag;
    }
    text += "r" + tag + " " + from + " m" + tag + " " + number(ohms.real()) + "\n";
    text += "l" + tag + " m" + tag + " " + name(branch.b) + " " +
            number(ohms.imag() / (2 * std::numbers::pi * hertz)) + "\n";
  }
  return text;
}

double microseconds(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start).count();
}

/// Both in turn, the best of many rounds of each, so that a busy machine disturbs them alike.
void againstNgspice(benchmark::State& state, const Network& network) {
  constexpr int points = 2000;
  constexpr int solves = 2000;
  auto solver = solverOf(network);
  const Values values(network);
  auto& spice = Simulator::instance();
  if (!spice.load(netlist(network)) || !spice.runAc(hertz)) {
    state.SkipWithError("ngspice refuses the circuit");
    return;
  }
  double ours = 1e9;
  double altered = 1e9;
  double swept = 1e9;
  for (auto _ : state) {
    ours = std::min(ours, microseconds([&] {
                            for (int i = 0; i < solves; ++i) solveOnce(solver, values);
                          }) / solves);
    altered = std::min(altered, microseconds([&] {
                         spice.command("alter r1 = 5");
                         spice.runAc(hertz);  // gives up the results of the run before
                       }));
    swept = std::min(
        swept, microseconds([&] { spice.command("ac lin " + std::to_string(points) + " 59 61"); }) / points);
    spice.command("destroy all");
  }
  describe(state, solver);
  state.counters["ours_us"] = ours;
  state.counters["alter_us"] = altered;
  state.counters["sweep_us"] = swept;
  state.counters["times_alter"] = altered / ours;
  state.counters["times_sweep"] = swept / ours;
}

const auto registered = [] {
  const std::vector<std::pair<std::string, Network>> networks{
      {"36", wiring(36)}, {"73", wiring(73)}, {"2200", sheet(184)}};
  using Measure = void (*)(benchmark::State&, const Network&);
  const std::vector<std::pair<std::string, Measure>> measures{{"stampFactorSolve", stampFactorSolve},
                                                              {"furtherRightHandSide", furtherRightHandSide},
                                                              {"portByItsPath", portByItsPath},
                                                              {"solveAndCertify", solveAndCertify},
                                                              {"symbolic", symbolic}};
  for (const auto& [what, measure] : measures)
    for (const auto& [size, network] : networks)
      benchmark::RegisterBenchmark(
          ("circuit/" + what + "/" + size).c_str(),
          [measure = measure, network = network](benchmark::State& state) { measure(state, network); });
  benchmark::RegisterBenchmark("circuit/oneConstantPowerLoad/36",
                               [](benchmark::State& state) { oneConstantPowerLoad(state, wiring(36)); });
  for (int nodes : {36, 73})
    benchmark::RegisterBenchmark(("circuit/againstNgspice/" + std::to_string(nodes)).c_str(),
                                 [nodes](benchmark::State& state) { againstNgspice(state, wiring(nodes)); })
        ->Iterations(100)
        ->Unit(benchmark::kMillisecond);
  return true;
}();

}  // namespace
