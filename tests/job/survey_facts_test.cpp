// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/survey_facts.h"

#include <gtest/gtest.h>

#include "sheet/systems.h"
#include "support/reference_sheets.h"

namespace ww::job {
namespace {

survey::Answers impliedBySystem(const std::string& id) {
  for (const sheet::SystemKind& kind : sheet::standardSystems())
    if (kind.id == id) return impliedBy(withSystem({}, kind), equipment::standardLibrary());
  ADD_FAILURE() << id;
  return {};
}

TEST(SurveyFacts, WhatIsPlacedAnswersTheSurvey) {
  EXPECT_EQ(impliedBySystem("A"), survey::customary());
  EXPECT_EQ(impliedBySystem("R").at("inverter"), "interface") << "its demand is called over 24 V";
  EXPECT_EQ(impliedBySystem("G").at("inverter"), "none");
  EXPECT_EQ(impliedBySystem("M").at("apart"), "thermopile");
  EXPECT_EQ(impliedBySystem("K").at("apart"), "dryPair");
  for (const sheet::SystemKind& kind : sheet::standardSystems())
    EXPECT_TRUE(survey::verdictOf(impliedBySystem(kind.id)).refusals.empty()) << kind.id;
}

TEST(SurveyFacts, ARefusedUnitRefuses) {
  sheet::Sheet sheet;
  testing::addUnit(sheet, "X", "refused-data-bus", "hall");
  EXPECT_FALSE(survey::verdictOf(impliedBy(sheet, equipment::standardLibrary())).refusals.empty());
}

}  // namespace
}  // namespace ww::job
