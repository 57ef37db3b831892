// SPDX-License-Identifier: GPL-3.0-or-later
// On a conductor that two calls share nothing is judged: what a meter shows there is no sine.
#include <gtest/gtest.h>

#include "checklist/checklist.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/shared_conductor.h"

namespace ww::checklist {
namespace {

std::vector<Step> stepsOf(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(csv, library);
  return checklistFor(*sheet.value, operation::solveSheet(*sheet.value, library));
}

/// The step from X to common at the receiver.
const Step* atShared(const std::vector<Step>& steps, const std::string& call, Measure what) {
  for (const Step& step : steps)
    if (step.call == call && step.measure == what && step.probe1.terminal == "X") return &step;
  return nullptr;
}

TEST(SharedConductor, IsRecordedAndNotJudged) {
  const auto steps = stepsOf(testing::kRowShared);
  int found = 0;
  for (const Step& step : steps) {
    if (!isMeasured(step)) continue;
    EXPECT_NE(step.band.has_value(), step.halfWave.has_value()) << step.key;
    if (!step.halfWave) continue;
    ++found;
    EXPECT_EQ(step.probe1.terminal, "X") << step.key;
    for (const double value : {0.0, 12.0, 40.0}) EXPECT_EQ(judge(step, value, false), Verdict::notJudged);
    EXPECT_EQ(judge(step, std::nullopt, true), Verdict::notJudged);
  }
  EXPECT_EQ(found, 5) << "ohms, rest, fan, cool1, heat1";
}

TEST(SharedConductor, TellsWhichHalfWavesToExpect) {
  const auto steps = stepsOf(testing::kRowShared);
  const auto waves = [&](const char* call) {
    const Step* step = atShared(steps, call, Measure::acVolts);
    EXPECT_NE(step, nullptr) << call;
    return step == nullptr ? HalfWaveVolts{} : step->halfWave.value_or(HalfWaveVolts{-1, -1});
  };
  EXPECT_EQ(waves("rest"), HalfWaveVolts{});
  EXPECT_EQ(waves("heat1"), HalfWaveVolts{});
  EXPECT_EQ(waves("fan").positive, 0);
  EXPECT_NEAR(waves("fan").negative, 27.16, 0.1);
  EXPECT_NEAR(waves("cool1").positive, 26.87, 0.1);
  EXPECT_EQ(waves("cool1").positive, waves("cool1").negative);
}

/// X and C exchanged at the receiver: what is read from X to C is the same conductor, the other way round.
TEST(SharedConductor, IsNotJudgedWhereItIsLandedWrongly) {
  const auto steps = stepsOf(
      testing::edited(testing::edited(testing::kRowShared, "F,/C,K,C", "F,/C,K,X"), "F,/X,K,X", "F,/X,K,C"));
  for (const Measure what : {Measure::ohms, Measure::acVolts}) {
    const Step* step = atShared(steps, what == Measure::ohms ? "" : "fan", what);
    ASSERT_NE(step, nullptr);
    EXPECT_FALSE(step->band);
    ASSERT_TRUE(step->halfWave);
    EXPECT_EQ(step->halfWave->negative, 0);
    EXPECT_EQ(step->halfWave->positive > 20, what == Measure::acVolts);
  }
}

TEST(SharedConductor, OthersHaveNoHalfWaves) {
  for (const Step& step : stepsOf(testing::kRowA)) EXPECT_FALSE(step.halfWave) << step.key;
}

}  // namespace
}  // namespace ww::checklist
