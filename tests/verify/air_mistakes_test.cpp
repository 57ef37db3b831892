// SPDX-License-Identifier: GPL-3.0-or-later
// Mistakes that are made with cooling alone, heating alone, two stages, condensing furnaces and rooftop
// units: which are made is common practice, no source; what each does follows from the circuit. Each is found
// first, and what is proposed first cures it for no more than undoing it costs.
#include <gmock/gmock.h>

#include <random>

#include "sheet/sheet_csv.h"
#include "support/installation.h"
#include "support/reference_rows_air.h"
#include "verify/forbidden.h"
#include "verify/mends.h"

namespace ww::verify {
namespace {

using testing::edited;
using testing::kRowC;
using testing::kRowD;
using testing::kRowF;
using testing::kRowL;
using testing::sheetOf;
using testing::with;

const equipment::Library& library() { return equipment::standardLibrary(); }

SheetCheck checked(const sheet::Sheet& sheet) {
  return check(sheet, operation::solveSheet(sheet, library()));
}

bool clean(const SheetCheck& check) {
  return check.findings.empty() || check.findings.front().severity == Severity::note;
}

using Edits = std::vector<std::pair<const char*, const char*>>;

std::string editedAll(std::string csv, const Edits& edits) {
  for (const auto& [piece, by] : edits) csv = edited(csv, piece, by);
  return csv;
}

/// Furnace and cooling with a float in the cooling call alone.
const std::string kFloatInYellow =
    editedAll(kRowF, {{"#unit,O,od-cool-2", "#unit,S,float-switch,Float,Closet\n#unit,O,od-cool-2"},
                      {"YE,T,Y1,F,Y1", "YE,T,Y1,F,/S1"}}) +
    "3,18,2,1,m,RD,F,/S1,S,A,\n3,18,2,1,m,WH,F,Y1,S,B,\n";

const std::string kSmoke = with(kRowL, "#unit,D,smoke-shutdown,Smoke detector,Duct\n#set,U.jumperSd,out\n",
                                "2,18,2,3,m,RD,U,SD1,D,A,\n2,18,2,3,m,WH,U,SD2,D,B,\n");

TEST(AirMistakes, HealthyRowsHaveNothing) {
  for (const std::string& row :
       {kRowC, kRowD, kRowF, kRowL, edited(kRowF, "F,furnace-2", "F,furnace-2-condensing"),
        edited(kRowD, "F,furnace-1", "F,furnace-1-condensing"), kFloatInYellow, kSmoke})
    for (const Finding& finding : checked(sheetOf(row)).findings)
      ADD_FAILURE() << keyOf(finding) << "\n" << row;
}

struct Mistake {
  const char* name;
  std::string row;
  Edits edits;
  const char* first;  ///< rule of the first finding
  int cost;           ///< of undoing it; moving a float takes three ends
};

std::ostream& operator<<(std::ostream& out, const Mistake& mistake) { return out << mistake.name; }

class AirMistakes : public ::testing::TestWithParam<Mistake> {};

TEST_P(AirMistakes, AreFoundAndCured) {
  const Mistake& mistake = GetParam();
  const sheet::Sheet sheet = sheetOf(editedAll(mistake.row, mistake.edits));
  const SheetCheck before = checked(sheet);
  ASSERT_FALSE(before.findings.empty());
  EXPECT_EQ(before.findings.front().rule, mistake.first);
  const auto mends = searchMends(sheet, library(), before);
  ASSERT_FALSE(mends.empty());
  EXPECT_LE(mends.front().cost, mistake.cost);
  EXPECT_TRUE(clean(checked(edited(sheet, mends.front().edits))));
  EXPECT_EQ(mends.front().clears.size(), mends.front().of);
  EXPECT_TRUE(mends.front().allCallsRight);
}

const Edits kOneStageControl{{"T,rc-2h2c", "T,rc-1h1c-common"}, {"YE,T,Y1", "YE,T,Y"},
                             {"BK,T,Y2,F,Y2", "BK,T,*,F,*"},    {"WH,T,W1", "WH,T,W"},
                             {"BN,T,W2,F,W2", "BN,T,*,F,*"},    {"O,od-cool-2", "O,od-cool-1"},
                             {"F,Y1,O,Y1", "F,Y1,O,Y"},         {"BK,F,Y2,O,Y2", "BK,F,*,O,*"}};

INSTANTIATE_TEST_SUITE_P(
    Rows, AirMistakes,
    ::testing::Values(
        Mistake{"CHeatOnTheFanScrew", kRowC, {{"WH,T,*,A,*,spare", "WH,T,W,A,G,"}}, "heat-impossible", 2},
        Mistake{"CFanAndCoolExchanged",
                kRowC,
                {{"YE,T,Y,A,Y", "YE,T,Y,A,G"}, {"GN,T,G,A,G", "GN,T,G,A,Y"}},
                "compressor-without-blower",
                1},
        Mistake{"COutdoorCommonOnTheCoolScrew", kRowC, {{"BU,A,C,O,C", "BU,A,Y,O,C"}}, "common-missing", 1},
        Mistake{"CNoCommon", kRowC, {{"BU,T,C,A,C", "BU,T,*,A,*"}}, "no-common", 2},
        Mistake{"DHeatOnTheFanScrew", kRowD, {{"WH,T,W,F,W", "WH,T,W,F,G"}}, "duty-wrong", 1},
        Mistake{"DHeatOnTheCoolScrew", kRowD, {{"WH,T,W,F,W", "WH,T,W,F,Y"}}, "call-dead", 1},
        Mistake{"DJumpered",
                kRowD,
                {{"\n1,18,2,15,m,RD", "\n,,,,,RD,F,R,F,W,\n1,18,2,15,m,RD"}},
                "load-at-rest",
                1},
        Mistake{"DControlWantsCommon", kRowD, {{"rc-heat-only-2wire", "rc-1h1c-common"}}, "no-common", 10},
        Mistake{"FHeatStagesExchanged",
                kRowF,
                {{"WH,T,W1,F,W1", "WH,T,W1,F,W2"}, {"BN,T,W2,F,W2", "BN,T,W2,F,W1"}},
                "call-dead",
                1},
        Mistake{"FCoolStagesExchangedOutdoors",
                kRowF,
                {{"YE,F,Y1,O,Y1", "YE,F,Y1,O,Y2"}, {"BK,F,Y2,O,Y2", "BK,F,Y2,O,Y1"}},
                "duty-wrong",
                1},
        Mistake{"FCoolStagesExchangedIndoors",
                kRowF,
                {{"YE,T,Y1,F,Y1", "YE,T,Y1,F,Y2"}, {"BK,T,Y2,F,Y2", "BK,T,Y2,F,Y1"}},
                "duty-wrong",
                1},
        Mistake{"FSecondCoolStageAlone", kRowF, {{"YE,F,Y1,O,Y1", "YE,F,Y1,O,"}}, "duty-wrong", 1},
        Mistake{"FFanConductorOff", kRowF, {{"GN,T,G,F,G", "GN,T,G,F,"}}, "compressor-without-blower", 1},
        Mistake{"FControlOfOneStage", kRowF, kOneStageControl, "stage-orphan", 1},
        Mistake{"FFloatInTheCallOfACondensingFurnace",
                kFloatInYellow,
                {{"F,furnace-2", "F,furnace-2-condensing"}},
                "condensate-heat-side",
                3},
        Mistake{"LSmokeContactBridged", kSmoke, {{"jumperSd,out", "jumperSd,in"}}, "safety-bypassed", 2},
        Mistake{"LNeitherJumperNorContact", with(kRowL, "#set,U.jumperSd,out\n", ""), {}, "call-dead", 2},
        Mistake{"LOccupiedNotLanded", kRowL, {{"OG,T,OC,U,OC", "OG,T,*,U,*"}}, "fresh-air-shut", 2},
        Mistake{"LOccupiedAndFanExchanged",
                kRowL,
                {{"OG,T,OC,U,OC", "OG,T,OC,U,G"}, {"GN,T,G,U,G", "GN,T,G,U,OC"}},
                "duty-wrong",
                1},
        Mistake{"LCoolStagesExchanged",
                kRowL,
                {{"YE,T,Y1,U,Y1", "YE,T,Y1,U,Y2"}, {"BK,T,Y2,U,Y2", "BK,T,Y2,U,Y1"}},
                "duty-wrong",
                1},
        Mistake{"LHeatStagesExchanged",
                kRowL,
                {{"WH,T,W1,U,W1", "WH,T,W1,U,W2"}, {"BN,T,W2,U,W2", "BN,T,W2,U,W1"}},
                "call-dead",
                1},
        Mistake{
            "LWrongTap", with(kRowL, "#set,lineVolts,240\n#set,U.tap,208\n", ""), {}, "over-30-volts", 1}),
    [](const auto& mistake) { return mistake.param.name; });

std::vector<std::string> rulesOf(const std::string& csv) {
  std::vector<std::string> rules;
  for (const Finding& finding : checked(sheetOf(csv)).findings) rules.push_back(finding.rule);
  return rules;
}

TEST(AirMistakes, WaysToACommonFollowTheControlThatNeedsNone) {
  const sheet::Sheet sheet = sheetOf(edited(kRowD, "rc-heat-only-2wire", "rc-1h1c-common"));
  const auto mends = searchMends(sheet, library(), checked(sheet));
  ASSERT_GE(mends.size(), 4U);
  EXPECT_EQ(mends[0].edits[0].kind, Edit::Kind::exchange);
  EXPECT_EQ(mends[0].edits[0].value, "rc-heat-only-2wire");
  std::vector<CommonWay::Kind> ways;
  for (const Mend& mend : mends)
    if (mend.way) {
      ways.push_back(mend.way->way.kind);
      EXPECT_TRUE(mend.edits.empty()) << "hardware";
      EXPECT_EQ(mend.clears, std::vector<std::string>{"no-common/u1.C"});
    }
  using Kind = CommonWay::Kind;
  // A control of one call has no two that could share a conductor.
  EXPECT_THAT(ways, ::testing::ElementsAre(Kind::newCable, Kind::ownTransformer, Kind::isolationRelay));
}

TEST(AirMistakes, AFloatIsBroughtIntoTheHotOfTheControl) {
  const sheet::Sheet sheet = sheetOf(edited(kFloatInYellow, "F,furnace-2", "F,furnace-2-condensing"));
  const auto mends = searchMends(sheet, library(), checked(sheet));
  ASSERT_FALSE(mends.empty());
  const sheet::Sheet after = edited(sheet, mends.front().edits);
  const sheet::Sheet wanted = sheetOf(editedAll(kFloatInYellow, {{"F,furnace-2", "F,furnace-2-condensing"},
                                                                 {"YE,T,Y1,F,/S1", "YE,T,Y1,F,Y1"},
                                                                 {"RD,T,R,F,R", "RD,T,R,F,/S1"},
                                                                 {"WH,F,Y1,S,B", "WH,F,R,S,B"}}));
  EXPECT_EQ(after.conductors, wanted.conductors);
}

TEST(AirMistakes, AStageConductorAtABoardThatTimesItIsANote) {
  const std::string row = edited(kRowF, "stagedBy,control", "stagedBy,board");
  EXPECT_THAT(rulesOf(row), ::testing::ElementsAre("stage-by-board"));
  EXPECT_EQ(severityOf("stage-by-board"), Severity::note);
  EXPECT_THAT(rulesOf(edited(row, "BN,T,W2,F,W2", "BN,T,*,F,*")), ::testing::IsEmpty());
}

TEST(AirMistakes, ABridgedOccupiedInputLetsAirIn) {
  EXPECT_THAT(rulesOf(edited(kRowL, "1,18,8,45,m,OG,T,OC,U,OC", ",,,,,RD,U,R,U,OC,\n1,18,8,45,m,OG,T,*,U,*")),
              ::testing::IsEmpty());
}

TEST(AirMistakes, AFloatInTheHeatingCallOrTheHotStopsACondensingFurnace) {
  const std::string row = edited(kFloatInYellow, "F,furnace-2", "F,furnace-2-condensing");
  const std::string inHot = editedAll(
      row,
      {{"YE,T,Y1,F,/S1", "YE,T,Y1,F,Y1"}, {"RD,T,R,F,R", "RD,T,R,F,/S1"}, {"WH,F,Y1,S,B", "WH,F,R,S,B"}});
  EXPECT_THAT(rulesOf(inHot), ::testing::Not(::testing::Contains("condensate-heat-side")));
}

TEST(AirMistakes, TheJumperGoesBackForNoMendWhileTheContactIsWired) {
  const Protected guard(asbuilt::compile(sheetOf(kSmoke), library()));
  const auto broken =
      guard.broken(asbuilt::compile(sheetOf(edited(kSmoke, "jumperSd,out", "jumperSd,in")), library()));
  ASSERT_TRUE(broken);
  EXPECT_EQ(broken->why, Forbidden::Why::safety);
}

TEST(AirMistakes, ABridgeIsTakenAwayOnlyWhereTheContactThenStopsTheUnit) {
  const std::string bridged = edited(kSmoke, "jumperSd,out", "jumperSd,in");
  const Protected guard(asbuilt::compile(sheetOf(bridged), library()));
  EXPECT_FALSE(guard.broken(asbuilt::compile(sheetOf(kSmoke), library())));
  // The contact in the fan's call: no longer bridged, and the unit burns on in smoke.
  const std::string inFan =
      editedAll(bridged, {{"RD,U,SD1,D,A", "RD,U,G,D,A"}, {"GN,T,G,U,G", "GN,T,G,U,SD1"}});
  const auto broken = guard.broken(asbuilt::compile(sheetOf(inFan), library()));
  ASSERT_TRUE(broken);
  EXPECT_EQ(broken->why, Forbidden::Why::safety);
}

/// One or two ends moved, exchanged or dropped at random.
sheet::Sheet planted(sheet::Sheet sheet, std::mt19937& random, int edits) {
  const auto pick = [&](size_t count) { return size_t(random() % count); };
  for (; edits > 0; --edits) {
    const std::vector<sheet::Conductor> rows = sheet.conductors.rows();
    sheet::Conductor wire = rows[pick(rows.size())];
    const bool atA = pick(2) == 0;
    sheet::Landing& end = atA ? wire.endA : wire.endB;
    const auto* cable = sheet.cables.find(*wire.cable);
    const auto unit = atA ? cable->endA : cable->endB;
    const auto& terminals = library().find(sheet.units.find(unit)->profile)->terminals;
    sheet::Conductor other = rows[pick(rows.size())];
    switch (pick(3)) {
      case 0: end = sheet::TerminalRef{unit, terminals[pick(terminals.size())].id}; break;
      case 1:
        if (other.cable != wire.cable || other.id == wire.id) continue;
        std::swap(end, atA ? other.endA : other.endB);
        sheet.conductors.put(other);
        break;
      default: end = sheet::Loose{};
    }
    sheet.conductors.put(wire);
  }
  return sheet;
}

TEST(AirMistakes, PlantedOnesAreCuredForNoMoreThanUndoingThem) {
  const std::array<sheet::Sheet, 4> rows{sheetOf(kRowC), sheetOf(kRowD), sheetOf(kRowF), sheetOf(kRowL)};
  int faulty = 0;
  for (unsigned seed = 1; seed <= 80; ++seed) {
    std::mt19937 random(seed);
    const int edits = 1 + int(seed / 4 % 2);
    const sheet::Sheet sheet = planted(rows[seed % 4], random, edits);
    const SheetCheck before = checked(sheet);
    if (clean(before)) continue;
    ++faulty;
    const auto mends = searchMends(sheet, library(), before);
    ASSERT_FALSE(mends.empty()) << seed;
    EXPECT_LE(mends.front().cost, edits) << seed;
    EXPECT_TRUE(clean(checked(edited(sheet, mends.front().edits)))) << seed;
  }
  EXPECT_GT(faulty, 45);
}

}  // namespace
}  // namespace ww::verify
