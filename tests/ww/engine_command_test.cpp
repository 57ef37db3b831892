// SPDX-License-Identifier: GPL-3.0-or-later
// mend, plan, size, harm and timeline as a person and a script meet them.
#include <gtest/gtest.h>

#include <QFile>
#include <QTemporaryDir>

#include "program.h"

namespace {

using namespace ww::testing;

const std::string kSwapped = std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/larkmoor-a-swapped-at-furnace.json";
const std::string kFurnace = std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/larkmoor-a-furnace-cooling.json";
const std::string kValve = std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/larkmoor-g-wrong-valve-sense.json";

TEST(MendCommand, swapsThePairBack) {
  const Ran ran = runWw({"mend", kSwapped, "--json"});
  ASSERT_EQ(ran.exit, 0) << ran.err;
  const auto first = ran.json()["mends"][0];
  EXPECT_EQ(first["cost"], 1);
  EXPECT_EQ(first["edits"][0]["kind"], "swap");
  EXPECT_TRUE(first["allCallsRight"].get<bool>());
  EXPECT_TRUE(first["remains"].empty());
  EXPECT_NE(runWw({"mend", kSwapped}).out.find("at the furnace"), std::string::npos);
}

TEST(MendCommand, turnsTheSettingBack) {
  const auto first = runWw({"mend", kValve, "--json"}).json()["mends"][0];
  EXPECT_EQ(first["edits"][0]["kind"], "setting");
  EXPECT_EQ(first["edits"][0]["key"], "rvSense");
  EXPECT_NE(runWw({"mend", kValve, "--lang", "es"}).out.find("las 7 demandas"), std::string::npos);
}

TEST(MendCommand, tellsTheControlThatNeedsNoCommonAndTheWaysToOne) {
  const std::string wants = std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/larkmoor-d-control-wants-common.json";
  const auto mends = runWw({"mend", wants, "--json"}).json()["mends"];
  EXPECT_EQ(mends[0]["edits"][0]["kind"], "exchange");
  EXPECT_EQ(mends[0]["edits"][0]["value"], "rc-heat-only-2wire");
  EXPECT_EQ(mends[1]["way"], "new-cable");
  const std::string told = runWw({"mend", wants, "--lang", "es"}).out;
  EXPECT_NE(told.find("1  Cambie el control por: "), std::string::npos) << told;
  EXPECT_NE(told.find("una manera de llevar el común"), std::string::npos) << told;
}

TEST(MendCommand, hasNothingToSayOfAHealthySheet) {
  const Ran ran = runWw({"mend", kFurnace, "--json"});
  EXPECT_EQ(ran.exit, 0);
  EXPECT_TRUE(ran.json()["mends"].empty());
}

TEST(SizeCommand, aLongerRunNeedsAThickerConductor) {
  const auto runs = runWw({"size", kFurnace, "--json"}).json()["runs"];
  ASSERT_GE(runs.size(), 6u);
  EXPECT_EQ(runs[0]["gauge"], "24");
  for (size_t i = 1; i < runs.size(); ++i)
    if (runs[i]["cable"] == runs[i - 1]["cable"]) {
      EXPECT_GT(runs[i]["metres"], runs[i - 1]["metres"]);
    }
}

TEST(HarmCommand, namesDutyAndCause) {
  const auto harms = runWw({"harm", kFurnace, "--json"}).json()["harms"];
  ASSERT_FALSE(harms.empty());
  for (const auto& harm : harms) EXPECT_FALSE(harm["text"].get<std::string>().empty());
}

TEST(TimelineCommand, theFurnaceLightsInItsOrder) {
  const auto calls = runWw({"timeline", kFurnace, "--call", "heat1", "--json"}).json()["calls"];
  ASSERT_EQ(calls.size(), 1u);
  double before = 0;
  for (const auto& event : calls[0]["events"]) {
    EXPECT_GE(event["seconds"].get<double>(), before);
    before = event["seconds"].get<double>();
  }
  EXPECT_GT(before, 60);  // the blower follows the burner
}

TEST(PlanCommand, writesALandedSheetThatIsReadBack) {
  QTemporaryDir folder;
  const std::string path = folder.path().toStdString() + "/landed.json";
  const Ran ran = runWw({"plan", kFurnace, "-o", path});
  EXPECT_EQ(ran.exit, 0) << ran.err;
  EXPECT_EQ(runWw({"check", path}).exit, 0);
}

TEST(EngineCommands, unreadableInputIsTold) {
  for (const char* command : {"mend", "plan", "size", "harm", "timeline"})
    EXPECT_EQ(runWw({command, "no-such-file.json"}).exit, 3) << command;
}

}  // namespace
