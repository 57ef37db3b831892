// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/plan.h"
#include "circuit/solver.h"
#include "support/random_network.h"

#include <gtest/gtest.h>

using namespace ww::circuit;

namespace {

/// A sheet of so many units of twelve terminals: loads to each unit's common, cables between neighbours.
Pattern sheetOf(int units) {
  constexpr int terminals = 12;
  Pattern pattern{units * terminals, {}};
  for (int unit = 0; unit < units; ++unit) {
    const int common = unit * terminals;
    for (int terminal = 1; terminal < terminals; ++terminal)
      pattern.branches.push_back({common + terminal, common});
    if (unit == 0) continue;
    for (int terminal = 0; terminal < 8; ++terminal)
      pattern.branches.push_back({common + terminal, (unit - 1) / 2 * terminals + terminal});
  }
  return pattern;
}

TEST(PlanTest, ATreeHasNoFillIn) {
  ww::oracle::Random random(1);
  Pattern pattern{200, {}};
  for (const auto& branch : ww::oracle::randomWiring(random, 200, 0))
    pattern.branches.push_back({branch.a, branch.b});
  EXPECT_EQ(makePlan(pattern)->slots(), 199);
}

TEST(PlanTest, ParallelsShareASlotAndLoopsOnANodeNeedNone) {
  EXPECT_EQ(makePlan({2, {{0, 1}, {1, 0}, {0, 0}, {0, 1}}})->slots(), 1);
}

TEST(PlanTest, AStarWithManyRaysIsEliminatedFromItsEnds) {
  Pattern pattern{5001, {}};
  for (int ray = 1; ray <= 5000; ++ray) pattern.branches.push_back({0, ray});
  EXPECT_EQ(makePlan(pattern)->slots(), 5000);
}

TEST(PlanTest, WorkGrowsWithTheSheetAndNoFaster) {
  const auto hundred = makePlan(sheetOf(100))->operations();
  const auto twoHundred = makePlan(sheetOf(200))->operations();
  EXPECT_LE(static_cast<double>(twoHundred), 2.1 * static_cast<double>(hundred));
}

TEST(PlanTest, TheSamePatternGivesTheSamePlan) {
  EXPECT_EQ(makePlan(sheetOf(20))->operations(), makePlan(sheetOf(20))->operations());
}

}  // namespace
