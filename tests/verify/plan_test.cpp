// SPDX-License-Identifier: GPL-3.0-or-later
// What the program proposes to land must itself check clean.
#include "verify/plan.h"

#include <gtest/gtest.h>

#include "sheet/systems.h"
#include "support/sheet_edits.h"
#include "verify/check.h"

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
  for (const sheet::SystemKind& kind : sheet::standardSystems()) {
    sheet::Sheet sheet = withSystem({}, kind);
    const Plan proposed = plan(sheet, library());
    EXPECT_TRUE(proposed.wanting.empty()) << kind.id;
    EXPECT_EQ(faultsOf(landed(sheet, proposed)), std::vector<std::string>{}) << kind.id;
  }
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

TEST(Plan, TooFewConductorsLeaveTheCommonWanting) {
  sheet::Sheet sheet = withSystem({}, sheet::standardSystems().front());
  const sheet::Cable first = sheet.cables.rows().front();
  sheet.conductors.erase(conductorsOf(sheet, first.id).front()->id);
  const Plan proposed = plan(sheet, library());
  ASSERT_EQ(proposed.wanting.size(), 1U);
  EXPECT_EQ(proposed.wanting[0].purpose, "common");
}

}  // namespace
}  // namespace ww::verify
