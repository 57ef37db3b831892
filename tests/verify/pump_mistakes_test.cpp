// SPDX-License-Identifier: GPL-3.0-or-later
// Mistakes that are made with heat pumps: which are made is common practice, no source; what each does
// follows from the circuit. The first mend of each leaves nothing above a note.
#include <gmock/gmock.h>

#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_pumps.h"
#include "verify/check.h"
#include "verify/mends.h"

namespace ww::verify {
namespace {

using testing::edited;
using testing::kRowH;
using testing::kRowI;
using testing::kRowJ;
using testing::kRowJWithKit;
using testing::kRowR;

const equipment::Library& library() { return equipment::standardLibrary(); }

sheet::Sheet sheetOf(const std::string& csv) {
  const auto sheet = sheet::readCsv(csv, library());
  for (const auto& problem : sheet.problems) ADD_FAILURE() << problem.where << " " << problem.key;
  return sheet.value.value_or(sheet::Sheet{});
}

SheetCheck checked(const sheet::Sheet& sheet) {
  return check(sheet, operation::solveSheet(sheet, library()));
}

bool aboveNote(const Finding& finding) { return finding.severity > Severity::note; }

TEST(PumpMistakes, HealthyRowsHaveNothingAboveANote) {
  for (const auto* row : {&kRowH, &kRowI, &kRowJ, &kRowJWithKit, &kRowR})
    for (const Finding& finding : checked(sheetOf(*row)).findings) {
      EXPECT_FALSE(aboveNote(finding)) << keyOf(finding) << "\n" << *row;
      EXPECT_EQ(finding.rule, "demand-only") << "of the notes only this one belongs to a right wiring";
    }
}

using Edits = std::vector<std::pair<const char*, const char*>>;

struct Mistake {
  const char* name;
  const std::string* row;
  Edits edits;
  const char* first;  ///< rule of the first finding
  const char* call;   ///< that it speaks of
  int cost;           ///< of undoing it
};

std::ostream& operator<<(std::ostream& out, const Mistake& mistake) { return out << mistake.name; }

std::string wrong(const std::string& row, const Edits& edits) {
  std::string csv = row;
  for (const auto& [piece, by] : edits) csv = edited(csv, piece, by);
  return csv;
}

class PumpMistakes : public ::testing::TestWithParam<Mistake> {};

TEST_P(PumpMistakes, AreFoundAndMended) {
  const sheet::Sheet sheet = sheetOf(wrong(*GetParam().row, GetParam().edits));
  const SheetCheck before = checked(sheet);
  ASSERT_FALSE(before.findings.empty());
  EXPECT_EQ(before.findings.front().rule, GetParam().first);
  EXPECT_EQ(before.findings.front().places.front().call, GetParam().call);
  const auto mends = searchMends(sheet, library(), before);
  ASSERT_FALSE(mends.empty());
  EXPECT_LE(mends.front().cost, GetParam().cost);
  EXPECT_TRUE(mends.front().allCallsRight);
  for (const Finding& finding : checked(edited(sheet, mends.front().edits)).findings)
    EXPECT_FALSE(aboveNote(finding)) << keyOf(finding);
}

INSTANTIATE_TEST_SUITE_P(
    Rows, PumpMistakes,
    ::testing::Values(
        Mistake{"HValveWireOnTheCommonCalledB",
                &kRowH,
                {{"#set,rvSense", "#set,O.bIsCommon,on\n#set,rvSense"}},
                "short-in-call",
                "defrost",
                2},
        Mistake{
            "HSenseOfTheOtherKind", &kRowH, {{"rvSense,heating", "rvSense,cooling"}}, "rv-sense", "cool1", 1},
        Mistake{"HValveAndFirstStageExchanged",
                &kRowH,
                {{"YE,A,Y1,O,Y1", "YE,A,Y1,O,B"}, {"OG,A,O,O,B", "OG,A,O,O,Y1"}},
                "duty-wrong",
                "cool1",
                1},
        Mistake{"IStagesExchangedOutdoors",
                &kRowI,
                {{"YE,A,Y1,O,Y1", "YE,A,Y1,O,Y2"}, {"BK,A,Y2,O,Y2", "BK,A,Y2,O,Y1"}},
                "duty-wrong",
                "cool1",
                1},
        Mistake{
            "IDefrostHeatLost", &kRowI, {{"WH,A,W1,O,W", "WH,A,*,O,*"}}, "defrost-untempered", "defrost", 2},
        Mistake{"IEmergencyOnTheTieWithoutJumper",
                &kRowI,
                {{"BN,T,E,A,W2", "BN,T,E,A,E"}, {"emergencyBy,W2+E", "emergencyBy,E"}},
                "call-dead",
                "emergency",
                2},
        Mistake{"ISecondStageNotWired", &kRowI, {{"BK,A,Y2,O,Y2", "BK,A,*,O,*"}}, "duty-wrong", "cool2", 2},
        Mistake{"JControlDoesNotChangeOver",
                &kRowJ,
                {{"dualFuel,outdoor", "dualFuel,off"}},
                "compressor-with-burner",
                "heat2",
                1},
        Mistake{"JValveNotLanded", &kRowJ, {{"OG,F,/S1,O,O", "OG,F,/S1,O,*"}}, "rv-sense", "cool1", 1},
        Mistake{
            "JDefrostHeatLost", &kRowJ, {{"WH,F,W,O,W", "WH,F,*,O,*"}}, "defrost-untempered", "defrost", 2},
        Mistake{"JKitDefrostHeatOnTheCall",
                &kRowJWithKit,
                {{"WH,K,DW,O,W", "WH,K,W2,O,W"}},
                "duty-wrong",
                "defrost",
                1},
        Mistake{"JKitDoesNotSeeTheValve",
                &kRowJWithKit,
                {{"OG,T,RV,K,O", "OG,T,RV,K,/S"}, {"OG,K,O,O,O", "OG,K,/S,O,O"}},
                "burner-in-cooling",
                "cold.cool1",
                2},
        Mistake{"JKitByPassedOutdoors",
                &kRowJWithKit,
                {{"YE,K,YO,O,Y1", "YE,K,Y,O,Y1"}},
                "compressor-with-burner",
                "cold.heat1",
                1},
        Mistake{"JKitOfTheOtherSense",
                &kRowJWithKit,
                {{"#set,rvSense,cooling", "#set,T.rvSense,cooling\n#set,K.rvSense,heating"}},
                "duty-wrong",
                "cold.heat1",
                1},
        Mistake{"RSupplyNotLanded", &kRowR, {{"RD,A,R,O,R", "RD,A,*,O,*"}}, "duty-wrong", "cool1", 2},
        Mistake{"RSecondDemandAlone", &kRowR, {{"YE,A,Y1,O,Y1", "YE,A,*,O,*"}}, "duty-wrong", "cool1", 2},
        Mistake{"RValveNotLanded", &kRowR, {{"OG,A,O,O,O", "OG,A,*,O,*"}}, "rv-sense", "cool1", 2}),
    [](const auto& mistake) { return mistake.param.name; });

std::vector<std::string> callsWith(const SheetCheck& check, const std::string& rule) {
  std::vector<std::string> calls;
  for (const Finding& finding : check.findings)
    if (finding.rule == rule) calls.push_back(finding.places.front().call);
  return calls;
}

TEST(PumpMistakes, ABThatIsTheCommonShortsOnlyWhereTheValveIsCalled) {
  const std::string tied = edited(kRowH, "#set,rvSense", "#set,O.bIsCommon,on\n#set,rvSense");
  EXPECT_THAT(callsWith(checked(sheetOf(tied)), "short-in-call"),
              ::testing::UnorderedElementsAre("heat1", "heat2", "defrost"));
  EXPECT_THAT(
      callsWith(checked(sheetOf(edited(tied, "rvSense,heating", "rvSense,cooling"))), "short-in-call"),
      ::testing::ElementsAre("cool1"));
  const std::string right =
      edited(edited(tied, "rvSense,heating", "rvSense,cooling"), "OG,A,O,O,B", "OG,A,O,O,O");
  EXPECT_TRUE(checked(sheetOf(right)).findings.empty()) << "its valve is on O";
}

TEST(PumpMistakes, ASmallTransformerIsHeavilyLoadedInDefrost) {
  const auto findings = checked(sheetOf(edited(kRowJ, "F.transformer,XF50", "F.transformer,XF40"))).findings;
  ASSERT_EQ(findings.size(), 1U);
  EXPECT_EQ(findings[0].rule, "va-high");
  EXPECT_EQ(findings[0].places.front().call, "defrost");
  for (const auto& argument : findings[0].arguments)
    if (argument.name == "percent") {
      EXPECT_NEAR(std::get<Percent>(argument.figure).value, 89, 0.5);
    }
}

/// With its conductors landed, and with spares in their place.
TEST(PumpMistakes, AControlThatCountsOneStageIsSetToTwo) {
  const std::string counted = edited(kRowI, "compressorStages,2", "compressorStages,1");
  const std::string spares = wrong(counted, {{"BK,T,Y2,A,Y2", "BK,T,*,A,*"}, {"BK,A,Y2,O,Y2", "BK,A,*,O,*"}});
  for (const auto& [csv, cost] : {std::pair(counted, 1), std::pair(spares, 5)}) {
    const sheet::Sheet sheet = sheetOf(csv);
    const SheetCheck before = checked(sheet);
    ASSERT_FALSE(before.findings.empty());
    EXPECT_EQ(before.findings.front().rule, "stage-orphan");
    const auto mends = searchMends(sheet, library(), before);
    ASSERT_FALSE(mends.empty());
    EXPECT_EQ(mends.front().cost, cost);
    EXPECT_EQ(mends.front().edits.front().key, "compressorStages");
    const sheet::Sheet after = edited(sheet, mends.front().edits);
    for (const Finding& finding : checked(after).findings) EXPECT_FALSE(aboveNote(finding)) << keyOf(finding);
  }
}

}  // namespace
}  // namespace ww::verify
