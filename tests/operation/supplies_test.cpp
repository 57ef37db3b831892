// SPDX-License-Identifier: GPL-3.0-or-later
// Supplies that need constant power, fuses, and line voltage, on a 40 VA transformer: 27.6 V behind 2.16 ohm.
#include <gtest/gtest.h>

#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::behindJoint;
using ww::testing::contact;
using ww::testing::element;
using ww::testing::resistor;
using ww::testing::SmallMachine;
using ww::testing::SmallUnit;
using ww::testing::supply;

TEST(Supplies, CutOutLowAndComeBackHigher) {
  // Loads that leave 15.5 V and 10.8 V behind 12.16 ohm; out below 14, back at 17.
  SmallMachine machine({behindJoint(10, {supply("S", "R", 0.01, 14, 17), contact("K1", "R", "n1", "world.a"),
                                         resistor("L1", "n1", "C", 15.6), contact("K2", "R", "n2", "world.b"),
                                         resistor("L2", "n2", "C", 15.6)})});
  EXPECT_EQ(machine.powerUp(), RunEnd::settled);
  EXPECT_TRUE(machine.supplyOn("S"));
  machine.with("a", true);
  EXPECT_NEAR(machine.volts("S"), 15.5, 0.1);
  EXPECT_TRUE(machine.supplyOn("S"));
  machine.with("b", true);
  EXPECT_NEAR(machine.volts("S"), 10.8, 0.1);
  EXPECT_FALSE(machine.supplyOn("S"));
  EXPECT_EQ(machine.amps("S"), 0) << "one that is out draws nothing";
  machine.with("b", false);
  EXPECT_NEAR(machine.volts("S"), 15.5, 0.1);
  EXPECT_FALSE(machine.supplyOn("S")) << "not yet back";
  machine.with("a", false);
  EXPECT_TRUE(machine.supplyOn("S"));
}

TEST(Supplies, DrawConstantPowerAndMoreForEachRelay) {
  auto unit = behindJoint(20, {supply("S", "R", 3, 10, 12, R"("one", "one & world.b")", 1.5)});
  unit.logic = {"one := live & world.a"};
  SmallMachine machine({unit});
  const auto power = [&] { return machine.volts("S") * machine.amps("S"); };
  machine.powerUp();
  EXPECT_NEAR(power(), 3, 1e-6);
  machine.with("a", true);
  EXPECT_NEAR(power(), 4.5, 1e-6);
  machine.with("b", true);
  EXPECT_NEAR(power(), 6, 1e-6);
  // V (E - V) / Z = S, upper root.
  const double z = 22.16, e = 27.6;
  EXPECT_NEAR(machine.volts("S"), (e + std::sqrt(e * e - 4 * z * 6)) / 2, 1e-6);
}

TEST(Supplies, LogicStartsAgainWhenPowerComesBack) {
  auto unit = behindJoint(
      0.001, {supply("S", "R", 2, 14, 17), contact("K", "R", "T", "K"), resistor("L", "T", "C", 100)});
  unit.elements = ww::testing::joinedJson({element("XF", "x0", "C", "XF40"),
                                           contact("D", "x0", "R", "!world.b"), supply("S", "R", 2, 14, 17),
                                           contact("K", "R", "T", "K"), resistor("L", "T", "C", 100)});
  unit.logic = {"asked := latch(world.a; world.c)", "K := live & minOff(300) & asked"};
  SmallMachine machine({unit});
  machine.powerUp();
  machine.with("a", true);
  EXPECT_TRUE(machine.closed("K")) << "the wait from power-up is over when nothing moves any more";
  machine.with("a", false);
  EXPECT_TRUE(machine.closed("K")) << "latched";
  machine.with("b", true);
  EXPECT_FALSE(machine.closed("K"));
  machine.with("b", false);
  EXPECT_TRUE(machine.supplyOn("S"));
  EXPECT_FALSE(machine.closed("K")) << "the latch was lost with the supply";
  machine.with("b", true);
  machine.with("a", true);
  machine.with("b", false);
  EXPECT_NEAR(machine.when("K", true), 300.03, 0.02) << "the wait counts from the moment power is back";
}

TEST(Supplies, OneThatPullsItsOwnVoltsAwayGoesOnAndOff) {
  // 1.853 VA leave 15 V behind 102 ohm: below 16 it lets go, and finds 27.6 again.
  SmallMachine machine({behindJoint(100, {supply("S", "R", 1.853, 16, 18)})});
  EXPECT_EQ(machine.powerUp(), RunEnd::chatter);
  EXPECT_FALSE(machine.machine().collapsed());
}

TEST(Supplies, MoreThanTheSourceCanGiveIsACollapse) {
  // The most 102 ohm give is 27.6^2 / 4 / 102 = 1.87 VA.
  SmallMachine carried({behindJoint(100, {supply("S", "R", 1.86, 10, 12)})});
  EXPECT_EQ(carried.powerUp(), RunEnd::settled);
  EXPECT_FALSE(carried.machine().collapsed());
  SmallMachine collapsed({behindJoint(100, {supply("S", "R", 1.88, 10, 12)})});
  collapsed.powerUp();
  EXPECT_TRUE(collapsed.machine().collapsed());
}

TEST(Supplies, ACollapseTakesTheWeakestNotTheHouse) {
  // S stands at the transformer, W behind 300 ohm that cannot carry it.
  SmallMachine machine({behindJoint(
      0.001, {supply("S", "R", 2, 14, 17), resistor("J2", "R", "w", 300), supply("W", "w", 2, 14, 17)})});
  machine.powerUp();
  EXPECT_TRUE(machine.machine().collapsed());
  EXPECT_TRUE(machine.supplyOn("S"));
  EXPECT_EQ(machine.times("S", false), 0);
}

TEST(Supplies, AFuseHoldsBelowAndMeltsAboveItsRatio) {
  // 1.35 x 3 A = 4.05 A; the loop is 2.16 + 0.035 + 0.02 ohm and the load.
  const auto unit = [](double ohms) {
    SmallUnit fused = behindJoint(1, {});
    fused.elements =
        ww::testing::joinedJson({element("XF", "x0", "C", "XF40"), element("F", "x0", "R", "fuse3"),
                                 contact("K", "R", "n1", "world.a"), resistor("L", "n1", "C", ohms)});
    return fused;
  };
  SmallMachine holds({unit(27.6 / 4.0 - 2.215)});
  holds.powerUp();
  holds.with("a", true);
  EXPECT_NEAR(holds.amps("F"), 4.0, 0.001);
  EXPECT_TRUE(holds.closed("F"));
  EXPECT_EQ(holds.machine().melted()[size_t(holds.device("F"))].amps, 0);
  SmallMachine melts({unit(27.6 / 4.1 - 2.215)});
  melts.powerUp();
  melts.with("a", true);
  EXPECT_FALSE(melts.closed("F"));
  EXPECT_NEAR(melts.machine().melted()[size_t(melts.device("F"))].amps, 4.1, 0.001);
  EXPECT_EQ(melts.volts("L"), 0);
  melts.with("a", false);
  EXPECT_FALSE(melts.closed("F")) << "a fuse does not heal";
}

TEST(Supplies, InADeadShortTheFuseGoesFirstAndNobodyElseNotices) {
  SmallUnit shorted = behindJoint(1, {});
  shorted.id = "shorted";
  shorted.elements =
      ww::testing::joinedJson({element("XF", "x0", "C", "XF40"), element("F", "x0", "R", "fuse3"),
                               supply("S", "R", 2, 14, 17), contact("K", "R", "C", "world.a")});
  SmallUnit other = behindJoint(0.001, {supply("S2", "R", 2, 14, 17), element("K2", "R", "C", "K4")});
  other.id = "other";
  auto sheet = ww::testing::sheetOf({shorted, other});
  sheet::Cable cable;
  cable.length = quantity::Metres(10);
  cable.endA = sheet.unitByTag("U1")->id;
  cable.endB = sheet.unitByTag("U2")->id;
  sheet::Conductor wire;  // the commons are joined, so that both sources are one part of the circuit
  wire.cable = sheet.addCable(cable);
  wire.endA = sheet::TerminalRef{cable.endA, "C"};
  wire.endB = sheet::TerminalRef{cable.endB, "C"};
  sheet.addConductor(wire);
  SmallMachine machine(sheet, ww::testing::libraryOf({shorted, other}));
  machine.powerUp();
  ASSERT_TRUE(machine.supplyOn("S") && machine.supplyOn("S2"));
  EXPECT_EQ(machine.with("a", true), RunEnd::settled);
  EXPECT_NEAR(machine.machine().melted()[size_t(machine.device("F"))].amps, 27.6 / 2.215, 0.01);
  EXPECT_FALSE(machine.supplyOn("S"));
  EXPECT_TRUE(machine.supplyOn("S2"));
  EXPECT_EQ(machine.times("S2", false), 0);
  EXPECT_EQ(machine.times("K2", false), 0);
  ASSERT_FALSE(machine.machine().events().empty());
  const auto& events = machine.machine().events();
  const auto first = [&](const char* name) {
    return std::find_if(events.begin(), events.end(),
                        [&](const Event& e) { return e.name == name && !e.on; });
  };
  EXPECT_LT(first("F"), first("S")) << "fuse before supply";
  EXPECT_FALSE(machine.machine().collapsed());
}

TEST(Supplies, WithoutLineVoltageNothingIsLive) {
  auto unit = behindJoint(0.001, {supply("S", "R", 2, 14, 17), element("K", "R", "C", "K4")});
  unit.logic = {"up := line", "known := live"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_TRUE(machine.in("K"));
  EXPECT_EQ(machine.with("line", false), RunEnd::settled);
  EXPECT_EQ(machine.volts("K"), 0);
  EXPECT_FALSE(machine.in("K") || machine.supplyOn("S"));
  EXPECT_FALSE(machine.machine().logic(0).signal("up") || machine.machine().logic(0).signal("known"));
  machine.with("line", true);
  EXPECT_TRUE(machine.in("K") && machine.supplyOn("S"));
}

TEST(Supplies, TheLineOfOneUnitIsNotThatOfAnother) {
  SmallUnit first = behindJoint(0.001, {element("K", "R", "C", "K4")});
  SmallUnit second = behindJoint(0.001, {element("Q", "R", "C", "K4")});
  first.id = "first";
  second.id = "second";
  SmallMachine machine({first, second});
  machine.powerUp();
  machine.with("line", false, 1);
  EXPECT_TRUE(machine.in("K"));
  EXPECT_FALSE(machine.in("Q"));
}

}  // namespace
}  // namespace ww::operation
