// SPDX-License-Identifier: GPL-3.0-or-later
// Circuits that stay apart have steps of their own: dry pairs between their two screws, thermopiles in direct
// millivolts, and nothing measured from one circuit to another.
#include <gmock/gmock.h>

#include "checklist/checklist.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows_water.h"

namespace ww::checklist {
namespace {

struct Made {
  sheet::Sheet sheet;
  std::vector<Step> steps;
};

Made made(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  sheet::Sheet sheet = *sheet::readCsv(csv, library).value;
  auto steps = checklistFor(sheet, operation::solveSheet(sheet, library));
  return {std::move(sheet), std::move(steps)};
}

const Step* stepOf(const Made& made, const std::string& call, const char* unit, const char* a,
                   const char* b) {
  const auto id = made.sheet.unitByTag(unit)->id;
  for (const Step& step : made.steps)
    if (step.call == call && step.probe1 == sheet::TerminalRef{id, a} &&
        step.probe2 == sheet::TerminalRef{id, b})
      return &step;
  return nullptr;
}

TEST(ApartCircuits, ADryPairShowsItsSupplyAndThenAlmostNothing) {
  const Made k = made(testing::kRowK);
  const Step* dead = stepOf(k, "", "B", "T1", "T2");
  ASSERT_NE(dead, nullptr);
  EXPECT_EQ(unitOf(*dead), "ohm");
  EXPECT_TRUE(dead->band->open);
  const Step* rest = stepOf(k, "rest", "B", "T1", "T2");
  ASSERT_NE(rest, nullptr);
  EXPECT_EQ(unitOf(*rest), "V");
  EXPECT_NEAR(rest->band->mean, 27.6, 0.1);
  EXPECT_LT(stepOf(k, "heat1", "B", "T1", "T2")->band->mean, 0.2);
}

TEST(ApartCircuits, AThermopileIsReadInMillivolts) {
  // 0.70 V open; closed 0.70 V / 6.97 ohm times 0.42 ohm of cable and 0.05 ohm of contact.
  const Made m = made(testing::kRowM);
  const Step* open = stepOf(m, "rest", "H", "P1", "V1");
  ASSERT_NE(open, nullptr);
  EXPECT_EQ(unitOf(*open), "mV");
  EXPECT_NEAR(open->band->mean, 700, 1);
  EXPECT_LT(open->band->low, 660);
  EXPECT_GT(open->band->high, 740);
  EXPECT_NEAR(stepOf(m, "heat1", "H", "P1", "V1")->band->mean, 47, 2);
  EXPECT_EQ(judge(*open, 700, false), Verdict::good);
  EXPECT_EQ(judge(*open, 400, false), Verdict::fault) << "a weak pile";
}

TEST(ApartCircuits, EveryUnitWithLineVoltageIsProvedDead) {
  const Made e = made(testing::kRowE);
  std::vector<std::string> proved;
  for (const Step& step : e.steps)
    if (step.instruction == "prove-dead") proved.push_back(e.sheet.units.find(step.standAt)->tag);
  EXPECT_THAT(proved, ::testing::UnorderedElementsAre("B", "Z"));
}

TEST(ApartCircuits, NothingIsMeasuredFromOneToTheOther) {
  for (const auto* row : {&testing::kRowE, &testing::kRowK, &testing::kRowN, &testing::kRowQ}) {
    const Made house = made(*row);
    size_t measured = 0;
    for (const Step& step : house.steps)
      if (isMeasured(step)) {
        ++measured;
        EXPECT_TRUE(step.band.has_value()) << step.key;
      }
    EXPECT_GT(measured, 15U);
  }
}

}  // namespace
}  // namespace ww::checklist
