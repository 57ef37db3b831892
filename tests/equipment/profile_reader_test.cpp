// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <functional>
#include <nlohmann/json.hpp>

#include "equipment/profile.h"
#include "equipment/schema.h"

namespace ww::equipment {
namespace {

using nlohmann::json;
using quantity::Problem;
using quantity::Problems;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::IsSupersetOf;
using testing::UnorderedElementsAre;

/// A small sound unit with something of everything.
json sound() {
  return json::parse(R"json({
    "format": "wirewright-profile", "version": 1, "id": "test-unit", "kind": "airHandler", "column": "indoor",
    "title": {"en": "Test unit", "es": "Unidad de prueba"}, "bond": "bonded", "needsCommon": true,
    "settings": [{"key": "transformer", "choices": ["XF40", "XF50"], "standard": "XF50"},
                 {"key": "sense", "choices": ["cooling", "heating"], "standard": "cooling"},
                 {"key": "rise", "standard": "40"}],
    "world": {"LIMOpen": false, "gas": true},
    "terminals": [{"id": "R", "role": "hot", "purpose": "hot"},
                  {"id": "C", "role": "common", "purpose": "common", "optional": true, "posts": 3},
                  {"id": "W", "role": "callIn", "purpose": "heat1"},
                  {"id": "RV", "role": "callIn", "purpose": "reversingValve",
                   "printed": {"setting": "sense", "texts": {"cooling": "O", "heating": "B"}}}],
    "elements": [{"id": "XF", "a": "x0", "b": "C", "partSetting": "transformer"},
                 {"id": "F", "a": "x0", "b": "R", "part": "fuse3"},
                 {"id": "B", "a": "R", "b": "C", "part": "B2.5", "relays": ["KV", "want & world.gas"]},
                 {"id": "W", "a": "W", "b": "C", "part": {"kind": "input", "ohms": 3300}},
                 {"id": "RV", "a": "RV", "b": "C", "part": "RV7"},
                 {"id": "LIM", "a": "R", "b": "n1", "part": "safety", "closedBy": "!world.LIMOpen"},
                 {"id": "KV", "a": "n1", "b": "mv", "part": "boardRelay"},
                 {"id": "GV", "a": "mv", "b": "C", "part": "GV10"}],
    "logic": ["want := live & line & seen(W)", "KV := want & minOff(30) hard"],
    "duties": [{"name": "burner1", "running": "line & powered(GV) & world.gas"},
               {"name": "blower", "speed": "heat", "running": "want off 90"}],
    "calls": [{"name": "defrost", "offered": "sense=cooling"}],
    "nameplate": ["serial"], "insertPoints": [{"name": "LIM", "note": "in-series"}],
    "cautions": ["capacitor-charge"], "sources": ["common practice"]})json");
}

quantity::Loaded<Profile> read(const json& profile) {
  return readProfile(profile.dump(), standardLibrary().parts);
}

std::string told(const Problem& problem) { return problem.where + " " + problem.key; }

std::vector<std::string> told(const Problems& problems) {
  std::vector<std::string> lines;
  for (const Problem& problem : problems) lines.push_back(told(problem));
  return lines;
}

TEST(ReadProfile, keepsEverythingOfASoundOne) {
  const auto loaded = read(sound());
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  const Profile& profile = *loaded.value;
  EXPECT_EQ(profile.id, "test-unit");
  EXPECT_EQ(profile.kind, Kind::airHandler);
  EXPECT_EQ(profile.column, Column::indoor);
  EXPECT_EQ(profile.bond, Bond::bonded);
  EXPECT_TRUE(profile.needsCommon);
  EXPECT_TRUE(profile.fixedOrder);
  EXPECT_EQ(profile.title.at("es"), "Unidad de prueba");
  EXPECT_TRUE(profile.world.at("gas"));
  EXPECT_EQ(profile.terminals.size(), 4u);
  EXPECT_EQ(profile.terminal("C")->posts, 3);
  EXPECT_TRUE(profile.terminal("C")->optional);
  EXPECT_EQ(profile.terminal("RV")->printedFor.at("heating"), "B");
  EXPECT_EQ(profile.terminal("nowhere"), nullptr);
  EXPECT_EQ(profile.setting("transformer")->standard, "XF50");
  EXPECT_EQ(profile.element("XF")->partName, "XF50");
  EXPECT_EQ(profile.element("XF")->partSetting, "transformer");
  EXPECT_EQ(std::get<TransformerPart>(profile.element("XF")->part).rating.si(), 50);
  EXPECT_EQ(std::get<InputPart>(profile.element("W")->part).resistance.si(), 3300);
  EXPECT_EQ(profile.element("W")->partName, "");
  EXPECT_EQ(profile.element("B")->relays.size(), 2u);
  EXPECT_EQ(profile.duties.at(1).speed, "heat");
  EXPECT_GE(profile.calls.at(0).offered, 0);
  EXPECT_THAT(profile.sources, ElementsAre("common practice"));
}

TEST(ReadProfile, aContactIsClosedByTheSignalOfItsName) {
  const auto loaded = read(sound());
  ASSERT_TRUE(loaded);
  const LogicNode& node =
      loaded.value->logic.nodes.at(static_cast<size_t>(loaded.value->element("KV")->closedBy));
  EXPECT_EQ(node.op, Op::signal);
  EXPECT_EQ(node.name, "KV");
}

TEST(ReadProfile, aBareLiveMeansTheOnlySupply) {
  const auto loaded = read(sound());
  ASSERT_TRUE(loaded);
  for (const LogicNode& node : loaded.value->logic.nodes)
    if (node.op == Op::live) {
      EXPECT_EQ(node.name, "B");
    }
}

struct Mutation {
  const char* name;
  std::function<void(json&)> change;
  std::vector<std::string> want;  ///< "where key" of every problem
  bool seenBySchema = false;      ///< a schema can say this much
};

json::json_pointer at(const char* pointer) { return json::json_pointer(pointer); }
std::function<void(json&)> set(const char* pointer, json value) {
  return [=](json& profile) { profile[at(pointer)] = value; };
}
std::function<void(json&)> drop(const char* parent, const char* member) {
  return [=](json& profile) { profile[at(parent)].erase(member); };
}

const std::vector<Mutation>& mutations() {
  static const std::vector<Mutation> list{
      {"format", set("/format", "other"), {"/format wrong-format"}, true},
      {"newer", set("/version", 2), {"/version version-newer"}, true},
      {"versionZero", set("/version", 0), {"/version out-of-range"}, true},
      {"versionText", set("/version", "1"), {"/version wrong-type"}, true},
      {"noTitle", drop("", "title"), {" missing-member"}, true},
      {"oneLanguage", drop("/title", "es"), {"/title missing-language"}, true},
      {"blankTitle", set("/title/es", " "), {"/title missing-language"}, true},
      {"thirdLanguage", set("/title/xx", "x"), {"/title unknown-word"}, true},
      {"stray", set("/colour", 1), {"/colour unknown-member"}, true},
      {"badId", set("/id", "Test Unit"), {"/id bad-name"}, true},
      {"kind", set("/kind", "robot"), {"/kind unknown-word"}, true},
      {"column", set("/column", 3), {"/column wrong-type"}, true},
      {"bond", drop("", "bond"), {" missing-member"}, true},
      {"choice",
       set("/settings/1/choices/0", "a b"),
       {"/settings/1/choices bad-name", "/settings/1/standard unknown-word",
        "/terminals/3/printed/texts missing-member", "/terminals/3/printed/texts unknown-word",
        "/calls/0/offered logic-unknown-name"},
       true},
      {"standard", set("/settings/1/standard", "wet"), {"/settings/1/standard unknown-word"}},
      {"freeNumber", set("/settings/2/standard", "wet"), {"/settings/2/standard not-a-number"}},
      {"twoSettings", set("/settings/2/key", "sense"), {"/settings/2 id-doubled"}},
      {"worldType",
       set("/world/gas", 1),
       {"/world/gas wrong-type", "/elements/2/relays/1 logic-unknown-name",
        "/duties/0/running logic-unknown-name"},
       true},
      {"terminalTwice",
       set("/terminals/2/id", "C"),
       {"/terminals/2 id-doubled", "/elements/3 dangling-node"}},
      {"terminalName",
       set("/terminals/2/id", "1W"),
       {"/terminals/2/id bad-name", "/elements/3 dangling-node"},
       true},
      {"role", set("/terminals/2/role", "plug"), {"/terminals/2/role unknown-word"}, true},
      {"purpose", set("/terminals/2/purpose", "warmth"), {"/terminals/2/purpose unknown-word"}, true},
      {"posts", set("/terminals/2/posts", 0), {"/terminals/2/posts out-of-range"}, true},
      {"halfPost", set("/terminals/2/posts", 1.5), {"/terminals/2/posts wrong-type"}, true},
      {"printedSetting",
       set("/terminals/3/printed/setting", "no"),
       {"/terminals/3/printed/setting unknown-setting"}},
      {"printedText",
       drop("/terminals/3/printed/texts", "heating"),
       {"/terminals/3/printed/texts missing-member"}},
      {"noPart", drop("/elements/7", "part"), {"/elements/7 missing-member"}, true},
      {"unknownPart", set("/elements/7/part", "GV99"), {"/elements/7/part unknown-part"}},
      {"partSetting", set("/elements/0/partSetting", "size"), {"/elements/0/partSetting unknown-setting"}},
      {"choiceNoPart", set("/settings/0/choices/0", "XF41"), {"/elements/0/partSetting unknown-part"}},
      {"choiceOtherKind",
       set("/settings/0/choices/0", "fuse3"),
       {"/elements/0/partSetting part-kinds-differ"}},
      {"sameNode", set("/elements/4/b", "RV"), {"/elements/4 same-node-twice"}},
      {"dangling", set("/elements/6/b", "m5"), {"/elements/6 dangling-node", "/elements/7 dangling-node"}},
      {"elementTwice",
       set("/elements/7/id", "KV"),
       {"/elements/7 id-doubled", "/duties/0/running logic-unknown-name"}},
      {"closedByOnCoil", set("/elements/4/closedBy", "want"), {"/elements/4/closedBy unknown-member"}},
      {"relaysOnCoil",
       set("/elements/4/relays", json::array({"want"})),
       {"/elements/4/relays unknown-member"}},
      {"noClosedBy", drop("/elements/5", "closedBy"), {"/elements/5 logic-unknown-name"}},
      {"closedBySyntax", set("/elements/5/closedBy", "want &"), {"/elements/5/closedBy logic-syntax"}},
      {"relaySyntax", set("/elements/2/relays/0", ")"), {"/elements/2/relays/0 logic-syntax"}},
      {"inputZeroOhm", set("/elements/3/part/ohms", 0), {"/elements/3/part/ohms out-of-range"}, true},
      {"inputThresholds",
       set("/elements/3/part/goneBelowVolts", 12),
       {"/elements/3/part/goneBelowVolts input-threshold-order"}},
      {"partKind", set("/elements/3/part/kind", "lamp"), {"/elements/3/part/kind unknown-word"}, true},
      {"partStray", set("/elements/3/part/source", "x"), {"/elements/3/part/source unknown-member"}, true},
      {"statement", set("/logic/0", "want = 1"), {"/logic/0 logic-syntax"}},
      {"statementType",
       set("/logic/0", 5),
       {"/logic/0 wrong-type", "/logic/1 logic-unknown-name", "/elements/2/relays/1 logic-unknown-name",
        "/duties/1/running logic-unknown-name"},
       true},
      {"unknownInput", set("/logic/0", "want := seen(RV)"), {"/logic/0 logic-unknown-name"}},
      {"unknownWorld", set("/logic/0", "want := world.rain"), {"/logic/0 logic-unknown-name"}},
      {"unknownCall", set("/logic/0", "want := call.heat9"), {"/logic/0 logic-unknown-name"}},
      {"unknownKey", set("/logic/0", "want := colour=red"), {"/logic/0 logic-unknown-name"}},
      {"unknownValue", set("/logic/0", "want := sense=both"), {"/logic/0 logic-unknown-name"}},
      {"unknownThermal", set("/logic/0", "want := hot(GV)"), {"/logic/0 logic-unknown-name"}},
      {"unknownCoil", set("/logic/0", "want := in(KV)"), {"/logic/0 logic-unknown-name"}},
      {"unknownContact", set("/logic/0", "want := shut(GV)"), {"/logic/0 logic-unknown-name"}},
      {"unknownSupply", set("/logic/0", "want := live(F)"), {"/logic/0 logic-unknown-name"}},
      {"noSupply",
       set("/elements/2", json::parse(R"({"id": "B", "a": "R", "b": "C", "part": "IN3"})")),
       {"/logic/0 logic-which-supply"}},
      {"loop", set("/logic/0", "want := !KV"), {"/logic logic-loop"}},
      {"duty", set("/duties/0/name", "dance"), {"/duties/0/name unknown-word"}, true},
      {"dutyNumber", set("/duties/0/name", "burner0"), {"/duties/0/name unknown-word"}, true},
      {"speedOfBurner", set("/duties/0/speed", "heat"), {"/duties/0/speed unknown-word"}},
      {"speed", set("/duties/1/speed", "gale"), {"/duties/1/speed unknown-word"}, true},
      {"noRunning", drop("/duties/0", "running"), {"/duties/0 missing-member"}, true},
      {"call", set("/calls/0/name", "dry"), {"/calls/0/name unknown-word"}, true},
      {"offer", set("/calls/0/offered", "seen(W)"), {"/calls/0/offered offer-not-settings"}},
      {"note", set("/insertPoints/0/note", "In Series"), {"/insertPoints/0/note bad-name"}, true},
      {"caution", set("/cautions/0", "Mind!"), {"/cautions bad-name"}, true},
      {"noSources", set("/sources", json::array()), {"/sources empty-text"}, true},
      {"blankSource", set("/sources/0", "  "), {"/sources empty-text"}, true},
      {"nullMember",
       set("/terminals", nullptr),
       {"/terminals wrong-type", "/elements/7 dangling-node"},
       true},
      {"list", [](json& profile) { profile = json::array(); }, {" wrong-type"}, true},
  };
  return list;
}

class Mutated : public testing::TestWithParam<Mutation> {
 protected:
  json profile() const {
    json result = sound();
    GetParam().change(result);
    return result;
  }
};

TEST_P(Mutated, isRefusedWithEveryProblemPlaced) {
  const auto loaded = read(profile());
  EXPECT_FALSE(loaded);
  if (GetParam().name == std::string("nullMember"))  // without terminals much else hangs in the air
    EXPECT_THAT(told(loaded.problems), testing::Contains("/terminals wrong-type"));
  else
    EXPECT_THAT(told(loaded.problems), testing::UnorderedElementsAreArray(GetParam().want));
}

TEST_P(Mutated, isRefusedByTheSchemaAsFarAsASchemaCanSay) {
  EXPECT_EQ(!schemaProblems(profile().dump(), "profile.schema").empty(), GetParam().seenBySchema);
}

INSTANTIATE_TEST_SUITE_P(Each, Mutated, testing::ValuesIn(mutations()),
                         [](const auto& mutation) { return std::string(mutation.param.name); });

TEST(ReadProfile, theSchemaTakesTheSoundOne) {
  EXPECT_THAT(told(schemaProblems(sound().dump(), "profile.schema")), IsEmpty());
}

TEST(ReadProfile, findsAllProblemsAtOnce) {
  json profile = sound();
  for (const char* name : {"role", "purpose", "inputZeroOhm", "duty", "caution", "stray", "badId"})
    for (const Mutation& mutation : mutations())
      if (mutation.name == std::string(name)) mutation.change(profile);
  EXPECT_THAT(told(read(profile).problems),
              UnorderedElementsAre("/terminals/2/role unknown-word", "/terminals/2/purpose unknown-word",
                                   "/elements/3/part/ohms out-of-range", "/duties/0/name unknown-word",
                                   "/cautions bad-name", "/colour unknown-member", "/id bad-name"));
}

TEST(ReadProfile, aCommonMustBeThereToBeNeeded) {
  json profile = sound();
  profile["terminals"][1]["role"] = "tie";
  EXPECT_THAT(told(read(profile).problems), ElementsAre("/needsCommon no-common-terminal"));
}

TEST(ReadProfile, physicsIsChecked) {
  const auto with = [](const char* part) {
    json profile = sound();
    profile["elements"][7]["part"] = json::parse(part);
    return told(read(profile).problems);
  };
  const char* valve = R"({"kind": "coil", "sealed": {"va": 10, "powerFactor": 0.6},
    "inrush": {"va": 14, "powerFactor": 0.75}, "dcOhms": 31, "pullInTypicalVolts": 15.6,
    "pullInGuaranteedVolts": 15, "dropOutVolts": 16})";
  EXPECT_THAT(with(valve), UnorderedElementsAre("/elements/7/part coil-dc-above-inrush",
                                                "/elements/7/part coil-drop-out-order",
                                                "/elements/7/part coil-pull-in-order"));
}

TEST(ReadProfile, refusesWhatIsNoJson) {
  const PartLibrary& parts = standardLibrary().parts;
  EXPECT_THAT(told(readProfile("", parts).problems), ElementsAre(" json-syntax"));
  EXPECT_THAT(told(readProfile(R"({"id": 1, "id": 2})", parts).problems),
              ElementsAre("/id json-duplicate-key"));
  EXPECT_THAT(told(readProfile(std::string(100, '['), parts).problems), ElementsAre(" json-too-deep"));
  EXPECT_THAT(told(readProfile(std::string(2u << 20, ' '), parts).problems), ElementsAre(" json-too-large"));
}

json soundParts() {
  return json::parse(R"({"format": "wirewright-parts", "version": 1, "parts": {
    "T1": {"kind": "thermal", "source": "x", "ohms": 100, "closingSeconds": 45, "openingSeconds": 60,
           "marginalVolts": 18, "neverVolts": 14},
    "B1": {"kind": "supply", "source": "x", "va": 2},
    "N1": {"kind": "resistor", "source": "x", "ohms": 470},
    "X1": {"kind": "transformer", "source": "x", "va": 40, "inherentlyLimited": true}}})");
}

TEST(ReadParts, readsEveryKind) {
  const auto loaded = readParts(soundParts().dump());
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_EQ(std::get<ResistorPart>(loaded.value->at("N1")).resistance.si(), 470);
  EXPECT_EQ(std::get<SupplyPart>(loaded.value->at("B1")).perRelay.si(), 1);
  EXPECT_EQ(std::get<TransformerPart>(loaded.value->at("X1")).angleDegrees, 35);
}

TEST(ReadParts, findsEveryProblem) {
  json parts = soundParts();
  parts["parts"]["T1"]["neverVolts"] = 19;
  parts["parts"]["B1"]["outBelowVolts"] = 17;
  parts["parts"]["N1"]["ohms"] = -1;
  parts["parts"]["X1"].erase("source");
  parts["parts"]["9x"] = parts["parts"]["B1"];
  parts["parts"]["9x"]["outBelowVolts"] = 14;
  EXPECT_THAT(told(readParts(parts.dump()).problems),
              UnorderedElementsAre(
                  "/parts/T1/neverVolts thermal-volts-order", "/parts/B1/backAtVolts supply-lock-out-order",
                  "/parts/N1/ohms out-of-range", "/parts/X1 missing-member", "/parts/9x bad-name"));
}

}  // namespace
}  // namespace ww::equipment
