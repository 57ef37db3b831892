// SPDX-License-Identifier: GPL-3.0-or-later
// Relays on a 40 VA transformer (27.6 V behind 2.16 ohm) with a joint of some ohms in the hot side. What the
// volts should be is worked out beside each test.
#include <gtest/gtest.h>

#include <complex>

#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::behindJoint;
using ww::testing::contact;
using ww::testing::resistor;
using ww::testing::SmallMachine;
using Phasor = std::complex<double>;

constexpr double kOpenVolts = 27.6;
constexpr double kSourceOhms = 2.16;

// A contactor of 7 / 35 VA: Z = V^2 / S (pf + j sqrt(1 - pf^2)) at 24 V.
const Phasor kSealed = 576.0 / 7 * Phasor(0.35, std::sqrt(1 - 0.35 * 0.35));
const Phasor kInrush = 576.0 / 35 * Phasor(0.75, std::sqrt(1 - 0.75 * 0.75));

/// Volts over loads in parallel behind the source and a joint.
double voltsOver(double joint, const std::vector<Phasor>& loads) {
  Phasor admittance{};
  for (const Phasor& load : loads) admittance += 1.0 / load;
  return std::abs(kOpenVolts / (1.0 + (kSourceOhms + joint) * admittance));
}

/// A contactor whose figures in volts are given.
std::string contactor(const char* id, const char* a, double typical, double guaranteed, double dropOut,
                      double inrushVa = 35) {
  return std::string(R"({"id": ")") + id + R"(", "a": ")" + a +
         R"(", "b": "C", "part": {"kind": "coil", "sealed": {"va": 7, "powerFactor": 0.35},
           "inrush": {"va": )" +
         std::to_string(inrushVa) + R"(, "powerFactor": 0.75}, "dcOhms": 4, "pullInTypicalVolts": )" +
         std::to_string(typical) + R"(, "pullInGuaranteedVolts": )" + std::to_string(guaranteed) +
         R"(, "dropOutVolts": )" + std::to_string(dropOut) + "}}";
}

TEST(Relays, ACoilPullsInAndItsContactFollows) {
  SmallMachine machine(
      {behindJoint(0.001, {contact("S", "R", "n1", "world.a"), contactor("K", "n1", 17, 20, 10),
                           contact("KC", "R", "T", "in(K)"), resistor("L", "T", "C", 100)})});
  EXPECT_EQ(machine.powerUp(), RunEnd::settled);
  EXPECT_FALSE(machine.in("K"));
  EXPECT_EQ(machine.with("a", true), RunEnd::settled);
  EXPECT_DOUBLE_EQ(machine.when("S", true), 0.015);
  EXPECT_DOUBLE_EQ(machine.when("K", true), 0.015);
  EXPECT_DOUBLE_EQ(machine.when("KC", true), 0.030) << "15 ms after the coil";
  EXPECT_NEAR(machine.volts("L"), voltsOver(0.001, {kSealed, 100.0}), 0.02);
  EXPECT_EQ(machine.with("a", false), RunEnd::settled);
  EXPECT_DOUBLE_EQ(machine.when("K", false), 0.015);
  EXPECT_DOUBLE_EQ(machine.when("KC", false), 0.030);
  EXPECT_EQ(machine.volts("L"), 0);
}

/// Two contactors start together; the second needs more volts than both leave at inrush.
class Together : public ::testing::TestWithParam<double> {};

TEST_P(Together, PullInRoundsFollowTheVolts) {
  const double joint = GetParam();
  const double both = voltsOver(joint, {kInrush, kInrush});
  const double oneSealed = voltsOver(joint, {kSealed, kInrush});
  SmallMachine machine(
      {behindJoint(joint, {contact("S", "R", "n1", "world.a"), contactor("K1", "n1", 12, 18, 6),
                           contactor("K2", "n1", 17.3, 20, 10)})});
  machine.powerUp();
  machine.with("a", true);
  EXPECT_EQ(machine.in("K1"), both >= 12);
  EXPECT_EQ(machine.in("K2"), both >= 17.3 || (both >= 12 && oneSealed >= 17.3));
  EXPECT_FALSE(machine.late("K1"));
  EXPECT_EQ(machine.late("K2"), machine.in("K2") && both < 17.3);
  EXPECT_NEAR(machine.volts("K1"),
              voltsOver(joint, {machine.in("K1") ? kSealed : kInrush, machine.in("K2") ? kSealed : kInrush}),
              0.02);
}

// Both at once; the second late; the second never; none.
INSTANTIATE_TEST_SUITE_P(Joints, Together, ::testing::Values(0.001, 6.0, 8.5, 12.0));

TEST(Relays, TheJointsOfTheTestAboveGiveAllFourOutcomes) {
  EXPECT_GT(voltsOver(0.001, {kInrush, kInrush}), 17.3);
  EXPECT_LT(voltsOver(6, {kInrush, kInrush}), 17.3);
  EXPECT_GT(voltsOver(6, {kInrush, kInrush}), 12);
  EXPECT_GT(voltsOver(6, {kSealed, kInrush}), 17.3);
  EXPECT_GT(voltsOver(8.5, {kInrush, kInrush}), 12);
  EXPECT_LT(voltsOver(8.5, {kSealed, kInrush}), 17.3);
  EXPECT_LT(voltsOver(12, {kInrush, kInrush}), 12);
}

TEST(Relays, ACoilStateIsNamedByItsVolts) {
  const auto stateBehind = [](double joint) {
    SmallMachine machine({behindJoint(joint, {contactor("K", "R", 17.3, 20.4, 10.8)})});
    machine.powerUp();
    return machine.coilState("K");
  };
  EXPECT_GT(voltsOver(2, {kInrush}), 20.4);
  EXPECT_EQ(stateBehind(2), CoilState::in);
  EXPECT_LT(voltsOver(6, {kInrush}), 20.4);
  EXPECT_GT(voltsOver(6, {kInrush}), 17.3);
  EXPECT_EQ(stateBehind(6), CoilState::under) << "in, but not with every contactor of its kind";
  EXPECT_LT(voltsOver(20, {kInrush}), 17.3);
  EXPECT_GT(voltsOver(20, {kInrush}), 10.8);
  EXPECT_EQ(stateBehind(20), CoilState::hum);
  EXPECT_LT(voltsOver(100, {kInrush}), 10.8);
  EXPECT_EQ(stateBehind(100), CoilState::out);
}

TEST(Relays, BetweenDropOutAndPullInACoilStaysWhereItIs) {
  const auto unit = behindJoint(10, {contact("S", "R", "n1", "!world.a"), contactor("K", "n1", 12, 18, 9),
                                     contact("SL", "R", "t1", "world.b"), resistor("L1", "t1", "C", 12),
                                     contact("SM", "R", "t2", "world.c"), resistor("L2", "t2", "C", 5)});
  EXPECT_LT(voltsOver(10, {kInrush, 12.0}), 12);
  EXPECT_GT(voltsOver(10, {kSealed, 12.0}), 9);
  EXPECT_LT(voltsOver(10, {kSealed, 12.0, 5.0}), 9);
  SmallMachine machine({unit});
  machine.powerUp();
  ASSERT_TRUE(machine.in("K"));
  machine.with("b", true);
  EXPECT_TRUE(machine.in("K"));
  machine.with("c", true);
  EXPECT_FALSE(machine.in("K"));
  machine.with("c", false);
  EXPECT_FALSE(machine.in("K")) << "hums below its pull-in";
  EXPECT_EQ(machine.coilState("K"), CoilState::hum);
  machine.with("b", false);
  EXPECT_TRUE(machine.in("K"));
}

TEST(Relays, TheDipOfAStartMakesAnotherLetGoAndComeBackLate) {
  // K holds down to 9 V; the start of a coil of 100 VA at inrush leaves less than that for a moment.
  const Phasor big = 576.0 / 100 * Phasor(0.75, std::sqrt(1 - 0.75 * 0.75));
  EXPECT_LT(voltsOver(12, {kSealed, big}), 9);
  EXPECT_GT(voltsOver(12, {kInrush, big}), 6);
  EXPECT_GT(voltsOver(12, {kSealed, kInrush}), 12);
  SmallMachine machine({behindJoint(
      12, {contactor("K", "R", 12, 18, 9), contact("KC", "R", "T", "in(K)"), resistor("L", "T", "C", 1000),
           contact("S", "R", "n1", "world.a"), contactor("K2", "n1", 6, 10, 4, 100)})});
  machine.powerUp();
  ASSERT_TRUE(machine.in("K"));
  EXPECT_FALSE(machine.late("K"));
  EXPECT_EQ(machine.with("a", true), RunEnd::settled);
  EXPECT_TRUE(machine.in("K"));
  EXPECT_TRUE(machine.in("K2"));
  EXPECT_EQ(machine.times("K", false), 1) << "let go in the dip";
  EXPECT_TRUE(machine.late("K"));
  EXPECT_EQ(machine.times("KC", false), 0) << "too short for its contact";
}

TEST(Relays, ARelayThatCutsItsOwnCoilChattersAndIsNamed) {
  SmallMachine machine(
      {behindJoint(0.001, {contact("S", "R", "n1", "world.a"), contact("KC", "n1", "n2", "!in(K)"),
                           contactor("K", "n2", 17, 20, 10), contactor("Q", "R", 17, 20, 10)})});
  ASSERT_EQ(machine.powerUp(), RunEnd::settled);
  EXPECT_EQ(machine.with("a", true), RunEnd::chatter);
  EXPECT_TRUE(machine.machine().moved()[size_t(machine.device("K"))]);
  EXPECT_FALSE(machine.machine().moved()[size_t(machine.device("Q"))]);
  EXPECT_EQ(machine.coilState("K"), CoilState::chatter);
  EXPECT_EQ(machine.coilState("Q"), CoilState::in);
  EXPECT_EQ(machine.with("a", false), RunEnd::settled);
  EXPECT_NE(machine.coilState("K"), CoilState::chatter);
}

TEST(Relays, TwoThatCutEachOtherAreARace) {
  // Each coil is fed through the other's normally closed contact, one of them by way of a signal.
  auto unit = behindJoint(0.001, {contact("S", "R", "n", "world.a"), contact("N1", "n", "n1", "!second"),
                                  contactor("K1", "n1", 17, 20, 10), contact("N2", "n", "n2", "!in(K1)"),
                                  contactor("K2", "n2", 17, 20, 10)});
  unit.logic = {"second := in(K2)"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::race);
  EXPECT_NE(machine.in("K1"), machine.in("K2")) << "one won";
  EXPECT_TRUE(machine.machine().moved()[size_t(machine.device("K1"))]);
  EXPECT_TRUE(machine.machine().moved()[size_t(machine.device("K2"))]);
  const bool first = machine.in("K1");
  EXPECT_EQ(machine.with("b", true), RunEnd::settled) << "and keeps it";
  EXPECT_EQ(machine.in("K1"), first);
  EXPECT_EQ(machine.with("a", false), RunEnd::settled);
  EXPECT_FALSE(machine.in("K1") || machine.in("K2"));
}

TEST(Relays, ARaceThatNobodyCanWinIsChatter) {
  // As above, but whoever is in cuts itself off too.
  SmallMachine machine(
      {behindJoint(0.001, {contact("S", "R", "n", "world.a"), contact("N1", "n", "n1", "!in(K2) & !in(K1)"),
                           contactor("K1", "n1", 17, 20, 10), contact("N2", "n", "n2", "!in(K1) & !in(K2)"),
                           contactor("K2", "n2", 17, 20, 10)})});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::chatter);
  EXPECT_EQ(machine.coilState("K1"), CoilState::chatter);
  EXPECT_EQ(machine.coilState("K2"), CoilState::chatter);
}

TEST(Relays, AClockThatRunsBesideDoesNotHideChatter) {
  auto unit = behindJoint(0.001, {contact("S", "R", "n1", "world.a"), contact("KC", "n1", "n2", "!in(K)"),
                                  contactor("K", "n2", 17, 20, 10)});
  unit.logic = {"later := world.a on 600", "worn := ran(world.a, 3600; world.b)"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::chatter);
  EXPECT_EQ(machine.coilState("K"), CoilState::chatter);
  EXPECT_LT(machine.times("K", true), 50) << "told soon";
}

TEST(Relays, AShortFlutterBeforeATimerIsNoChatter) {
  // The relay cuts itself until a timer of 100 ms bridges the contact.
  auto unit =
      behindJoint(0.001, {contact("S", "R", "n1", "world.a"), contact("KC", "n1", "n2", "!in(K) | late"),
                          contactor("K", "n2", 17, 20, 10)});
  unit.logic = {"late := world.a on 0.1"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::settled);
  EXPECT_GT(machine.times("K", true), 1);
  EXPECT_EQ(machine.coilState("K"), CoilState::in);
}

TEST(Relays, WhatGoesRoundSlowlyIsNotChatter) {
  auto unit = behindJoint(0.001, {contact("S", "R", "n1", "on1"), contactor("K", "n1", 17, 20, 10)});
  unit.logic = {"on1 := (world.a & !over) on 5", "over := on1 on 5"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::periodic);
  EXPECT_NEAR(machine.when("K", true), 5, 0.1);
  EXPECT_NEAR(machine.when("K", false), 10, 0.1);
}

TEST(Relays, ALampThatBlinksIsNotChatter) {
  auto unit = behindJoint(0.001, {contactor("K", "R", 17, 20, 10)});
  unit.logic = {"lamp := (world.a & !dark) on 0.5", "dark := lamp on 0.5"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::periodic);
}

TEST(Relays, LogicThatNeverRestsIsChatterAndOverWhenItsCauseIs) {
  auto unit = behindJoint(0.001, {contactor("K", "R", 17, 20, 10)});
  unit.logic = {"flip := latch(world.a & !flop; flop)", "flop := flip"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::chatter);
  EXPECT_EQ(machine.with("a", false), RunEnd::settled);
}

TEST(Relays, ARunHasALimit) {
  auto unit = behindJoint(0.001, {contactor("K", "R", 17, 20, 10)});
  unit.logic = {"tomorrow := world.a on 80000"};
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::limit);
}

TEST(Relays, AHeaterClosesByItsVoltsAndOpensByItself) {
  auto unit = behindJoint(
      10, {contact("S", "R", "n1", "world.a"), R"({"id": "H", "a": "n1", "b": "C", "part": "SQ5"})"});
  unit.logic = {"warm := hot(H)"};
  SmallMachine machine({unit});
  machine.powerUp();
  machine.with("a", true);
  const double volts = voltsOver(10, {115.2});
  EXPECT_NEAR(machine.when("warm", true), 0.015 + 45 * 24 * 24 / (volts * volts), 0.1);
  machine.with("a", false);
  EXPECT_NEAR(machine.when("warm", false), 60, 0.1);
}

TEST(Relays, AHeaterKeepsTheWarmthItHas) {
  // 20 s on, 10 s off, then on: what cooled off in between comes on top.
  auto unit = behindJoint(
      0.001, {contact("S", "R", "n1", "heat"), R"({"id": "H", "a": "n1", "b": "C", "part": "SQ5"})"});
  unit.logic = {"warm := hot(H)", "heat := (world.a & !(world.a on 20)) | (world.a on 30)"};
  SmallMachine machine({unit});
  machine.powerUp();
  machine.with("a", true);
  const double volts = voltsOver(0.001, {115.2});
  const double alone = 45 * 24 * 24 / (volts * volts);
  EXPECT_NEAR(machine.when("warm", true), 30 + alone * (1 - 20 / alone + 10.0 / 60), 0.2);
}

TEST(Relays, AHeaterThatWarmsBesideDoesNotHideChatter) {
  auto unit = behindJoint(
      0.001, {contact("S", "R", "n1", "world.a"), contact("KC", "n1", "n2", "!in(K)"),
              contactor("K", "n2", 17, 20, 10), R"({"id": "H", "a": "n1", "b": "C", "part": "SQ5"})"});
  SmallMachine machine({unit});
  machine.powerUp();
  EXPECT_EQ(machine.with("a", true), RunEnd::chatter);
  EXPECT_LT(machine.times("K", true), 50);
}

TEST(Relays, AHeaterBelowItsLeastVoltsNeverCloses) {
  auto unit = behindJoint(120, {R"({"id": "H", "a": "R", "b": "C", "part": "SQ5"})"});
  unit.logic = {"warm := hot(H)"};
  EXPECT_LT(voltsOver(120, {115.2}), 14);
  SmallMachine machine({unit});
  EXPECT_EQ(machine.powerUp(), RunEnd::settled);
  EXPECT_EQ(machine.when("warm", true), -1);
  EXPECT_EQ(machine.coilState("H"), CoilState::under);
}

TEST(Relays, AnInputBetweenItsThresholdsKeepsWhatItSaw) {
  // 3000 ohm behind a divider: nothing, between 6 and 12 V, and full volts.
  auto unit = behindJoint(
      0.001, {contact("S", "R", "n1", "world.a"), contact("SB", "R", "n2", "world.b"),
              resistor("D", "n2", "n1", 6000), R"({"id": "W", "a": "n1", "b": "C", "part": "IN3"})"});
  unit.logic = {"asked := seen(W)"};
  SmallMachine machine({unit});
  machine.powerUp();
  const auto marginal = [&] { return machine.machine().marginalInput()[size_t(machine.device("W"))] != 0; };
  machine.with("b", true);
  EXPECT_NEAR(machine.volts("W"), 27.6 * 3000 / 9002.16, 0.01);
  EXPECT_TRUE(marginal());
  EXPECT_FALSE(machine.machine().logic(0).signal("asked"));
  machine.with("a", true);
  EXPECT_FALSE(marginal());
  EXPECT_TRUE(machine.machine().logic(0).signal("asked"));
  machine.with("a", false);
  EXPECT_TRUE(marginal());
  EXPECT_TRUE(machine.machine().logic(0).signal("asked")) << "keeps";
  machine.with("b", false);
  EXPECT_FALSE(machine.machine().logic(0).signal("asked"));
}

}  // namespace
}  // namespace ww::operation
