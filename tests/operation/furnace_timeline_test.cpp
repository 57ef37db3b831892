// SPDX-License-Identifier: GPL-3.0-or-later
// What a one-stage gas furnace board does in time: purge, igniter, valve, flame proof, blower; trials and
// lock-outs. The seconds are common practice of such boards; they are what the shipped profile must give.
#include <gtest/gtest.h>

#include "support/reference_sheets.h"
#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::SmallMachine;

constexpr double kTolerance = 0.2;  // seconds; contacts and relays take milliseconds

/// The furnace with its cooling and room control, at rest.
class FurnaceTimeline : public ::testing::Test {
 protected:
  static constexpr int kFurnace = 1;
  FurnaceTimeline() : house_(ww::testing::rowA(), equipment::standardLibrary()) { house_.powerUp(); }

  /// Seconds at which the furnace's signal, coil or contact changed that way, from the start of the last run.
  std::vector<double> all(const char* name, bool on) const {
    std::vector<double> seconds;
    for (const Event& event : house_.machine().events())
      if (event.unit == kFurnace && event.name == name && event.on == on)
        seconds.push_back(double(event.at - start_) / 1000);
    return seconds;
  }
  double first(const char* name, bool on) const {
    const auto seconds = all(name, on);
    return seconds.empty() ? -1 : seconds[0];
  }
  RunEnd call(const char* name) {
    start_ = house_.machine().now();
    return house_.call(name);
  }
  RunEnd furnaceFact(const char* fact, bool holds) {
    start_ = house_.machine().now();
    return house_.with(fact, holds, kFurnace);
  }
  bool runs(const char* signal) const { return house_.machine().logic(kFurnace).signal(signal); }

  SmallMachine house_;
  Millis start_ = 0;
};

TEST_F(FurnaceTimeline, ACallForHeatFromFirstSecondToLast) {
  EXPECT_EQ(call("heat1"), RunEnd::settled);
  EXPECT_NEAR(first("inducer", true), 0, kTolerance);
  EXPECT_NEAR(first("DS", true), 3, kTolerance);
  EXPECT_NEAR(first("igniter", true), 18, kTolerance);
  EXPECT_NEAR(first("GV", true), 38, kTolerance);
  EXPECT_NEAR(first("flame", true), 40, kTolerance);
  EXPECT_NEAR(first("igniter", false), 42, kTolerance);
  EXPECT_NEAR(first("blowerHeat", true), 70, kTolerance);
  EXPECT_TRUE(runs("flame") && runs("blowerHeat") && runs("inducer"));

  EXPECT_EQ(call("rest"), RunEnd::settled);
  EXPECT_NEAR(first("GV", false), 0, kTolerance);
  EXPECT_NEAR(first("inducer", false), 15, kTolerance);
  EXPECT_NEAR(first("blowerHeat", false), 120, kTolerance);
  EXPECT_FALSE(runs("flame") || runs("blowerHeat") || runs("inducer"));
}

TEST_F(FurnaceTimeline, WithoutGasThreeTrialsAndLocked) {
  furnaceFact("gas", false);
  call("heat1");
  const auto trials = all("GV", true);
  const double locked = first("lock", true);
  EXPECT_NEAR(locked, 45 + 2 * (60 + 45), 1) << "a trial takes 45 s, the pause 60";
  EXPECT_EQ(std::count_if(trials.begin(), trials.end(), [&](double at) { return at < locked; }), 3);
  EXPECT_EQ(first("flame", true), -1);
  EXPECT_NEAR(first("lock", false), locked + 3600, kTolerance) << "tries again after an hour";
  EXPECT_EQ(std::count_if(trials.begin(), trials.end(),
                          [&](double at) { return at > locked && at < locked + 3600; }),
            0);
}

TEST_F(FurnaceTimeline, WithoutDraftFourTrialsAndLocked) {
  furnaceFact("DSOpen", true);
  call("heat1");
  const auto starts = all("inducer", true);
  const auto stops = all("inducer", false);
  ASSERT_GE(starts.size(), 4U);
  for (size_t trial = 0; trial < 4; ++trial) EXPECT_NEAR(starts[trial], 120.0 * double(trial), 1) << trial;
  EXPECT_NEAR(stops[0], 60 + 15, 1) << "60 s and the after-purge";
  EXPECT_NEAR(first("lock", true), 420, 2);
  EXPECT_EQ(first("GV", true), -1);
}

TEST_F(FurnaceTimeline, AnOpenLimitClosesTheValveAndBlows) {
  call("heat1");
  ASSERT_TRUE(runs("flame"));
  furnaceFact("LIMOpen", true);
  EXPECT_NEAR(first("GV", false), 0, kTolerance);
  EXPECT_TRUE(runs("blowerHeat"));
  EXPECT_TRUE(runs("inducer"));
  EXPECT_FALSE(house_.in("GV"));
  furnaceFact("LIMOpen", false);
  EXPECT_NEAR(first("inducer", true), 2, kTolerance) << "as soon as the draft switch was seen open";
  EXPECT_TRUE(house_.in("GV")) << "it starts anew by itself";
  EXPECT_TRUE(runs("flame"));
}

TEST_F(FurnaceTimeline, ALostFlameIsTriedAgainAfterAMinute) {
  call("heat1");
  furnaceFact("gas", false);
  const double closed = first("GV", false);
  EXPECT_NEAR(closed, 2, kTolerance);
  EXPECT_NEAR(first("igniter", true), closed + 60 + 18, 2);
}

TEST_F(FurnaceTimeline, ADraftSwitchStuckClosedKeepsTheInducerOff) {
  // The board wants to see it open first.
  auto profile = *equipment::standardLibrary().find("furnace-1");
  auto library = equipment::standardLibrary();
  quantity::Problems problems;
  for (auto& element : profile.elements)
    if (element.id == "DS")
      element.closedBy = equipment::parseExpression("true", "", profile.logic, problems);
  ASSERT_TRUE(problems.empty());
  library.profiles["furnace-1"] = std::make_shared<const equipment::Profile>(profile);
  SmallMachine house(ww::testing::rowA(), library);
  house.powerUp();
  house.call("heat1");
  EXPECT_EQ(house.times("inducer", true), 0);
  EXPECT_FALSE(house.in("GV"));
}

TEST_F(FurnaceTimeline, LineVoltageOffStopsEverythingAndTheCallStartsAnew) {
  call("heat1");
  furnaceFact("line", false);
  EXPECT_FALSE(house_.in("GV") || house_.supplyOn("B") || house_.supplyOn("S"));
  EXPECT_FALSE(runs("inducer") || runs("flame") || runs("blowerHeat"));
  furnaceFact("line", true);
  EXPECT_NEAR(first("igniter", true), 18, 1);
  EXPECT_TRUE(runs("flame"));
}

TEST_F(FurnaceTimeline, CoolingBlowsAMinuteLonger) {
  call("cool1");
  EXPECT_TRUE(runs("blowerCool1"));
  EXPECT_TRUE(house_.in("CC"));
  call("rest");
  EXPECT_NEAR(first("blowerCool1", false), 60, kTolerance);
  EXPECT_FALSE(house_.in("CC"));
  call("fan");
  EXPECT_TRUE(runs("blowerCirc"));
  EXPECT_FALSE(runs("blowerCool1"));
}

TEST_F(FurnaceTimeline, ACompressorWaitsFiveMinutesBetweenStarts) {
  call("cool1");
  call("rest");
  const Millis off = start_;
  call("cool1");
  const auto& events = house_.machine().events();
  const auto on =
      std::find_if(events.begin(), events.end(), [](const Event& e) { return e.name == "CC" && e.on; });
  ASSERT_NE(on, events.end());
  EXPECT_NEAR(double(on->at - off) / 1000, 300, kTolerance);
}

}  // namespace
}  // namespace ww::operation
