// SPDX-License-Identifier: GPL-3.0-or-later
// Electronic outputs, controls that live on their load, thermopile loops, and transformers joined. Volts are
// worked out beside each test from 27.6 V behind 2.16 ohm.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "operation/solution.h"
#include "support/reference_sheets.h"
#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::behindJoint;
using ww::testing::element;
using ww::testing::joinedJson;
using ww::testing::resistor;
using ww::testing::SmallMachine;
using ww::testing::SmallUnit;

std::string output(const char* id, const char* a, const char* b, const char* part, const char* closedBy) {
  return std::string(R"({"id": ")") + id + R"(", "a": ")" + a + R"(", "b": ")" + b + R"(", "part": ")" +
         part + R"(", "closedBy": ")" + closedBy + "\"}";
}

TEST(Outputs, OpenLeaksAndClosedKeepsItsVolts) {
  SmallMachine machine(
      {behindJoint(0.84, {output("K", "R", "n", "triac", "world.a"), resistor("L", "n", "C", 97)})});
  machine.powerUp();
  EXPECT_NEAR(machine.volts("L"), 27.6 * 97 / (47000 + 100), 1e-6);
  machine.with("a", true);
  // All in phase: (27.6 - 1.5) over 100 ohm.
  EXPECT_NEAR(machine.amps("L"), 26.1 / 100, 1e-8);
  EXPECT_NEAR(machine.volts("K"), 1.5, 1e-8);
}

TEST(Outputs, UnloadedTheyShowTheWholeSupplyOpenOrClosed) {
  SmallMachine machine(
      {behindJoint(0.84, {output("K", "R", "T", "triac", "world.a"), resistor("L", "T", "C", 1e7)})});
  machine.powerUp();
  EXPECT_GT(machine.volts("L"), 27.4);
  machine.with("a", true);
  EXPECT_GT(machine.volts("L"), 26);
}

TEST(Outputs, IntoACoilTheDropIsInPhaseWithTheCurrent) {
  SmallMachine machine(
      {behindJoint(0.84, {output("K", "R", "n", "triac", "world.a"), element("Q", "n", "C", "K4")})});
  machine.powerUp();
  machine.with("a", true);
  ASSERT_TRUE(machine.in("Q"));
  const std::complex<double> load = equipment::impedance({quantity::VoltAmps(4), 0.5});
  // |I| from |E|^2 = (|I| (3 + R) + 1.5)^2 + (|I| X)^2.
  const double a = std::norm(3.0 + load), b = 2 * 1.5 * (3 + load.real()), c = 1.5 * 1.5 - 27.6 * 27.6;
  const double amps = (-b + std::sqrt(b * b - 4 * a * c)) / (2 * a);
  EXPECT_NEAR(machine.amps("Q"), amps, 1e-9);
}

TEST(Outputs, SeveralBesideASupplyAgreeWithEachOther) {
  SmallMachine machine(
      {behindJoint(5, {output("K1", "R", "n1", "triac", "world.a"), resistor("L1", "n1", "C", 60),
                       output("K2", "R", "n2", "triac", "world.a"), element("Q", "n2", "C", "K4"),
                       R"({"id": "B", "a": "R", "b": "C", "part": "B3"})"})});
  machine.powerUp();
  machine.with("a", true);
  EXPECT_TRUE(machine.supplyOn("B"));
  EXPECT_NEAR(machine.volts("K1"), 1.5, 1e-7);
  EXPECT_NEAR(machine.volts("K2"), 1.5, 1e-7);
  EXPECT_NEAR(machine.volts("B") * machine.amps("B"), 3, 1e-6);
}

// --- a control that lives on its load ---

SmallUnit onLoad(const std::vector<std::string>& loads) {
  std::vector<std::string> elements{output("K", "R", "T", "triacFeeding", "asked")};
  elements.insert(elements.end(), loads.begin(), loads.end());
  auto unit = behindJoint(0.84, elements);
  unit.logic = {"asked := live & world.a"};
  return unit;
}

TEST(SeriesFed, RestsOnTheIdleLoadAndKeepsThreeVoltsInACall) {
  SmallMachine machine({onLoad({resistor("GV", "T", "C", 57)})});
  ASSERT_EQ(machine.powerUp(), RunEnd::settled);
  EXPECT_NEAR(machine.volts("GV"), 27.6 * 57 / 4060, 1e-6) << "0.4 V";
  EXPECT_TRUE(machine.supplyOn("K"));
  EXPECT_EQ(machine.with("a", true), RunEnd::settled);
  EXPECT_NEAR(machine.volts("K"), 3, 1e-7);
  EXPECT_NEAR(machine.amps("GV"), 24.6 / 60, 1e-8);
  EXPECT_TRUE(machine.supplyOn("K"));
}

TEST(SeriesFed, OnABoardInputItIsMarginalAtRestAndStarvesInACall) {
  auto unit = onLoad({R"({"id": "W", "a": "T", "b": "C", "part": "IN3"})"});
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_NEAR(machine.volts("W"), 11.8, 0.05);
  EXPECT_TRUE(machine.machine().marginalInput()[size_t(machine.device("W"))]);
  EXPECT_EQ(machine.with("a", true), RunEnd::chatter) << "9 mA keep nobody alive";
  EXPECT_TRUE(machine.machine().moved()[size_t(machine.device("K"))]);
}

TEST(SeriesFed, ABleedResistorCuresBoth) {
  SmallMachine machine(
      {onLoad({R"({"id": "W", "a": "T", "b": "C", "part": "IN3"})", resistor("RB", "T", "C", 470)})});
  machine.powerUp();
  EXPECT_NEAR(machine.volts("W"), 2.6, 0.1);
  EXPECT_FALSE(machine.machine().marginalInput()[size_t(machine.device("W"))]);
  EXPECT_EQ(machine.with("a", true), RunEnd::settled);
  EXPECT_GT(machine.volts("W"), 20);
}

TEST(SeriesFed, WithoutALoadItIsDead) {
  SmallMachine machine({onLoad({resistor("L", "R", "C", 1000)})});
  machine.powerUp();
  EXPECT_FALSE(machine.supplyOn("K"));
}

bool runs(const SolvedCall* call, const std::string& duty) {
  return call != nullptr && std::any_of(call->result.duties.begin(), call->result.duties.end(),
                                        [&](const auto& d) { return d.duty == duty; });
}

TEST(Outputs, TheShippedElectronicControlRunsRowA) {
  auto sheet = ww::testing::rowA();
  sheet::Unit control = *sheet.unitByTag("T");
  control.profile = "rc-1h1c-solidstate";
  sheet.units.put(control);
  const auto solution = solveSheet(sheet, equipment::standardLibrary());
  EXPECT_TRUE(solution.call("rest")->result.duties.empty()) << "0.5 mA call nobody";
  EXPECT_TRUE(runs(solution.call("cool1"), "compressor1"));
  EXPECT_TRUE(runs(solution.call("cool1"), "blower:cool1"));
  EXPECT_TRUE(runs(solution.call("heat1"), "burner1"));
}

TEST(SeriesFed, TheShippedControlChattersOnAFurnaceBoardAndABleedCuresIt) {
  sheet::Sheet sheet;
  const auto t = ww::testing::addUnit(sheet, "T", "rc-series-fed", "hall");
  const auto f = ww::testing::addUnit(sheet, "F", "furnace-1", "closet");
  ww::testing::addCable(sheet, "1", 15, t, f,
                        {{"RD", "R", "R"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W"}});
  EXPECT_NE(solveSheet(sheet, equipment::standardLibrary()).call("heat1")->result.state, CallState::ok);
  const auto b = ww::testing::addUnit(sheet, "B", "bleed-resistor", "closet");
  ww::testing::addCable(sheet, "2", 1, f, b, {{"WH", "W", "A"}, {"BU", "C", "B"}});
  const auto cured = solveSheet(sheet, equipment::standardLibrary());
  EXPECT_EQ(cured.call("heat1")->result.state, CallState::ok);
  EXPECT_TRUE(runs(cured.call("heat1"), "burner1"));
  EXPECT_TRUE(cured.call("rest")->result.marginalInputs.empty());
}

// --- millivolts ---

TEST(Millivolts, TheShippedLoopOpensItsValveAndAPoorJointShutsIt) {
  sheet::Sheet sheet;
  const auto t = ww::testing::addUnit(sheet, "T", "rc-millivolt", "hall");
  const auto h = ww::testing::addUnit(sheet, "H", "heater-millivolt", "parlour");
  ww::testing::addCable(sheet, "1", 10, t, h, {{"RD", "M1", "P1"}, {"WH", "M2", "V1"}});
  const auto solution = solveSheet(sheet, equipment::standardLibrary());
  EXPECT_FALSE(runs(solution.call("rest"), "burner1"));
  ASSERT_TRUE(runs(solution.call("heat1"), "burner1"));
  for (const auto& coil : solution.call("heat1")->result.coils) EXPECT_NEAR(coil.sealed.si(), 0.399, 0.0005);
  asbuilt::Conditions poor;
  poor.overrides = {asbuilt::seriesOhms(solution.circuit->wires[0].branch, 6)};
  EXPECT_FALSE(runs(solveCircuit(solution.circuit, poor).call("heat1"), "burner1"));
  poor.overrides = {asbuilt::seriesOhms(solution.circuit->wires[0].branch, 1)};
  EXPECT_TRUE(runs(solveCircuit(solution.circuit, poor).call("heat1"), "burner1"));
}

// --- two transformers ---

/// Two 40 VA sources with commons joined, hots joined too if `tied`.
Solution twoSources(const char* phase, bool tied, const char* line = "120", const char* tap = "120") {
  SmallUnit source;
  source.id = "source";
  source.terminals = {"R:hot", "C:common"};
  source.elements = joinedJson({element("XF", "R", "C", "XF40"), resistor("L", "R", "C", 100)});
  auto sheet = ww::testing::sheetOf({source, source});
  sheet.settings.set("U2.phase", phase);
  sheet.settings.set("lineVolts", line);
  for (const char* unit : {"U1.tap", "U2.tap"}) sheet.settings.set(unit, tap);
  std::vector<ww::testing::Strand> strands{{"BU", "C", "C"}};
  if (tied) strands.push_back({"RD", "R", "R"});
  ww::testing::addCable(sheet, "1", 0.5, sheet.unitByTag("U1")->id, sheet.unitByTag("U2")->id, strands);
  return solveSheet(sheet, ww::testing::libraryOf({source}));
}

TEST(TwoSources, TiedInPhaseShareAndOutOfPhaseBurn) {
  const auto shared = twoSources("0", true).calls[0].result.sources;
  EXPECT_NEAR(shared[0].amps.si(), 27.6 / 102.16, 0.002);
  EXPECT_NEAR(shared[0].volts.si(), shared[1].volts.si(), 0.01);
  const auto against = twoSources("180", true).calls[0].result.sources;
  EXPECT_NEAR(against[0].amps.si(), 2 * 27.6 / (2 * 2.16 + 2 * 0.5 * 0.0209), 0.1) << "2 E0 / (Zs1 + Zs2)";
  EXPECT_LT(against[0].volts.si(), 1) << "and both read near nothing";
  const auto quarter = twoSources("90", true).calls[0].result.sources;
  EXPECT_NEAR(quarter[0].amps.si() / against[0].amps.si(), std::sqrt(0.5), 0.02);
}

TEST(TwoSources, ApartTheirPhaseIsOfNoMatter) {
  for (const char* phase : {"0", "90", "180"}) {
    const auto sources = twoSources(phase, false).calls[0].result.sources;
    EXPECT_NEAR(sources[0].volts.si(), 27.6 * 100 / 102.16, 1e-6) << phase;
    EXPECT_NEAR(sources[1].volts.si(), 27.6 * 100 / 102.16, 1e-6) << phase;
  }
}

TEST(TwoSources, TheTapTurnsLineVoltsIntoSecondaryVolts) {
  const auto volts = [](const char* line, const char* tap) {
    return twoSources("0", false, line, tap).calls[0].result.sources[0].volts.si() * 1.0216;
  };
  EXPECT_NEAR(volts("240", "240"), 27.6, 1e-6);
  EXPECT_NEAR(volts("208", "240"), 23.92, 1e-6);
  EXPECT_NEAR(volts("240", "208"), 31.85, 0.01);
}

}  // namespace
}  // namespace ww::operation
