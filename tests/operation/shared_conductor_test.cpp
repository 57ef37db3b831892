// SPDX-License-Identifier: GPL-3.0-or-later
// Two calls on one conductor: which relay comes in follows from connection and volts alone.
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

#include "asbuilt/half_wave.h"
#include "asbuilt/single_faults.h"
#include "operation/islands.h"
#include "support/installation.h"
#include "support/shared_conductor.h"

namespace ww::operation {
namespace {

using testing::edited;
using testing::Installation;
using testing::kRowShared;
using ::testing::UnorderedElementsAre;

asbuilt::Conditions under(const std::vector<asbuilt::Override>& overrides) {
  asbuilt::Conditions conditions;
  conditions.overrides = overrides;
  return conditions;
}

/// The wire between these two places, "F.R" as nodes are named.
int wireBetween(const asbuilt::AsBuilt& circuit, const std::string& a, const std::string& b) {
  for (const auto& wire : circuit.wires)
    if (circuit.nodeNames[size_t(wire.a)] == a && circuit.nodeNames[size_t(wire.b)] == b) return wire.branch;
  ADD_FAILURE() << a << " - " << b;
  return -1;
}

bool in(const Installation& house, const char* relay) {
  const auto* device = house.circuit().device(house.unit("K"), relay);
  return house.machine().positions().pulledIn[size_t(device - house.circuit().devices.data())] != 0;
}

/// Duties of a call, from rest.
std::vector<std::string> runsOn(const std::string& call, const std::string& row,
                                const asbuilt::Conditions& conditions = {}) {
  Installation house(row, conditions);
  house.call("rest");
  EXPECT_TRUE(house.runs().empty());
  house.call(call);
  return house.runs();
}

/// Sums over one period of a sine of 1 V rms of which the positive half is left.
TEST(HalfWave, TheSharesAreTheIntegralsOfOneHalfWave) {
  constexpr int kSteps = 200000;
  double square = 0, sum = 0, around = 0;
  const auto volts = [](int i) {
    return std::max(0.0, std::numbers::sqrt2 * std::sin(2 * std::numbers::pi * (i + 0.5) / kSteps));
  };
  for (int i = 0; i < kSteps; ++i) {
    square += volts(i) * volts(i) / kSteps;
    sum += volts(i) / kSteps;
  }
  for (int i = 0; i < kSteps; ++i) around += std::abs(volts(i) - sum) / kSteps;
  EXPECT_NEAR(asbuilt::kHalfWaveRms, std::sqrt(square), 1e-5);
  EXPECT_NEAR(asbuilt::kHalfWaveDirect, sum, 1e-5);
  EXPECT_NEAR(asbuilt::kHalfWaveCoupled, std::sqrt(square - sum * sum), 1e-5);
  // A meter that averages is marked so that a sine reads its rms: pi / (2 sqrt 2) = 1.1107 times the mean.
  EXPECT_NEAR(asbuilt::kHalfWaveAveraging, around * std::numbers::pi / (2 * std::numbers::sqrt2), 1e-5);
}

TEST(SharedConductor, EachCallRunsWhatItRunsOnConductorsOfItsOwn) {
  for (const char* call : {"fan", "cool1", "heat1"})
    EXPECT_THAT(runsOn(call, kRowShared), ::testing::UnorderedElementsAreArray(runsOn(call, testing::kRowA)))
        << call;
  Installation house(kRowShared);
  house.call("rest");
  EXPECT_FALSE(in(house, "XA") || in(house, "XB"));
  house.call("fan");
  EXPECT_FALSE(in(house, "XA"));
  EXPECT_TRUE(in(house, "XB"));
  house.call("cool1");
  EXPECT_TRUE(in(house, "XA") && in(house, "XB"));
  house.call("rest");
  EXPECT_FALSE(in(house, "XA") || in(house, "XB"));
}

TEST(SharedConductor, ABreakOfItOrOfTheCommonKillsBothCallsAndHeatGoesOn) {
  const Installation house(kRowShared);
  for (const auto& [a, b] :
       {std::pair("F.C", "K.C"), std::pair("F/X", "K.X"), std::pair("T/X", "F/X"), std::pair("T/X", "S.X")}) {
    const auto broken = under({asbuilt::openAt(wireBetween(house.circuit(), a, b))});
    EXPECT_TRUE(runsOn("fan", kRowShared, broken).empty()) << a << b;
    EXPECT_TRUE(runsOn("cool1", kRowShared, broken).empty()) << a << b;
    EXPECT_THAT(runsOn("heat1", kRowShared, broken), UnorderedElementsAre("burner1", "blower")) << a << b;
  }
}

TEST(SharedConductor, APoorJointIsCarriedAndAWorseOneIsABreak) {
  const Installation house(kRowShared);
  const int shared = wireBetween(house.circuit(), "T/X", "F/X");
  const auto joint = [&](double ohms) { return under({asbuilt::seriesOhms(shared, ohms)}); };
  EXPECT_THAT(runsOn("fan", kRowShared, joint(20)), UnorderedElementsAre("blower"));
  EXPECT_TRUE(runsOn("fan", kRowShared, joint(100)).empty());
}

TEST(SharedConductor, ExchangedAtTheReceiverTheCallsChangePlaces) {
  const std::string row = edited(edited(kRowShared, "F,/C,K,C", "F,/C,K,X"), "F,/X,K,X", "F,/X,K,C");
  EXPECT_THAT(runsOn("fan", row), UnorderedElementsAre("compressor1"));
  EXPECT_THAT(runsOn("cool1", row), ::testing::UnorderedElementsAreArray(runsOn("cool1", testing::kRowA)));
}

TEST(SharedConductor, TheRelaysWantSevenTenthsOfTheirPeakBehindTwoDiodes) {
  // sqrt 2 V - 1.6 >= 0.7 sqrt 2 24 from 17.93 V on. The control's own supply holds down to 16 V, so that its
  // contact stays closed; the secondary gives 27.60 V times the line, less what the supplies take.
  const auto circuit = asbuilt::compile(testing::sheetOf(kRowShared), equipment::standardLibrary());
  const auto runs = [&](double line) {
    Machine machine(circuit);
    Facts facts;
    machine.powerUp(facts);
    facts.call = "fan";
    machine.run(facts);
    EXPECT_EQ(machine.runningDuties().size(), 1U);
    asbuilt::Conditions conditions;
    conditions.line = line;
    machine.setConditions(conditions);
    machine.run(facts);
    return !machine.runningDuties().empty();
  };
  EXPECT_TRUE(runs(0.67));   // 18.49 V without load
  EXPECT_FALSE(runs(0.64));  // 17.66 V
}

/// Diodes follow the volts between the call and the common, whichever way round the winding lies.
TEST(SharedConductor, AReversedSecondaryChangesNothing) {
  const Installation house(kRowShared);
  const auto reversed = under({{asbuilt::Override::Kind::emf, house.branch("F", "XF"), -1, 0, 0}});
  for (const char* call : {"fan", "cool1"})
    EXPECT_EQ(runsOn(call, kRowShared, reversed), runsOn(call, kRowShared)) << call;
}

/// Hot and common exchanged at the receiver: call and common stand at one potential.
TEST(SharedConductor, HotAndCommonExchangedAtTheReceiverKillTheCalls) {
  const std::string row =
      edited(edited(kRowShared, "RD,F,R,K,R", "RD,F,R,K,C"), "BU,F,/C,K,C", "BU,F,/C,K,R");
  Installation house(row);
  for (const char* call : {"rest", "fan", "cool1"}) {
    house.call(call);
    EXPECT_FALSE(in(house, "XA") || in(house, "XB")) << call;
    EXPECT_TRUE(house.runs().empty()) << call;
  }
}

TEST(SharedConductor, ItsSingleFaultsDoWhatTheyAreCalled) {
  const auto circuit = asbuilt::compile(testing::sheetOf(kRowShared), equipment::standardLibrary());
  const auto* relay = circuit.device(testing::sheetOf(kRowShared).unitByTag("K")->id, "XB");
  int told = 0;
  for (const auto& fault : asbuilt::singleFaults(circuit)) {
    if (fault.device != relay - circuit.devices.data()) continue;
    ++told;
    Machine machine(circuit, under(fault.overrides));
    machine.powerUp({});
    const bool atRest = !machine.runningDuties().empty();
    Facts fan;
    fan.call = "fan";
    machine.run(fan);
    EXPECT_EQ(atRest, fault.kind == asbuilt::FaultKind::armatureStuckIn);
    EXPECT_EQ(machine.runningDuties().empty(), fault.kind != asbuilt::FaultKind::armatureStuckIn);
  }
  EXPECT_EQ(told, 3) << "open, stuck out, stuck in";
}

/// With a transformer of its own the control's half waves have nothing to do with the receiver's.
TEST(SharedConductor, TwoTransformersAreNoWayThoughTheirCommonsMeet) {
  const std::string row =
      edited(edited(edited(kRowShared, "cable,gauge", "#unit,Z,transformer-addon\ncable,gauge"), "RD,T,R,F,R",
                    "RD,T,*,F,*"),
             ",,,,,BU", "5,18,2,2,m,RD,T,R,Z,R,\n5,18,2,2,m,BU,T,C,Z,C,\n,,,,,BU");
  EXPECT_TRUE(runsOn("fan", row).empty());
}

TEST(SharedConductor, TheConductorIsLiveWhileAHalfWaveIsOnIt) {
  const Solution solution = solveSheet(testing::sheetOf(kRowShared), equipment::standardLibrary());
  const int shared = wireBetween(*solution.circuit, "T/X", "F/X");
  const auto live = [&](const char* call) {
    for (size_t i = 0; i < solution.circuit->wires.size(); ++i)
      if (solution.circuit->wires[i].branch == shared) return solution.call(call)->result.wires[i].live;
    return false;
  };
  EXPECT_FALSE(live("rest"));
  EXPECT_TRUE(live("fan"));
  EXPECT_TRUE(live("cool1"));
  EXPECT_FALSE(live("heat1"));
}

TEST(SharedConductor, KeepsItsTwoEndsInOneSheet) {
  const sheet::Sheet sheet = testing::sheetOf(kRowShared);
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  EXPECT_EQ(islandsOf(sheet, circuit).size(), 1U);
}

}  // namespace
}  // namespace ww::operation
