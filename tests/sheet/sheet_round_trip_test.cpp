// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "equipment/schema.h"
#include "sheet/sheet_csv.h"
#include "sheet/sheet_json.h"
#include "support/json_changes.h"
#include "support/random_sheet.h"
#include "support/reference_sheets.h"
#include "support/told.h"

namespace ww::sheet {
namespace {

using equipment::standardLibrary;
using ::testing::IsEmpty;
using ww::testing::RandomSheets;
using ww::testing::told;

constexpr int kSheets = 400;

TEST(SheetRoundTrip, csvGivesTheSameSheetBack) {
  RandomSheets sheets(standardLibrary(), 1);
  for (int round = 0; round < kSheets; ++round) {
    const Sheet sheet = sheets.next();
    const std::string text = writeCsv(sheet);
    const auto loaded = readCsv(text, standardLibrary());
    ASSERT_THAT(told(loaded.problems), IsEmpty()) << text;
    ASSERT_EQ(*loaded.value, sheet) << text;
    ASSERT_EQ(writeCsv(*loaded.value), text);
  }
}

TEST(SheetRoundTrip, jsonGivesTheSameSheetBackWithItsIds) {
  RandomSheets sheets(standardLibrary(), 2);
  for (int round = 0; round < kSheets; ++round) {
    Sheet sheet = sheets.next();
    if (!sheet.conductors.empty()) sheet.conductors.erase(sheet.conductors.rows().front().id);  // gaps stay
    sheet.nextId += round;
    const std::string text = writeSheetFile(sheet);
    const auto loaded = readSheetFile(text, standardLibrary());
    ASSERT_THAT(told(loaded.problems), IsEmpty()) << text;
    ASSERT_EQ(*loaded.value, sheet) << text;
    ASSERT_EQ(writeSheetFile(*loaded.value), text);
  }
}

TEST(SheetSchema, takesWhatTheWriterWrites) {
  RandomSheets sheets(standardLibrary(), 3);
  for (int round = 0; round < 60; ++round) {
    const std::string text = writeSheetFile(sheets.next());
    ASSERT_THAT(equipment::schemaProblems(text, "sheet.schema"), IsEmpty()) << text;
  }
}

TEST(SheetSchema, refusesOnlyWhatTheReaderRefuses) {
  const auto sound = nlohmann::json::parse(writeSheetFile(ww::testing::rowG()));
  std::mt19937 random(4);
  int refused = 0;
  for (int round = 0; round < 400; ++round) {
    nlohmann::json changed = sound;
    ww::testing::changeAtRandom(changed, random);
    const auto problems = equipment::schemaProblems(changed.dump(), "sheet.schema");
    if (problems.empty()) continue;
    ++refused;
    EXPECT_FALSE(readSheetFile(changed.dump(), standardLibrary()))
        << changed.dump() << problems.front().where;
  }
  EXPECT_GT(refused, 200);
}

}  // namespace
}  // namespace ww::sheet
