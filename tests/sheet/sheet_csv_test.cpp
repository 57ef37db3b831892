// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/sheet_csv.h"

#include <gmock/gmock.h>

#include <fstream>
#include <sstream>

#include "sheet/landing_check.h"
#include "support/reference_sheets.h"
#include "support/told.h"

namespace ww::sheet {
namespace {

using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ww::testing::argument;
using ww::testing::told;

const std::string kSound =
    "#unit,T,rc-1h1c-common,Control,Hall\n"
    "#unit,F,furnace-1,Furnace,Closet\n"
    "#unit,O,od-cool-1\n"
    "#set,fanWithHeat,equipment\n"
    "cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark\n"
    "1,18,2,15,m,RD,T,R,F,R,\n"
    "1,18,2,15,m,YE,T,Y,F,Y,old\n"
    "2,18,2,12,m,YE,F,Y,O,Y,\n"
    "2,18,2,12,m,BU,F,C,O,C,\n"
    ",,,,,RD,F,R,F,W,\n";

quantity::Loaded<Sheet> read(const std::string& text) { return readCsv(text, equipment::standardLibrary()); }

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

quantity::Problems problemsOf(const std::string& from, const std::string& to) {
  const auto loaded = read(replaced(kSound, from, to));
  EXPECT_EQ(loaded.value.has_value(), loaded.problems.empty());
  return loaded.problems;
}

TEST(ReadCsv, aSoundSheet) {
  const auto loaded = read(kSound);
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  const Sheet& sheet = *loaded.value;
  ASSERT_EQ(sheet.units.size(), 3u);
  EXPECT_EQ(sheet.unitByTag("T")->label, "Control");
  EXPECT_EQ(sheet.unitByTag("F")->place, "Closet");
  EXPECT_EQ(sheet.unitByTag("O")->label, "");
  EXPECT_EQ(sheet.settings.find("T", "fanWithHeat"), "equipment");
  const Cable* cable = sheet.cableByName("1");
  ASSERT_NE(cable, nullptr);
  EXPECT_EQ(cable->length.si(), 15);
  EXPECT_EQ(cable->endA, sheet.unitByTag("T")->id);
  EXPECT_EQ(cable->endB, sheet.unitByTag("F")->id);
  const auto wires = conductorsOf(sheet, cable->id);
  ASSERT_EQ(wires.size(), 2u);
  EXPECT_EQ(print(sheet, wires[1]->endB), "F.Y");
  EXPECT_EQ(wires[1]->remark, "old");
  const Conductor& jumper = sheet.conductors.rows().back();
  EXPECT_TRUE(jumper.isJumper());
  EXPECT_EQ(print(sheet, jumper.endA) + " " + print(sheet, jumper.endB), "F.R F.W");
}

TEST(ReadCsv, theDemoSheetIsRowA) {
  std::ifstream file(WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-a.csv");
  std::stringstream text;
  text << file.rdbuf();
  const auto loaded = read(text.str());
  ASSERT_TRUE(loaded);
  const Sheet expected = ww::testing::rowA();
  EXPECT_EQ(loaded.value->conductors, expected.conductors);
  EXPECT_EQ(loaded.value->cables, expected.cables);
  EXPECT_EQ(loaded.value->settings, expected.settings);
}

TEST(ReadCsv, splicesSparesAndLooseEnds) {
  auto text = replaced(kSound, "YE,T,Y,F,Y,old", "YE,T,*,F,/S1,");
  text = replaced(text, "BU,F,C,O,C", "BU/WH,F,/S1,O,");
  const auto loaded = read(text);
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  const Sheet& sheet = *loaded.value;
  const auto first = conductorsOf(sheet, sheet.cableByName("1")->id);
  EXPECT_EQ(print(sheet, first[1]->endA), "*");
  EXPECT_EQ(print(sheet, first[1]->endB), "F/S1");
  const auto second = conductorsOf(sheet, sheet.cableByName("2")->id);
  EXPECT_EQ(print(sheet, second[1]->endA), "F/S1");
  EXPECT_TRUE(std::holds_alternative<Loose>(second[1]->endB));
  EXPECT_EQ(print(second[1]->colour), "BU/WH");
}

TEST(ReadCsv, columnsStandInAnyOrderAndAnyCase) {
  const auto loaded = read(
      "Colour,End_B,End_B_Unit,End_A,End_A_Unit,Unit,Length,Count,Gauge,CABLE\n"
      "RD,R,F,R,T,ft,50,1,18,1\n"
      "#unit,T,rc-1h1c-common\n#unit,F,furnace-1\n");
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_DOUBLE_EQ(loaded.value->cableByName("1")->length.si(), 15.24);
}

TEST(ReadCsv, asSpreadsheetsOfOtherPlacesSaveIt) {
  std::string text = kSound;
  for (char& c : text)
    if (c == ',') c = ';';
  std::string carriage = "\xEF\xBB\xBF";
  for (const char c : text) carriage += c == '\n' ? std::string("\r\n") : std::string(1, c);
  const auto loaded = read(carriage);
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_EQ(*loaded.value, *read(kSound).value);
}

TEST(ReadCsv, hashLinesFilledUpToTheWidestRow) {
  const auto loaded = read(replaced(kSound, "#unit,O,od-cool-1\n", "#unit,O,od-cool-1,,,,,,,,\n"));
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_EQ(*loaded.value, *read(kSound).value);
}

TEST(ReadCsv, aCableWhoseConductorsAreNotRecorded) {
  const auto loaded = read(kSound + "3,18,0,4,m,,T,,O,,\n");
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_TRUE(conductorsOf(*loaded.value, loaded.value->cableByName("3")->id).empty());
  EXPECT_THAT(
      told(read(kSound + "3,18,0,4,m,RD,T,R,O,,\n").problems),
      ElementsAre("row 11, colour empty-cable-with-conductor", "row 11, end_a empty-cable-with-conductor"));
}

TEST(ReadCsv, nameplates) {
  const auto loaded = read("#nameplate,F,serial,\"00,42\"\n" + kSound);
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_EQ(loaded.value->unitByTag("F")->nameplate.at("serial"), "00,42");
  EXPECT_THAT(told(read("#nameplate,X,serial,1\n#nameplate,F,a,1\n#nameplate,F,a,2\n" + kSound).problems),
              ElementsAre("row 1, tag unit-not-there", "row 3, field nameplate-doubled"));
}

struct Fault {
  const char* name;
  const char* from;
  const char* to;
  std::vector<std::string> want;  ///< "where key" of every problem
};

const std::vector<Fault>& faults() {
  static const std::vector<Fault> list{
      {"unknownProfile", "furnace-1", "furnace-9", {"row 2, profile unknown-profile"}},
      {"tagTwice",
       "#unit,O,",
       "#unit,F,",
       {"row 3, tag tag-doubled", "row 8, end_b_unit unit-not-there", "row 9, end_b_unit unit-not-there"}},
      {"tagWithPoint",
       "#unit,O,od",
       "#unit,O.1,od",
       {"row 3, tag unfit-tag", "row 8, end_b_unit unit-not-there", "row 9, end_b_unit unit-not-there"}},
      {"unitLineCut",
       "#unit,O,od-cool-1",
       "#unit,O",
       {"row 3 line-cells", "row 8, end_b_unit unit-not-there", "row 9, end_b_unit unit-not-there"}},
      {"unknownLine", "#set,", "#sets,", {"row 4 unknown-line"}},
      {"unknownSetting", "fanWithHeat", "fanSpeed", {"row 4 unknown-setting"}},
      {"settingValue", "equipment", "sometimes", {"row 4 setting-value"}},
      {"settingNoUnit", "fanWithHeat", "X.tap", {"row 4 setting-without-unit"}},
      {"tap", "fanWithHeat,equipment", "F.tap,12", {"row 4 setting-value"}},
      {"tapWithoutTransformer", "fanWithHeat,equipment", "O.tap,240", {"row 4 unknown-setting"}},
      {"lineVolts", "fanWithHeat,equipment", "lineVolts,49", {"row 4 setting-value"}},
      {"lineVoltsComma", "fanWithHeat,equipment", "lineVolts,\"120,5\"", {"row 4 setting-value"}},
      {"lineFrequency", "fanWithHeat,equipment", "lineFrequency,55", {"row 4 setting-value"}},
      {"settingTwice",
       "#set,fanWithHeat,equipment",
       "#set,lineVolts,120\n#set,lineVolts,120",
       {"row 5, key setting-doubled"}},
      {"columnMissing", "gauge,", "", {"row 5 column-missing"}},
      {"columnUnknown", "gauge,", "gauge,note,", {"row 5 column-unknown"}},
      {"columnTwice", "gauge,", "gauge,gauge,", {"row 5 column-doubled"}},
      {"noHeader",
       "cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark\n",
       "",
       {"row 5 header-missing"}},
      {"rowShort",
       "1,18,2,15,m,RD,T,R,F,R,",
       "1,18,2,15",
       {"row 6 row-too-short", "row 7, count count-mismatch"}},
      {"rowLong", "F,R,\n", "F,R,,,x\n", {"row 6 row-too-long", "row 7, count count-mismatch"}},
      {"gauge", "1,18,2,15,m,RD", "1,thin,2,15,m,RD", {"row 6, gauge bad-gauge"}},
      {"gaugeDiffers", "1,18,2,15,m,YE", "1,20,2,15,m,YE", {"row 7, gauge cable-contradicts"}},
      {"countDiffers", "1,18,2,15,m,YE", "1,18,3,15,m,YE", {"row 7, count cable-contradicts"}},
      {"countTooLarge", "2,18,2,12,m,BU,F,C,O,C,\n", "", {"row 8, count count-mismatch"}},
      {"countHalf", "2,18,2,12,m,YE", "2,18,1.5,12,m,YE", {"row 8, count bad-count"}},
      {"countWord", "2,18,2,12,m,YE", "2,18,two,12,m,YE", {"row 8, count bad-number"}},
      {"lengthZero",
       "15,m,RD",
       "0,m,RD",
       {"row 6, length length-out-of-range", "row 7, length cable-contradicts"}},
      {"lengthNegative",
       "15,m,RD",
       "-15,m,RD",
       {"row 6, length length-out-of-range", "row 7, length cable-contradicts"}},
      {"lengthAbsurd",
       "15,m,RD",
       "1000.5,m,RD",
       {"row 6, length length-out-of-range", "row 7, length cable-contradicts"}},
      {"lengthNan", "15,m,RD", "NaN,m,RD", {"row 6, length bad-number"}},
      {"lengthInfinite", "15,m,RD", "inf,m,RD", {"row 6, length bad-number"}},
      {"lengthOverflow", "15,m,RD", "1e999,m,RD", {"row 6, length bad-number"}},
      {"lengthEmpty", "15,m,RD", ",m,RD", {"row 6, length bad-number"}},
      {"lengthComma", "15,m,RD", "\"15,5\",m,RD", {"row 6, length decimal-comma"}},
      {"lengthUnit", "15,m,RD", "15,yd,RD", {"row 6, unit bad-length-unit"}},
      {"lengthOtherUnit", "15,m,YE", "15,ft,YE", {"row 7, length cable-contradicts"}},
      {"colour", "m,RD", "m,red", {"row 6, colour unknown-colour"}},
      {"unitNotThere", "RD,T,R,F,R", "RD,T,R,Q,R", {"row 6, end_b_unit unit-not-there"}},
      {"unitMissing", "RD,T,R,F,R", "RD,,R,F,R", {"row 6, end_a_unit unit-missing"}},
      {"otherEnd", "YE,T,Y,F,Y", "YE,O,Y,F,Y", {"row 7, end_a_unit cable-contradicts"}},
      {"oneUnit",
       "YE,T,Y,F,Y",
       "YE,T,Y,T,Y",
       {"row 7, end_b_unit cable-one-unit", "row 7, end_b_unit cable-contradicts"}},
      {"terminal", "RD,T,R,F,R", "RD,T,R,F,Z", {"row 6, end_b unknown-terminal"}},
      {"terminalCase", "RD,T,R,F,R", "RD,T,r,F,R", {"row 6, end_a unknown-terminal"}},
      {"splice", "RD,T,R,F,R", "RD,T,R,F,/", {"row 6, end_b unfit-name"}},
      {"cableName",
       "1,18,2,15,m,RD",
       "*1,18,1,15,m,RD",
       {"row 6, cable unfit-name", "row 7, count count-mismatch"}},
      {"jumperTwoUnits", ",,,,,RD,F,R,F,W", ",,,,,RD,F,R,T,W", {"row 10, end_b_unit jumper-between-units"}},
      {"jumperFigures",
       ",,,,,RD,F,R,F,W",
       ",18,,1,,RD,F,R,F,W",
       {"row 10, gauge jumper-with-cable-figures", "row 10, length jumper-with-cable-figures"}},
      {"strayQuote", "old", "o\"ld", {"row 7 stray-quote"}},
      {"openQuote", "old", "\"old", {"row 7 quote-not-closed"}},
  };
  return list;
}

class Faulty : public ::testing::TestWithParam<Fault> {};

TEST_P(Faulty, isRefusedWithEveryProblemPlaced) {
  const Fault& fault = GetParam();
  EXPECT_THAT(told(problemsOf(fault.from, fault.to)), ::testing::UnorderedElementsAreArray(fault.want));
}

INSTANTIATE_TEST_SUITE_P(Each, Faulty, ::testing::ValuesIn(faults()),
                         [](const auto& fault) { return std::string(fault.param.name); });

TEST(ReadCsv, complaintsSayWhatWouldBeRight) {
  const auto terminal = problemsOf("RD,T,R,F,R", "RD,T,R,F,Z").front();
  EXPECT_EQ(argument(terminal, "unit"), "F");
  EXPECT_EQ(argument(terminal, "terminal"), "Z");
  EXPECT_THAT(argument(terminal, "known"), AllOf(HasSubstr("R, "), HasSubstr("W")));
  EXPECT_EQ(argument(problemsOf("RD,T,R,F,R", "RD,T,R,Q,R").front(), "known"), "F, O, T");
  EXPECT_EQ(argument(problemsOf("15,m,RD", "\"15,5\",m,RD").front(), "wanted"), "15.5");
  EXPECT_THAT(argument(problemsOf("furnace-1", "furnace-9").front(), "known"), HasSubstr("furnace-1"));
  EXPECT_EQ(argument(problemsOf("fanWithHeat,equipment", "lineFrequency,55").front(), "choices"), "50, 60");
  const auto length = problemsOf("1,18,2,15,m,YE", "1,18,2,50,ft,YE").front();
  EXPECT_EQ(argument(length, "first_row"), "6");
  EXPECT_EQ(argument(length, "first"), "15 m");
  EXPECT_EQ(argument(length, "found"), "50 ft");
}

TEST(ReadCsv, theTextOfAScrewIsNotItsId) {
  const auto loaded = read(
      "#unit,T,rc-heatpump-2\n#unit,A,ah-board\n"
      "cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b\n"
      "1,18,1,15,m,OG,T,B,A,O\n");
  ASSERT_THAT(told(loaded.problems), ElementsAre("row 4, end_a terminal-by-screw-text"));
  EXPECT_EQ(argument(loaded.problems.front(), "id"), "RV");
}

TEST(ReadCsv, findsAllProblemsAtOnce) {
  std::string text = replaced(kSound, "furnace-1", "furnace-9");
  text = replaced(text, "m,RD", "m,red");
  text = replaced(text, "12,m,BU", "\"12,0\",m,BU");
  text = replaced(text, "O,C", "O,Q");
  text = replaced(text, "equipment", "never");
  EXPECT_THAT(told(read(text).problems),
              ::testing::UnorderedElementsAre("row 2, profile unknown-profile", "row 4 setting-value",
                                              "row 6, colour unknown-colour", "row 9, length decimal-comma",
                                              "row 9, end_b unknown-terminal"));
}

TEST(ReadCsv, emptyHugeOrEndless) {
  EXPECT_THAT(told(read("").problems), ElementsAre(" csv-empty"));
  EXPECT_THAT(told(read(" ,\n\n").problems), ElementsAre(" csv-empty"));
  EXPECT_THAT(told(read("#unit,T,rc-1h1c-common\n").problems), ElementsAre(" header-missing"));
  EXPECT_THAT(told(read(std::string(kMostSheetBytes + 1, 'x')).problems), ElementsAre(" csv-too-large"));
  EXPECT_THAT(told(read(kSound + std::string(kMostRows, '\n') + "x").problems),
              ElementsAre(" too-many-rows"));
  const auto remark = read(replaced(kSound, "old", std::string(5000, 'x')));
  EXPECT_THAT(told(remark.problems), ElementsAre("row 7, remark text-too-long"));
  std::string units = kSound;
  for (int i = 0; i < 500; ++i) units += "#unit,X" + std::to_string(i) + ",furnace-1\n";
  EXPECT_THAT(told(read(units).problems), ElementsAre(" too-many-units"));
}

TEST(ReadCsv, anEndlessListOfProblemsIsClosed) {
  std::string text = kSound;
  for (int i = 0; i < 3000; ++i) text += "9,x,y,z,w,v,u,t,s,r,q\n";
  const auto loaded = read(text);
  EXPECT_LT(loaded.problems.size(), kMostProblems + 20);
  EXPECT_GE(loaded.problems.size(), kMostProblems);
  EXPECT_EQ(loaded.problems.back().key, "more-problems");
}

TEST(ReadCsv, cutAnywhereItNeverGivesHalfASheet) {
  for (size_t bytes = 0; bytes < kSound.size(); ++bytes) {
    const auto loaded = read(kSound.substr(0, bytes));
    EXPECT_EQ(loaded.value.has_value(), loaded.problems.empty()) << bytes;
  }
}

}  // namespace
}  // namespace ww::sheet
