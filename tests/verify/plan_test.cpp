// SPDX-License-Identifier: GPL-3.0-or-later
// What the program proposes to land must itself check clean.
#include "verify/plan.h"

#include <gtest/gtest.h>

#include "sheet/sheet_csv.h"
#include "sheet/systems.h"
#include "support/reference_rows.h"
#include "support/reference_rows_air.h"
#include "support/reference_rows_pumps.h"
#include "support/shared_conductor.h"
#include "support/sheet_edits.h"
#include "verify/check.h"
#include "verify/gain_common.h"

namespace ww::verify {
namespace {

const equipment::Library& library() { return equipment::standardLibrary(); }

std::vector<std::string> faultsOf(const sheet::Sheet& sheet) {
  std::vector<std::string> faults;
  for (const Finding& finding : check(sheet, operation::solveSheet(sheet, library())).findings)
    if (finding.severity > Severity::note) faults.push_back(keyOf(finding));
  return faults;
}

TEST(Plan, EveryKindOfSystemLandedAsProposedChecksClean) {
  ASSERT_EQ(sheet::standardSystems().size(), 18U) << "A to R";
  for (const sheet::SystemKind& kind : sheet::standardSystems()) {
    const sheet::Sheet sheet = withSystem({}, kind);
    const Plan proposed = plan(sheet, library());
    EXPECT_TRUE(proposed.wanting.empty()) << kind.id;
    EXPECT_EQ(faultsOf(landed(sheet, proposed)), std::vector<std::string>{}) << kind.id;
  }
}

/// The same cables with every end loose.
sheet::Sheet loosened(const sheet::Sheet& landed) {
  sheet::Sheet sheet = landed;
  for (sheet::Conductor wire : landed.conductors) {
    wire.endA = wire.endB = sheet::Loose{};
    sheet.conductors.put(wire);
  }
  return sheet;
}

TEST(Plan, StagesAndTheOccupiedContactAreLandedAsInTheReferenceWirings) {
  for (const auto* row : {&testing::kRowC, &testing::kRowD, &testing::kRowF, &testing::kRowL}) {
    const sheet::Sheet reference = *sheet::readCsv(*row, library()).value;
    const sheet::Sheet loose = loosened(reference);
    EXPECT_EQ(landed(loose, plan(loose, library())), reference) << *row;
  }
}

/// The splice at the furnace's common screw is a person's own; else as in the healthy sheet.
TEST(Plan, ASharedConductorIsLandedFromSpliceToSplice) {
  const sheet::Sheet reference = *sheet::readCsv(testing::kRowShared, library()).value;
  const sheet::Sheet loose = loosened(reference);
  const Plan proposed = plan(loose, library());
  EXPECT_TRUE(proposed.wanting.empty());
  sheet::Sheet whole = landed(loose, proposed);
  EXPECT_EQ(faultsOf(whole), std::vector<std::string>{});
  const auto shared = [](const sheet::Sheet& sheet) {
    std::multiset<std::string> ends;
    for (const auto& wire : sheet.conductors)
      if (print(sheet, wire.endA) == "T/X" || print(sheet, wire.endB) == "F/X" ||
          print(sheet, wire.endA) == "F/X")
        ends.insert(print(sheet, wire.endA) + " " + print(sheet, wire.endB));
    return ends;
  };
  EXPECT_EQ(shared(whole), shared(reference));
  EXPECT_TRUE(plan(reference, library()).wanting.empty())
      << "calls by the kit want no conductor of their own";
}

TEST(Plan, AControlWithoutAFirstHeatStageMeansAuxiliaryHeatByItsSecond) {
  const sheet::Sheet loose = loosened(testing::rowG());
  EXPECT_EQ(landed(loose, plan(loose, library())), testing::rowG());
}

TEST(Plan, TheValvesConductorPassesAFurnaceOnASplice) {
  const sheet::Sheet reference = *sheet::readCsv(testing::kRowJ, library()).value;
  const sheet::Sheet loose = loosened(reference);
  EXPECT_EQ(landed(loose, plan(loose, library())), reference);
  // Half of it lies there under a name of its own.
  const std::string half = testing::edited(testing::edited(testing::kRowJ, "OG,T,RV,F,/S1", "OG,T,RV,F,/RV"),
                                           "OG,F,/S1,O,O", "OG,F,,O,");
  const sheet::Sheet started = *sheet::readCsv(half, library()).value;
  const Plan proposed = plan(started, library());
  ASSERT_EQ(proposed.landings.size(), 1U);
  EXPECT_EQ(print(started, proposed.landings[0].endA), "F/RV");
  EXPECT_EQ(print(started, proposed.landings[0].endB), "O.O");
}

TEST(Plan, ABThatIsTheCommonGetsNoCall) {
  const std::string tied =
      testing::edited(testing::kRowH, "#set,rvSense,heating", "#set,O.bIsCommon,on\n#set,rvSense,cooling");
  const sheet::Sheet loose = loosened(*sheet::readCsv(tied, library()).value);
  const sheet::Sheet sheet = landed(loose, plan(loose, library()));
  EXPECT_EQ(sheet, *sheet::readCsv(testing::edited(tied, "OG,A,O,O,B", "OG,A,O,O,O"), library()).value);
  EXPECT_EQ(faultsOf(sheet), std::vector<std::string>{});
}

TEST(Plan, ALandedSheetHasNothingToPropose) {
  EXPECT_TRUE(plan(testing::rowA(), library()).landings.empty());
  EXPECT_TRUE(plan(testing::rowG(), library()).landings.empty());
}

TEST(Plan, ALooseEndIsProposedWhereItsOtherEndSays) {
  sheet::Sheet sheet = testing::rowGLoose();
  const Plan proposed = plan(sheet, library());
  ASSERT_EQ(proposed.landings.size(), 1U);
  EXPECT_EQ(proposed.landings[0].purpose, "reversingValve");
  EXPECT_EQ(landed(sheet, proposed), testing::rowG());
}

TEST(Plan, ASpareCappedAtOneEndIsCappedAtTheOther) {
  for (const bool atA : {true, false}) {
    sheet::Sheet sheet = testing::rowG();
    sheet::Conductor spare = *conductorsOf(sheet, sheet.cableByName("1")->id)[6];
    ASSERT_TRUE(std::holds_alternative<sheet::Capped>(spare.endA));
    (atA ? spare.endA : spare.endB) = sheet::Loose{};
    sheet.conductors.put(spare);
    EXPECT_EQ(landed(sheet, plan(sheet, library())), testing::rowG());
  }
}

TEST(Plan, TooFewConductorsLeaveTheCommonWanting) {
  sheet::Sheet sheet = withSystem({}, sheet::standardSystems().front());
  const sheet::Cable first = sheet.cables.rows().front();
  sheet.conductors.erase(conductorsOf(sheet, first.id).front()->id);
  const Plan proposed = plan(sheet, library());
  ASSERT_EQ(proposed.wanting.size(), 1U);
  EXPECT_EQ(proposed.wanting[0].purpose, "common");
}

TEST(Plan, EveryLooseEndIsProposedByItself) {
  const sheet::Sheet loose = testing::rowGLoose();
  const auto one = proposedLandings(loose, library());
  ASSERT_EQ(one.size(), 1U);
  EXPECT_EQ(one[0].end, 'B');
  EXPECT_EQ(one[0].terminal.terminal, "O");
  const sheet::Sheet empty = withSystem({}, sheet::standardSystems().front());
  EXPECT_EQ(proposedLandings(empty, library()).size(), 14U) << "five conductors and two, both ends";
  EXPECT_TRUE(proposedLandings(testing::rowA(), library()).empty());
}

TEST(Plan, AMissingCableIsToldFromAMissingConductor) {
  const sheet::Sheet whole = testing::rowA();
  sheet::Sheet sheet = whole;
  const sheet::CableId outdoor = sheet.cableByName("2")->id;
  for (const sheet::Conductor* wire : conductorsOf(whole, outdoor)) sheet.conductors.erase(wire->id);
  sheet.cables.erase(outdoor);
  const Plan proposed = plan(sheet, library());
  ASSERT_EQ(proposed.wanting.size(), 2U);
  for (const Wanting& wanting : proposed.wanting) EXPECT_EQ(wanting.why, Wanting::Why::noCable);
  EXPECT_EQ(proposed.wanting[0].purpose, "compressor1");
}

/// Row A without its common conductor between control and furnace.
sheet::Sheet withoutCommon() {
  sheet::Sheet sheet = testing::rowA();
  sheet.conductors.erase(conductorsOf(testing::rowA(), sheet.cableByName("1")->id)[1]->id);
  return sheet;
}

TEST(Plan, TheFanConductorCanBecomeTheCommonWhereTheEquipmentStartsTheFan) {
  const sheet::Sheet sheet = withoutCommon();
  const Plan proposed = plan(sheet, library());
  ASSERT_EQ(proposed.wanting.size(), 1U);
  const auto ways = waysToCommon(sheet, library(), proposed.wanting[0]);
  ASSERT_FALSE(ways.empty());
  EXPECT_EQ(ways[0].kind, CommonWay::Kind::fanConductor);
  EXPECT_EQ(ways[0].lost, std::vector<std::string>{"fan"});
}

TEST(Plan, ASpareIsTheFirstWayToACommonAndAHeatPumpKeepsItsFan) {
  sheet::Sheet sheet = testing::rowG();
  sheet.conductors.erase(conductorsOf(testing::rowG(), sheet.cableByName("1")->id)[1]->id);
  const Plan proposed = plan(sheet, library());
  ASSERT_EQ(proposed.wanting.size(), 1U);
  const auto ways = waysToCommon(sheet, library(), proposed.wanting[0]);
  EXPECT_EQ(ways[0].kind, CommonWay::Kind::spare);
  for (const CommonWay& way : ways) EXPECT_NE(way.kind, CommonWay::Kind::fanConductor);
}

TEST(Plan, ABrokenFanConductorIsMadeHarmlessByASetting) {
  const auto breaks = harmfulBreaks(testing::rowA(), library());
  ASSERT_EQ(breaks.size(), 1U) << "the fan conductor: cooling without blower";
  const auto safer = saferSettings(testing::rowA(), library());
  ASSERT_EQ(safer.size(), 1U);
  EXPECT_EQ(safer[0].key, "blowerOnY");
  EXPECT_EQ(safer[0].harmfulAfter, 0U);
}

}  // namespace
}  // namespace ww::verify
