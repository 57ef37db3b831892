// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/own_profiles.h"

#include <gmock/gmock.h>

#include "support/own_units.h"
#include "support/told.h"

namespace ww::equipment {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;
using ww::testing::ownProfile;
using ww::testing::told;

TEST(OwnProfiles, standBesideTheShippedOnes) {
  const auto own = withOwnProfiles(standardLibrary(), {{"a.json", ownProfile("furnace-1", "my-furnace")}});
  EXPECT_THAT(own.refused, IsEmpty());
  ASSERT_NE(own.library.find("my-furnace"), nullptr);
  EXPECT_EQ(own.library.profiles.size(), standardLibrary().profiles.size() + 1);
  EXPECT_EQ(own.library.find("my-furnace")->terminals, standardLibrary().find("furnace-1")->terminals);
  EXPECT_FALSE(own.library.shipped("my-furnace"));
  EXPECT_TRUE(own.library.shipped("furnace-1"));
  EXPECT_FALSE(own.library.shipped("nowhere"));
  EXPECT_TRUE(standardLibrary().own.empty());
}

TEST(OwnProfiles, aBadOneIsRefusedWithAllItsProblemsAndStopsNoOther) {
  const auto own =
      withOwnProfiles(standardLibrary(), {{"bad.json", ownProfile("od-cool-1", "my-outdoor",
                                                                  [](auto& json) {
                                                                    json["kind"] = "robot";
                                                                    json["terminals"][0]["role"] = "plug";
                                                                    json["sources"] = nlohmann::json::array();
                                                                  })},
                                          {"good.json", ownProfile("furnace-1", "my-furnace")},
                                          {"text.json", "no json"}});
  EXPECT_NE(own.library.find("my-furnace"), nullptr);
  EXPECT_EQ(own.library.find("my-outdoor"), nullptr);
  ASSERT_EQ(own.refused.size(), 2u);
  EXPECT_EQ(own.refused[0].name, "bad.json");
  EXPECT_THAT(
      told(own.refused[0].problems),
      UnorderedElementsAre("/kind unknown-word", "/terminals/0/role unknown-word", "/sources empty-text"));
  EXPECT_EQ(own.refused[1].name, "text.json");
  EXPECT_THAT(told(own.refused[1].problems), ElementsAre(" json-syntax"));
}

TEST(OwnProfiles, theIdOfAShippedOneIsRefusedBesideEverythingElse) {
  const auto bad = [](auto& json) { json["bond"] = "glued"; };
  EXPECT_THAT(told(readOwnProfile(ownProfile("furnace-1", "furnace-1"), standardLibrary()).problems),
              ElementsAre("/id own-shipped-id"));
  const auto read = readOwnProfile(ownProfile("furnace-1", "od-cool-1", bad), standardLibrary());
  EXPECT_FALSE(read);
  EXPECT_THAT(told(read.problems), ElementsAre("/bond unknown-word", "/id own-shipped-id"));
}

TEST(OwnProfiles, ofTwoWithOneIdTheFirstStays) {
  const auto other = [](auto& json) { json["title"]["en"] = "Other"; };
  const auto own = withOwnProfiles(standardLibrary(), {{"a.json", ownProfile("furnace-1", "mine")},
                                                       {"b.json", ownProfile("furnace-1", "mine", other)}});
  ASSERT_EQ(own.refused.size(), 1u);
  EXPECT_EQ(own.refused[0].name, "b.json");
  EXPECT_THAT(told(own.refused[0].problems), ElementsAre("/id own-id-doubled"));
  EXPECT_NE(own.library.find("mine")->title.at("en"), "Other");
}

TEST(OwnProfiles, keepTheirTextInItsOneSpelling) {
  const std::string text = ownProfile("furnace-1", "mine");
  const auto spread = withOwnProfiles(standardLibrary(), {{"a.json", text}});
  const auto dense = withOwnProfiles(standardLibrary(), {{"a.json", nlohmann::json::parse(text).dump()}});
  EXPECT_EQ(spread.library.own, dense.library.own);
  EXPECT_EQ(nlohmann::json::parse(spread.library.own.at("mine")), nlohmann::json::parse(text));
}

/// What physics does not allow, by the place it is told at.
struct Unphysical {
  const char* name;
  const char* shipped;
  testing::ChangeProfile change;
  std::vector<std::string> want;
  friend void PrintTo(const Unphysical& one, std::ostream* out) { *out << one.name; }
};

/// An element of the profile in hand gets this coil.
testing::ChangeProfile coil(double va, double dc, double typical, double guaranteed, double dropOut) {
  return [=](auto& json) {
    for (size_t i = 0; i < json["elements"].size(); ++i)
      if (json["elements"][i]["id"] == "CC")
        json["elements"][i]["part"] = {{"kind", "coil"},
                                       {"sealed", {{"va", va}, {"powerFactor", 0.35}}},
                                       {"inrush", {{"va", 35}, {"powerFactor", 0.75}}},
                                       {"dcOhms", dc},
                                       {"pullInTypicalVolts", typical},
                                       {"pullInGuaranteedVolts", guaranteed},
                                       {"dropOutVolts", dropOut}};
  };
}

std::string placeOf(const char* id) {
  const auto json = nlohmann::json::parse(ownProfile("od-cool-1", "mine"));
  for (size_t i = 0; i < json["elements"].size(); ++i)
    if (json["elements"][i]["id"] == id) return "/elements/" + std::to_string(i);
  return "none";
}

class Physics : public ::testing::TestWithParam<Unphysical> {};

TEST_P(Physics, isRefusedAtItsPlace) {
  const auto read =
      readOwnProfile(ownProfile(GetParam().shipped, "mine", GetParam().change), standardLibrary());
  EXPECT_FALSE(read);
  EXPECT_THAT(told(read.problems), ::testing::UnorderedElementsAreArray(GetParam().want));
}

INSTANTIATE_TEST_SUITE_P(Each, Physics,
                         ::testing::Values(Unphysical{"dropOutAbovePullIn",
                                                      "od-cool-1",
                                                      coil(7, 8, 17.3, 20.4, 18),
                                                      {placeOf("CC") + "/part coil-drop-out-order"}},
                                           Unphysical{"typicalAboveGuaranteed",
                                                      "od-cool-1",
                                                      coil(7, 8, 21, 20.4, 10.8),
                                                      {placeOf("CC") + "/part coil-pull-in-order"}},
                                           Unphysical{"negativeVoltAmps",
                                                      "od-cool-1",
                                                      coil(-7, 8, 17.3, 20.4, 10.8),
                                                      {placeOf("CC") + "/part/sealed/va out-of-range"}},
                                           Unphysical{"ohmsAboveTheirBound",
                                                      "od-cool-1",
                                                      coil(7, 12.5, 17.3, 20.4, 10.8),
                                                      {placeOf("CC") + "/part coil-dc-above-inrush"}},
                                           Unphysical{"reactanceThatFalls",
                                                      "od-cool-1",
                                                      coil(100, 1, 17.3, 20.4, 10.8),
                                                      {placeOf("CC") + "/part coil-reactance-falls"}},
                                           Unphysical{"elementOnATerminalThatIsNotThere",
                                                      "od-cool-1",
                                                      [](auto& json) {
                                                        for (auto& element : json["elements"])
                                                          if (element["id"] == "CC") element["b"] = "NOWHERE";
                                                      },
                                                      {placeOf("CC") + " dangling-node"}},
                                           Unphysical{"logicInACircle",
                                                      "od-cool-1",
                                                      [](auto& json) {
                                                        json["logic"].push_back("here := there | line");
                                                        json["logic"].push_back("there := !here");
                                                      },
                                                      {"/logic logic-loop"}}),
                         [](const auto& one) { return std::string(one.param.name); });

}  // namespace
}  // namespace ww::equipment
