// SPDX-License-Identifier: GPL-3.0-or-later
// Every rule of the sheet check is provoked once; the healthy rows provoke none. What a mistake does follows
// from the circuit; which mistakes are made is common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "verify/check.h"

namespace ww::verify {
namespace {

using testing::edited;
using testing::kRowA;
using testing::kRowB;
using testing::kRowG;

SheetCheck checkOf(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(csv, library);
  EXPECT_TRUE(sheet) << (sheet.problems.empty() ? "" : sheet.problems[0].where + " " + sheet.problems[0].key);
  if (!sheet) return {};
  return check(*sheet.value, operation::solveSheet(*sheet.value, library));
}

std::vector<std::string> rulesOf(const SheetCheck& check) {
  std::vector<std::string> rules;
  for (const auto& finding : check.findings) rules.push_back(finding.rule);
  return rules;
}

const Finding* findingOf(const SheetCheck& check, const std::string& rule) {
  for (const auto& finding : check.findings)
    if (finding.rule == rule) return &finding;
  return nullptr;
}

const CallVerdict* verdictOf(const SheetCheck& check, const std::string& call) {
  for (const auto& verdict : check.calls)
    if (verdict.call == call) return &verdict;
  return nullptr;
}

TEST(Findings, HealthyRowsHaveNone) {
  for (const auto* row : {&kRowA, &kRowB, &kRowG}) {
    const SheetCheck check = checkOf(*row);
    EXPECT_THAT(rulesOf(check), ::testing::IsEmpty());
    for (const auto& call : check.calls) EXPECT_TRUE(call.ok) << call.call;
  }
}

TEST(Findings, LockOutsThatMeetOrOverlapLeaveNoGap) {
  const auto rules = [](const char* settings) {
    return rulesOf(
        checkOf(edited(kRowG, "#set,rvSense,cooling", std::string("#set,rvSense,cooling\n") + settings)));
  };
  EXPECT_THAT(rules("#set,auxiliaryAbove,2\n#set,compressorBelow,2"), ::testing::IsEmpty());
  EXPECT_THAT(rules("#set,auxiliaryAbove,5\n#set,T.compressorBelow,-15"), ::testing::IsEmpty());
  EXPECT_THAT(rules("#set,auxiliaryAbove,-5"), ::testing::IsEmpty()) << "the compressor may always run";
  EXPECT_THAT(rules("#set,compressorBelow,2"), ::testing::IsEmpty());
}

struct Provocation {
  const char* name;
  const std::string* row;
  std::vector<std::pair<const char*, const char*>> edits;
  const char* rule;   // must be found
  const char* first;  // must be the first finding; null: does not matter
};

/// The name of the test.
std::ostream& operator<<(std::ostream& out, const Provocation& provocation) {
  return out << provocation.name;
}

class Provoked : public ::testing::TestWithParam<Provocation> {};

TEST_P(Provoked, IsFound) {
  std::string csv = *GetParam().row;
  for (const auto& [piece, by] : GetParam().edits) csv = edited(csv, piece, by);
  const SheetCheck check = checkOf(csv);
  EXPECT_THAT(rulesOf(check), ::testing::Contains(GetParam().rule));
  if (GetParam().first != nullptr) {
    ASSERT_FALSE(check.findings.empty());
    EXPECT_EQ(check.findings.front().rule, GetParam().first);
  }
}

const char* const kSecondFurnace = "#unit,F,furnace-1\n#unit,X,furnace-1";

INSTANTIATE_TEST_SUITE_P(
    Rules, Provoked,
    ::testing::Values(
        Provocation{"YAndGSwapped",
                    &kRowA,
                    {{"YE,T,Y,F,Y", "YE,T,Y,F,G"}, {"GN,T,G,F,G", "GN,T,G,F,Y"}},
                    "compressor-without-blower",
                    "compressor-without-blower"},
        Provocation{"YAndWSwapped",
                    &kRowA,
                    {{"YE,T,Y,F,Y", "YE,T,Y,F,W"}, {"WH,T,W,F,W", "WH,T,W,F,Y"}},
                    "compressor-without-blower",
                    "compressor-without-blower"},
        Provocation{"ValveSense", &kRowG, {{"rvSense,cooling", "rvSense,heating"}}, "rv-sense", "rv-sense"},
        Provocation{"NoHeatInSomeWeather",
                    &kRowG,
                    {{"rvSense,cooling", "rvSense,cooling\n#set,auxiliaryAbove,-5\n#set,compressorBelow,2"}},
                    "lock-out-gap",
                    "lock-out-gap"},
        Provocation{
            "FanWireOff", &kRowB, {{"GN,T,G,A,G", "GN,T,G,A,"}}, "call-dead", "compressor-without-blower"},
        Provocation{"HeatWireOff", &kRowA, {{"WH,T,W,F,W", "WH,T,W,F,"}}, "call-dead", nullptr},
        Provocation{"BothCoilEndsOnY", &kRowA, {{"BU,F,C,O,C", "BU,F,Y,O,C"}}, "duty-wrong", nullptr},
        Provocation{"FanJumpered",
                    &kRowB,
                    {{"2,18,2,9,m,YE", ",,,,,RD,A,R,A,G,\n2,18,2,9,m,YE"}},
                    "load-at-rest",
                    "load-at-rest"},
        Provocation{"NoCommon", &kRowA, {{"BU,T,C,F,C", "BU,T,,F,C"}}, "no-common", nullptr},
        Provocation{"CommonMissing", &kRowA, {{"BU,F,C,O,C", "BU,F,C,O,"}}, "common-missing", nullptr},
        Provocation{"Polarity",
                    &kRowA,
                    {{"YE,F,Y,O,Y", "YE,F,Y,O,C"}, {"BU,F,C,O,C", "BU,F,C,O,Y"}},
                    "polarity",
                    "polarity"},
        Provocation{"HotToCommon",
                    &kRowA,
                    {{"2,18,2,12,m,YE", ",,,,,RD,F,R,F,C,\n2,18,2,12,m,YE"}},
                    "short-at-rest",
                    "short-at-rest"},
        Provocation{"YToCommon",
                    &kRowA,
                    {{"2,18,2,12,m,YE", ",,,,,RD,F,Y,F,C,\n2,18,2,12,m,YE"}},
                    "short-in-call",
                    "short-in-call"},
        Provocation{"WrongTap",
                    &kRowA,
                    {{"#set,fanWithHeat,equipment", "#set,lineVolts,240\n#set,F.tap,208"}},
                    "over-30-volts",
                    "over-30-volts"},
        Provocation{"LongThinCable",
                    &kRowA,
                    {{"2,18,2,12,m,YE", "2,20,2,75,m,YE"}, {"2,18,2,12,m,BU", "2,20,2,75,m,BU"}},
                    "pull-in-late",
                    "pull-in-late"},
        Provocation{"FarTooLongCable",
                    &kRowA,
                    {{"2,18,2,12,m,YE", "2,22,2,150,m,YE"}, {"2,18,2,12,m,BU", "2,22,2,150,m,BU"}},
                    "pull-in-never",
                    nullptr},
        Provocation{"NoInterlock",
                    &kRowB,
                    {{"interlock,on", "interlock,off"}},
                    "element-without-blower",
                    "element-without-blower"},
        Provocation{"YNotAtTheBoard",
                    &kRowA,
                    {{"YE,T,Y,F,Y", "YE,T,Y,F,/S1"}, {"YE,F,Y,O,Y", "YE,F,/S1,O,Y"}},
                    "blower-speed",
                    "blower-speed"},
        Provocation{"DefrostHeatOff",
                    &kRowG,
                    {{"WH,A,W1,O,W", "WH,A,*,O,*"}},
                    "defrost-untempered",
                    "defrost-untempered"},
        Provocation{"Loose", &kRowG, {{"OG,A,O,O,O", "OG,A,O,O,"}}, "loose-end", nullptr},
        Provocation{
            "SpareOpen", &kRowG, {{"BN,T,*,A,*", "BN,T,,A,"}}, "spare-not-capped", "spare-not-capped"},
        Provocation{"TwoOfOneCable", &kRowG, {{"BN,T,*,A,*", "BN,T,R,A,R"}}, "end-doubled", nullptr},
        Provocation{"ThreeOnAScrew", &kRowG, {{"BN,T,*,A,*", "BN,T,*,A,R"}}, "screw-crowded", nullptr},
        Provocation{"BlueForFan", &kRowA, {{"GN,T,G,F,G", "RD,T,G,F,G"}}, "colour-custom", "colour-custom"},
        Provocation{"FloatBridged",
                    &kRowA,
                    {{"#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,S,float-switch"},
                     {"YE,F,Y,O,Y", "YE,F,Y,O,Y,\n3,18,2,1,m,RD,F,Y,S,A,\n3,18,2,1,m,WH,F,Y,S,B"}},
                    "safety-bypassed",
                    "safety-bypassed"},
        Provocation{"TwoFurnaces",
                    &kRowA,
                    {{"#unit,F,furnace-1", kSecondFurnace},
                     {"2,18,2,12,m,YE", "3,18,2,2,m,RD,F,R,X,R,\n3,18,2,2,m,WH,F,C,X,C,\n2,18,2,12,m,YE"}},
                    "back-feed",
                    "back-feed"},
        Provocation{"FloatOfNoUse",
                    &kRowA,
                    {{"#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,S,float-switch"},
                     {"YE,F,Y,O,Y", "YE,F,Y,O,Y,\n3,18,2,1,m,RD,F,HUM,S,A,\n3,18,2,1,m,WH,F,/S1,S,B"}},
                    "safety-misplaced",
                    "safety-misplaced"},
        Provocation{"FloatInTheOutdoorCallAlone",
                    &kRowA,
                    {{"#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,S,float-switch"},
                     {"YE,F,Y,O,Y", "YE,F,/S1,O,Y,\n3,18,2,1,m,RD,F,Y,S,A,\n3,18,2,1,m,WH,F,/S1,S,B"}},
                    "float-side",
                    "float-side"},
        Provocation{"HumidityCallBehindItsJumper",
                    &kRowG,
                    {{"BN,T,*,A,*", "BN,T,E,A,DEHUM"}},
                    "input-shorted",
                    "input-shorted"},
        Provocation{"AUnitThatIsNoneOfOurs",
                    &kRowA,
                    {{"#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,X,refused-unknown"}},
                    "refused",
                    "refused"},
        Provocation{
            "BigFuse", &kRowA, {{"#set,fanWithHeat,equipment", "#set,F.fuse,fuse5"}}, "fuse-5A", "fuse-5A"}),
    [](const auto& provocation) { return provocation.param.name; });

/// Row A with so many outdoor units on one transformer, all near it so that their contactors still pull in.
std::string manyOutdoorUnits(int count) {
  std::string csv = kRowA;
  for (const char* wire :
       {"1,18,5,15,m,RD", "1,18,5,15,m,BU", "1,18,5,15,m,YE", "1,18,5,15,m,GN", "1,18,5,15,m,WH"})
    csv = edited(csv, wire, "1,14,5,1,m," + std::string(wire).substr(12));
  for (int k = 2; k <= count; ++k) {
    const std::string tag = "O" + std::to_string(k);
    csv = edited(csv, "#set,fanWithHeat", "#unit," + tag + ",od-cool-1\n#set,fanWithHeat");
    const std::string cable = std::to_string(k + 1) + ",14,2,2,m,";
    csv += cable + "YE,F,Y," + tag + ",Y,\n" + cable + "BU,F,C," + tag + ",C,\n";
  }
  return csv;
}

TEST(Findings, TransformerLoadWarnsAboveEightyAndStopsAboveHundredPercent) {
  EXPECT_EQ(findingOf(checkOf(manyOutdoorUnits(3)), "va-high"), nullptr);
  const auto melting = checkOf(manyOutdoorUnits(5));
  EXPECT_EQ(findingOf(melting, "short-in-call"), nullptr) << "coils at inrush are no short";
  ASSERT_NE(findingOf(melting, "va-over"), nullptr) << "the fuse melts";
  const auto heavy = checkOf(manyOutdoorUnits(4));
  ASSERT_NE(findingOf(heavy, "va-high"), nullptr);
  // Five contactors at once do not pull in and hum at inrush current; a 3 A fuse would melt.
  const auto tooHeavy =
      checkOf(edited(manyOutdoorUnits(5), "#set,fanWithHeat,equipment", "#set,F.fuse,fuse5"));
  ASSERT_NE(findingOf(tooHeavy, "va-over"), nullptr);
  EXPECT_EQ(findingOf(tooHeavy, "va-over")->severity, Severity::stop);
}

TEST(Findings, SwappedFanSaysWhichWayTheCurrentTakes) {
  const auto check = checkOf(edited(edited(kRowA, "YE,T,Y,F,Y", "YE,T,Y,F,G"), "GN,T,G,F,G", "GN,T,G,F,Y"));
  const Finding* finding = findingOf(check, "compressor-without-blower");
  ASSERT_NE(finding, nullptr);
  EXPECT_EQ(finding->places.front().call, "fan");
  const Path* path = nullptr;
  for (const auto& argument : finding->arguments)
    if (argument.name == "path") path = std::get_if<Path>(&argument.figure);
  ASSERT_NE(path, nullptr);
  std::string text;
  for (const auto& place : *path) text += place.terminal.empty() ? "-" : "[" + place.terminal + "]";
  EXPECT_EQ(text, "[R]-[R][G]-[Y]-[Y]");
  EXPECT_TRUE(verdictOf(check, "cool1")->ok);
  EXPECT_FALSE(verdictOf(check, "fan")->ok);
}

TEST(Findings, KeysSurviveRenaming) {
  const auto before = checkOf(edited(kRowG, "OG,A,O,O,O", "OG,A,O,O,"));
  std::string renamed = edited(kRowG, "OG,A,O,O,O", "OG,A,O,O,");
  renamed = edited(renamed, "#unit,T,rc-heatpump-2", "#unit,T,rc-heatpump-2,Hall control,Upstairs hall");
  const auto after = checkOf(renamed);
  ASSERT_EQ(before.findings.size(), after.findings.size());
  for (size_t i = 0; i < before.findings.size(); ++i)
    EXPECT_EQ(keyOf(before.findings[i]), keyOf(after.findings[i]));
}

TEST(Findings, AFloatInTheCallIsNotMisplaced) {
  const auto check =
      checkOf(edited(edited(kRowA, "#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,S,float-switch"),
                     "YE,T,Y,F,Y,", "YE,T,Y,F,/S1,\n3,18,2,1,m,RD,F,/S1,S,A,\n3,18,2,1,m,WH,F,Y,S,B,"));
  EXPECT_THAT(rulesOf(check), ::testing::IsEmpty());
}

TEST(Findings, AMillivoltControlOnTwentyFourVoltsIsAForeignSource) {
  std::string csv = edited(kRowA, "#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,M,rc-millivolt");
  csv += "9,18,2,5,m,RD,F,R,M,M1,\n9,18,2,5,m,WH,F,W,M,M2,\n";
  const auto check = checkOf(csv);
  ASSERT_NE(findingOf(check, "foreign-source"), nullptr);
  EXPECT_EQ(check.findings.front().severity, Severity::stop);
}

TEST(Findings, ASeriesFedControlStarvesOnAnInput) {
  std::string csv = edited(kRowA, "rc-1h1c-common", "rc-series-fed");
  csv = edited(csv, "1,18,5,15,m,BU,T,C,F,C,", "1,18,5,15,m,BU,T,*,F,*,");
  const auto check = checkOf(csv);
  EXPECT_NE(findingOf(check, "supply-starves"), nullptr);
  EXPECT_EQ(findingOf(checkOf(kRowA), "supply-starves"), nullptr);
}

TEST(Findings, ALatePullInSaysWhereTheVoltsAreLost) {
  std::string csv = edited(kRowA, "2,18,2,12,m,YE", "2,20,2,75,m,YE");
  const auto check = checkOf(edited(csv, "2,18,2,12,m,BU", "2,20,2,75,m,BU"));
  const Finding* late = findingOf(check, "pull-in-late");
  ASSERT_NE(late, nullptr);
  double lost = 0, first = 0, sum = 0;
  for (const auto& argument : late->arguments)
    if (const auto* volts = std::get_if<quantity::Volts>(&argument.figure)) {
      if (argument.name == "lost") lost = volts->si();
      if (argument.name == "volts1") first = volts->si();
      if (argument.name.rfind("volts", 0) == 0 && argument.name.size() == 6) sum += volts->si();
    }
  EXPECT_GT(first, 1);
  EXPECT_GT(lost, first);
  EXPECT_LT(sum, 1.2 * lost) << "phasors add to a little more than their sum's length";
}

TEST(Findings, SortedBySeverityFirst) {
  const auto check = checkOf(edited(edited(kRowA, "GN,T,G,F,G", "GN,T,G,F,"), "BU,F,C,O,C", "BU,F,C,O,"));
  for (size_t i = 1; i < check.findings.size(); ++i)
    EXPECT_GE(check.findings[i - 1].severity, check.findings[i].severity);
}

TEST(Findings, AnUnknownRuleNeverLooksHarmless) { EXPECT_EQ(severityOf("no-such-rule"), Severity::stop); }

}  // namespace
}  // namespace ww::verify
