// SPDX-License-Identifier: GPL-3.0-or-later
// How runs end: what lets go in a dip, every end of a race, how long a round takes, what a forced run skips.
#include <gtest/gtest.h>

#include "operation/solution.h"
#include "support/reference_sheets.h"
#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::behindJoint;
using ww::testing::contact;
using ww::testing::element;
using ww::testing::resistor;
using ww::testing::SmallMachine;
using ww::testing::supply;

CallResult described(const SmallMachine& machine, RunEnd end) {
  CallResult result;
  describe(machine.circuit(), machine.machine(), end, {}, result);
  return result;
}

// --- dips ---

TEST(Ends, ASupplyThatCannotBeCarriedWhileACoilStartsIsToldAndComesBack) {
  // 10 ohm and a coil of 60 VA at inrush: no operating point for 12 VA beside it; once the coil is in, there
  // is.
  const auto unit = behindJoint(
      8,
      {supply("B", "R", 12, 14, 17), contact("S", "R", "n1", "world.a"),
       R"({"id": "K", "a": "n1", "b": "C", "part": {"kind": "coil", "sealed": {"va": 4, "powerFactor": 0.35},
        "inrush": {"va": 60, "powerFactor": 0.75}, "dcOhms": 4, "pullInTypicalVolts": 10,
        "pullInGuaranteedVolts": 12, "dropOutVolts": 6}})"});
  SmallMachine machine({unit});
  ASSERT_EQ(machine.powerUp(), RunEnd::settled);
  ASSERT_TRUE(machine.supplyOn("B"));
  const RunEnd end = machine.with("a", true);
  EXPECT_TRUE(machine.in("K"));
  EXPECT_TRUE(machine.supplyOn("B")) << "back";
  EXPECT_FALSE(machine.machine().collapsed()) << "there is an operating point in the end";
  const auto result = described(machine, end);
  ASSERT_EQ(result.dips.size(), 1u);
  EXPECT_EQ(result.dips[0].part, "B");
  EXPECT_TRUE(result.dips[0].cameBack);
}

TEST(Ends, ASmallCoilMakesNoDip) {
  SmallMachine machine({behindJoint(
      1, {supply("B", "R", 3, 14, 17), contact("S", "R", "n1", "world.a"), element("K", "n1", "C", "K4")})});
  machine.powerUp();
  const RunEnd end = machine.with("a", true);
  EXPECT_TRUE(described(machine, end).dips.empty());
}

TEST(Ends, PullInVoltsAreTakenWithTheSuppliesThatCanBeCarried) {
  // Two supplies; at inrush the far one (behind 30 ohm) finds no operating point, the near one does.
  const auto volts = [](bool nearOne, bool farOne) {
    std::vector<std::string> elements{
        R"({"id": "K", "a": "R", "b": "C", "part": {"kind": "coil", "sealed": {"va": 4, "powerFactor": 0.35},
        "inrush": {"va": 60, "powerFactor": 0.75}, "dcOhms": 4, "pullInTypicalVolts": 8,
        "pullInGuaranteedVolts": 10, "dropOutVolts": 6}})",
        resistor("J2", "R", "w", 30), resistor("LW", "w", "C", 1e6)};
    if (nearOne) elements.push_back(supply("B", "R", 1, 14, 17));
    if (farOne) elements.push_back(supply("W", "w", 3, 14, 17));
    auto unit = behindJoint(8, elements);
    SmallMachine machine({unit});
    const RunEnd end = machine.powerUp();
    return described(machine, end).coils.at(0).pullIn.si();
  };
  EXPECT_LT(volts(true, false), volts(false, false) - 0.1) << "the near one counts";
  EXPECT_NEAR(volts(true, true), volts(true, false), 1e-9) << "the far one lets go, the near one stays";
}

// --- races ---

TEST(Ends, ARaceShowsEveryEndItCanHave) {
  auto unit = behindJoint(0.001, {contact("S", "R", "n", "world.a"), contact("N1", "n", "n1", "!in(K2)"),
                                  element("K1", "n1", "C", "K4"), contact("N2", "n", "n2", "!in(K1)"),
                                  element("K2", "n2", "C", "K4")});
  unit.duties = {{"pump", "in(K1)"}, {"boiler", "in(K2)"}};
  SmallMachine machine({unit});
  machine.powerUp();
  const RunEnd end = machine.with("a", true);
  ASSERT_EQ(end, RunEnd::race);
  const auto result = described(machine, end);
  ASSERT_EQ(result.raceEnds.size(), 2u);
  ASSERT_EQ(result.raceEnds[0].duties.size(), 1u);
  ASSERT_EQ(result.raceEnds[1].duties.size(), 1u);
  EXPECT_EQ(result.raceEnds[0].duties, result.duties) << "the shown one first";
  EXPECT_NE(result.raceEnds[0].duties[0].duty, result.raceEnds[1].duties[0].duty);
  EXPECT_NE(result.raceEnds[0].part, result.raceEnds[1].part);
  EXPECT_EQ(described(machine, machine.with("a", false)).raceEnds.size(), 0u);
}

TEST(Ends, ChatterHasAPeriodAndNoEnds) {
  SmallMachine machine(
      {behindJoint(0.001, {contact("S", "R", "n1", "world.a"), contact("KC", "n1", "n2", "!in(K)"),
                           element("K", "n2", "C", "K4")})});
  machine.powerUp();
  const RunEnd end = machine.with("a", true);
  ASSERT_EQ(end, RunEnd::chatter);
  const auto result = described(machine, end);
  EXPECT_TRUE(result.raceEnds.empty());
  EXPECT_NEAR(result.period.si(), 0.030, 1e-9) << "15 ms to open, 15 ms to close";
}

// --- periods ---

TEST(Ends, ABoardThatTriesAgainTellsItsPeriod) {
  auto unit = behindJoint(0.001, {contact("S", "R", "n1", "on1"), element("K", "n1", "C", "K4")});
  unit.logic = {"on1 := (world.a & !over) on 5", "over := on1 on 7"};
  SmallMachine machine({unit});
  machine.powerUp();
  const RunEnd end = machine.with("a", true);
  ASSERT_EQ(end, RunEnd::periodic);
  EXPECT_NEAR(described(machine, end).period.si(), 12, 1e-6);
  EXPECT_EQ(described(machine, machine.with("a", false)).period.si(), 0);
}

// --- forced runs ---

TEST(Ends, AForcedRunSkipsWhatAControlCanSkipAndNothingElse) {
  auto unit = behindJoint(0.001, {contact("S", "R", "n1", "soft"), resistor("L1", "n1", "C", 1000),
                                  contact("H", "R", "n2", "hard1"), resistor("L2", "n2", "C", 1000)});
  unit.kind = "roomControl";
  unit.calls = {"cool1"};
  unit.logic = {"soft := call.cool1 on 600", "hard1 := call.cool1 & minOff(300) hard"};
  auto board = unit;
  board.kind = "accessory";
  board.calls = {};
  const auto moments = [](const ww::testing::SmallUnit& which, bool forced) {
    const auto sheet = ww::testing::sheetOf({which});
    const auto circuit = asbuilt::compile(sheet, ww::testing::libraryOf({which}));
    Machine machine(circuit);
    machine.powerUp({});
    const Millis start = machine.now();
    Facts facts;
    facts.call = "cool1";
    facts.forced = forced;
    machine.run(facts);
    std::pair<double, double> at{-1, -1};
    for (const Event& event : machine.events()) {
      if (event.name == "S" && event.on) at.first = double(event.at - start) / 1000;
      if (event.name == "H" && event.on) at.second = double(event.at) / 1000;
    }
    return at;
  };
  EXPECT_NEAR(moments(unit, false).first, 600.015, 1e-6);
  EXPECT_NEAR(moments(unit, true).first, 0.015, 1e-6);
  EXPECT_GE(moments(unit, false).second, 300);
  EXPECT_GE(moments(unit, true).second, 300) << "an off time is never skipped";
  EXPECT_NEAR(moments(board, true).first, 600.015, 1e-6) << "a board cannot be hurried";
}

TEST(Ends, TheCompressorKeepsItsOffTimeInAForcedRunOfARealSheet) {
  const auto sheet = ww::testing::rowG();
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  Machine machine(circuit);
  machine.powerUp({});
  Facts facts;
  facts.call = "cool1";
  facts.forced = true;
  machine.run(facts);
  Millis started = -1;
  for (const Event& event : machine.events())
    if (event.name == "CC" && event.on) started = event.at;
  EXPECT_GE(started, 300'000);
}

}  // namespace
}  // namespace ww::operation
