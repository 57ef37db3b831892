// SPDX-License-Identifier: GPL-3.0-or-later
// What a call does with one safety open, where it does no harm without.
#include <gtest/gtest.h>

#include <algorithm>

#include "equipment/shipped.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_air.h"
#include "support/reference_rows_pumps.h"
#include "support/reference_rows_water.h"
#include "verify/check.h"

namespace ww::verify {
namespace {

SheetCheck checked(const std::string& csv, operation::Depth depth = operation::Depth::across) {
  const auto sheet = sheet::readCsv(csv, equipment::standardLibrary());
  return check(*sheet.value, operation::solveSheet(*sheet.value, equipment::standardLibrary(), {}, depth));
}

const Place* openIn(const Finding& finding) {
  for (const Argument& argument : finding.arguments)
    if (argument.name == "open") return std::get_if<Place>(&argument.figure);
  return nullptr;
}

std::vector<Finding> withOpenSafety(const SheetCheck& check) {
  std::vector<Finding> found;
  std::copy_if(check.findings.begin(), check.findings.end(), std::back_inserter(found),
               [](const Finding& finding) { return openIn(finding) != nullptr; });
  return found;
}

/// Fan and heat exchanged at a coil with a boiler's water: the fan of a cooling call hangs on the switch that
/// waits for hot water.
TEST(OpenSafety, ABlowerLostWhileTheCompressorRunsStopsTheJob) {
  std::string csv = testing::kRowP;
  for (const auto& [from, to] : {std::pair{"GN,T,G,A,G", "GN,T,G,A,W"}, {"WH,T,W,A,W", "WH,T,W,A,G"}}) {
    const size_t at = csv.find(from);
    ASSERT_NE(at, std::string::npos) << from;
    csv.replace(at, std::string(from).size(), to);
  }
  const SheetCheck check = checked(csv);
  const auto found = withOpenSafety(check);
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].rule, "compressor-without-blower");
  EXPECT_EQ(found[0].severity, Severity::stop);
  EXPECT_EQ(openIn(found[0])->part, "LW");
  ASSERT_EQ(found[0].places.size(), 2u);
  EXPECT_EQ(found[0].places[0].call, "cool1");
  EXPECT_EQ(found[0].places[1].part, "LW");
  EXPECT_EQ(check.findings.front().rule, "compressor-without-blower") << "the worst stands first";
  EXPECT_TRUE(withOpenSafety(checked(csv, operation::Depth::calls)).empty()) << "seen only where it is open";
}

TEST(OpenSafety, HarmThatNeedsNoSafetyIsToldOnce) {
  std::string csv = testing::kRowA;
  for (const auto& [from, to] : {std::pair{"YE,T,Y,F,Y", "YE,T,Y,F,G"}, {"GN,T,G,F,G", "GN,T,G,F,Y"}})
    csv.replace(csv.find(from), std::string(from).size(), to);
  const SheetCheck check = checked(csv);
  EXPECT_EQ(std::count_if(check.findings.begin(), check.findings.end(),
                          [](const Finding& finding) { return finding.rule == "compressor-without-blower"; }),
            1);
  EXPECT_TRUE(withOpenSafety(check).empty());
}

TEST(OpenSafety, HealthyRowsStopWhatTheirSafetiesStop) {
  for (const auto* row : {&testing::kRowA, &testing::kRowB, &testing::kRowC, &testing::kRowF, &testing::kRowG,
                          &testing::kRowH, &testing::kRowI, &testing::kRowJ, &testing::kRowK, &testing::kRowL,
                          &testing::kRowN, &testing::kRowP, &testing::kRowQ, &testing::kRowR})
    EXPECT_TRUE(withOpenSafety(checked(*row)).empty()) << row->substr(0, 40);
}

}  // namespace
}  // namespace ww::verify
