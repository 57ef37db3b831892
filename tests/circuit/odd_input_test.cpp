// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/solver.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

using namespace ww::circuit;

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

template <class Scalar>
void expectFinite(const Solver<Scalar>& solver) {
  for (int node = 0; node < solver.plan().nodes(); ++node)
    EXPECT_TRUE(std::isfinite(std::abs(solver.voltage(node)))) << "node " << node;
  for (int branch = 0; branch < solver.plan().branches(); ++branch)
    EXPECT_TRUE(std::isfinite(std::abs(solver.current(branch)))) << "branch " << branch;
}

TEST(OddInput, NothingAtAll) {
  Solver<double> solver(makePlan({}));
  solver.solve();
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(OddInput, EverythingOpen) {
  Solver<Phasor> solver(makePlan({4, {{0, 1}, {1, 2}, {2, 3}, {3, 0}}}));
  solver.solve();
  for (int a = 0; a < 4; ++a)
    for (int b = 0; b < 4; ++b) EXPECT_EQ(solver.quality(a, b), a == b ? Quality::solid : Quality::floating);
  expectFinite(solver);
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(OddInput, AnOpenSourceShowsItsVoltsAndNoAmps) {
  Solver<Phasor> solver(makePlan({3, {{1, 0}, {1, 2}}}));
  solver.setBranch(0, 1 / 0.9, 28);
  solver.setBranch(1, 50);
  solver.solve();
  EXPECT_NEAR(solver.voltage(2, 0).real(), 28, 1e-13);
  EXPECT_NEAR(std::abs(solver.current(0)), 0, 1e-13);
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(OddInput, BeforeSolvingNothingIsKnown) {
  Solver<double> solver(makePlan({2, {{1, 0}}}));
  EXPECT_EQ(solver.quality(0, 1), Quality::floating);
  solver.setBranch(0, 1, 24);
  EXPECT_EQ(solver.quality(0, 1), Quality::floating);
  solver.solve();
  EXPECT_EQ(solver.quality(0, 1), Quality::solid);
  solver.setBranch(0, 2, 24);
  EXPECT_FALSE(solver.read(0, 1).value);
  solver.solve();
  solver.clear();
  EXPECT_FALSE(solver.read(0, 1).value);
}

TEST(OddInput, NumbersThatAreNoneAreRefused) {
  for (double bad : {notANumber, infinite, -infinite, 1e16, -1e200}) {
    Solver<double> solver(makePlan({3, {{1, 0}, {1, 0}, {1, 2}}}));
    solver.setBranch(0, 1, 24);
    solver.setBranch(1, 1);
    solver.setBranch(2, bad);
    solver.solve();
    EXPECT_TRUE(solver.certificate().refused) << bad;
    EXPECT_FALSE(solver.certificate().tight());
    EXPECT_EQ(solver.quality(1, 2), Quality::floating);
    EXPECT_NEAR(solver.voltage(1, 0), 12, 1e-13);
    solver.setBranch(2, 1, bad);
    solver.solve();
    expectFinite(solver);
    EXPECT_TRUE(solver.certificate().refused) << bad;
    solver.clear();
    solver.solve();
    EXPECT_FALSE(solver.certificate().refused);
  }
  Solver<Phasor> solver(makePlan({2, {{1, 0}}}));
  solver.setBranch(0, {1, notANumber}, {24, notANumber});
  solver.solve();
  EXPECT_TRUE(solver.certificate().refused);
  expectFinite(solver);
}

TEST(OddInput, LessThanNothingIsAbsent) {
  Solver<double> solver(makePlan({2, {{1, 0}}}));
  solver.setBranch(0, 1e-25, 24);
  EXPECT_EQ(solver.admittance(0), 0);
  solver.solve();
  EXPECT_EQ(solver.quality(0, 1), Quality::floating);
  EXPECT_FALSE(solver.certificate().refused);
}

TEST(OddInput, ABranchOnOneNodeTroublesNobody) {
  Solver<double> solver(makePlan({2, {{1, 0}, {1, 1}, {0, 1}}}));
  solver.setBranch(0, 1, 24);
  solver.setBranch(1, 3, 5);
  solver.setBranch(2, 1);
  solver.solve();
  EXPECT_NEAR(solver.voltage(1, 0), 12, 1e-14);
  EXPECT_NEAR(solver.current(1), -15, 1e-14);
  EXPECT_NEAR(solver.current(2), -12, 1e-14);
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(OddInput, ALoopOfAlmostNoOhms) {
  Solver<Phasor> solver(makePlan({4, {{1, 0}, {1, 2}, {2, 3}, {3, 1}, {3, 0}}}));
  solver.setBranch(0, 1, 24);
  for (int branch : {1, 2, 3}) solver.setBranch(branch, 1e15);
  solver.setBranch(4, 1);
  solver.solve();
  for (int node : {1, 2, 3}) EXPECT_NEAR(std::abs(solver.voltage(node, 0)), 12, 1e-11);
  EXPECT_NEAR(std::abs(solver.voltage(1, 2)), 0, 1e-13);
  expectFinite(solver);
}

TEST(OddInput, ThirtyNineDecadesInOneNetwork) {
  // 24 V through 1e-15 ohm, then 1e24 ohm twice in series: halves, whatever the spread.
  Solver<double> solver(makePlan({4, {{1, 0}, {1, 2}, {2, 3}, {3, 0}}}));
  solver.setBranch(0, 1, 24);
  solver.setBranch(1, 1e15);
  solver.setBranch(2, 1e-24);
  solver.setBranch(3, 1e-24);
  solver.solve();
  EXPECT_NEAR(solver.voltage(3, 0), 12, 1e-13);
  EXPECT_EQ(solver.quality(3, 0), Quality::solid);
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(OddInput, ResonanceIsSaidAndStaysFinite) {
  // A parallel and a series pair that cancel, exactly and almost.
  for (double detuning : {0.0, 1e-16, 1e-12, 1e-9}) {
    Solver<Phasor> parallel(makePlan({3, {{1, 0}, {1, 2}, {1, 2}, {2, 0}}}));
    parallel.setBranch(0, 1, 24);
    parallel.setBranch(1, Phasor{0, 0.01});
    parallel.setBranch(2, Phasor{0, -0.01 * (1 + detuning)});
    parallel.solve();
    expectFinite(parallel);
    EXPECT_TRUE(parallel.certificate().resonant) << detuning;

    Solver<Phasor> series(makePlan({3, {{1, 0}, {1, 2}, {2, 0}}}));
    series.setBranch(0, 1e12, 24);
    series.setBranch(1, Phasor{0, 0.01});
    series.setBranch(2, Phasor{0, -0.01 * (1 + detuning)});
    series.solve();
    expectFinite(series);
    EXPECT_TRUE(series.certificate().resonant) << detuning;
  }
}

TEST(OddInput, AStiffSourceOnALightLoad) {
  // 1e15 S behind 24 V into two equal legs of 1e-12 S: no part of the 2.4e16 A may stay behind.
  Solver<double> solver(makePlan({3, {{1, 0}, {1, 2}, {2, 0}}}));
  solver.setBranch(0, 1e15, 24);
  solver.setBranch(1, 1e-12);
  solver.setBranch(2, 1e-12);
  solver.solve();
  EXPECT_NEAR(solver.voltage(1, 0), 24, 1e-13);
  EXPECT_NEAR(solver.voltage(2, 0), 12, 1e-13);
}

TEST(OddInput, AWellTunedButLossyCircuitIsNoResonance) {
  Solver<Phasor> solver(makePlan({3, {{1, 0}, {1, 2}, {2, 0}}}));
  solver.setBranch(0, 1, 24);
  solver.setBranch(1, Phasor{0, 0.01});
  solver.setBranch(2, Phasor{1e-6, -0.01});
  solver.solve();
  EXPECT_FALSE(solver.certificate().resonant);
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(OddInput, ATankWhoseNeighboursAreHeldElsewhereIsHarmless) {
  Solver<Phasor> solver(makePlan({3, {{1, 0}, {1, 2}, {1, 2}, {2, 0}}}));
  solver.setBranch(0, 1, 24);
  solver.setBranch(1, Phasor{0, 0.01});
  solver.setBranch(2, Phasor{0, -0.01});
  solver.setBranch(3, 1);
  solver.solve();
  EXPECT_NEAR(std::abs(solver.voltage(1, 0)), 24, 1e-12);
  EXPECT_NEAR(std::abs(solver.voltage(2, 0)), 0, 1e-12);
}

TEST(OddInput, ALadderOfResonancesCannotOverflow) {
  constexpr int rungs = 60;
  Pattern pattern{rungs + 1, {}};
  for (int node = 1; node <= rungs; ++node) pattern.branches.push_back({node, node - 1});
  for (int node = 1; node <= rungs; ++node) pattern.branches.push_back({node, 0});
  for (double detuning : {1e-16, 3e-16, 1e-15, 1e-13}) {
    Solver<Phasor> solver(makePlan(pattern));
    for (int i = 0; i < rungs; ++i) {
      const double sign = i % 2 ? -1 : 1;
      solver.setBranch(i, Phasor{0, sign * (1 + detuning * i)}, 1e15);
      solver.setBranch(rungs + i, Phasor{0, -sign});
    }
    solver.solve();
    expectFinite(solver);
    const auto port = solver.thevenin(rungs, 0);
    EXPECT_TRUE(std::isfinite(std::abs(port.impedance)));
    const Certificate certificate = solver.certificate();
    EXPECT_FALSE(std::isnan(certificate.kcl));
    EXPECT_FALSE(std::isnan(certificate.power));
  }
}

}  // namespace
