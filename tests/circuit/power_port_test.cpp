// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/power_port.h"

#include "circuit/power_flow.h"
#include "support/dense_oracle.h"
#include "support/random_network.h"

#include <gtest/gtest.h>

using namespace ww::circuit;
using ww::oracle::Long;
using ww::oracle::Random;

namespace {

/// 24 V behind 10 ohm, with places for loads in parallel.
Solver<Phasor> source(int loads) {
  Pattern pattern{2, {{1, 0}}};
  for (int i = 0; i < loads; ++i) pattern.branches.push_back({1, 0});
  Solver<Phasor> solver(makePlan(pattern));
  solver.setBranch(0, 0.1, 24);
  return solver;
}

TEST(PowerPort, OneLoadByHand) {
  // 10 W behind 10 ohm: V = 24 - 100/V, so V = 12 + sqrt(44).
  auto solver = source(1);
  const std::vector<PowerPort> ports{{1, 10, 0}};
  ASSERT_EQ(solveWithConstantPower(solver, ports), PowerOutcome::settled);
  const Phasor volts = solver.voltage(1, 0);
  EXPECT_NEAR(volts.real(), 12 + std::sqrt(44.0), 1e-12);
  EXPECT_NEAR((volts * std::conj(solver.current(1))).real(), 10, 1e-12);
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(PowerPort, TheMostASourceCanCarry) {
  // E^2 / 4R = 14.4 W at half the volts.
  auto solver = source(1);
  ASSERT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 14.4 * (1 - 1e-12), 0}}),
            PowerOutcome::settled);
  EXPECT_NEAR(solver.voltage(1, 0).real(), 12, 1e-4);
  ASSERT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 14.4 * (1 + 1e-12), 0}}),
            PowerOutcome::collapse);
  EXPECT_EQ(solver.admittance(1), Phasor{});
  EXPECT_NEAR(solver.voltage(1, 0).real(), 24, 1e-12);
  EXPECT_EQ(solver.quality(1, 0), Quality::solid) << "left solved";
}

TEST(PowerPort, ALaggingLoadDrawsItsVars) {
  auto solver = source(1);
  ASSERT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, {4, 3}, 0}}), PowerOutcome::settled);
  const Phasor power = solver.voltage(1, 0) * std::conj(solver.current(1));
  EXPECT_NEAR(power.real(), 4, 1e-12);
  EXPECT_NEAR(power.imag(), 3, 1e-12);
}

TEST(PowerPort, BelowItsCutOutALoadLetsGo) {
  auto solver = source(1);
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 10, 18.6}}), PowerOutcome::settled);
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 10, 18.7}}), PowerOutcome::collapse);
}

TEST(PowerPort, WithoutASourceThereIsNoOperatingPoint) {
  Solver<Phasor> solver(makePlan({3, {{1, 0}, {2, 0}, {1, 0}}}));
  solver.setBranch(0, 0.1);
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{2, 1, 0}}), PowerOutcome::collapse);
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 1, 0}}), PowerOutcome::collapse)
      << "floating";
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 1, 0}, {2, 1, 0}}),
            PowerOutcome::collapse);
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 0, 0}, {2, 0, 0}}),
            PowerOutcome::settled);
}

TEST(PowerPort, AGhostCarriesNothing) {
  Solver<Phasor> solver(makePlan({3, {{1, 0}, {1, 2, true}, {2, 0}}}));
  solver.setBranch(0, 10, 24);
  solver.setBranch(1, Phasor{0, 7.5e-7});
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{2, 1, 0}}), PowerOutcome::collapse);
}

TEST(PowerPort, TwoLoadsAreOneOfTwiceTheSize) {
  for (double each : {0.1, 3.0, 6.0, 7.1, 7.19, 7.1999, 7.2001, 7.3, 20.0}) {
    auto one = source(1);
    auto two = source(2);
    const auto single = solveWithConstantPower(one, std::vector<PowerPort>{{1, 2 * each, 0}});
    const auto both = solveWithConstantPower(two, std::vector<PowerPort>{{1, each, 0}, {2, each, 0}});
    ASSERT_EQ(single, both) << each;
    ASSERT_EQ(single, each < 7.2 ? PowerOutcome::settled : PowerOutcome::collapse) << each;
    EXPECT_NEAR(std::abs(one.voltage(1, 0) - two.voltage(1, 0)), 0, 1e-8) << each;
  }
}

TEST(PowerPort, ManyLoadsAreOneOfTheirSum) {
  constexpr int kLoads = 24;
  for (double total : {0.2, 3.0, 10.0, 14.0, 14.39, 14.41, 20.0}) {
    auto one = source(1);
    auto many = source(kLoads);
    const auto single = solveWithConstantPower(one, std::vector<PowerPort>{{1, total, 0}});
    std::vector<PowerPort> ports;
    for (int i = 1; i <= kLoads; ++i) ports.push_back({i, total / kLoads, 0});
    ASSERT_EQ(single, solveWithConstantPower(many, ports)) << total;
    ASSERT_EQ(single, total < 14.4 ? PowerOutcome::settled : PowerOutcome::collapse) << total;
    EXPECT_NEAR(std::abs(one.voltage(1, 0) - many.voltage(1, 0)), 0, 1e-8) << total;
    EXPECT_TRUE(many.certificate().tight());
    for (PowerPort& port : ports) port.cutOutVolts = 25;
    EXPECT_EQ(solveWithConstantPower(many, ports), PowerOutcome::collapse) << "none has so many volts";
    EXPECT_NEAR(std::abs(many.voltage(1, 0)), 24, 1e-12) << "what lets go draws nothing";
  }
}

TEST(PowerPort, TheClosedFormAndNewtonAgree) {
  Random random(11);
  int settled = 0;
  int collapsed = 0;
  for (int i = 0; i < 2000; ++i) {
    const Phasor openVolts = std::polar(random.uniform(5, 40), random.uniform(-3, 3));
    const Phasor impedance = std::polar(random.logUniform(0.1, 100), random.uniform(-0.2, 1.5));
    const Phasor voltAmps = std::polar(random.logUniform(0.1, 100), random.uniform(-0.5, 1.5));
    const Phasor drop = impedance * std::conj(voltAmps);
    const double half = std::norm(openVolts) / 2 - drop.real();
    const double margin = (half - std::abs(drop)) / std::norm(openVolts);
    const auto closed = operatingVolts(openVolts, impedance, voltAmps);
    const auto newton = operatingVolts(PowerNetwork{{openVolts}, {impedance}, {voltAmps}});
    ASSERT_EQ(closed.has_value(), margin >= 0) << i;
    if (std::abs(margin) < 1e-6) continue;
    ASSERT_EQ(closed.has_value(), newton.has_value()) << i << " margin " << margin;
    ++(closed ? settled : collapsed);
    if (!closed) continue;
    ASSERT_NEAR(*closed, std::abs((*newton)[0]), 1e-8 * *closed) << i;
    ASSERT_LT(expansion({{openVolts}, {impedance}, {voltAmps}}, *newton), 1) << i;
    const Phasor volts = (*newton)[0];
    ASSERT_NEAR(std::abs(volts + impedance * std::conj(voltAmps / volts) - openVolts), 0, 1e-8) << i;
  }
  EXPECT_GT(settled, 500);
  EXPECT_GT(collapsed, 400);
}

/// Constant power by brute force: every port an admittance, corrected a little at a time.
std::optional<std::vector<Long>> damped(int nodes, std::vector<ww::oracle::Branch> branches,
                                        const std::vector<PowerPort>& ports) {
  std::vector<long double> squares(ports.size());
  for (int round = 0; round < 20000; ++round) {
    const auto truth = ww::oracle::solve(nodes, branches);
    long double change = 0;
    for (std::size_t i = 0; i < ports.size(); ++i) {
      auto& branch = branches[static_cast<std::size_t>(ports[i].branch)];
      const Long across =
          truth.volts[static_cast<std::size_t>(branch.a)] - truth.volts[static_cast<std::size_t>(branch.b)];
      const long double square = std::norm(across);
      const long double next = round == 0 ? square : squares[i] + 0.5L * (square - squares[i]);
      change = std::max(change, std::abs(next - squares[i]));
      squares[i] = next;
      if (next < 1e-6L) return std::nullopt;
      branch.admittance = Long(std::conj(ports[i].voltAmps)) / next;
    }
    if (change < 1e-14L) return truth.volts;
  }
  return std::nullopt;
}

TEST(PowerPort, SeveralLoadsAgreeWithBruteForce) {
  int settled = 0;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    SCOPED_TRACE(seed);
    Random random(6000 + seed);
    const int nodes = 8;
    std::vector<ww::oracle::Branch> branches;
    branches.push_back({1, 0, 1.0L / Long(0.5L, 0.8L), 27});
    for (int node = 2; node < nodes; ++node)
      branches.push_back({node, 1 + random.below(node - 1), random.uniform(0.3, 3), {}});
    branches.push_back({nodes - 1, 0, 1.0L / Long(20, 30), {}});
    std::vector<PowerPort> ports;
    for (int i = 0; i < 2 + random.below(4); ++i) {
      ports.push_back(
          {static_cast<int>(branches.size()), std::polar(random.uniform(1, 4), random.uniform(0, 0.8)), 0});
      branches.push_back({2 + random.below(nodes - 2), 0, {}, {}});
    }
    Pattern pattern{nodes, {}};
    for (const auto& branch : branches) pattern.branches.push_back({branch.a, branch.b});
    Solver<Phasor> solver(makePlan(pattern));
    for (std::size_t i = 0; i < branches.size(); ++i)
      solver.setBranch(static_cast<int>(i), Phasor(branches[i].admittance), Phasor(branches[i].emf));
    const auto outcome = solveWithConstantPower(solver, ports);
    const auto truth = damped(nodes, branches, ports);
    ASSERT_EQ(outcome == PowerOutcome::settled, truth.has_value());
    if (!truth) continue;
    ++settled;
    for (int node = 0; node < nodes; ++node)
      ASSERT_NEAR(std::abs(solver.voltage(node, 0) - Phasor((*truth)[static_cast<std::size_t>(node)])), 0,
                  1e-6);
    for (const PowerPort& port : ports) {
      const auto& branch = branches[static_cast<std::size_t>(port.branch)];
      const Phasor power = solver.voltage(branch.a, branch.b) * std::conj(solver.current(port.branch));
      ASSERT_NEAR(std::abs(power - port.voltAmps), 0, 1e-8);
    }
    ASSERT_TRUE(solver.certificate().tight());
  }
  EXPECT_GT(settled, 20);
}

TEST(PowerPort, SeveralLoadsBeyondTheSourceCollapse) {
  // Three controls at the end of a thin cable: 24 V behind 10 ohm carries 14.4 W whatever the share, and
  // a plain fixed point can end on volts that solve nothing.
  auto solver = source(3);
  for (double total : {14.5, 20.0, 60.0}) {
    const std::vector<PowerPort> ports{{1, total / 2, 0}, {2, total / 3, 0}, {3, total / 6, 0}};
    EXPECT_EQ(solveWithConstantPower(solver, ports), PowerOutcome::collapse) << total;
    for (int branch : {1, 2, 3}) EXPECT_EQ(solver.admittance(branch), Phasor{});
    EXPECT_NEAR(std::abs(solver.voltage(1, 0)), 24, 1e-12);
  }
}

TEST(PowerPort, OnePortBelowItsCutOutIsACollapseOfAll) {
  auto solver = source(2);
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 5, 18}, {2, 5, 18}}),
            PowerOutcome::settled);
  EXPECT_EQ(solveWithConstantPower(solver, std::vector<PowerPort>{{1, 5, 18}, {2, 5, 19}}),
            PowerOutcome::collapse);
}

TEST(PowerPort, LoadsOnSeparateSourcesDoNotMix) {
  Solver<Phasor> solver(makePlan({4, {{1, 0}, {3, 2}, {1, 0}, {3, 2}}}));
  solver.setBranch(0, 0.1, 24);
  solver.setBranch(1, 0.1, 24);
  const std::vector<PowerPort> ports{{2, 10, 0}, {3, 5, 0}};
  ASSERT_EQ(solveWithConstantPower(solver, ports), PowerOutcome::settled);
  EXPECT_NEAR(solver.voltage(1, 0).real(), 12 + std::sqrt(44.0), 1e-9);
  EXPECT_NEAR(solver.voltage(3, 2).real(), 12 + std::sqrt(94.0), 1e-9);
}

}  // namespace
