// SPDX-License-Identifier: GPL-3.0-or-later
// The deck of a small circuit, read back by ngspice.
#include "asbuilt/netlist.h"

#include <gtest/gtest.h>

#include "asbuilt/stamp.h"
#include "support/small_units.h"
#include "support/spice.h"

namespace ww::asbuilt {
namespace {

using circuit::Phasor;
using spice::Simulator;
using ww::testing::contact;
using ww::testing::element;
using ww::testing::resistor;
using ww::testing::SmallUnit;

/// A transformer with an angle, a coil, a constant-power supply, and an open contact with something behind.
struct Deck {
  explicit Deck(const char* hertz, const std::vector<std::string>& more = {}, const char* tag = "U1") {
    SmallUnit unit;
    unit.terminals = {"R:hot", "C:common", "r:tie"};
    std::vector<std::string> elements{
        R"({"id": "XF", "a": "x0", "b": "C", "part": {"kind": "transformer", "va": 40, "inherentlyLimited": true}})",
        resistor("J", "x0", "R", 3),
        element("K", "R", "C", "C7"),
        element("S", "R", "C", "S1.5"),
        contact("SW", "R", "r", "false"),
        resistor("D", "r", "n2", 50),
        element("Q", "n2", "r", "K4")};
    elements.insert(elements.end(), more.begin(), more.end());
    unit.elements = ww::testing::joinedJson(elements);
    auto sheet = ww::testing::sheetOf({unit});
    sheet.settings.set("lineFrequency", hertz);
    sheet::Unit row = *sheet.unitByTag("U1");
    row.tag = tag;
    sheet.units.put(row);
    built = compile(sheet, ww::testing::libraryOf({unit}));
    Positions positions(built.devices.size());
    std::fill(positions.closed.begin(), positions.closed.end(), 1);
    positions.closed[index("SW")] = 0;
    positions.supplyOn[index("S")] = 1;
    positions.supplyVoltAmps[index("S")] = 1.5;
    solver.emplace(built.plan);
    solve(built, positions, {}, *solver);
    netlist = spice(built, *solver, "a small circuit");
  }
  size_t index(const char* name) const {
    return size_t(built.device(built.units[0].id, name) - built.devices.data());
  }
  int node(const char* terminal) const { return built.node({built.units[0].id, terminal}); }

  AsBuilt built;
  std::optional<circuit::Solver<Phasor>> solver;
  Netlist netlist;
};

void expectSameVolts(const Deck& deck) {
  auto& simulator = Simulator::instance();
  ASSERT_TRUE(simulator.load(deck.netlist.text)) << simulator.messages();
  // The deck carries its own analysis.
  ASSERT_TRUE(simulator.command("run")) << simulator.messages();
  int compared = 0;
  for (int a = 0; a < deck.built.plan->nodes(); ++a)
    for (int b = 0; b < a; ++b) {
      if (deck.solver->quality(a, b) == circuit::Quality::floating) continue;
      const auto atA = simulator.volts(deck.netlist.nodeNames[size_t(a)]);
      const auto atB = simulator.volts(deck.netlist.nodeNames[size_t(b)]);
      ASSERT_TRUE(atA && atB) << deck.netlist.text << simulator.messages();
      const Phasor want = deck.solver->voltage(a, b);
      EXPECT_NEAR(std::abs(*atA - *atB - want), 0, 1e-6 * std::abs(want) + 1e-6) << deck.netlist.text;
      ++compared;
    }
  EXPECT_GE(compared, 4);
}

TEST(Netlist, RunsAsItIsAndGivesTheSameVolts) {
  expectSameVolts(Deck("60"));
  expectSameVolts(Deck("50"));
}

TEST(Netlist, TheFrequencyIsTheSites) {
  EXPECT_NE(Deck("50").netlist.text.find(".ac lin 1 50 50\n"), std::string::npos);
  EXPECT_NE(Deck("60").netlist.text.find(".ac lin 1 60 60\n"), std::string::npos);
}

TEST(Netlist, TheCommonOfTheTransformerIsNodeZero) {
  const Deck deck("60");
  EXPECT_EQ(deck.netlist.nodeNames[size_t(deck.node("C"))], "0");
}

TEST(Netlist, NamesThatFoldToOneAreKeptApart) {
  // SPICE does not tell R from r.
  const Deck deck("60");
  const auto& names = deck.netlist.nodeNames;
  EXPECT_NE(names[size_t(deck.node("R"))], names[size_t(deck.node("r"))]);
}

TEST(Netlist, AnIslandHasOneLeakAndWhatIsOpenIsNotThere) {
  const Deck deck("60");
  const auto count = [&](const std::string& piece) {
    int found = 0;
    for (size_t at = deck.netlist.text.find(piece); at != std::string::npos;
         at = deck.netlist.text.find(piece, at + 1))
      ++found;
    return found;
  };
  EXPECT_EQ(count("Rleak"), 1) << deck.netlist.text;
  EXPECT_EQ(count("_sw "), 0) << deck.netlist.text;
  EXPECT_EQ(count("\nR6_u1_q "), 1) << "a coil is R and L\n" << deck.netlist.text;
  EXPECT_EQ(count("\nL6_u1_q "), 1) << deck.netlist.text;
  EXPECT_EQ(deck.netlist.text.find("* a small circuit\n"), 0U);
  EXPECT_TRUE(deck.netlist.text.ends_with(".end\n"));
}

TEST(Netlist, ATagMayBeWrittenAsPeopleWrite) { expectSameVolts(Deck("60", {}, "Dachboden=Süd ($1) {x}'")); }

TEST(Netlist, WhatWorksByHalfWavesIsAComment) {
  const Deck deck("60", {R"({"id": "DX", "a": "r", "b": "x", "part": {"kind": "diode"}})",
                         R"({"id": "KX", "a": "x", "b": "C", "part": {"kind": "halfWaveRelay"}})"});
  for (const char* line : {"* left out, works by half waves: diode u1_dx from u1_r to u1_x\n",
                           "* left out, works by half waves: relay behind a diode u1_kx from u1_x to u1_c\n"})
    EXPECT_NE(deck.netlist.text.find(line), std::string::npos) << deck.netlist.text;
  EXPECT_EQ(deck.netlist.nodeNames[size_t(deck.built.devices[deck.index("DX")].b)], "");
  expectSameVolts(deck);
  EXPECT_EQ(Deck("60").netlist.text.find("half waves"), std::string::npos);
}

TEST(Netlist, ANodeThatNothingTouchesHasNoName) {
  const Deck deck("60", {contact("S2", "R", "t", "false"), contact("S3", "t", "R", "false")});
  const size_t between = size_t(deck.built.devices[deck.index("S2")].b);
  EXPECT_FALSE(deck.netlist.nodeNames[between].empty()) << "both closed";
  circuit::Solver<Phasor> solver(deck.built.plan);
  solve(deck.built, Positions(deck.built.devices.size()), {}, solver);
  EXPECT_TRUE(spice(deck.built, solver, "all open").nodeNames[between].empty());
}

TEST(Netlist, NoUnitIsCalledLikeTheInsideOfAPart) {
  // The place between R and L of part 2 is written m2_u1_k; here a unit has a place that reads the same.
  Deck deck("60");
  deck.built.nodeNames[size_t(deck.node("R"))] = "m2.u1.k";
  deck.netlist = spice(deck.built, *deck.solver, "a name taken");
  expectSameVolts(deck);
}

}  // namespace
}  // namespace ww::asbuilt
