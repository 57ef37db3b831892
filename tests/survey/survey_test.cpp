// SPDX-License-Identifier: GPL-3.0-or-later
#include "survey/survey.h"

#include <gmock/gmock.h>

namespace ww::survey {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// A furnace with cooling, as most houses have it.
Answers plain() {
  return {{"conductors", "thin"}, {"volts", "upTo30"},  {"signals", "onOff"},
          {"circuits", "known"},  {"inverter", "none"}, {"apart", "none"}};
}

Answers with(Answers answers, const std::string& question, const std::string& answer) {
  answers[question] = answer;
  return answers;
}

/// A kind of system as a person finds it, by the letter of its row.
struct Row {
  const char* row;
  Answers found;
  std::vector<std::string> refusals, notes;
  friend void PrintTo(const Row& row, std::ostream* out) { *out << row.row; }
};

class Rows : public ::testing::TestWithParam<Row> {};

TEST_P(Rows, passOrAreRefused) {
  ASSERT_TRUE(complete(GetParam().found));
  EXPECT_EQ(verdictOf(GetParam().found).refusals, GetParam().refusals);
  EXPECT_EQ(verdictOf(GetParam().found).notes, GetParam().notes);
}

// Kinds with a boiler or an oil burner close a dry pair; the millivolt heater makes its own volts.
INSTANTIATE_TEST_SUITE_P(
    AtoR, Rows,
    ::testing::Values(
        Row{"A", plain(), {}, {}}, Row{"B", plain(), {}, {}}, Row{"C", plain(), {}, {}},
        Row{"D", plain(), {}, {}}, Row{"E", with(plain(), "apart", "dryPair"), {}, {"dryPairApart"}},
        Row{"F", plain(), {}, {}}, Row{"G", plain(), {}, {}}, Row{"H", plain(), {}, {}},
        Row{"I", plain(), {}, {}}, Row{"J", plain(), {}, {}},
        Row{"K", with(plain(), "apart", "dryPair"), {}, {"dryPairApart"}}, Row{"L", plain(), {}, {}},
        Row{"M", with(plain(), "apart", "thermopile"), {}, {"thermopileApart"}}, Row{"N", plain(), {}, {}},
        Row{"O", with(plain(), "apart", "dryPair"), {}, {"dryPairApart"}}, Row{"P", plain(), {}, {}},
        Row{"Q", plain(), {}, {}}, Row{"R", with(plain(), "inverter", "interface"), {}, {"inverterDemand"}}),
    [](const auto& row) { return std::string(row.param.row); });

INSTANTIATE_TEST_SUITE_P(
    S, Rows,
    ::testing::Values(Row{"thick", with(plain(), "conductors", "thick"), {"lineVoltage"}, {}},
                      Row{"over30", with(plain(), "volts", "over30"), {"lineVoltage"}, {}},
                      Row{"data", with(plain(), "signals", "data"), {"dataBus"}, {}},
                      Row{"inverter", with(plain(), "inverter", "without"), {"dataBus"}, {}},
                      Row{"modulating", with(plain(), "signals", "modulating"), {"modulating"}, {}},
                      Row{"unknownSignals", with(plain(), "signals", "notKnown"), {"unknown"}, {}},
                      Row{"unknownCircuits", with(plain(), "circuits", "unknown"), {"unknown"}, {}}),
    [](const auto& row) { return std::string(row.param.row); });

TEST(Survey, everyReasonIsToldOnce) {
  Answers all = plain();
  for (const auto& [question, answer] :
       {std::pair("conductors", "thick"), std::pair("volts", "over30"), std::pair("signals", "data"),
        std::pair("inverter", "without"), std::pair("circuits", "unknown")})
    all[question] = answer;
  EXPECT_THAT(verdictOf(all).refusals, ElementsAre("lineVoltage", "dataBus", "unknown"));
}

TEST(Survey, oneAnswerThatRefusesIsEnough) {
  EXPECT_THAT(verdictOf({{"volts", "over30"}}).refusals, ElementsAre("lineVoltage"));
  EXPECT_THAT(verdictOf({}).refusals, IsEmpty());
  EXPECT_FALSE(complete({}));
}

TEST(Survey, voltsMayBeReadLater) {
  EXPECT_THAT(verdictOf(with(plain(), "volts", "notRead")).refusals, IsEmpty());
  EXPECT_THAT(verdictOf(with(plain(), "volts", "notRead")).notes, ElementsAre("voltsNotRead"));
}

TEST(Survey, isCompleteWithOneKnownAnswerToEachQuestion) {
  EXPECT_TRUE(complete(plain()));
  EXPECT_FALSE(complete(with(plain(), "volts", "some")));
  EXPECT_FALSE(complete(with(plain(), "weather", "fine")));
  for (const Question& question : questions()) {
    Answers missing = plain();
    missing.erase(std::string(question.id));
    EXPECT_FALSE(complete(missing)) << question.id;
  }
}

}  // namespace
}  // namespace ww::survey
