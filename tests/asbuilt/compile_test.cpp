// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include "asbuilt/stamp.h"
#include "support/reference_sheets.h"
#include "support/small_units.h"

namespace ww::asbuilt {
namespace {

using circuit::Phasor;
using circuit::Quality;
using sheet::Capped;
using sheet::Conductor;
using sheet::Landing;
using sheet::Loose;
using sheet::Splice;
using sheet::TerminalRef;
using ww::testing::element;
using ww::testing::resistor;
using ww::testing::SmallUnit;

/// Two boxes of terminals with a load between each of them and common; the first has the transformer.
class Compile : public ::testing::Test {
 protected:
  Compile() {
    source_.id = "source";
    source_.terminals = {"R:hot", "C:common", "A:tie", "B:tie"};
    source_.elements = ww::testing::joinedJson(
        {element("XF", "x0", "C", "XF40"), element("F", "x0", "R", "fuse3"), resistor("LA", "A", "C", 1000)});
    load_.id = "load";
    load_.terminals = {"R:hot", "C:common", "A:tie", "B:tie"};
    load_.elements = ww::testing::joinedJson({resistor("L", "R", "C", 100), resistor("LB", "B", "C", 200)});
    sheet_ = ww::testing::sheetOf({source_, load_});
    first_ = sheet_.unitByTag("U1")->id;
    second_ = sheet_.unitByTag("U2")->id;
    sheet::Cable cable;
    cable.length = quantity::Metres(10);
    cable.endA = first_;
    cable.endB = second_;
    cable_ = sheet_.addCable(cable);
  }

  sheet::ConductorId wire(Landing a, Landing b) {
    Conductor row;
    row.cable = cable_;
    row.endA = std::move(a);
    row.endB = std::move(b);
    return sheet_.addConductor(row);
  }
  void jumper(Landing a, Landing b) {
    Conductor row;
    row.endA = std::move(a);
    row.endB = std::move(b);
    sheet_.addConductor(row);
  }
  TerminalRef one(const char* terminal) const { return {first_, terminal}; }
  TerminalRef two(const char* terminal) const { return {second_, terminal}; }
  AsBuilt compiled() { return compile(sheet_, ww::testing::libraryOf({source_, load_})); }

  /// Everything closed that can close.
  static circuit::Solver<Phasor> solved(const AsBuilt& built) {
    Positions positions(built.devices.size());
    std::fill(positions.closed.begin(), positions.closed.end(), 1);
    circuit::Solver<Phasor> solver(built.plan);
    solve(built, positions, {}, solver);
    return solver;
  }

  SmallUnit source_, load_;
  sheet::Sheet sheet_;
  sheet::UnitId first_{}, second_{};
  sheet::CableId cable_{};
};

TEST_F(Compile, EveryPlaceHasItsNodeAndBothWaysLeadBack) {
  wire(one("R"), two("R"));
  const AsBuilt built = compiled();
  EXPECT_EQ(built.units.size(), 2U);
  EXPECT_EQ(built.devices.size(), 5U);
  ASSERT_EQ(built.wires.size(), 1U);
  EXPECT_EQ(built.nodeNames[size_t(built.node(one("R")))], "U1.R");
  EXPECT_EQ(built.nodeTerminals[size_t(built.node(two("B")))], two("B"));
  EXPECT_EQ(built.wires[0].a, built.node(one("R")));
  EXPECT_EQ(built.wires[0].b, built.node(two("R")));
  EXPECT_NE(built.node(one("R")), built.node(two("R"))) << "a conductor has ohms";
  EXPECT_EQ(built.node({first_, "nowhere"}), -1);
  EXPECT_EQ(built.unitIndex(second_), 1);
  EXPECT_EQ(built.commonNode(1), built.node(two("C")));
  const Device* fuse = built.device(first_, "F");
  ASSERT_NE(fuse, nullptr);
  EXPECT_EQ(built.element(*fuse).id, "F");
  EXPECT_EQ(built.nodeNames[size_t(fuse->a)], "U1.x0");
  EXPECT_FALSE(built.nodeTerminals[size_t(fuse->a)]) << "an inner node is no terminal";
  EXPECT_EQ(built.device(second_, "F"), nullptr);
  EXPECT_EQ(built.plan->nodes(), int(built.nodeNames.size()));
}

TEST_F(Compile, AJumperMakesOneNodeOfTwo) {
  const int before = int(compiled().nodeNames.size());
  jumper(one("R"), one("A"));
  jumper(one("A"), one("B"));
  const AsBuilt built = compiled();
  EXPECT_EQ(built.node(one("R")), built.node(one("B")));
  EXPECT_EQ(int(built.nodeNames.size()), before - 2);
  EXPECT_TRUE(built.wires.empty()) << "it has no ohms to carry";
  EXPECT_EQ(built.nodeTerminals[size_t(built.node(one("B")))], one("A"))
      << "the smallest terminal speaks for all";
}

TEST_F(Compile, EndsOnOneSpliceAreJoinedAndOnAnotherNot) {
  wire(one("R"), Splice{second_, "S1"});
  wire(Loose{}, Splice{second_, "S1"});
  wire(one("A"), Splice{second_, "S2"});
  jumper(Splice{second_, "S1"}, two("R"));
  const AsBuilt built = compiled();
  ASSERT_EQ(built.wires.size(), 3U);
  EXPECT_EQ(built.wires[0].b, built.wires[1].b);
  EXPECT_EQ(built.wires[0].b, built.node(two("R")));
  EXPECT_NE(built.wires[2].b, built.wires[0].b);
}

TEST_F(Compile, LooseAndCappedEndsHangOnNothing) {
  const auto first = wire(one("R"), Loose{});
  wire(Loose{}, Capped{});
  const AsBuilt built = compiled();
  ASSERT_EQ(built.wires.size(), 2U);
  const auto solver = solved(built);
  EXPECT_EQ(built.wires[0].conductor, first);
  EXPECT_EQ(solver.quality(built.wires[0].b, built.node(one("C"))), Quality::solid);
  EXPECT_NEAR(std::abs(solver.voltage(built.wires[0].b, built.node(one("C")))), 27.6, 1e-9)
      << "live at its end";
  EXPECT_EQ(solver.quality(built.wires[1].a, built.node(one("C"))), Quality::floating);
  EXPECT_FALSE(built.nodeTerminals[size_t(built.wires[0].b)]);
}

TEST_F(Compile, ALooseEndIsNoTerminalWhateverTheUnitsAreCalled) {
  // A unit tagged with the very number of the conductor, with terminals A and B.
  const auto id = wire(one("R"), Loose{});
  sheet::Unit row = *sheet_.unitByTag("U2");
  row.tag = std::to_string(number(id));
  sheet_.units.put(row);
  const AsBuilt built = compiled();
  EXPECT_NE(built.wires[0].b, built.node(two("B")));
  EXPECT_EQ(solved(built).quality(built.wires[0].a, built.node(two("B"))), Quality::floating);
}

TEST_F(Compile, ACableWithoutLengthConducts) {
  sheet::Cable cable = *sheet_.cables.find(cable_);
  cable.length = quantity::Metres(0);
  sheet_.cables.put(cable);
  wire(one("R"), two("R"));
  wire(one("C"), two("C"));
  const AsBuilt built = compiled();
  const auto solver = solved(built);
  EXPECT_NEAR(std::abs(solver.voltage(built.node(two("R")), built.node(two("C")))), 27.6 * 100 / 102.195,
              0.01);
}

TEST_F(Compile, AJumperAcrossTheTransformerIsASolvedCase) {
  jumper(one("R"), one("C"));
  const AsBuilt built = compiled();
  const auto solver = solved(built);
  EXPECT_NEAR(std::abs(solver.current(built.device(first_, "F")->branch)), 27.6 / (2.16 + 0.035), 1e-9);
}

TEST_F(Compile, AUnitWithoutProfileIsLeftOutWithItsLandings) {
  sheet::Unit stranger;
  stranger.tag = "Z";
  stranger.profile = "unknown";
  const auto id = sheet_.addUnit(stranger);
  wire(one("R"), TerminalRef{id, "R"});
  wire(one("C"), two("C"));
  const AsBuilt built = compiled();
  EXPECT_EQ(built.units.size(), 2U);
  EXPECT_EQ(built.unitIndex(id), -1);
  EXPECT_EQ(built.wires.size(), 1U);
}

TEST_F(Compile, AnEmptySheetIsAnEmptyCircuit) {
  const AsBuilt built = compile({}, ww::testing::libraryOf({}));
  EXPECT_TRUE(built.devices.empty() && built.nodeNames.empty());
  EXPECT_EQ(built.plan->nodes(), 0);
}

TEST_F(Compile, SettingsResolveOwnThenCommonThenStandard) {
  source_.settings = R"({"key": "transformer", "choices": ["XF40", "XF75"], "standard": "XF40"},
                        {"key": "rise", "standard": "40"})";
  source_.elements =
      ww::testing::joinedJson({R"({"id": "XF", "a": "x0", "b": "C", "partSetting": "transformer"})",
                               element("F", "x0", "R", "fuse3")});
  const auto rating = [&] {
    const AsBuilt built = compiled();
    return std::get<equipment::TransformerPart>(built.device(first_, "XF")->part).rating.si();
  };
  EXPECT_EQ(rating(), 40);
  sheet_.settings.set("transformer", "XF75");
  EXPECT_EQ(rating(), 75);
  sheet_.settings.set("U1.transformer", "XF40");
  EXPECT_EQ(rating(), 40);
  sheet_.settings.set("U2.transformer", "XF75");
  EXPECT_EQ(rating(), 40) << "another unit's";
  sheet_.settings.set("U1.rise", "55");
  EXPECT_EQ(compiled().units[0].settings.at("rise"), "55");
  EXPECT_EQ(compiled().units[0].settings.at("transformer"), "XF40");
}

TEST_F(Compile, TheTapIsTheOneThatSuitsTheLineUnlessItIsStated) {
  const auto ratio = [&] { return compiled().units[0].tapRatio; };
  EXPECT_EQ(ratio(), 1);
  sheet_.settings.set("lineVolts", "240");
  EXPECT_EQ(ratio(), 1);
  sheet_.settings.set("lineVolts", "230");
  EXPECT_NEAR(ratio(), 230.0 / 240, 1e-12);
  sheet_.settings.set("lineVolts", "208");
  EXPECT_EQ(ratio(), 1);
  sheet_.settings.set("U1.tap", "240");
  EXPECT_NEAR(ratio(), 208.0 / 240, 1e-12);
  sheet_.settings.set("lineVolts", "240");
  sheet_.settings.set("U1.tap", "208");
  EXPECT_NEAR(ratio(), 240.0 / 208, 1e-12);
}

TEST_F(Compile, TheSiteSaysTheFrequency) {
  EXPECT_EQ(compiled().frequency, 60);
  sheet_.settings.set("lineFrequency", "50");
  EXPECT_EQ(compiled().frequency, 50);
}

TEST_F(Compile, BondedCommonsMeetInTheMetalAndFloatingOnesDoNot) {
  EXPECT_EQ(solved(compiled()).quality(compiled().commonNode(0), compiled().commonNode(1)),
            Quality::floating);
  source_.bond = "bonded";
  AsBuilt built = compiled();
  EXPECT_EQ(built.bondings.size(), 1U);
  EXPECT_EQ(solved(built).quality(built.commonNode(0), built.commonNode(1)), Quality::floating);
  load_.bond = "bonded";
  built = compiled();
  ASSERT_EQ(built.bondings.size(), 2U);
  EXPECT_EQ(built.bondings[0].b, built.bondings[1].b);
  EXPECT_EQ(built.nodeNames[size_t(built.bondings[0].b)], "earth");
  EXPECT_EQ(solved(built).quality(built.commonNode(0), built.commonNode(1)), Quality::solid);
  // With the hot alone in the cable the load has its return through metal: 0.12 ohm at each unit.
  wire(one("R"), two("R"));
  built = compiled();
  const auto solver = solved(built);
  const double wireOhms = quantity::copperResistance({}, quantity::Metres(10), quantity::Celsius(20)).si();
  EXPECT_NEAR(std::abs(solver.voltage(built.node(two("R")), built.node(two("C")))),
              27.6 * 100 / (100 + 2.16 + 0.035 + wireOhms + 0.24), 1e-6);
}

TEST(CompileRows, TheReferenceRowsHaveTheirUnitsAndConductors) {
  const auto& library = equipment::standardLibrary();
  const AsBuilt a = compile(ww::testing::rowA(), library);
  EXPECT_EQ(a.units.size(), 3U);
  EXPECT_EQ(a.wires.size(), 7U);
  EXPECT_EQ(a.cables, 2U);
  EXPECT_EQ(a.bondings.size(), 1U);
  const AsBuilt g = compile(ww::testing::rowG(), library);
  EXPECT_EQ(g.wires.size(), 12U) << "the spare is a conductor too";
  // The same sheet compiles to the same circuit.
  EXPECT_EQ(compile(ww::testing::rowG(), library).nodeNames, g.nodeNames);
}

}  // namespace
}  // namespace ww::asbuilt
