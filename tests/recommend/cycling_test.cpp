// SPDX-License-Identifier: GPL-3.0-or-later
// The cycling model against values worked out by hand from the published formulas (EnergyPlus Engineering
// Reference, latent capacity degradation, after Henderson and Rengarajan 1996), and what must always hold.
#include "recommend/cycling.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace ww::recommend {
namespace {

using quantity::Seconds;

struct Worked {
  double most, share, onMinutes, offMinutes, perHour;
};

/// t on = 3600 / (4 N (1 - X)) s, t off = 3600 / (4 N X) s.
const Worked kWorked[] = {
    {3, 0.50, 10.000, 10.000, 3.0000}, {3, 0.25, 6.667, 20.000, 2.2500}, {3, 0.75, 20.000, 6.667, 2.2500},
    {3, 0.10, 5.556, 50.000, 1.0800},  {3, 0.90, 50.000, 5.556, 1.0800}, {3, 1.0 / 3, 7.500, 15.000, 2.6667},
    {6, 0.50, 5.000, 5.000, 6.0000},   {6, 0.25, 3.333, 10.000, 4.5000}, {6, 0.90, 25.000, 2.778, 2.1600},
};

TEST(Cycling, WorkedValues) {
  for (const Worked& row : kWorked) {
    const Cycle cycle = asked(row.most, row.share);
    EXPECT_NEAR(cycle.on.si() / 60, row.onMinutes, 5e-4) << row.most << " " << row.share;
    EXPECT_NEAR(cycle.off.si() / 60, row.offMinutes, 5e-4);
    EXPECT_NEAR(cycle.perHour, row.perHour, 5e-5);
  }
}

TEST(Cycling, NeverCyclesAtTheEnds) {
  for (const double most : {1.0, 3.0, 9.0}) {
    EXPECT_EQ(asked(most, 0).perHour, 0);
    EXPECT_TRUE(std::isinf(asked(most, 0).off.si()));
    EXPECT_DOUBLE_EQ(asked(most, 0).on.si(), 900 / most);  // the shortest on time
    EXPECT_EQ(delivered(most, 1, Seconds(300)).perHour, 0);
    EXPECT_TRUE(std::isinf(delivered(most, 1, Seconds(300)).on.si()));
    EXPECT_EQ(asked(most, 2), asked(most, 1));
    EXPECT_EQ(asked(most, -1), asked(most, 0));
  }
}

TEST(Cycling, ThreeAnHourAndFiveMinutesBelongTogether) {
  EXPECT_FALSE(heldAbove(3, Seconds(300)));
  ASSERT_TRUE(heldAbove(4, Seconds(300)));
  EXPECT_DOUBLE_EQ(*heldAbove(4, Seconds(300)), 0.75);
  EXPECT_DOUBLE_EQ(*heldAbove(5, Seconds(300)), 0.6);
  EXPECT_DOUBLE_EQ(busiest(3, Seconds(300)).perHour, 3);
  EXPECT_DOUBLE_EQ(busiest(5, Seconds(300)).perHour, 5) << "held back only above half load";
}

/// 9 an hour under 5 minutes: held above X = 3600 / (4 x 9 x 300) = 1/3, where N = 4 x 9 x 1/3 x 2/3 = 8.
TEST(Cycling, ARateThatIsNeverReached) {
  EXPECT_DOUBLE_EQ(*heldAbove(9, Seconds(300)), 1.0 / 3);
  EXPECT_NEAR(busiest(9, Seconds(300)).perHour, 8, 1e-12);
  const Cycle half = delivered(9, 0.5, Seconds(300));
  EXPECT_TRUE(half.held);
  EXPECT_DOUBLE_EQ(half.perHour, 6);  // 5 min off, 5 min on
  EXPECT_DOUBLE_EQ(half.on.si(), 300);
}

TEST(Cycling, WhatAlwaysHolds) {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> rate(0.5, 12), share(0.001, 0.999), off(0, 1200);
  int held = 0;
  for (int i = 0; i < 20'000; ++i) {
    const double most = rate(random), x = share(random);
    const Seconds least(off(random));
    const Cycle cycle = delivered(most, x, least);
    const double whole = cycle.on.si() + cycle.off.si();
    ASSERT_NEAR(whole * cycle.perHour, 3600, 1e-6) << most << " " << x << " " << least.si();
    ASSERT_NEAR(cycle.on.si() / whole, x, 1e-12) << "the load is carried";
    ASSERT_GE(cycle.off.si(), least.si());
    ASSERT_LE(cycle.perHour, asked(most, x).perHour * (1 + 1e-12));
    ASSERT_LE(cycle.perHour, busiest(most, least).perHour * (1 + 1e-12));
    const auto corner = heldAbove(most, least);
    ASSERT_EQ(cycle.held, corner && x > *corner) << most << " " << x << " " << least.si();
    held += cycle.held;
    ASSERT_NEAR(asked(most, x).perHour, asked(most, 1 - x).perHour, 1e-9) << "the same at both sides of half";
  }
  EXPECT_GT(held, 2'000);
  EXPECT_LT(held, 18'000);
}

TEST(Cycling, CurveRisesFromNothingAndHasItsCorner) {
  const auto points = curve(5, Seconds(300), 40);
  EXPECT_EQ(points.front().perHour, 0);
  EXPECT_EQ(points.back().perHour, 0);
  EXPECT_EQ(points.front().share, 0);
  EXPECT_EQ(points.back().share, 1);
  bool half = false, corner = false;
  for (size_t i = 0; i < points.size(); ++i) {
    half = half || points[i].share == 0.5;
    corner = corner || points[i].share == 0.6;
    if (i > 0) {
      EXPECT_GT(points[i].share, points[i - 1].share);
    }
  }
  EXPECT_TRUE(half);
  EXPECT_TRUE(corner);
}

}  // namespace
}  // namespace ww::recommend
