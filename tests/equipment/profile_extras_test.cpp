// SPDX-License-Identifier: GPL-3.0-or-later
// Terminals that are one piece of metal, units that are refused, sensors, and what other units run.
#include <gmock/gmock.h>

#include <nlohmann/json.hpp>

#include "equipment/profile.h"
#include "equipment/schema.h"

namespace ww::equipment {
namespace {

using nlohmann::json;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

json sound() {
  return json::parse(R"json({
    "format": "wirewright-profile", "version": 1, "id": "test-panel", "kind": "accessory", "column": "accessory",
    "title": {"en": "Panel", "es": "Panel"}, "bond": "floating",
    "settings": [{"key": "celsius", "standard": "10"}],
    "terminals": [{"id": "R", "role": "hot"}, {"id": "R1", "role": "hot"}, {"id": "C", "role": "common"},
                  {"id": "S1", "role": "sense"}, {"id": "S2", "role": "sense"}],
    "joined": {"R": ["R1"]},
    "elements": [{"id": "NTC", "a": "S1", "b": "S2", "part": "NTC10", "celsiusSetting": "celsius"},
                 {"id": "K", "a": "R", "b": "C", "part": "K2"},
                 {"id": "AFS", "a": "R1", "b": "C", "part": "relay", "closedBy": "duty.blower"}],
    "sources": ["common practice"]})json");
}

std::vector<std::string> told(const json& profile) {
  std::vector<std::string> lines;
  for (const auto& problem : readProfile(profile.dump(), standardLibrary().parts).problems)
    lines.push_back(problem.where + " " + problem.key);
  return lines;
}

TEST(ProfileExtras, AreRead) {
  const auto loaded = readProfile(sound().dump(), standardLibrary().parts);
  ASSERT_TRUE(loaded);
  EXPECT_THAT(loaded.value->joined, ElementsAre(ElementsAre("R", "R1")));
  EXPECT_EQ(loaded.value->element("NTC")->celsiusSetting, "celsius");
  EXPECT_EQ(std::get<ResistorPart>(loaded.value->element("NTC")->part).beta, 3950);
  EXPECT_EQ(loaded.value->refusal, "");
  EXPECT_THAT(schemaProblems(sound().dump(), "profile.schema"), IsEmpty());
}

TEST(ProfileExtras, DiodesAndTheRelaysBehindThemAreRead) {
  json profile = sound();
  profile["elements"] += {{"id", "D"}, {"a", "R"}, {"b", "x"}, {"part", {{"kind", "diode"}}}};
  profile["elements"] +=
      {{"id", "X"}, {"a", "x"}, {"b", "C"}, {"part", {{"kind", "halfWaveRelay"}, {"pullsFromShare", 0.6}}}};
  profile["elements"] += {{"id", "Y"}, {"a", "R"}, {"b", "S1"}, {"part", "relay"}, {"closedBy", "in(X)"}};
  EXPECT_THAT(schemaProblems(profile.dump(), "profile.schema"), IsEmpty());
  const auto loaded = readProfile(profile.dump(), standardLibrary().parts);
  ASSERT_TRUE(loaded) << ::testing::PrintToString(told(profile));
  EXPECT_EQ(std::get<DiodePart>(loaded.value->element("D")->part).drop.si(), 0.8);
  const auto& relay = std::get<HalfWaveRelayPart>(loaded.value->element("X")->part);
  EXPECT_EQ(relay.rated.si(), 24);
  EXPECT_EQ(relay.pullsFrom, 0.6);
  profile["elements"][5]["closedBy"] = "in(D)";
  EXPECT_THAT(told(profile), ElementsAre("/elements/5/closedBy logic-unknown-name")) << "no relay";
  profile["elements"][3]["part"]["dropVolts"] = 0;
  profile["elements"][4]["part"]["pullsFromShare"] = 1.1;
  EXPECT_THAT(told(profile), ElementsAre("/elements/3/part/dropVolts out-of-range",
                                         "/elements/4/part/pullsFromShare out-of-range"));
}

TEST(ProfileExtras, JoinedTerminalsExistAndStandInOneGroup) {
  json profile = sound();
  profile["joined"] = {{"R", {"R1", "X"}}, {"C", {"R1"}}};
  EXPECT_THAT(told(profile), UnorderedElementsAre("/joined/R unknown-word", "/joined/R id-doubled"));
  profile["joined"] = json::array();
  EXPECT_THAT(told(profile), ElementsAre("/joined wrong-type"));
}

TEST(ProfileExtras, ARefusedUnitSaysWhyAndNoOther) {
  json profile = sound();
  profile["kind"] = "refused";
  EXPECT_THAT(told(profile), ElementsAre(" missing-member"));
  profile["refusal"] = "ugly";
  EXPECT_THAT(told(profile), ElementsAre("/refusal unknown-word"));
  profile["refusal"] = "dataBus";
  EXPECT_THAT(told(profile), IsEmpty());
  profile["kind"] = "accessory";
  EXPECT_THAT(told(profile), ElementsAre("/refusal unknown-word"));
}

TEST(ProfileExtras, ASensorNamesASettingOfTheUnit) {
  json profile = sound();
  profile["elements"][0]["celsiusSetting"] = "kelvin";
  EXPECT_THAT(told(profile), ElementsAre("/elements/0/celsiusSetting unknown-setting"));
  profile = sound();
  profile["elements"][1]["celsiusSetting"] = "celsius";  // a coil is no sensor
  EXPECT_THAT(told(profile), ElementsAre("/elements/1/celsiusSetting unknown-member"));
}

TEST(ProfileExtras, OnlyDutiesThereAreCanBeProved) {
  json profile = sound();
  profile["elements"][2]["closedBy"] = "duty.bellows";
  EXPECT_THAT(told(profile), ElementsAre("/elements/2/closedBy logic-unknown-name"));
}

TEST(ProfileExtras, ASensorsOhmsFallWithTheTemperature) {
  // exp(3950 (1/298.15 - 1/273.15)) is 0.2974: 33.6 kohm at 0 C.
  const ResistorPart sensor{Ohms(10000), 3950};
  EXPECT_NEAR(resistanceAt(sensor, 0).si(), 33621, 20);
  EXPECT_EQ(resistanceAt(sensor, 25).si(), 10000);
  EXPECT_EQ(resistanceAt({Ohms(470)}, -20).si(), 470);
}

}  // namespace
}  // namespace ww::equipment
