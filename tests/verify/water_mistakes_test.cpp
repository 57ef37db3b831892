// SPDX-License-Identifier: GPL-3.0-or-later
// Mistakes that are made with water, zones and accessories: which are made is common practice, no source;
// what each does follows from the circuit.
#include <gmock/gmock.h>

#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_water.h"
#include "verify/check.h"

namespace ww::verify {
namespace {

using testing::edited;
using testing::kRowE;
using testing::kRowK;
using testing::kRowM;
using testing::kRowN;
using testing::kRowO;
using testing::kRowP;
using testing::kRowQ;

std::vector<Finding> findingsOf(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(csv, library);
  for (const auto& problem : sheet.problems) ADD_FAILURE() << problem.where << " " << problem.key;
  if (!sheet) return {};
  return check(*sheet.value, operation::solveSheet(*sheet.value, library)).findings;
}

TEST(WaterMistakes, HealthyRowsHaveNothing) {
  for (const auto* row : {&kRowE, &kRowK, &kRowM, &kRowN, &kRowO, &kRowP, &kRowQ})
    for (const Finding& finding : findingsOf(*row)) ADD_FAILURE() << keyOf(finding) << "\n" << *row;
}

struct Mistake {
  const char* name;
  const std::string* row;
  std::vector<std::pair<const char*, const char*>> edits;
  const char* first;  ///< rule of the first finding
  const char* call;   ///< that it speaks of; null: none, or does not matter
};

std::ostream& operator<<(std::ostream& out, const Mistake& mistake) { return out << mistake.name; }

class WaterMistakes : public ::testing::TestWithParam<Mistake> {};

TEST_P(WaterMistakes, AreFound) {
  std::string csv = *GetParam().row;
  for (const auto& [piece, by] : GetParam().edits) csv = edited(csv, piece, by);
  const auto findings = findingsOf(csv);
  ASSERT_FALSE(findings.empty());
  EXPECT_EQ(findings.front().rule, GetParam().first);
  if (GetParam().call != nullptr) {
    EXPECT_EQ(findings.front().places.front().call, GetParam().call);
  }
}

const std::pair<const char*, const char*> kMoreTransformer{"cable,gauge",
                                                           "#set,Z.transformer,XF75\ncable,gauge"};
const std::pair<const char*, const char*> kHeat1{"V1,zonevalve-motor-4", "V1,zonevalve-heatmotor-4"};
const std::pair<const char*, const char*> kHeat2{"V2,zonevalve-motor-4", "V2,zonevalve-heatmotor-4"};
const std::pair<const char*, const char*> kHeat3{"V3,zonevalve-motor-4", "V3,zonevalve-heatmotor-4"};

INSTANTIATE_TEST_SUITE_P(
    Rows, WaterMistakes,
    ::testing::Values(
        Mistake{"EValveSupplyOnTheBoiler",
                &kRowE,
                {{"RD,S,E1,B,T1", "RD,S,H,B,T1"}, {"WH,S,E2,B,T2", "WH,S,N,B,T2"}},
                "foreign-source",
                nullptr},
        Mistake{"EBoilerPairOnTheValveCommon",
                &kRowE,
                {{"GN,V1,E2,S,E2", "GN,V1,E2,S,N"}, {"WH,S,E2,B,T2", "WH,S,N,B,T2"}},
                "foreign-source",
                nullptr},
        Mistake{"EZonesExchanged",
                &kRowE,
                {{"WH,T1,W,S,W1", "WH,T1,W,S,W2"}, {"WH,T2,W,S,W2", "WH,T2,W,S,W1"}},
                "duty-wrong",
                nullptr},
        Mistake{
            "EEndSwitchNotWired", &kRowE, {{"YE,V2,E1,S,E1", "YE,V2,*,S,*"}}, "duty-wrong", "zone2.heat1"},
        Mistake{"EHeatMotorsOnSmallTransformer", &kRowE, {kHeat1, kHeat2, kHeat3}, "va-over", "zones.heat1"},
        Mistake{"EHeatMotorsOnLargeTransformer",
                &kRowE,
                {kMoreTransformer, kHeat1, kHeat2, kHeat3},
                "va-high",
                "zones.heat1"},
        Mistake{"KJumperBetweenTheHots",
                &kRowK,
                {{"\n1,18,5,14,m,RD", "\n,,,,,RD,T,RC,T,RH,\n1,18,5,14,m,RD"}},
                "sources-tied",
                nullptr},
        Mistake{
            "KFactoryJumperLeftIn", &kRowK, {{"jumperRcRh,out", "jumperRcRh,in"}}, "sources-tied", nullptr},
        Mistake{
            "KBoilerFromTheWrongHot", &kRowK, {{"RD,T,RH,B,T1", "RD,T,RC,B,T1"}}, "sources-tied", nullptr},
        Mistake{"KCoolingHotOnTheHeatScrew",
                &kRowK,
                {{"RD,T,RC,A,R", "RD,T,RH,A,R"}, {"RD,T,RH,B,T1", "RD,T,*,B,*"}},
                "call-dead",
                nullptr},
        Mistake{"KNoCommon", &kRowK, {{"BU,T,C,A,C", "BU,T,*,A,*"}}, "no-common", nullptr},
        Mistake{"MControlForTwentyFourVolts",
                &kRowM,
                {{"T,rc-millivolt", "T,rc-heat-only-2wire"}, {"T,M1", "T,R"}, {"T,M2", "T,W"}},
                "foreign-source",
                nullptr},
        Mistake{"MBothOnOneScrew", &kRowM, {{"WH,T,M2,H,V1", "WH,T,M2,H,P1"}}, "call-dead", "heat1"},
        Mistake{"MThinAndLong",
                &kRowM,
                {{"1,18,2,10,m,RD", "1,22,2,60,m,RD"}, {"1,18,2,10,m,WH", "1,22,2,60,m,WH"}},
                "call-dead",
                "heat1"},
        Mistake{"NPanelHotToTheFurnace", &kRowN, {{"RD,P,ER,F,R", "RD,P,XR,F,R"}}, "sources-tied", nullptr},
        Mistake{"NZoneCallOnAnotherStrip",
                &kRowN,
                {{"YE,T1,Y,P,Y1", "YE,T1,Y,P,Y2"}, {"YE,T2,Y,P,Y2", "YE,T2,Y,P,Y1"}},
                "duty-wrong",
                nullptr},
        Mistake{"NDampersExchanged",
                &kRowN,
                {{"RD,P,D1,D1,M1", "RD,P,D2,D1,M1"}, {"RD,P,D2,D2,M1", "RD,P,D1,D2,M1"}},
                "duty-wrong",
                nullptr},
        Mistake{"NFanCallNotWired",
                &kRowN,
                {{"GN,P,EG,F,G", "GN,P,*,F,*"}},
                "compressor-without-blower",
                nullptr},
        Mistake{"NCoolAndHeatExchanged",
                &kRowN,
                {{"YE,P,EY,F,Y", "YE,P,EY,F,W"}, {"WH,P,EW,F,W", "WH,P,EW,F,Y"}},
                "compressor-without-blower",
                nullptr},
        Mistake{"OTwentyFourVoltsOnThePair",
                &kRowO,
                {{"cable,gauge", "#unit,Z,transformer-addon\ncable,gauge"},
                 {"WH,T,W,B,T2,", "WH,T,W,B,T2,\n2,18,2,1,m,RD,Z,R,B,T1,\n2,18,2,1,m,BU,Z,C,B,T2,"}},
                "foreign-source",
                nullptr},
        Mistake{"OJumpered", &kRowO, {{"\n1,18,2", "\n,,,,,RD,B,T1,B,T2,\n1,18,2"}}, "load-at-rest", "rest"},
        Mistake{"PFanAndCoolExchanged",
                &kRowP,
                {{"YE,T,Y,A,Y", "YE,T,Y,A,G"}, {"GN,T,G,A,G", "GN,T,G,A,Y"}},
                "compressor-without-blower",
                "fan"},
        Mistake{"PHeatAndFanExchanged",
                &kRowP,
                {{"GN,T,G,A,G", "GN,T,G,A,W"}, {"WH,T,W,A,W", "WH,T,W,A,G"}},
                "compressor-without-blower",
                "cool1"},
        Mistake{"POutdoorCommonOff", &kRowP, {{"BU,A,C,O,C", "BU,A,*,O,*"}}, "common-missing", nullptr},
        Mistake{"PWaterSwitchBridged",
                &kRowP,
                {{"#set,fanWithHeat", "#set,A.jumperWt,in\n#set,fanWithHeat"}},
                "duty-early",
                "heat1"},
        Mistake{"PLowWaterStopsTheBlowerAlone",
                &kRowP,
                {{"#set,fanWithHeat", "#set,A.lowWaterIn,blower\n#set,fanWithHeat"}},
                "safety-misplaced",
                ""},
        Mistake{"QSensorOnTheHot", &kRowQ, {{"RD,T,S1,A,S1", "RD,T,R,A,S1"}}, "foreign-source", nullptr},
        Mistake{"QValveOnTheHeatScrewAlone", &kRowQ, {{"WH,T,V,A,V", "WH,T,V,A,W"}}, "duty-wrong", "cool1"},
        Mistake{"QSensorPairOff", &kRowQ, {{"WH,T,S2,A,S2", "WH,T,*,A,*"}}, "call-dead", "heat1"}),
    [](const auto& mistake) { return mistake.param.name; });

std::vector<std::string> wrongCalls(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  const sheet::Sheet sheet = *sheet::readCsv(csv, library).value;
  std::vector<std::string> calls;
  for (const auto& verdict : check(sheet, operation::solveSheet(sheet, library)).calls)
    if (!verdict.ok) calls.push_back(verdict.call);
  return calls;
}

TEST(WaterMistakes, EndSwitchesInSeriesFireOnlyWhenAllZonesAsk) {
  std::string csv = kRowE;
  for (const auto& [piece, by] : {std::pair("GN,V1,E2,S,E2", "GN,V1,*,S,*"),
                                  {"YE,V2,E1,S,E1", "YE,V2,*,S,*"},
                                  {"GN,V2,E2,S,E2", "GN,V2,*,S,*"},
                                  {"YE,V3,E1,S,E1", "YE,V3,*,S,*"}})
    csv = edited(csv, piece, by);
  csv += "11,18,1,2,m,YE,V1,E2,V2,E1,\n12,18,1,2,m,YE,V2,E2,V3,E1,\n";
  EXPECT_THAT(wrongCalls(csv), ::testing::ElementsAre("zone1.heat1", "zone2.heat1", "zone3.heat1"));
  EXPECT_EQ(findingsOf(csv).front().rule, "duty-wrong");
}

std::vector<std::string> rulesAtRest(const std::string& csv) {
  std::vector<std::string> rules;
  for (const Finding& finding : findingsOf(csv))
    if (!finding.places.empty() && finding.places.front().call == "rest") rules.push_back(finding.rule);
  return rules;
}

TEST(WaterMistakes, DampersThatStandShutAtRestAreTold) {
  EXPECT_THAT(rulesAtRest(kRowN), ::testing::IsEmpty());
  // Powered at rest by a panel that takes them for dampers that power opens.
  EXPECT_THAT(rulesAtRest(edited(kRowN, "#set,fanWithHeat", "#set,P.dampers,powerOpen\n#set,fanWithHeat")),
              ::testing::ElementsAre("idle-at-rest"));
  // One that springs shut among those that spring open.
  EXPECT_THAT(rulesAtRest(edited(kRowN, "D2,damper-pc", "D2,damper-po")),
              ::testing::ElementsAre("idle-at-rest"));
}

TEST(WaterMistakes, ABlowerCalledByTheControlBlowsColdAirFirst) {
  const auto findings = findingsOf(edited(kRowP, "fanWithHeat,equipment", "fanWithHeat,control"));
  ASSERT_FALSE(findings.empty());
  EXPECT_EQ(findings.front().rule, "duty-early");
  for (const auto& argument : findings.front().arguments)
    if (argument.name == "seconds") {
      EXPECT_NEAR(std::get<quantity::Seconds>(argument.figure).si(), 90, 1);
    }
}

TEST(WaterMistakes, AThreeWireValveMayNotTouchABoilersPair) {
  const auto findings = findingsOf(R"(#unit,T,rc-heat-only-2wire
#unit,B,boiler-tt
#unit,V,zonevalve-3wire
#unit,Z,transformer-addon
cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
1,18,1,5,m,RD,T,R,Z,R,
2,18,1,5,m,WH,T,W,V,M,
3,18,1,5,m,BU,V,C,Z,C,
4,18,1,5,m,WH,V,ES,B,T1,
5,18,1,5,m,BU,Z,C,B,T2,
)");
  ASSERT_FALSE(findings.empty());
  EXPECT_EQ(findings.front().rule, "foreign-source");
}

}  // namespace
}  // namespace ww::verify
