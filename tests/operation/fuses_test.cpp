// SPDX-License-Identifier: GPL-3.0-or-later
// Fuses and primary links over time, on a 40 VA transformer: 27.6 V behind 2.16 ohm, fuse of 35 milliohm.
#include <gtest/gtest.h>

#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::contact;
using ww::testing::element;
using ww::testing::joinedJson;
using ww::testing::resistor;
using ww::testing::SmallMachine;
using ww::testing::SmallUnit;

constexpr double kLoop = 2.16 + 0.035;

SmallUnit fused(std::vector<std::string> elements, const char* transformer = "XF40") {
  SmallUnit unit;
  unit.terminals = {"R:hot", "C:common", "T:tie"};
  elements.insert(elements.begin(),
                  {element("XF", "x0", "C", transformer), element("F", "x0", "R", "fuse3")});
  unit.elements = joinedJson(elements);
  unit.facts = {{"a", false}, {"b", false}, {"c", false}};
  return unit;
}

SmallUnit loadOf(double amps) {
  return fused({contact("S", "R", "n1", "world.a"), resistor("L", "n1", "C", 27.6 / amps - kLoop - 0.02)});
}

const Melting& meltingOf(const SmallMachine& machine, const char* name = "F") {
  return machine.machine().melted()[size_t(machine.device(name))];
}

TEST(MeltingCurve, HoldsThenTakesAMinuteThenFallsToAmpsSquared) {
  const auto& fuse = std::get<equipment::FusePart>(equipment::standardLibrary().parts.at("fuse3"));
  EXPECT_TRUE(std::isinf(equipment::meltingSeconds(fuse, 4.05)));
  EXPECT_NEAR(equipment::meltingSeconds(fuse, 4.0501), 60, 0.1);
  EXPECT_NEAR(equipment::meltingSeconds(fuse, 9.8), 9 / (9.8 * 9.8), 1e-12) << "0.09 s";
  EXPECT_NEAR(equipment::meltingSeconds(fuse, 5.6), 0.287, 0.001);
  double before = 61;
  for (double amps = 4.06; amps < 20; amps *= 1.02) {
    const double seconds = equipment::meltingSeconds(fuse, amps);
    EXPECT_LT(seconds, before) << amps;
    EXPECT_GE(seconds, 9 / (amps * amps) * 0.999) << amps;
    before = seconds;
  }
}

TEST(Fuses, AnOverloadMeltsAfterATimeThatIsTold) {
  SmallMachine machine({loadOf(4.3)});
  machine.powerUp();
  machine.with("a", true);
  EXPECT_FALSE(machine.closed("F"));
  const auto& fuse = std::get<equipment::FusePart>(equipment::standardLibrary().parts.at("fuse3"));
  const double seconds = equipment::meltingSeconds(fuse, 4.3);
  EXPECT_GT(seconds, 5);
  EXPECT_NEAR(machine.when("F", false), 0.015 + seconds, 0.05);
  EXPECT_NEAR(meltingOf(machine).afterSeconds, seconds, 0.05);
  EXPECT_NEAR(meltingOf(machine).amps, 4.3, 1e-6);
}

TEST(Fuses, WhatEndsInTimeMeltsNothingAndCoolsOff) {
  // Twice for 10 s with a pause: of the 15 s at 4.4 A each uses up ten.
  auto unit = fused({contact("S", "R", "n1", "world.a & !(world.a on 10) | world.b & !(world.b on 10)"),
                     resistor("L", "n1", "C", 27.6 / 4.4 - kLoop - 0.02)});
  unit.facts = {{"a", false}, {"b", false}};
  const auto& fuse = std::get<equipment::FusePart>(equipment::standardLibrary().parts.at("fuse3"));
  const double seconds = equipment::meltingSeconds(fuse, 4.4);
  ASSERT_GT(seconds, 11);
  ASSERT_LT(seconds, 20);
  SmallMachine machine({unit});
  machine.powerUp();
  machine.with("a", true);
  EXPECT_TRUE(machine.closed("F"));
  machine.with("b", true);
  EXPECT_FALSE(machine.closed("F")) << "no time passed in between: the second spell comes on top";
  auto paused = unit;
  paused.logic = {"second := world.a on 30"};
  paused.elements =
      joinedJson({element("XF", "x0", "C", "XF40"), element("F", "x0", "R", "fuse3"),
                  contact("S", "R", "n1", "world.a & !(world.a on 10) | second & !(second on 10)"),
                  resistor("L", "n1", "C", 27.6 / 4.4 - kLoop - 0.02)});
  SmallMachine cooled({paused});
  cooled.powerUp();
  cooled.with("a", true);
  EXPECT_EQ(cooled.times("S", true), 2);
  EXPECT_TRUE(cooled.closed("F"));
}

TEST(Fuses, InrushOfMillisecondsMeltsNothing) {
  // Three large contactors start at once and pull in: more than twice the rating for a moment.
  std::vector<std::string> elements;
  for (const char* id : {"K1", "K2", "K3"})
    elements.push_back(
        std::string(R"({"id": ")") + id +
        R"(", "a": "n1", "b": "C", "part": {"kind": "coil", "sealed": {"va": 7, "powerFactor": 0.35},
      "inrush": {"va": 90, "powerFactor": 0.75}, "dcOhms": 3, "pullInTypicalVolts": 8,
      "pullInGuaranteedVolts": 10, "dropOutVolts": 4}})");
  elements.push_back(contact("S", "R", "n1", "world.a"));
  SmallMachine machine({fused(elements)});
  machine.powerUp();
  machine.with("a", true);
  EXPECT_TRUE(machine.in("K1") && machine.in("K3"));
  EXPECT_TRUE(machine.closed("F"));
  EXPECT_EQ(meltingOf(machine).amps, 0);
}

TEST(Fuses, TheCauseIsTold) {
  // A dead short.
  SmallMachine shorted({fused({contact("S", "R", "C", "world.a"), element("K", "R", "C", "K4")})});
  shorted.powerUp();
  shorted.with("a", true);
  EXPECT_EQ(meltingOf(shorted).cause, MeltCause::shortCircuit);
  EXPECT_LT(meltingOf(shorted).afterSeconds, 0.1);
  EXPECT_FALSE(shorted.in("K"));
  // Three contactors that need 22 V to pull in, and hum at inrush.
  std::vector<std::string> humming, loads;
  for (const char* id : {"K1", "K2", "K3", "K4"}) {
    humming.push_back(
        std::string(R"({"id": ")") + id +
        R"(", "a": "n1", "b": "C", "part": {"kind": "coil", "sealed": {"va": 7, "powerFactor": 0.35},
      "inrush": {"va": 60, "powerFactor": 0.75}, "dcOhms": 3, "pullInTypicalVolts": 22,
      "pullInGuaranteedVolts": 23, "dropOutVolts": 4}})");
    loads.push_back(std::string(R"({"id": ")") + id +
                    R"(", "a": "n1", "b": "C", "part": {"kind": "thermal", "ohms": 16, "closingSeconds": 5,
      "openingSeconds": 5, "marginalVolts": 8, "neverVolts": 6}})");
  }
  humming.push_back(contact("S", "R", "n1", "world.a"));
  SmallMachine hums({fused(humming)});
  hums.powerUp();
  hums.with("a", true);
  EXPECT_FALSE(hums.in("K1"));
  EXPECT_FALSE(hums.closed("F"));
  EXPECT_EQ(meltingOf(hums).cause, MeltCause::hum);
  // Loads that are simply too many.
  loads.push_back(contact("S", "R", "n1", "world.a"));
  SmallMachine loaded({fused(loads)});
  loaded.powerUp();
  loaded.with("a", true);
  EXPECT_FALSE(loaded.closed("F"));
  EXPECT_EQ(meltingOf(loaded).cause, MeltCause::overload);
}

TEST(Fuses, AfterAMeltTheOthersPullIn) {
  // Two branches behind one source: a short behind the fuse of one keeps the other's coil from pulling in.
  SmallUnit unit;
  unit.terminals = {"R:hot", "C:common", "T:tie"};
  unit.elements = joinedJson({element("XF", "x0", "C", "XF40"), element("F", "x0", "R", "fuse3"),
                              contact("S", "R", "s", "world.a"), resistor("L", "s", "C", 0.5),
                              contact("S2", "x0", "k", "world.a"), element("K", "k", "C", "C7")});
  unit.facts = {{"a", false}};
  SmallMachine machine({unit});
  machine.powerUp();
  machine.with("a", true);
  EXPECT_FALSE(machine.closed("F"));
  EXPECT_TRUE(machine.in("K"));
}

TEST(Links, OpenAfterTwoMinutesAboveTwiceRated) {
  // Rated 1.67 A; 3.2 A holds for ever, 3.5 A opens after 120 s and for good.
  const auto unit = [](double amps) {
    SmallUnit linked;
    linked.terminals = {"R:hot", "C:common", "T:tie"};
    linked.elements = joinedJson({element("XF", "R", "C", "XF40i"), contact("S", "R", "n1", "world.a"),
                                  resistor("L", "n1", "C", 27.6 / amps - 1.9)});
    linked.facts = {{"a", false}};
    return linked;
  };
  SmallMachine holds({unit(3.1)});
  holds.powerUp();
  holds.with("a", true);
  EXPECT_GT(holds.amps("XF"), 3);
  EXPECT_TRUE(holds.closed("XF"));
  SmallMachine opens({unit(3.8)});
  opens.powerUp();
  opens.with("a", true);
  EXPECT_FALSE(opens.closed("XF"));
  EXPECT_NEAR(opens.when("XF", false), 120, 0.1);
  EXPECT_EQ(opens.volts("L"), 0);
  opens.with("a", false);
  EXPECT_FALSE(opens.closed("XF")) << "not resettable";
  CallResult result;
  describe(opens.circuit(), opens.machine(), RunEnd::settled, {}, result);
  ASSERT_EQ(result.melted.size(), 1u);
  EXPECT_TRUE(result.melted[0].primary);
  EXPECT_NEAR(result.melted[0].after.si(), 120, 0.01);
}

}  // namespace
}  // namespace ww::operation
