// SPDX-License-Identifier: GPL-3.0-or-later
// Nodes that are eliminated last: the answers are those of any other order, and cost less when only what
// stands between them changes.
#include "circuit/power_port.h"
#include "support/random_network.h"

#include <gtest/gtest.h>

using namespace ww::circuit;

namespace {

constexpr int kNodes = 40;

/// The same random wiring twice, once with late nodes 0, 3 and 7; branches between these at the end.
struct Pair {
  explicit Pair(unsigned seed, bool ghosts) : random(seed) {
    Pattern pattern{kNodes, {}};
    for (const auto& branch : ww::oracle::randomWiring(random, kNodes, 12))
      pattern.branches.push_back({branch.a, branch.b, ghosts && random.uniform(0, 1) < 0.1});
    first = int(pattern.branches.size());
    for (const auto& [a, b] : {std::pair{3, 0}, {7, 0}, {7, 3}}) pattern.branches.push_back({a, b});
    plain.emplace(makePlan(pattern));
    pattern.late = {0, 3, 7};
    late.emplace(makePlan(pattern));
    for (int branch = 0; branch < plain->plan().branches(); ++branch) change(branch);
  }

  void change(int branch) {
    const bool open = random.uniform(0, 1) < 0.15;
    const Phasor siemens = open ? 0 : 1.0 / Phasor{random.logUniform(0.02, 60), random.uniform(0, 60)};
    const Phasor emf = random.uniform(0, 1) < 0.1 ? 27 : 0;
    plain->setBranch(branch, siemens, emf);
    late->setBranch(branch, siemens, emf);
  }

  void expectSame() {
    plain->solve();
    late->solve();
    for (int a = 0; a < kNodes; ++a)
      for (int b = 0; b < a; ++b) {
        const auto one = plain->read(a, b), other = late->read(a, b);
        ASSERT_EQ(one.quality, other.quality) << a << " " << b;
        ASSERT_EQ(one.value.has_value(), other.value.has_value());
        if (one.value) {
          ASSERT_NEAR(std::abs(*one.value - *other.value), 0, 1e-9) << a << " " << b;
        }
      }
    EXPECT_TRUE(late->certificate().tight());
  }

  ww::oracle::Random random;
  int first = 0;  ///< branch between late nodes
  std::optional<Solver<Phasor>> plain, late;
};

TEST(LateNodes, TheAnswerIsThatOfAnyOrder) {
  for (const bool ghosts : {false, true})
    for (unsigned seed = 1; seed <= 20; ++seed) {
      Pair pair(seed, ghosts);
      pair.expectSame();
      for (int step = 0; step < 20; ++step) {
        pair.change(int(pair.random.uniform(0, pair.late->plan().branches())));
        if (step % 2 == 0) pair.change(pair.first + step % 3);
        pair.expectSame();
        if (testing::Test::HasFatalFailure()) return;
      }
    }
}

TEST(LateNodes, WhatStandsBetweenThemIsSolvedAgainAtLittleCost) {
  Pair pair(5, false);
  pair.late->solve();
  const auto taken = [&](int branch) {
    const auto before = pair.late->admittancesTaken();
    pair.late->setBranch(branch, Phasor(pair.random.logUniform(0.1, 10)));
    pair.late->solve();
    return pair.late->admittancesTaken() - before;
  };
  EXPECT_EQ(taken(0), pair.late->plan().slots());
  EXPECT_LE(taken(pair.first), 3);
  EXPECT_TRUE(pair.late->plan().isLate(pair.first));
  EXPECT_FALSE(pair.late->plan().isLate(0));
}

TEST(LateNodes, VoltsOfLateNodesAreKnownFirst) {
  Pair pair(9, false);
  pair.plain->solve();
  pair.late->solveLate();
  EXPECT_EQ(pair.late->quality(7, 0), pair.plain->quality(7, 0));
  EXPECT_NEAR(std::abs(pair.late->voltage(7, 0) - pair.plain->voltage(7, 0)), 0, 1e-10);
  EXPECT_NEAR(std::abs(pair.late->voltage(3, 7) - pair.plain->voltage(3, 7)), 0, 1e-10);
}

TEST(LateNodes, OhmsBetweenPortsAreWhatOneAmpereShows) {
  Pair pair(3, false);
  pair.late->solve();
  const std::vector<Branch> ports{{3, 0}, {7, 0}, {7, 3}, {20, 5}};
  for (const auto& port : ports) ASSERT_TRUE(pair.late->readable(port.a, port.b));
  std::vector<Phasor> ohms(ports.size() * ports.size()), volts(kNodes);
  pair.late->portOhms(ports, ohms);
  for (size_t i = 0; i < ports.size(); ++i) {
    pair.late->solvePort(ports[i].a, ports[i].b, volts);
    for (size_t k = 0; k < ports.size(); ++k)
      EXPECT_NEAR(
          std::abs(ohms[i * ports.size() + k] - (volts[size_t(ports[k].a)] - volts[size_t(ports[k].b)])), 0,
          1e-9);
  }
}

/// Two loads behind ohms of their own: one limit, carried up to it and not beyond, however near.
TEST(LateNodes, TheLimitOfSeveralLoadsIsOne) {
  Solver<Phasor> solver(makePlan({4, {{1, 0}, {2, 1}, {3, 1}, {2, 0}, {3, 0}}, {0, 2, 3}}));
  solver.setBranch(0, 1.0 / Phasor{2, 1}, 27);
  solver.setBranch(1, 1.0 / 0.4);
  solver.setBranch(2, 1.0 / 0.9);
  const auto carried = [&](double each) {
    const std::vector<PowerPort> ports{{3, Phasor(each, each / 4), 0}, {4, Phasor(each, 0), 0}};
    return solveWithConstantPower(solver, ports) == PowerOutcome::settled;
  };
  double most = 1, least = 200;
  ASSERT_TRUE(carried(most));
  ASSERT_FALSE(carried(least));
  while (least - most > 1e-6) (carried((most + least) / 2) ? most : least) = (most + least) / 2;
  for (const double below : {0.5, 0.9, 0.99, 0.9999, 0.999999}) EXPECT_TRUE(carried(most * below)) << below;
  for (const double above : {1.000001, 1.0001, 1.01, 1.1, 2.0}) EXPECT_FALSE(carried(least * above)) << above;
}

}  // namespace
