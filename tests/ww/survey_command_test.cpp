// SPDX-License-Identifier: GPL-3.0-or-later
// What was found there at all, asked and kept by command, and what the others say of a refused job.
#include <gmock/gmock.h>

#include <filesystem>

#include "support/own_units.h"
#include "ww/program.h"

namespace ww {
namespace {

using testing::demoPath;
using ::testing::HasSubstr;
using testing::runWw;

class SurveyCommand : public testing::InFolder {
 protected:
  std::string demo = demoPath("larkmoor-a-swapped-at-furnace.json");
  std::string refused() {
    const std::string out = path("refused.json");
    EXPECT_EQ(runWw({"survey", "--job", demo, "signals=data", "-o", out}).exit, 1);
    return out;
  }
};

TEST_F(SurveyCommand, saysWhatAnswersComeTo) {
  EXPECT_EQ(runWw({"survey"}).exit, 0);
  const auto thick = runWw({"survey", "conductors=thick", "volts=over30"});
  EXPECT_EQ(thick.exit, 1);
  EXPECT_THAT(thick.out, HasSubstr("line voltage"));
  const auto json = runWw({"survey", "inverter=interface", "--json"}).json();
  EXPECT_EQ(json["refused"], nlohmann::json::array());
  EXPECT_EQ(json["notes"], nlohmann::json({"voltsNotRead", "inverterDemand"}));
  const auto wrong = runWw({"survey", "signals=smoke"});
  EXPECT_EQ(wrong.exit, 2);
  EXPECT_THAT(wrong.complaints().at(0), HasSubstr("signals=onOff"));
}

TEST_F(SurveyCommand, theAnswersAreAFactOfTheJob) {
  const std::string out = refused();
  EXPECT_EQ(runWw({"survey", "--job", out, "--json"}).json()["refused"], nlohmann::json({"dataBus"}));
  const std::string again = path("again.json");
  EXPECT_EQ(runWw({"survey", "--job", out, "signals=onOff", "-o", again}).exit, 0);
  EXPECT_EQ(nlohmann::json::parse(testing::contentOf(again))["surveys"].size(), 2u);
  EXPECT_EQ(runWw({"solve", again}).exit, 0);
}

TEST_F(SurveyCommand, aRefusedJobHasNoCheckNoRunAndNoBands) {
  const std::string out = refused();
  for (const char* command : {"solve", "steps", "mend", "plan", "size", "harm", "timeline"}) {
    const auto ran = runWw({command, out});
    EXPECT_EQ(ran.exit, 1) << command;
    EXPECT_THAT(ran.complaints().at(0), HasSubstr("data conductors")) << command;
  }
  const auto check = runWw({"check", out, "--json"});
  EXPECT_EQ(check.exit, 1);
  const auto findings = check.json()["findings"];
  ASSERT_EQ(findings.size(), 1u);
  EXPECT_EQ(findings[0]["key"], "survey-refused");
  EXPECT_EQ(runWw({"report", out, "-o", path("report.pdf")}).exit, 1);
}

class ProfilesCommand : public testing::InFolder {};

TEST_F(ProfilesCommand, listsShippedAndOwnAndWhatIsWrong) {
  const auto plain = runWw({"profiles", "--data", path("data")});
  EXPECT_EQ(plain.exit, 0);
  EXPECT_THAT(plain.out, HasSubstr("furnace-1"));
  std::filesystem::create_directories(path("data/profiles"));
  file("data/profiles/mine.json", testing::ownProfile("od-cool-1", "my-outdoor"));
  file("data/profiles/bad.json", testing::ownProfile("od-cool-1", "bad", [](auto& profile) {
         profile["kind"] = "robot";
         profile["bond"] = "glued";
       }));
  const auto ran = runWw({"profiles", "--data", path("data"), "--json"});
  EXPECT_EQ(ran.exit, 2);
  EXPECT_EQ(ran.complaints().size(), 2u);
  int own = 0;
  const auto profiles = ran.json()["profiles"];
  for (const auto& row : profiles) own += row["own"] == true ? 1 : 0;
  EXPECT_EQ(own, 1);
}

TEST_F(ProfilesCommand, drawsTheInnerCircuit) {
  const std::string unit = file("unit.json", testing::ownProfile("furnace-1", "mine"));
  EXPECT_EQ(runWw({"draw", unit, "-o", path("unit.svg")}).exit, 0);
  EXPECT_THAT(testing::contentOf(path("unit.svg")), HasSubstr(">GV<"));
  EXPECT_EQ(runWw({"draw", unit, "-o", path("unit.txt")}).exit, 2);
  const std::string bad = file(
      "bad.json", testing::ownProfile("furnace-1", "bad", [](auto& profile) { profile["kind"] = "robot"; }));
  EXPECT_EQ(runWw({"draw", bad, "-o", path("bad.svg")}).exit, 2);
}

}  // namespace
}  // namespace ww
