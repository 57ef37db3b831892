// SPDX-License-Identifier: GPL-3.0-or-later
// Sizes are judged by the same check that judges the sheet; harm is what one mistake more would do.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_sheets.h"
#include "verify/check.h"
#include "verify/harm.h"
#include "verify/size.h"

namespace ww::verify {
namespace {

const equipment::Library& library() { return equipment::standardLibrary(); }

std::vector<std::string> faultsWith(const sheet::Sheet& sheet, sheet::CableId id, double awg, double metres) {
  sheet::Sheet changed = sheet;
  sheet::Cable cable = *changed.cables.find(id);
  cable.gauge.value = awg;
  cable.length = quantity::Metres(metres);
  changed.cables.put(cable);
  std::vector<std::string> faults;
  for (const Finding& finding : check(changed, operation::solveSheet(changed, library())).findings)
    if (finding.severity > Severity::note) faults.push_back(finding.rule);
  return faults;
}

TEST(Sizes, TheLongestRunChecksCleanAndAMetreMoreDoesNot) {
  const sheet::Sheet sheet = testing::rowA();
  const Sizes sizes = sizesOf(sheet, library());
  ASSERT_EQ(sizes.runs.size(), 12U) << "two cables, six gauges";
  for (const LongestRun& run : sizes.runs) {
    const double metres = run.longest.si();
    EXPECT_GT(metres, 0);
    EXPECT_THAT(faultsWith(sheet, run.cable, run.gauge.value, metres), ::testing::IsEmpty());
    if (!run.limit) continue;
    EXPECT_THAT(faultsWith(sheet, run.cable, run.gauge.value, metres + 1),
                ::testing::Contains(run.limit->rule));
    EXPECT_EQ(run.limit->place.part, "CC");
    EXPECT_EQ(run.limit->call, "cool1");
  }
  for (size_t i = 1; i < 6; ++i) EXPECT_GT(sizes.runs[i].longest.si(), sizes.runs[i - 1].longest.si());
}

TEST(Sizes, TheSmallestTransformerIsTheFirstThatCarriesTheHeaviestCall) {
  const Sizes one = sizesOf(testing::rowA(), library());
  ASSERT_EQ(one.transformers.size(), 1U);
  EXPECT_EQ(one.transformers[0].smallest, "XF40");
  EXPECT_FALSE(one.transformers[0].limit);
  const Sizes pump = sizesOf(testing::rowG(), library());
  ASSERT_EQ(pump.transformers.size(), 1U);
  EXPECT_FALSE(pump.transformers[0].smallest.empty());
  EXPECT_GT(pump.transformers[0].heaviest, one.transformers[0].heaviest);
}

const Harm* harmOf(const std::vector<Harm>& harms, Harm::Kind kind, Harm::Cause cause) {
  for (const Harm& harm : harms)
    if (harm.kind == kind && harm.cause == cause) return &harm;
  return nullptr;
}

TEST(Harms, AWeldedYellowRelayRunsTheCompressorForEver) {
  const auto harms = harmsOf(testing::rowA(), library());
  const auto welded =
      std::find_if(harms.begin(), harms.end(), [](const Harm& harm) { return harm.contact.part == "KY"; });
  ASSERT_NE(welded, harms.end());
  EXPECT_NE(harmOf(harms, Harm::Kind::staysOn, Harm::Cause::stuck), nullptr);
  EXPECT_NE(harmOf(harms, Harm::Kind::withoutAir, Harm::Cause::landing), nullptr) << "Y landed on G";
  EXPECT_EQ(harmOf(harms, Harm::Kind::sourcesTied, Harm::Cause::landing), nullptr) << "one transformer";
  EXPECT_EQ(harmOf(harms, Harm::Kind::againstSafety, Harm::Cause::bridge), nullptr) << "no float";
}

TEST(Harms, AFloatCanBeBridgedAtItsScrews) {
  const std::string csv = testing::edited(
      testing::edited(testing::kRowA, "#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,S,float-switch"),
      "YE,F,Y,O,Y,", "YE,F,/S1,O,Y,\n3,18,2,1,m,RD,F,Y,S,A,\n3,18,2,1,m,WH,F,/S1,S,B,");
  const auto sheet = sheet::readCsv(csv, library());
  ASSERT_TRUE(sheet);
  const auto harms = harmsOf(*sheet.value, library());
  const Harm* bridged = harmOf(harms, Harm::Kind::againstSafety, Harm::Cause::bridge);
  ASSERT_NE(bridged, nullptr);
  EXPECT_EQ(bridged->place.part, "FL");
}

TEST(Harms, TheSameOnAnyNumberOfThreads) {
  const auto one = harmsOf(testing::rowB(), library(), {}, {}, 1);
  const auto four = harmsOf(testing::rowB(), library(), {}, {}, 4);
  ASSERT_EQ(one.size(), four.size());
  EXPECT_FALSE(one.empty());
  for (size_t i = 0; i < one.size(); ++i) {
    EXPECT_EQ(one[i].kind, four[i].kind);
    EXPECT_EQ(one[i].edit, four[i].edit);
    EXPECT_EQ(one[i].contact, four[i].contact);
  }
}

}  // namespace
}  // namespace ww::verify
