// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/sheet_json.h"

#include <gmock/gmock.h>

#include <functional>
#include <limits>
#include <nlohmann/json.hpp>

#include "equipment/schema.h"
#include "sheet/landing_check.h"
#include "support/reference_sheets.h"
#include "support/told.h"

namespace ww::sheet {
namespace {

using nlohmann::json;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ww::testing::argument;
using ww::testing::told;

/// Two units, one cable with three conductors, one jumper.
json sound() {
  return json::parse(R"json({
    "format": "wirewright-sheet", "version": 1, "nextId": 20,
    "units": [{"id": 1, "tag": "T", "profile": "rc-1h1c-common", "label": "Control", "place": "Hall"},
              {"id": 2, "tag": "F", "profile": "furnace-1", "nameplate": {"serial": "0042"}},
              {"id": 3, "tag": "O", "profile": "od-cool-1"}],
    "cables": [{"id": 4, "name": "1", "gauge": "18", "metres": 15, "endA": 1, "endB": 2}],
    "conductors": [{"id": 5, "cable": 4, "colour": "RD", "endA": {"unit": 1, "terminal": "R"},
                    "endB": {"unit": 2, "terminal": "R"}},
                   {"id": 6, "cable": 4, "colour": "WH/RD", "endA": "loose", "endB": {"unit": 2, "splice": "S1"},
                    "remark": "old"},
                   {"id": 7, "cable": 4, "colour": "??", "endA": "capped", "endB": "capped"},
                   {"id": 8, "colour": "RD", "endA": {"unit": 2, "terminal": "R"},
                    "endB": {"unit": 2, "terminal": "W"}}],
    "settings": {"fanWithHeat": "equipment", "F.tap": "120"}})json");
}

quantity::Loaded<Sheet> read(const json& file) {
  return readSheetFile(file.dump(), equipment::standardLibrary());
}

json::json_pointer at(const char* pointer) { return json::json_pointer(pointer); }

std::function<void(json&)> set(const char* pointer, json value) {
  return [=](json& file) { file[at(pointer)] = value; };
}
std::function<void(json&)> drop(const char* parent, const char* member) {
  return [=](json& file) { file[at(parent)].erase(member); };
}

TEST(ReadSheet, keepsEverythingOfASoundOne) {
  const auto loaded = read(sound());
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  const Sheet& sheet = *loaded.value;
  EXPECT_EQ(sheet.nextId, 20);
  EXPECT_EQ(sheet.unitByTag("F")->nameplate.at("serial"), "0042");
  EXPECT_EQ(number(sheet.cableByName("1")->id), 4);
  const auto wires = conductorsOf(sheet, CableId{4});
  ASSERT_EQ(wires.size(), 3u);
  EXPECT_TRUE(std::holds_alternative<Loose>(wires[1]->endA));
  EXPECT_EQ(print(sheet, wires[1]->endB), "F/S1");
  EXPECT_TRUE(std::holds_alternative<Capped>(wires[2]->endB));
  EXPECT_TRUE(sheet.conductors.rows().back().isJumper());
  EXPECT_EQ(sheet.settings.find("F", "tap"), "120");
}

TEST(ReadSheet, whatMayBeLeftOut) {
  json file = sound();
  file.erase("settings");
  file.erase("nextId");
  const auto loaded = read(file);
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_EQ(loaded.value->nextId, 9);
}

TEST(ReadSheet, insideAnotherDocumentProblemsStandBelowItsPointer) {
  json sheet = sound();
  sheet.erase("format");
  sheet.erase("version");
  sheet["units"][0]["profile"] = "none";
  EXPECT_THAT(told(readSheet(sheet, "/sheets/planned", equipment::standardLibrary()).problems),
              ElementsAre("/sheets/planned/units/0/profile unknown-profile"));
}

struct Fault {
  const char* name;
  std::function<void(json&)> change;
  std::vector<std::string> want;  ///< "where key" of every problem
  bool seenBySchema = false;      ///< a schema can say this much
};

const std::vector<Fault>& faults() {
  static const std::vector<Fault> list{
      {"format", set("/format", "other"), {"/format wrong-format"}, true},
      {"newer", set("/version", 2), {"/version newer-version"}, true},
      {"versionZero", set("/version", 0), {"/version out-of-range"}, true},
      {"versionText", set("/version", "1"), {"/version wrong-type"}, true},
      {"noVersion", drop("", "version"), {" missing-member"}, true},
      {"list", [](json& file) { file = json::array(); }, {" wrong-type"}, true},
      {"stray", set("/colour", 1), {"/colour unknown-member"}, true},
      {"noUnits",
       [](json& file) {
         file = {{"format", "wirewright-sheet"},
                 {"version", 1},
                 {"units", 3},
                 {"cables", json::array()},
                 {"conductors", json::array()}};
       },
       {"/units wrong-type"},
       true},
      {"noId", drop("/units/2", "id"), {"/units/2 missing-member"}, true},
      {"idZero", set("/units/2/id", 0), {"/units/2/id out-of-range"}, true},
      {"idHalf", set("/units/2/id", 2.5), {"/units/2/id wrong-type"}, true},
      {"idHuge", set("/units/2/id", 1e300), {"/units/2/id out-of-range"}, true},
      {"idTwice", set("/conductors/2/id", 1), {"/conductors/2/id id-doubled"}},
      {"tagTwice", set("/units/2/tag", "F"), {"/units/2/tag tag-doubled"}},
      {"tag", set("/units/2/tag", "a b"), {"/units/2/tag unfit-tag"}, true},
      {"tagLong", set("/units/2/tag", std::string(25, 'x')), {"/units/2/tag unfit-tag"}, true},
      {"profile", set("/units/2/profile", "od-cool-9"), {"/units/2/profile unknown-profile"}},
      {"profileType", set("/units/2/profile", 3), {"/units/2/profile wrong-type"}, true},
      {"label", set("/units/0/label", std::string(5000, 'x')), {"/units/0/label text-too-long"}, true},
      {"nameplate", set("/units/1/nameplate/serial", 42), {"/units/1/nameplate/serial wrong-type"}, true},
      {"nameplateName", set("/units/1/nameplate/#", "x"), {"/units/1/nameplate/# unfit-name"}, true},
      {"cableName", set("/cables/0/name", ""), {"/cables/0/name unfit-name"}, true},
      {"cableTwice",
       [](json& file) {
         file["cables"].push_back(file["cables"][0]);
         file["cables"][1]["id"] = 10;
         file["cables"][1]["metres"] = 20;
       },
       {"/cables/1/name cable-doubled"}},
      {"gauge", set("/cables/0/gauge", "thin"), {"/cables/0/gauge bad-gauge"}, true},
      {"gaugeRange", set("/cables/0/gauge", "9"), {"/cables/0/gauge bad-gauge"}},
      {"gaugeType", set("/cables/0/gauge", 18), {"/cables/0/gauge wrong-type"}, true},
      {"lengthZero", set("/cables/0/metres", 0), {"/cables/0/metres length-out-of-range"}, true},
      {"lengthNegative", set("/cables/0/metres", -15), {"/cables/0/metres length-out-of-range"}, true},
      {"lengthAbsurd", set("/cables/0/metres", 1e300), {"/cables/0/metres length-out-of-range"}, true},
      {"lengthNull", set("/cables/0/metres", nullptr), {"/cables/0/metres wrong-type"}, true},
      {"lengthText", set("/cables/0/metres", "15"), {"/cables/0/metres wrong-type"}, true},
      {"noLength", drop("/cables/0", "metres"), {"/cables/0 missing-member"}, true},
      {"cableUnit", set("/cables/0/endB", 17), {"/cables/0/endB unit-not-there"}},
      {"cableOneUnit",
       set("/cables/0/endB", 1),
       {"/cables/0/endB cable-one-unit", "/conductors/0/endB landing-off-cable",
        "/conductors/1/endB landing-off-cable"}},
      {"noCable", set("/conductors/0/cable", 9), {"/conductors/0/cable cable-not-there"}},
      {"cableNull", set("/conductors/2/cable", nullptr), {"/conductors/2/cable wrong-type"}, true},
      {"colour", set("/conductors/0/colour", "red"), {"/conductors/0/colour unknown-colour"}, true},
      {"noColour", drop("/conductors/0", "colour"), {"/conductors/0 missing-member"}, true},
      {"terminal", set("/conductors/0/endA/terminal", "Z"), {"/conductors/0/endA/terminal unknown-terminal"}},
      {"landingUnit", set("/conductors/0/endA/unit", 12), {"/conductors/0/endA/unit unit-not-there"}},
      {"offCable",
       set("/conductors/0/endA", {{"unit", 3}, {"terminal", "Y"}}),
       {"/conductors/0/endA landing-off-cable"}},
      {"landingWord", set("/conductors/0/endA", "free"), {"/conductors/0/endA bad-landing"}, true},
      {"landingBoth", set("/conductors/0/endA/splice", "S"), {"/conductors/0/endA bad-landing"}, true},
      {"landingNeither", drop("/conductors/0/endA", "terminal"), {"/conductors/0/endA bad-landing"}, true},
      {"landingStray", set("/conductors/0/endA/post", 1), {"/conductors/0/endA/post unknown-member"}, true},
      {"noLanding", drop("/conductors/0", "endB"), {"/conductors/0 missing-member"}, true},
      {"splice", set("/conductors/1/endB/splice", "*"), {"/conductors/1/endB/splice unfit-name"}, true},
      {"jumper",
       set("/conductors/3/endB", {{"unit", 1}, {"terminal", "R"}}),
       {"/conductors/3/endB jumper-between-units"}},
      {"remark", set("/conductors/1/remark", false), {"/conductors/1/remark wrong-type"}, true},
      {"setting", set("/settings/fanSpeed", "1"), {"/settings/fanSpeed unknown-setting"}},
      {"settingValue", set("/settings/fanWithHeat", "x"), {"/settings/fanWithHeat setting-value"}},
      {"settingType", set("/settings/fanWithHeat", 1), {"/settings/fanWithHeat wrong-type"}, true},
      {"settingUnit", set("/settings/Q.tap", "120"), {"/settings/Q.tap setting-without-unit"}},
      {"nextId", set("/nextId", 8), {"/nextId next-id-too-low"}},
      {"nextIdType", set("/nextId", "9"), {"/nextId wrong-type"}, true},
  };
  return list;
}

class FaultySheet : public ::testing::TestWithParam<Fault> {
 protected:
  json file() const {
    json result = sound();
    GetParam().change(result);
    return result;
  }
};

TEST_P(FaultySheet, isRefusedWithEveryProblemPlaced) {
  const auto loaded = read(file());
  EXPECT_FALSE(loaded);
  EXPECT_THAT(told(loaded.problems), ::testing::UnorderedElementsAreArray(GetParam().want));
}

TEST_P(FaultySheet, isRefusedByTheSchemaAsFarAsASchemaCanSay) {
  EXPECT_EQ(!equipment::schemaProblems(file().dump(), "sheet.schema").empty(), GetParam().seenBySchema);
}

INSTANTIATE_TEST_SUITE_P(Each, FaultySheet, ::testing::ValuesIn(faults()),
                         [](const auto& fault) { return std::string(fault.param.name); });

TEST(ReadSheet, theSchemaTakesTheSoundOne) {
  EXPECT_THAT(told(equipment::schemaProblems(sound().dump(), "sheet.schema")), IsEmpty());
}

TEST(ReadSheet, complaintsSayWhatWouldBeRight) {
  json file = sound();
  file["conductors"][0]["endA"]["unit"] = 12;
  EXPECT_EQ(argument(read(file).problems.front(), "known"), "1 (T), 2 (F), 3 (O)");
  file = sound();
  file["conductors"][0]["endA"] = {{"unit", 3}, {"terminal", "Y"}};
  EXPECT_EQ(argument(read(file).problems.front(), "wanted"), "T");
  file = sound();
  file["version"] = 7;
  EXPECT_EQ(argument(read(file).problems.front(), "known"), "1");
}

TEST(ReadSheet, findsAllProblemsAtOnce) {
  json file = sound();
  for (const char* name : {"profile", "lengthNegative", "colour", "terminal", "setting", "nextId", "stray"})
    for (const Fault& fault : faults())
      if (fault.name == std::string(name)) fault.change(file);
  EXPECT_THAT(told(read(file).problems),
              ::testing::UnorderedElementsAre(
                  "/units/2/profile unknown-profile", "/cables/0/metres length-out-of-range",
                  "/conductors/0/colour unknown-colour", "/conductors/0/endA/terminal unknown-terminal",
                  "/nextId next-id-too-low", "/colour unknown-member"));
}

TEST(ReadSheet, whatIsNoJson) {
  const auto read = [](const std::string& text) {
    return told(readSheetFile(text, equipment::standardLibrary()).problems);
  };
  EXPECT_THAT(read(""), ElementsAre(" json-syntax"));
  EXPECT_THAT(read(sound().dump().substr(0, 300)), ElementsAre(" json-syntax"));
  EXPECT_THAT(read(R"({"format": "wirewright-sheet", "version": 1, "metres": NaN})"),
              ElementsAre(" json-syntax"));
  EXPECT_THAT(read(R"({"format": "wirewright-sheet", "version": 1e999})"), ElementsAre(" json-syntax"));
  EXPECT_THAT(read(R"({"version": 1, "version": 2})"), ElementsAre("/version json-duplicate-key"));
  EXPECT_THAT(read(std::string(200'000, '[')), ElementsAre(" json-too-deep"));
  EXPECT_THAT(read(std::string(kMostSheetBytes + 1, ' ')), ElementsAre(" json-too-large"));
}

TEST(ReadSheet, listsTooLongAreNotRead) {
  json file = sound();
  for (int i = 0; i < 600; ++i) file["units"].push_back(file["units"][0]);
  const auto problems = read(file).problems;
  ASSERT_FALSE(problems.empty());
  EXPECT_EQ(told(problems).front(), "/units too-many-items");
}

TEST(LandingCheck, aLengthThatIsNoNumber) {
  quantity::Problems problems;
  LandingCheck check(equipment::standardLibrary(), problems);
  check.length(quantity::Metres(std::numeric_limits<double>::quiet_NaN()), "here");
  check.length(quantity::Metres(std::numeric_limits<double>::infinity()), "there");
  check.length(quantity::Metres(1000), "fine");
  check.length(quantity::Metres(1e-9), "fine");
  EXPECT_THAT(told(problems), ElementsAre("here length-out-of-range", "there length-out-of-range"));
}

}  // namespace
}  // namespace ww::sheet
