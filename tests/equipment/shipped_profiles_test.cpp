// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "equipment/profile.h"
#include "equipment/schema.h"
#include "equipment/shipped.h"

namespace ww::equipment {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::IsSupersetOf;

std::vector<ShippedFile> units() {
  std::vector<ShippedFile> files;
  for (const ShippedFile& file : shippedProfiles())
    if (file.name != "parts") files.push_back(file);
  return files;
}

class Shipped : public testing::TestWithParam<ShippedFile> {
 protected:
  const Profile& profile() const { return *standardLibrary().find(GetParam().name); }
};

TEST_P(Shipped, reads) {
  const auto loaded = readProfile(GetParam().text, standardLibrary().parts);
  for (const auto& problem : loaded.problems) ADD_FAILURE() << problem.where << " " << problem.key;
  ASSERT_TRUE(loaded);
  EXPECT_EQ(loaded.value->id, GetParam().name);
  EXPECT_EQ(*loaded.value, profile());
}

TEST_P(Shipped, keepsToTheSchema) {
  for (const auto& problem : schemaProblems(GetParam().text, "profile.schema"))
    ADD_FAILURE() << problem.where << " " << problem.args.at(0).second;
}

TEST_P(Shipped, everyFactIsAskedFor) {
  for (const auto& [fact, holds] : profile().world) {
    const auto& nodes = profile().logic.nodes;
    EXPECT_TRUE(std::any_of(nodes.begin(), nodes.end(), [&](const LogicNode& node) {
      return node.op == Op::world && node.name == fact;
    })) << fact;
  }
}

TEST_P(Shipped, everySafetyOpensByAFactOfItsName) {
  for (const Element& element : profile().elements) {
    const auto* contact = std::get_if<ContactPart>(&element.part);
    if (!contact || !contact->safety) continue;
    EXPECT_TRUE(profile().world.contains(element.id + "Open")) << element.id;
  }
}

TEST_P(Shipped, everyCallInputStandsAtItsTerminal) {
  for (const Terminal& terminal : profile().terminals) {
    const Element* element = profile().element(terminal.id);
    if (!element || !std::holds_alternative<InputPart>(element->part)) continue;
    EXPECT_EQ(element->a, terminal.id);
  }
}

TEST_P(Shipped, everyCoilIsWithinPhysics) {
  for (const Element& element : profile().elements)
    if (const auto* coil = std::get_if<CoilPart>(&element.part)) {
      EXPECT_THAT(contradictions(*coil), IsEmpty());
    }
}

INSTANTIATE_TEST_SUITE_P(Each, Shipped, testing::ValuesIn(units()), [](const auto& file) {
  std::string name(file.param.name);
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(Library, holdsTheUnitsOfThreeKindsOfSystem) {
  std::vector<std::string> ids;
  for (const auto& [id, profile] : standardLibrary().profiles) ids.push_back(id);
  EXPECT_THAT(ids, IsSupersetOf({"ah-board", "ah-relay-sequencer", "float-switch", "furnace-1", "od-cool-1",
                                 "od-cool-1-timer", "od-heatpump-1-b", "od-heatpump-1-o", "rc-1h1c-battery",
                                 "rc-1h1c-common", "rc-heatpump-2"}));
  EXPECT_EQ(standardLibrary().find("no-such-unit"), nullptr);
}

std::vector<std::string> strip(const char* id) {
  std::vector<std::string> ids;
  for (const Terminal& terminal : standardLibrary().find(id)->terminals) ids.push_back(terminal.id);
  return ids;
}

TEST(Library, stripsAreInOrder) {
  EXPECT_THAT(strip("rc-1h1c-common"), ElementsAre("R", "C", "Y", "G", "W"));
  EXPECT_THAT(strip("rc-1h1c-battery"), ElementsAre("R", "Y", "G", "W"));
  EXPECT_THAT(strip("rc-heatpump-2"), ElementsAre("R", "C", "Y1", "Y2", "G", "RV", "W2", "E"));
  EXPECT_THAT(strip("furnace-1"), ElementsAre("R", "C", "W", "Y", "G", "HUM"));
  EXPECT_THAT(strip("ah-relay-sequencer"), ElementsAre("R", "C", "G", "W1", "W2", "Y", "O"));
  EXPECT_THAT(strip("ah-board"), ElementsAre("R", "C", "G", "Y1", "Y2", "W1", "W2", "O", "E", "DEHUM"));
  EXPECT_THAT(strip("od-cool-1"), ElementsAre("Y", "C"));
  EXPECT_THAT(strip("od-cool-2"), ElementsAre("Y1", "Y2", "C"));
  EXPECT_THAT(strip("rc-2h2c"), ElementsAre("R", "C", "Y1", "Y2", "G", "W1", "W2"));
  EXPECT_THAT(strip("rc-2h2c-occupied"), ElementsAre("R", "C", "Y1", "Y2", "G", "W1", "W2", "OC"));
  EXPECT_THAT(strip("furnace-2"), ElementsAre("R", "C", "W1", "W2", "Y1", "Y2", "G", "HUM"));
  EXPECT_THAT(strip("furnace-2-condensing"), ElementsAre("R", "C", "W1", "W2", "Y1", "Y2", "G", "HUM"));
  EXPECT_THAT(strip("furnace-1-condensing"), ElementsAre("R", "C", "W", "Y", "G", "HUM"));
  EXPECT_THAT(strip("rooftop-2h2c"), ElementsAre("R", "C", "G", "Y1", "Y2", "W1", "W2", "OC", "SD1", "SD2"));
  EXPECT_THAT(strip("od-cool-1-timer"), ElementsAre("R", "C", "Y"));
  EXPECT_THAT(strip("od-heatpump-1-o"), ElementsAre("R", "C", "Y1", "O", "W"));
  EXPECT_THAT(strip("od-heatpump-1-b"), ElementsAre("R", "C", "Y1", "B", "O", "W"));
  EXPECT_THAT(strip("od-heatpump-2-o"), ElementsAre("R", "C", "Y1", "Y2", "O", "W"));
  EXPECT_THAT(strip("od-heatpump-2-b"), ElementsAre("R", "C", "Y1", "Y2", "B", "O", "W"));
  EXPECT_THAT(strip("od-inverter-24v"), ElementsAre("R", "C", "Y1", "Y2", "O", "W"));
  EXPECT_THAT(strip("dual-fuel-kit"), ElementsAre("R", "C", "Y", "O", "W2", "YO", "DW", "WF"));
}

TEST(Library, compressorOffTimeIsHard) {
  for (const auto& [id, seconds] : {std::pair{"rc-1h1c-common", 300.0},
                                    {"rc-1h1c-battery", 300.0},
                                    {"rc-heatpump-2", 300.0},
                                    {"rc-2h2c", 300.0},
                                    {"rc-2h2c-occupied", 300.0},
                                    {"rooftop-2h2c", 180.0},
                                    {"od-cool-1-timer", 180.0},
                                    {"od-heatpump-1-o", 180.0},
                                    {"od-heatpump-1-b", 180.0},
                                    {"od-heatpump-2-o", 180.0},
                                    {"od-heatpump-2-b", 180.0},
                                    {"od-inverter-24v", 180.0}}) {
    int found = 0;
    for (const LogicNode& node : standardLibrary().find(id)->logic.nodes)
      if (node.op == Op::minOff) {
        ++found;
        EXPECT_TRUE(node.hard) << id;
        EXPECT_EQ(node.number, seconds) << id;
      }
    EXPECT_EQ(found, std::string_view(id) == "rooftop-2h2c" ? 2 : 1) << id << ": one a compressor";
  }
}

TEST(Library, everyPartSaysWhereItsFiguresComeFrom) {
  const auto parts = nlohmann::json::parse(textOf(shippedProfiles(), "parts"));
  EXPECT_GE(parts["parts"].size(), 30u);
  for (const auto& [name, part] : parts["parts"].items())
    EXPECT_FALSE(part.value("source", "").empty()) << name;
}

TEST(Schema, isKnownByName) {
  EXPECT_EQ(schemaProblems("{}", "no-such-schema").at(0).key, "schema-unknown");
  EXPECT_FALSE(schemaProblems("{}", "profile.schema").empty());
  EXPECT_EQ(schemaProblems("{", "profile.schema").at(0).key, "json-syntax");
}

TEST(Schema, saysWhere) {
  auto profile = nlohmann::json::parse(textOf(shippedProfiles(), "od-cool-1"));
  profile["terminals"][1]["posts"] = 0;
  const auto problems = schemaProblems(profile.dump(), "profile.schema");
  ASSERT_FALSE(problems.empty());
  EXPECT_TRUE(std::any_of(problems.begin(), problems.end(),
                          [](const auto& problem) { return problem.where == "/terminals/1/posts"; }));
}

}  // namespace
}  // namespace ww::equipment
