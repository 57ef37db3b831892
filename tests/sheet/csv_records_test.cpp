// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/csv_records.h"

#include <gmock/gmock.h>

#include <random>

#include "support/told.h"

namespace ww::sheet {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ww::testing::told;
using Cells = std::vector<std::string>;

quantity::Loaded<std::vector<CsvRecord>> records(std::string_view text) { return csvRecords(text, 1000, 20); }

std::vector<Cells> cells(std::string_view text) {
  const auto loaded = records(text);
  EXPECT_THAT(told(loaded.problems), IsEmpty());
  std::vector<Cells> rows;
  for (const CsvRecord& record : loaded.value.value_or(std::vector<CsvRecord>{}))
    rows.push_back(record.cells);
  return rows;
}

TEST(CsvRecords, everyLineEndAndABlankTail) {
  for (const char* end : {"\n", "\r\n", "\r"}) {
    const std::string line = end;
    EXPECT_THAT(cells("a,b" + line + "c," + line), ElementsAre(Cells{"a", "b"}, Cells{"c", ""})) << int(*end);
    EXPECT_THAT(cells("a,b" + line + "c,d"), ElementsAre(Cells{"a", "b"}, Cells{"c", "d"}));
  }
}

TEST(CsvRecords, quotesHoldSeparatorsQuotesAndLineEnds) {
  EXPECT_THAT(cells("\"a,b\",\"say \"\"so\"\"\",\"two\r\nlines\"\nx,,\"\""),
              ElementsAre(Cells{"a,b", "say \"so\"", "two\r\nlines"}, Cells{"x", "", ""}));
}

TEST(CsvRecords, blankRowsCountButAreLeftOut) {
  const auto loaded = records("a,b\n\n , \nc,d\n");
  ASSERT_TRUE(loaded);
  ASSERT_EQ(loaded.value->size(), 2u);
  EXPECT_EQ(loaded.value->at(1).row, 4);
}

TEST(CsvRecords, byteOrderMarkIsSkipped) {
  EXPECT_THAT(cells("\xEF\xBB\xBF"
                    "a,b"),
              ElementsAre(Cells{"a", "b"}));
}

TEST(CsvRecords, semicolonsSeparateWhenTheHeadingLineSaysSo) {
  EXPECT_THAT(cells("#unit;T\na;b\n1,5;x"),
              ElementsAre(Cells{"#unit", "T"}, Cells{"a", "b"}, Cells{"1,5", "x"}));
  EXPECT_THAT(cells("a,b\nx;y,z"), ElementsAre(Cells{"a", "b"}, Cells{"x;y", "z"}));
  EXPECT_THAT(cells("\"#unit\";\"T\"\n\"a\";b"), ElementsAre(Cells{"#unit", "T"}, Cells{"a", "b"}));
}

TEST(CsvRecords, whatCannotBeRead) {
  EXPECT_THAT(told(records(std::string(1001, 'a')).problems), ElementsAre(" csv-too-large"));
  EXPECT_THAT(told(records(std::string("a\0b", 3)).problems), ElementsAre(" zero-byte"));
  EXPECT_THAT(told(records("a,\xC3(").problems), ElementsAre(" not-utf8"));
  EXPECT_EQ(records("a,\xC3(").problems.front().args.front().second, "2");
  EXPECT_THAT(told(records("\xFF\xFE").problems), ElementsAre(" not-utf8"));
  for (const char* text : {"\xC0\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82", "\x80"})
    EXPECT_THAT(told(records(text).problems),
                ElementsAre(" not-utf8"));  // overlong, surrogate, too high, cut
  std::string rows;
  for (int i = 0; i < 21; ++i) rows += "a\n";
  EXPECT_THAT(told(records(rows).problems), ElementsAre(" too-many-rows"));
  EXPECT_THAT(told(records("a,\"b\nc").problems), ElementsAre("row 1 quote-not-closed"));
  EXPECT_THAT(told(records("a,b\nc,d\"e\n\"f\"g,h").problems),
              ElementsAre("row 2 stray-quote", "row 3 stray-quote"));
}

TEST(CsvRecords, whatCsvCellWritesReadsBack) {
  std::mt19937 random(1);
  const std::string letters = "ab ,;\"\r\n\t#=*/'\xC3\xB1";
  for (int round = 0; round < 2000; ++round) {
    std::string cell;
    for (size_t length = random() % 9; length > 0; --length) {
      const size_t at = random() % (letters.size() - 1);
      cell += at == letters.size() - 2 ? letters.substr(at) : letters.substr(at, 1);
    }
    const auto loaded = records(csvCell(cell) + ",x," + csvCell(cell) + "\r\n");
    ASSERT_TRUE(loaded) << cell;
    EXPECT_THAT(loaded.value->front().cells, ElementsAre(cell, "x", cell));
  }
}

}  // namespace
}  // namespace ww::sheet
