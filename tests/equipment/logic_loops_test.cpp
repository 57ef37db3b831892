// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "equipment/logic.h"
#include "equipment/profile.h"

namespace ww::equipment {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

std::vector<std::string> loopsOf(const std::vector<std::string>& statements) {
  Logic logic;
  quantity::Problems problems;
  for (const std::string& statement : statements) parseStatement(statement, "", logic, problems);
  EXPECT_THAT(problems, IsEmpty());
  return combinationalLoops(logic);
}

TEST(Loops, soundLogicHasNone) {
  EXPECT_THAT(loopsOf({"a := seen(W)", "b := a & seen(Y)", "c := a | b"}), IsEmpty());
}

TEST(Loops, areFoundThroughGatesAndNegation) {
  EXPECT_THAT(loopsOf({"a := !a"}), ElementsAre("a -> a"));
  EXPECT_THAT(loopsOf({"a := b & line", "b := !c", "c := a | seen(W)"}), ElementsAre("a -> b -> c -> a"));
}

TEST(Loops, anOffDelayPassesARiseAtOnce) {
  EXPECT_THAT(loopsOf({"a := b off 5", "b := !a"}), ElementsAre("a -> b -> a"));
}

TEST(Loops, areBrokenByWhatRemembers) {
  for (const char* through : {"b on 5", "latch(b; seen(W))", "latch(seen(W); b)", "tally(b, 2; seen(W))",
                              "ran(b, 60; seen(W))", "(b on 3) off 2"})
    EXPECT_THAT(loopsOf({std::string("a := ") + through, "b := !a"}), IsEmpty()) << through;
  EXPECT_THAT(loopsOf({"a, b := first(c; seen(W))", "c := !a"}), IsEmpty());
}

TEST(Loops, minimumTimesLookAtWhatTheirOutputDid) {
  EXPECT_THAT(loopsOf({"K := seen(Y) & minOff(180) & minOn(60)"}), IsEmpty());
}

TEST(Loops, eachIsToldOnceByItsShortestWay) {
  EXPECT_THAT(loopsOf({"a := b | c", "b := a", "c := d", "d := c & a"}),
              ElementsAre("a -> b -> a", "c -> d -> c"));
}

TEST(Loops, theFurnaceHasNone) {
  const Profile* furnace = standardLibrary().find("furnace-1");
  ASSERT_TRUE(furnace);
  EXPECT_GT(furnace->logic.statements.size(), 15u);
  EXPECT_THAT(combinationalLoops(furnace->logic), IsEmpty());
}

}  // namespace
}  // namespace ww::equipment
