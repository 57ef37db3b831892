// SPDX-License-Identifier: GPL-3.0-or-later
// What the owner is told of each function, and what is left open.
#include "document/functions.h"

#include <gtest/gtest.h>

#include "sheet/sheet_csv.h"
#include "support/reference_rows_air.h"
#include "support/reference_rows_pumps.h"
#include "support/sample_report.h"

namespace ww::document {
namespace {

using testing::SampleReport;

std::map<std::string, FunctionState> statesOf(const SampleReport& sample) {
  std::map<std::string, FunctionState> states;
  for (const auto& function : functionsOf(sample.input())) states[function.call] = function.state;
  return states;
}

FunctionState serviceOf(const SampleReport& sample, Service service) {
  return stateOf(functionsOf(sample.input()), service).value();
}

/// The phrases of the owner's verdict, by key.
std::vector<std::string> verdictOf(const SampleReport& sample) {
  std::vector<std::string> keys;
  const Report report = sample.report();
  for (const auto& node : report.sections.front().nodes)
    if (const auto* box = std::get_if<VerdictBox>(&node))
      for (const auto& sentence : box->sentences) keys.push_back(sentence.key);
  return keys;
}

/// Row A with so long and thin an outdoor cable that the contactor comes late.
sheet::Sheet withLongCable(double metres) {
  sheet::Sheet sheet = testing::rowA();
  sheet::Cable cable = *sheet.cableByName("2");
  cable.gauge.value = 20;
  cable.length = quantity::Metres(metres);
  sheet.cables.put(cable);
  return sheet;
}

TEST(Functions, WorkWhenEveryReadingIsGood) {
  SampleReport sample(testing::rowA());
  sample.readAll();
  const auto states = statesOf(sample);
  ASSERT_EQ(states.size(), 3u) << "fan, cooling and heating; rest is none";
  for (const auto& [call, state] : states) EXPECT_EQ(state, FunctionState::works) << call;
  EXPECT_EQ(verdictOf(sample),
            (std::vector<std::string>{"report.verdict.both.works", "report.verdict.nothing-open"}));
  const ReadingCount count = countReadings(sample.input());
  EXPECT_GT(count.steps, 20);
  EXPECT_EQ(count.steps, count.taken);
  EXPECT_EQ(count.steps, count.good);
}

TEST(Functions, AreNotTestedWithoutReadings) {
  SampleReport sample(testing::rowA());
  for (const auto& [call, state] : statesOf(sample)) EXPECT_EQ(state, FunctionState::notTested) << call;
  EXPECT_EQ(verdictOf(sample),
            (std::vector<std::string>{"report.verdict.both.notTested", "report.verdict.open"}));
  const auto functions = functionsOf(sample.input());
  const auto open = openPoints(sample.input(), functions);
  ASSERT_EQ(open.size(), 3u);
  for (const auto& point : open) EXPECT_NE(point.untested, nullptr);
}

TEST(Functions, ASingleReadingThatIsMissingLeavesTheFunctionUntested) {
  SampleReport sample(testing::rowA());
  sample.readAll();
  std::erase_if(sample.job.readings, [&](const auto& r) { return r.step == sample.voltsIn("cool1").key; });
  const auto states = statesOf(sample);
  EXPECT_EQ(states.at("cool1"), FunctionState::notTested);
  EXPECT_EQ(states.at("heat1"), FunctionState::works);
}

TEST(Functions, DoNotWorkWithAReadingOutside) {
  SampleReport sample(testing::rowA());
  sample.readAll();
  const auto& step = sample.voltsIn("cool1");
  std::erase_if(sample.job.readings, [&](const auto& r) { return r.step == step.key; });
  sample.read(step, -5);
  const auto states = statesOf(sample);
  EXPECT_EQ(states.at("cool1"), FunctionState::doesNotWork);
  EXPECT_EQ(states.at("heat1"), FunctionState::works);
  EXPECT_EQ(verdictOf(sample).front(), "report.verdict.heating.works");
  EXPECT_EQ(verdictOf(sample)[1], "report.verdict.cooling.doesNotWork");
}

TEST(Functions, WorkWithLimitsWhileAReadingAsksToBeTakenAgain) {
  SampleReport sample(testing::rowA());
  sample.readAll();
  const auto& step = sample.voltsIn("cool1");
  std::erase_if(sample.job.readings, [&](const auto& r) { return r.step == step.key; });
  sample.read(step, -2.7);
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::worksWithLimits);
}

TEST(Functions, AreJudgedByTheReadingThatStands) {
  SampleReport sample(testing::rowA());
  sample.readAll();
  const auto& step = sample.voltsIn("cool1");
  std::erase_if(sample.job.readings, [&](const auto& r) { return r.step == step.key; });
  const std::string bad = sample.read(step, -5);
  sample.read(step);
  sample.job.readings.back().supersedes = bad;
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::works) << "taken again";
  const std::string good = sample.job.readings.back().id;
  sample.read(step);
  sample.job.readings.back().supersedes = good;
  sample.job.readings.back().value.reset();
  sample.job.readings.back().struckBecause = "wrong screw";
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::notTested) << "struck out";
}

TEST(Functions, AreJudgedByTheBandOfTheMoment) {
  SampleReport sample(testing::rowA());
  sample.readAll();
  for (auto& reading : sample.job.readings)
    if (reading.step == sample.voltsIn("cool1").key) {
      reading.band->mean += 40;
      reading.band->low += 40;
      reading.band->high += 40;
    }
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::doesNotWork);
}

TEST(Functions, WorkWithLimitsUnderAMarginalFindingUntilItIsAccepted) {
  SampleReport sample(withLongCable(80));
  sample.readAll();
  ASSERT_EQ(sample.findings.size(), 1u);
  ASSERT_EQ(sample.findings[0].rule, "pull-in-late");
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::worksWithLimits);
  EXPECT_EQ(statesOf(sample).at("heat1"), FunctionState::works);
  job::Acceptance acceptance{
      testing::sampleId(500), verify::keyOf(sample.findings[0]), "note", "agreed", "A. Pennick",
      "2026-03-12T11:00Z"};
  sample.job.acceptances = {acceptance};
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::worksWithLimits) << "accepted at another severity";
  sample.job.acceptances[0].severity = "warn";
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::works);
  EXPECT_EQ(verdictOf(sample).back(), "report.verdict.nothing-open");
}

TEST(Functions, AFailureCannotBeAccepted) {
  SampleReport sample(withLongCable(300));
  sample.readAll();
  ASSERT_FALSE(sample.findings.empty());
  const auto& finding = sample.findings.front();
  ASSERT_GE(finding.severity, verify::Severity::fail);
  for (const char* severity : {"fail", "stop", "warn"})
    sample.job.acceptances.push_back({testing::sampleId(500), verify::keyOf(finding), severity, "agreed",
                                      "A. Pennick", "2026-03-12T11:00Z"});
  EXPECT_EQ(statesOf(sample).at("cool1"), FunctionState::doesNotWork);
  EXPECT_EQ(acceptanceOf(sample.job, finding), nullptr);
}

TEST(Functions, WhatStopsTheJobLeadsTheVerdict) {
  SampleReport sample(testing::rowASwapped());
  sample.readAll();
  ASSERT_EQ(sample.findings.front().severity, verify::Severity::stop);
  EXPECT_EQ(statesOf(sample).at("fan"), FunctionState::doesNotWork);
  EXPECT_EQ(verdictOf(sample).front(), "report.verdict.stop");
}

TEST(Functions, OneLeftForTheSeasonDoesNotUnproveTheService) {
  SampleReport sample(testing::rowG());
  sample.readAll();
  std::erase_if(sample.job.readings,
                [&](const auto& r) { return r.step == sample.voltsIn("emergency").key; });
  EXPECT_EQ(statesOf(sample).at("emergency"), FunctionState::notTested);
  EXPECT_EQ(serviceOf(sample, Service::heating), FunctionState::works);
  const auto functions = functionsOf(sample.input());
  const auto open = openPoints(sample.input(), functions);
  ASSERT_EQ(open.size(), 1u);
  ASSERT_NE(open[0].untested, nullptr);
  EXPECT_EQ(open[0].untested->word, "emergency-heat");
  EXPECT_EQ(verdictOf(sample),
            (std::vector<std::string>{"report.verdict.both.works", "report.verdict.open"}));
}

TEST(Functions, GoByPlainNamesOfWhatTheyRun) {
  SampleReport sample(testing::rowG());
  std::map<std::string, std::string> words;
  for (const auto& function : functionsOf(sample.input())) words[function.call] = function.word;
  EXPECT_EQ(words, (std::map<std::string, std::string>{{"fan", "fan"},
                                                       {"cool1", "cooling"},
                                                       {"heat1", "heat-pump-heating"},
                                                       {"heat2", "auxiliary-heat"},
                                                       {"emergency", "emergency-heat"},
                                                       {"defrost", "defrost"}}));
}

TEST(Functions, BelowTheChangeoverTheBurnerHeats) {
  SampleReport sample(*sheet::readCsv(testing::kRowJ, equipment::standardLibrary()).value);
  std::map<std::string, std::string> words;
  for (const auto& function : functionsOf(sample.input())) words[function.call] = function.word;
  EXPECT_EQ(words.at("heat1"), "heat-pump-heating");
  EXPECT_EQ(words.at("cold.heat1"), "heating-when-cold");
}

TEST(Functions, WhileNobodyIsInTheScheduleHasItsOwn) {
  SampleReport sample(*sheet::readCsv(testing::kRowL, equipment::standardLibrary()).value);
  std::map<std::string, std::string> words;
  for (const auto& function : functionsOf(sample.input())) words[function.call] = function.word;
  EXPECT_EQ(words.at("unoccupied.rest"), "shut-while-away");
  EXPECT_EQ(words.at("unoccupied.cool1"), "cooling-while-away");
  EXPECT_EQ(words.at("unoccupied.heat1"), "heating-while-away");
}

TEST(OpenPoints, AreFindingsThenTasksThenWhatIsUntested) {
  SampleReport sample(testing::rowASwapped());
  sample.job.openItems.push_back({testing::sampleId(600), "Label the strip", "J. Tamsin", "2026-04-01"});
  const auto functions = functionsOf(sample.input());
  const auto open = openPoints(sample.input(), functions);
  ASSERT_GE(open.size(), 3u);
  EXPECT_TRUE(open.front().finding);
  EXPECT_EQ(open.back().finding.has_value(), false);
  EXPECT_NE(open.back().untested, nullptr);
  EXPECT_EQ(std::count_if(open.begin(), open.end(), [](const auto& point) { return point.item != nullptr; }),
            1);
}

}  // namespace
}  // namespace ww::document
