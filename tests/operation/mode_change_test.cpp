// SPDX-License-Identifier: GPL-3.0-or-later
// A room control that is asked for the other mode waits before it answers, and a compressor never runs
// straight on from one direction into the other. The seconds are common practice of room controls.
#include <gtest/gtest.h>

#include "support/reference_sheets.h"
#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::SmallMachine;

constexpr int kControl = 0;
constexpr double kTolerance = 0.2;

/// Seconds from the call to the first time that the control's contact moved that way; -1: it did not.
double secondsTo(SmallMachine& house, const char* call, const char* contact, bool on) {
  const Millis start = house.machine().now();
  house.call(call);
  for (const Event& event : house.machine().events())
    if (event.unit == kControl && event.name == contact && event.on == on)
      return double(event.at - start) / 1000;
  return -1;
}

TEST(ModeChange, HeatAfterCoolingAndCoolingAfterHeatWait) {
  SmallMachine house(ww::testing::rowA(), equipment::standardLibrary());
  house.powerUp();
  EXPECT_NEAR(secondsTo(house, "heat1", "KW", true), 0, kTolerance);
  EXPECT_NEAR(secondsTo(house, "cool1", "KY", true), 300, kTolerance);
  EXPECT_NEAR(secondsTo(house, "heat1", "KW", true), 300, kTolerance);
  EXPECT_NEAR(secondsTo(house, "rest", "KW", false), 0, kTolerance);
  EXPECT_NEAR(secondsTo(house, "heat1", "KW", true), 0, kTolerance) << "the same mode again";
}

TEST(ModeChange, AHeatPumpsCompressorStopsBetweenTheDirections) {
  SmallMachine house(ww::testing::rowG(), equipment::standardLibrary());
  house.powerUp();
  ASSERT_GE(secondsTo(house, "cool1", "KY1", true), 0);
  EXPECT_NEAR(secondsTo(house, "heat1", "KY1", false), 0, kTolerance);
  house.call("cool1");
  EXPECT_NEAR(secondsTo(house, "heat1", "KRV", false), 0, kTolerance);
  house.call("cool1");
  EXPECT_NEAR(secondsTo(house, "heat1", "KY1", true), 300, kTolerance);
  EXPECT_NEAR(secondsTo(house, "heat2", "KW2", true), 0, kTolerance) << "auxiliary is the same mode";
}

TEST(ModeChange, EmergencyHeatWaitsForNothing) {
  SmallMachine house(ww::testing::rowG(), equipment::standardLibrary());
  house.powerUp();
  house.call("cool1");
  EXPECT_NEAR(secondsTo(house, "emergency", "KW2", true), 0, kTolerance);
  EXPECT_NEAR(secondsTo(house, "cool1", "KY1", true), 300, kTolerance);
}

}  // namespace
}  // namespace ww::operation
