// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/solver.h"

#include <gtest/gtest.h>

#include <array>
#include <numbers>

using namespace ww::circuit;

namespace {

template <class Scalar = double>
Solver<Scalar> make(int nodes, std::vector<Branch> branches) {
  return Solver<Scalar>(makePlan({nodes, std::move(branches)}));
}

TEST(SmallCircuits, ADividerDivides) {
  auto solver = make(3, {{1, 0}, {1, 2}, {2, 0}});
  solver.setBranch(0, 1 / 0.5, 24);  // source of 24 V behind 0.5 ohm
  solver.setBranch(1, 1 / 7.5);
  solver.setBranch(2, 1 / 4.0);
  solver.solve();
  EXPECT_NEAR(solver.voltage(2, 0), 8, 1e-13);
  EXPECT_NEAR(solver.voltage(1, 0), 23, 1e-13);
  EXPECT_NEAR(solver.current(2), 2, 1e-13);
  EXPECT_NEAR(solver.current(1), 2, 1e-13);
  EXPECT_NEAR(solver.current(0), -2, 1e-13) << "amps run out of the raised end of a source";
  EXPECT_EQ(solver.quality(0, 2), Quality::solid);
  EXPECT_TRUE(solver.certificate().tight());
}

TEST(SmallCircuits, ABridgeOutOfBalance) {
  // 10 V over 100/200 ohm and 300/100 ohm with 50 ohm across. By hand: (u - 10)/100 + u/200 + (u - w)/50 = 0,
  // (w - 10)/300 + w/100 + (w - u)/50 = 0 gives u = 120/23 and w = 95/23 volts.
  auto solver = make(4, {{3, 0}, {3, 1}, {1, 0}, {3, 2}, {2, 0}, {1, 2}});
  solver.setBranch(0, 1e12, 10);
  const std::array ohms{100.0, 200.0, 300.0, 100.0, 50.0};
  for (int i = 0; i < 5; ++i) solver.setBranch(i + 1, 1 / ohms[static_cast<std::size_t>(i)]);
  solver.solve();
  const double u = solver.voltage(1, 0);
  const double w = solver.voltage(2, 0);
  EXPECT_NEAR((u - 10) / 100 + u / 200 + (u - w) / 50, 0, 1e-10);
  EXPECT_NEAR((w - 10) / 300 + w / 100 + (w - u) / 50, 0, 1e-10);
  EXPECT_NEAR(u, 120.0 / 23, 1e-9);
  EXPECT_NEAR(w, 95.0 / 23, 1e-9);
}

TEST(SmallCircuits, AnInductiveLoadLags) {
  // 24 V on 3 + j4 ohm: 4.8 A lagging by 53.13 degrees.
  auto solver = make<Phasor>(2, {{1, 0}, {1, 0}});
  solver.setBranch(0, 1e9, 24);
  solver.setBranch(1, 1.0 / Phasor{3, 4});
  solver.solve();
  EXPECT_NEAR(std::abs(solver.current(1)), 4.8, 1e-7);
  EXPECT_NEAR(std::arg(solver.current(1)) * 180 / std::numbers::pi, -53.1301, 1e-4);
}

TEST(SmallCircuits, IslandsKeepTheirOwnVoltsAndReadNothingBetween) {
  auto solver = make(6, {{1, 0}, {1, 0}, {3, 2}, {3, 4}, {4, 2}, {4, 0}});
  solver.setBranch(0, 2, 24);
  solver.setBranch(1, 0.1);
  solver.setBranch(2, 1, 9);
  solver.setBranch(3, 0.5);
  solver.setBranch(4, 0.5);
  solver.solve();
  EXPECT_NEAR(solver.voltage(1, 0), 24 * 2 / 2.1, 1e-13);
  EXPECT_NEAR(solver.voltage(4, 2), 9 / 5.0 * 2, 1e-13);
  EXPECT_EQ(solver.quality(1, 3), Quality::floating);
  EXPECT_FALSE(solver.read(1, 3).value);
  EXPECT_EQ(solver.quality(5, 0), Quality::floating);
  EXPECT_EQ(solver.read(2, 4).quality, Quality::solid);
  EXPECT_EQ(solver.thevenin(1, 4).quality, Quality::floating);
  std::array<double, 6> volts;
  volts.fill(7);
  solver.solvePort(1, 3, volts);
  for (double value : volts) EXPECT_EQ(value, 0);
  EXPECT_TRUE(solver.certificate().tight());

  solver.setBranch(5, 1e-3);  // tied together at one point: still no loop, but now a voltage between
  solver.solve();
  EXPECT_EQ(solver.quality(1, 3), Quality::solid);
  EXPECT_NEAR(solver.current(5), 0, 1e-15);
  EXPECT_NEAR(solver.voltage(4, 0), 0, 1e-12);
  EXPECT_NEAR(solver.voltage(3, 0), 3.6, 1e-12);
}

TEST(SmallCircuits, GhostRows) {
  // Source: voltage divider |V| = Vs R / sqrt(R^2 + Xc^2), Xc = 1/(2 pi f C), at 60 Hz and 24 V, computed.
  struct Row {
    double farads, highMeter, oldMeter, lowMeter;
  };
  for (const Row& row : {Row{50 * 20e-12, 23.20, 8.47, 0.027}, Row{100 * 20e-12, 23.79, 14.45, 0.054},
                         Row{100 * 30e-12, 23.91, 17.98, 0.081}, Row{250 * 25e-12, 23.98, 22.09, 0.170}}) {
    auto solver = make<Phasor>(3, {{1, 0}, {1, 2, true}});
    solver.setBranch(0, 1e6, 24);
    solver.setBranch(1, Phasor{0, 2 * std::numbers::pi * 60 * row.farads});
    solver.solve();
    EXPECT_EQ(solver.quality(2, 0), Quality::ghost);
    EXPECT_EQ(solver.quality(1, 0), Quality::solid);
    EXPECT_NEAR(std::abs(*solver.read(2, 0).value), 24, 1e-9);
    const auto shown = [&](double ohms) {
      const auto reading = solver.readThrough(2, 0, ohms);
      EXPECT_EQ(reading.quality, Quality::ghost);
      return std::abs(reading.value.value());
    };
    EXPECT_NEAR(shown(10e6), row.highMeter, 0.005);
    EXPECT_NEAR(shown(1e6), row.oldMeter, 0.005);
    EXPECT_NEAR(shown(3e3), row.lowMeter, 0.0005);
  }
}

TEST(SmallCircuits, TwoEqualCapacitancesHalveTheGhost) {
  auto solver = make<Phasor>(3, {{1, 0}, {1, 2, true}, {2, 0, true}});
  solver.setBranch(0, 1e3, 24);
  solver.setBranch(1, Phasor{0, 7.5e-7});
  solver.setBranch(2, Phasor{0, 7.5e-7});
  solver.solve();
  EXPECT_NEAR(std::abs(*solver.read(2, 0).value), 12, 1e-8);
}

TEST(SmallCircuits, AnAbsentCapacitanceJoinsNothing) {
  auto solver = make<Phasor>(3, {{1, 0}, {1, 2, true}});
  solver.setBranch(0, 1, 24);
  solver.solve();
  EXPECT_EQ(solver.quality(2, 0), Quality::floating);
  EXPECT_FALSE(solver.readThrough(2, 0, 10e6).value);
}

TEST(SmallCircuits, APortShowsItsSourceImpedance) {
  auto solver = make(3, {{1, 0}, {1, 2}, {2, 0}});
  solver.setBranch(0, 1 / 2.0, 24);
  solver.setBranch(1, 1 / 4.0);
  solver.setBranch(2, 1 / 6.0);
  solver.solve();
  const auto port = solver.thevenin(2, 0);
  EXPECT_NEAR(port.openVolts, 12, 1e-13);
  EXPECT_NEAR(port.impedance, 3, 1e-14);
  EXPECT_NEAR(*solver.readThrough(2, 0, 9).value, 9, 1e-13);
  EXPECT_NEAR(*solver.readThrough(2, 0, INFINITY).value, 12, 1e-13);
  EXPECT_NEAR(*solver.readThrough(0, 2, 9).value, -9, 1e-13);
  std::array<double, 3> volts{};
  solver.solvePort(2, 0, volts);
  EXPECT_NEAR(volts[2] - volts[0], 3, 1e-14);
  EXPECT_NEAR(volts[1] - volts[0], 1, 1e-14);
  EXPECT_NEAR(solver.voltage(2, 0), 12, 1e-13) << "a further right-hand side leaves the solution alone";
}

TEST(SmallCircuits, ANodeAgainstItself) {
  auto solver = make(2, {{1, 0}});
  solver.setBranch(0, 1, 24);
  solver.solve();
  EXPECT_EQ(solver.quality(1, 1), Quality::solid);
  EXPECT_EQ(*solver.read(1, 1).value, 0);
  EXPECT_EQ(solver.thevenin(1, 1).impedance, 0);
}

TEST(SmallCircuits, AShortedSourceGivesAllItCan) {
  auto solver = make(2, {{1, 0}, {1, 0}});
  solver.setBranch(0, 1 / 0.6, 24);
  solver.setBranch(1, 1e12);
  solver.solve();
  EXPECT_NEAR(solver.current(1), 40, 1e-9);
}

}  // namespace
