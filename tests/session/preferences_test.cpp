// SPDX-License-Identifier: GPL-3.0-or-later
#include "session/preferences.h"

#include <gtest/gtest.h>

namespace ww::session {
namespace {

TEST(PreferencesFile, IsReadBackEqual) {
  Preferences preferences;
  preferences.language = "es";
  preferences.theme = "dark";
  preferences.feet = false;
  preferences.company = {"Larkmoor Heating", "555-0100"};
  preferences.meters.push_back(
      {"0190c1d0-0000-7000-8000-000000000001", "Bench meter", "7", "2027-01-01", 0.8, 0.2});
  preferences.meterInHand = preferences.meters.front().id;
  preferences.layout["window"] = "AAAA";
  const auto read = readPreferences(writePreferences(preferences));
  ASSERT_TRUE(read.value.has_value());
  EXPECT_EQ(*read.value, preferences);
}

TEST(PreferencesFile, AnEmptyObjectIsTheDefaults) { EXPECT_EQ(*readPreferences("{}").value, Preferences{}); }

TEST(PreferencesFile, AMeterThatNoJobCouldHoldIsRefused) {
  Preferences preferences;
  preferences.meters.push_back(
      {"0190c1d0-0000-7000-8000-000000000001", "Bench meter", "7", "2027-01-01", 0.8, 0.2});
  for (const double accuracy : {0.0, job::kMostAccuracy + 1}) {
    preferences.meters.front().accuracyPercent = accuracy;
    EXPECT_FALSE(readPreferences(writePreferences(preferences)).value.has_value()) << accuracy;
  }
  preferences.meters.front().accuracyPercent = job::kMostAccuracy;
  preferences.meters.front().calibrationDue = "2027-02-30";
  EXPECT_FALSE(readPreferences(writePreferences(preferences)).value.has_value());
}

TEST(PreferencesFile, EveryFaultIsTold) {
  const auto read = readPreferences(R"({"feet": 3, "theme": [], "what": 1})");
  EXPECT_FALSE(read.value.has_value());
  EXPECT_EQ(read.problems.size(), 3U);
}

}  // namespace
}  // namespace ww::session
