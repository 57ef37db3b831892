// SPDX-License-Identifier: GPL-3.0-or-later
// What meters show. Volts of ghosts are worked out beside the test as dividers of capacitances.
#include <gtest/gtest.h>

#include <numbers>

#include "asbuilt/meter.h"
#include "support/reference_sheets.h"
#include "support/small_units.h"

namespace ww::asbuilt {
namespace {

using circuit::Quality;
using ww::testing::element;
using ww::testing::joinedJson;
using ww::testing::resistor;
using ww::testing::SmallUnit;

constexpr double kOmega = 2 * std::numbers::pi * 60;
const Meter kHigh, kLow{MeterKind::lowImpedance};

Positions allClosed(const AsBuilt& circuit) {
  Positions positions(circuit.devices.size());
  positions.closed.assign(circuit.devices.size(), 1);
  return positions;
}

/// A source, a cable of 20 m, and a unit with a coil from B to C; the three cores are landed as said.
class Ghosts : public ::testing::Test {
 protected:
  Ghosts() {
    source_.id = "source";
    source_.terminals = {"R:hot", "C:common", "B:tie"};
    source_.elements = joinedJson({element("XF", "R", "C", "XF40")});
    load_.id = "load";
    load_.terminals = {"R:hot", "C:common", "B:tie"};
    load_.elements = joinedJson({element("K", "B", "C", "K4"), resistor("L", "R", "C", 500)});
  }
  AsBuilt compiled(const char* thirdA, const char* thirdB) {
    auto sheet = ww::testing::sheetOf({source_, load_});
    const auto one = sheet.unitByTag("U1")->id, two = sheet.unitByTag("U2")->id;
    ww::testing::addCable(sheet, "1", 20, one, two,
                          {{"RD", "R", "R"}, {"BU", "C", "C"}, {"WH", thirdA, thirdB}});
    return compile(sheet, ww::testing::libraryOf({source_, load_}));
  }
  static int named(const AsBuilt& circuit, const std::string& name) {
    for (size_t i = 0; i < circuit.nodeNames.size(); ++i)
      if (circuit.nodeNames[i] == name) return int(i);
    ADD_FAILURE() << name;
    return 0;
  }
  SmallUnit source_, load_;
};

TEST_F(Ghosts, ASpareConductorShowsAGhostThatALowImpedanceMeterDrains) {
  const AsBuilt circuit = compiled("", "");
  const int spare = circuit.wires[2].a, common = named(circuit, "U1.C");
  // 1.6 nF to hot, 1.6 nF to common, 0.4 nF to metal; metal hangs on both commons' 1 nF and 0.4 nF a wire.
  const Shown ghost = readVolts(circuit, allClosed(circuit), {}, spare, common, kHigh);
  ASSERT_TRUE(ghost.value);
  EXPECT_EQ(ghost.quality, Quality::ghost);
  EXPECT_GT(*ghost.value, 8);
  EXPECT_LT(*ghost.value, 14) << "about half, less what the meter takes";
  EXPECT_LE(ghost.low, *ghost.value / 2);
  EXPECT_GE(ghost.high, *ghost.value * 1.5);
  const Shown drained = readVolts(circuit, allClosed(circuit), {}, spare, common, kLow);
  EXPECT_EQ(drained.quality, Quality::ghost);
  EXPECT_LT(*drained.value, 0.1);
}

TEST_F(Ghosts, AGhostIsTheDividerOfItsCapacitances) {
  // Without metal in play: commons bonded, so that metal is common.
  source_.bond = load_.bond = "bonded";
  const AsBuilt circuit = compiled("", "");
  const int spare = circuit.wires[2].a, common = named(circuit, "U1.C");
  const double toHot = 20 * 80e-12, toRest = 20 * (80e-12 + 20e-12);
  const std::complex<double> meter(1e-7, kOmega * 100e-12);
  const std::complex<double> hot(0, kOmega * toHot), rest(0, kOmega * toRest);
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  solve(circuit, allClosed(circuit), {}, solver);
  // Either end of the cable counts half; the volts of the hot fall by a few millivolts between them.
  const double volts = (std::abs(solver.voltage(circuit.wires[0].a, circuit.wires[1].a)) +
                        std::abs(solver.voltage(circuit.wires[0].b, circuit.wires[1].b))) /
                       2;
  const Shown ghost = readVolts(circuit, allClosed(circuit), {}, spare, common, kHigh);
  EXPECT_NEAR(*ghost.value, volts * std::abs(hot / (hot + rest + meter)), 0.01)
      << "the common falls by 9 mV along the cable";
}

TEST_F(Ghosts, AConductorThatIsStillOnACoilReadsNothing) {
  const AsBuilt circuit = compiled("", "B");
  const Shown reading =
      readVolts(circuit, allClosed(circuit), {}, circuit.wires[2].a, named(circuit, "U1.C"), kHigh);
  EXPECT_EQ(reading.quality, Quality::solid);
  EXPECT_LT(*reading.value, 0.03) << "0.0 V: what the common loses along the cable";
}

TEST_F(Ghosts, ALandedConductorReadsTheSameOnBothMeters) {
  const AsBuilt circuit = compiled("R", "B");
  const int node = circuit.wires[2].b, common = named(circuit, "U2.C");
  const Shown high = readVolts(circuit, allClosed(circuit), {}, node, common, kHigh);
  const Shown low = readVolts(circuit, allClosed(circuit), {}, node, common, kLow);
  EXPECT_EQ(high.quality, Quality::solid);
  EXPECT_GT(*high.value, 25);
  EXPECT_NEAR(*high.value, *low.value, 0.05);
  EXPECT_NEAR(high.high - *high.value, 0.01 * *high.value + 0.3, 1e-9) << "1 % and 3 counts";
}

TEST_F(Ghosts, NothingInCommonIsNoNumber) {
  auto sheet = ww::testing::sheetOf({source_, load_});
  const AsBuilt circuit = compile(sheet, ww::testing::libraryOf({source_, load_}));
  // Commons that float have a nanofarad to metal each; a node of no cable has nothing.
  const Shown reading =
      readVolts(circuit, allClosed(circuit), {}, named(circuit, "U1.B"), named(circuit, "U1.C"), kHigh);
  EXPECT_EQ(reading.quality, Quality::floating);
  EXPECT_FALSE(reading.value);
}

TEST_F(Ghosts, MetalIsAGhostOfAFloatingCommonAndSolidOnABondedOne) {
  for (const char* bond : {"floating", "bonded"}) {
    source_.bond = bond;
    const AsBuilt circuit = compiled("", "");
    const Coupling coupling(circuit);
    LiveState state(circuit, coupling, allClosed(circuit), {});
    const Shown reading = state.volts(named(circuit, "U1.R"), coupling.earth(), kHigh);
    ASSERT_TRUE(reading.value);
    EXPECT_EQ(reading.quality, bond == std::string("bonded") ? Quality::solid : Quality::ghost);
    if (bond == std::string("bonded")) {
      EXPECT_NEAR(*reading.value, 27.4, 0.3);
    }
  }
}

TEST_F(Ghosts, AFaultIsReadThroughTheCouplingToo) {
  const AsBuilt circuit = compiled("R", "B");
  Conditions broken;
  broken.overrides = {openAt(circuit.wires[2].branch)};
  const int far = circuit.wires[2].b, common = named(circuit, "U2.C");
  const Shown dead = readVolts(circuit, allClosed(circuit), broken, far, common, kHigh);
  EXPECT_EQ(dead.quality, Quality::solid) << "the coil is on it";
  EXPECT_LT(*dead.value, 0.01);
  broken.overrides.push_back(bridgeOf(circuit.wires[0].b, far, 1));
  const Shown touching = readVolts(circuit, allClosed(circuit), broken, far, common, kHigh);
  EXPECT_GT(*touching.value, 25);
}

TEST_F(Ghosts, AClampShowsOneConductorAndNothingAroundAPair) {
  const AsBuilt circuit = compiled("", "");
  const Coupling coupling(circuit);
  const LiveState state(circuit, coupling, allClosed(circuit), {});
  const int hot[] = {0}, pair[] = {0, 1};
  EXPECT_NEAR(*state.clampAmps(hot).value, 27.6 / 503, 0.001);
  EXPECT_NEAR(*state.clampAmps(pair).value, 0, 1e-6);
}

TEST_F(Ghosts, AnOhmmeterShowsOhmsOrOverload) {
  const AsBuilt circuit = compiled("", "");
  std::vector<char> lifted(circuit.devices.size(), 0);
  lifted[0] = 1;
  DeadState state(circuit, allClosed(circuit), {}, lifted);
  EXPECT_NEAR(*state.ohms(named(circuit, "U2.R"), named(circuit, "U2.C")).value, 500, 1);
  EXPECT_FALSE(state.ohms(circuit.wires[2].a, named(circuit, "U1.C")).value) << "OL";
  EXPECT_NEAR(*state.ohms(circuit.wires[2].a, circuit.wires[2].b).value, 20 * 0.0209, 0.001);
}

/// A thermopile of 0.7 V behind 2.5 ohm, valve of 4 ohm, 10 m of pair 18 AWG, a contact of 50 milliohm.
class Millivolts : public ::testing::Test {
 protected:
  Millivolts() {
    heater_.id = "heater";
    heater_.terminals = {"P:millivolt", "V:millivolt"};
    heater_.elements = joinedJson({element("PILE", "P", "m", "pile750"), element("GV", "V", "v", "GVmv"),
                                   element("LIM", "v", "m", "safety")});
    heater_.logic = {"LIM := true"};
    control_.id = "control";
    control_.kind = "roomControl";
    control_.terminals = {"M1:millivolt", "M2:millivolt"};
    control_.elements = joinedJson({R"({"id": "K", "a": "M1", "b": "M2", "part": "endSwitch",
      "closedBy": "true"})"});
    auto sheet = ww::testing::sheetOf({heater_, control_});
    ww::testing::addCable(sheet, "1", 10, sheet.unitByTag("U1")->id, sheet.unitByTag("U2")->id,
                          {{"RD", "P", "M1"}, {"WH", "V", "M2"}});
    circuit_ = compile(sheet, ww::testing::libraryOf({heater_, control_}));
    positions_ = allClosed(circuit_);
  }
  Shown across(size_t device, Conditions conditions = {}, bool direct = true) {
    Meter meter;
    meter.direct = direct;
    meter.digit = 0.001;
    return readVolts(circuit_, positions_, conditions, circuit_.devices[device].a, circuit_.devices[device].b,
                     meter);
  }
  SmallUnit heater_, control_;
  AsBuilt circuit_;
  Positions positions_;
};

TEST_F(Millivolts, TheValveHasThreeHundredNinetyNine) {
  EXPECT_NEAR(*across(1).value, 0.399, 0.0005);
  Conditions weak;
  weak.overrides = {{Override::Kind::emf, 0, 0.65 / 0.7, 0, 0}};
  EXPECT_NEAR(*across(1, weak).value, 0.370, 0.0005);
  weak.overrides.push_back(seriesOhms(circuit_.wires[0].branch, 2));
  EXPECT_NEAR(*across(1, weak).value, 0.288, 0.0005);
  weak.overrides = {{Override::Kind::emf, 0, 0.4 / 0.7, 0, 0}};
  EXPECT_NEAR(*across(1, weak).value, 0.228, 0.0005);
}

TEST_F(Millivolts, AClosedContactKeepsAFewAndAnOpenOneHasThemAll) {
  EXPECT_NEAR(*across(3).value, 0.005, 0.001);
  positions_.closed[3] = 0;
  EXPECT_NEAR(*across(3).value, 0.7, 0.001);
  EXPECT_NEAR(*across(1).value, 0, 1e-5);
}

TEST_F(Millivolts, AnAlternatingMeterReadsNothingOfThem) {
  EXPECT_NEAR(*across(1, {}, false).value, 0, 1e-12);
}

}  // namespace
}  // namespace ww::asbuilt
