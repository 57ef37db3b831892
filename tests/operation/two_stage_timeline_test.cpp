// SPDX-License-Identifier: GPL-3.0-or-later
// What a two-stage gas furnace board does in time, staged by the control or by its own timer, and what a
// condensing one does otherwise. The seconds are common practice of such boards.
#include <gmock/gmock.h>

#include "support/installation.h"
#include "support/reference_rows_air.h"

namespace ww::operation {
namespace {

using ::testing::Contains;
using testing::edited;
using testing::Installation;
using ::testing::IsEmpty;
using testing::kRowF;
using ::testing::Not;
using ::testing::UnorderedElementsAre;

constexpr double kTolerance = 0.2;  // seconds; contacts and relays take milliseconds

/// Row F with a board that brings its second stage on by itself.
std::string boardStaged(const char* more = "") {
  return edited(kRowF, "#set,stagedBy,control\n", std::string("#set,stagedBy,board\n") + more);
}

/// The first stage, whoever brings on the second, as a one-stage board.
void expectFirstStage(const Installation& house) {
  for (const auto& [name, at] :
       {std::pair("inducer", 0.0), std::pair("DS", 3.0), std::pair("igniter", 18.0), std::pair("GV", 38.0),
        std::pair("flame", 40.0), std::pair("blowerHeat", 70.0)})
    EXPECT_NEAR(house.when("F", name), at, kTolerance) << name;
  EXPECT_NEAR(house.when("F", "igniter", false), 42, kTolerance);
}

TEST(TwoStage, TheBoardsTimerBringsTheSecondStageOnAfterTenMinutes) {
  Installation house(boardStaged());
  house.call("rest");
  house.call("heat1");
  expectFirstStage(house);
  EXPECT_NEAR(house.when("F", "stage2"), 600, kTolerance);
  EXPECT_NEAR(house.when("F", "inducerHigh"), 600, kTolerance);
  EXPECT_NEAR(house.when("F", "DSH"), 603, kTolerance) << "high draft is proved first";
  EXPECT_NEAR(house.when("F", "GVH"), 603, kTolerance);
  EXPECT_THAT(house.runs(), UnorderedElementsAre("burner1", "burner2", "blower"));
  house.call("rest");
  EXPECT_NEAR(house.when("F", "GV", false), 0, kTolerance);
  EXPECT_NEAR(house.when("F", "GVH", false), 0, kTolerance);
  EXPECT_NEAR(house.when("F", "inducerHigh", false), 0, kTolerance);
  EXPECT_NEAR(house.when("F", "inducer", false), 15, kTolerance);
  EXPECT_NEAR(house.when("F", "blowerHeat", false), 120, kTolerance);
  EXPECT_THAT(house.runs(), IsEmpty());
}

TEST(TwoStage, TheTimerHasThreeSettings) {
  for (const auto& [seconds, text] : {std::pair(300.0, "300"), std::pair(1200.0, "1200")}) {
    Installation house(boardStaged(("#set,F.stageDelay," + std::string(text) + "\n").c_str()));
    house.call("rest");
    house.call("heat1");
    EXPECT_NEAR(house.when("F", "stage2"), seconds, kTolerance);
  }
}

TEST(TwoStage, TheControlBringsTheSecondStageOn) {
  Installation house(kRowF);
  house.call("rest");
  house.call("heat1");
  expectFirstStage(house);
  EXPECT_EQ(house.when("F", "stage2"), -1);
  EXPECT_THAT(house.runs(), UnorderedElementsAre("burner1", "blower"));
  house.call("rest");
  house.call("heat2");
  expectFirstStage(house);
  EXPECT_NEAR(house.when("F", "W2"), 600, kTolerance) << "the control waits as long";
  EXPECT_NEAR(house.when("F", "GVH"), 603, kTolerance);
}

TEST(TwoStage, WithoutHighDraftTheFirstStageGoesOn) {
  Installation house(kRowF);
  house.world("F", "DSHOpen", true);
  house.call("rest");
  house.call("heat2");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("burner1", "blower"));
  EXPECT_EQ(house.when("F", "KVH"), -1);
}

TEST(TwoStage, TheSecondInputAloneDoesNothing) {
  Installation house(edited(kRowF, "WH,T,W1,F,W1", "WH,T,*,F,*"));
  house.call("rest");
  house.call("heat2");
  EXPECT_THAT(house.runs(), IsEmpty());
}

TEST(TwoStage, TheSecondStageGoesOutWithTheFlame) {
  Installation house(kRowF);
  house.call("rest");
  house.call("heat2");
  house.world("F", "gas", false);
  house.call("heat2");
  EXPECT_NEAR(house.when("F", "stage2", false), 0, kTolerance);
  EXPECT_NEAR(house.when("F", "GVH", false), 0, kTolerance);
  EXPECT_NEAR(house.when("F", "GV", false), 2, kTolerance);
}

TEST(TwoStage, CoolingHasItsOwnSpeeds) {
  Installation house(kRowF);
  house.call("rest");
  house.call("cool2");
  EXPECT_NEAR(house.when("O", "CC"), 0, kTolerance);
  EXPECT_THAT(house.runs(), UnorderedElementsAre("compressor1", "compressor2", "blower"));
  EXPECT_NEAR(house.when("O", "US"), 600, kTolerance);
  EXPECT_NEAR(house.when("F", "blowerCool2"), 600, kTolerance);
  house.call("rest");
  EXPECT_NEAR(house.when("F", "blowerCool1", false), 60, kTolerance);
  EXPECT_NEAR(house.when("F", "blowerCool2", false), 0, kTolerance);
}

const std::string kCondensing = edited(kRowF, "F,furnace-2", "F,furnace-2-condensing");

TEST(Condensing, PurgesLongerAndBlowsShorter) {
  Installation house(kCondensing);
  house.call("rest");
  house.call("heat1");
  expectFirstStage(house);
  house.call("rest");
  EXPECT_NEAR(house.when("F", "inducer", false), 30, kTolerance);
  EXPECT_NEAR(house.when("F", "blowerHeat", false), 90, kTolerance);
}

TEST(Condensing, ABlockedDrainStopsTheHeatAndNotTheCooling) {
  Installation house(kCondensing);
  house.call("rest");
  house.call("heat2");
  EXPECT_THAT(house.runs(), Contains("burner2"));
  house.world("F", "DRAINOpen", true);
  house.call("heat2");
  EXPECT_NEAR(house.when("F", "GV", false), 0, kTolerance);
  EXPECT_NEAR(house.when("F", "inducer", false), 30, kTolerance);
  EXPECT_THAT(house.runs(), Not(Contains("burner1")));
  EXPECT_THAT(house.runs(), Not(Contains("blower"))) << "water is no overheating";
  house.call("cool1");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("compressor1", "blower"));
}

TEST(Condensing, OneStageHasTheSameDrain) {
  Installation house(edited(testing::kRowD, "F,furnace-1", "F,furnace-1-condensing"));
  house.call("rest");
  house.call("heat1");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("burner1", "blower"));
  house.world("F", "DRAINOpen", true);
  house.call("heat1");
  EXPECT_NEAR(house.when("F", "inducer", false), 30, kTolerance);
  EXPECT_NEAR(house.when("F", "blowerHeat", false), 90, kTolerance);
  EXPECT_THAT(house.runs(), IsEmpty());
}

}  // namespace
}  // namespace ww::operation
