// SPDX-License-Identifier: GPL-3.0-or-later
// Faults laid over a compiled circuit: each against the same fault built into the sheet or the unit, and
// against what it must do to the relays.
#include <gtest/gtest.h>

#include <complex>

#include "asbuilt/override.h"
#include "operation/solution.h"
#include "support/reference_sheets.h"
#include "support/sheet_edits.h"
#include "support/small_machine.h"

namespace ww::operation {
namespace {

using asbuilt::Override;
using Kind = asbuilt::Override::Kind;
using ww::testing::behindJoint;
using ww::testing::contact;
using ww::testing::element;
using ww::testing::resistor;
using ww::testing::SmallMachine;
using ww::testing::SmallUnit;

/// A machine on its own circuit with overrides that are worked out from it.
class Faulty {
 public:
  template <class Faults>
  Faulty(const sheet::Sheet& sheet, const equipment::Library& library, Faults faults)
      : circuit_(asbuilt::compile(sheet, library)), machine_(circuit_, conditions(faults(circuit_))) {
    machine_.powerUp({});
  }
  template <class Faults>
  Faulty(const SmallUnit& unit, Faults faults)
      : Faulty(ww::testing::sheetOf({unit}), ww::testing::libraryOf({unit}), faults) {}
  Faulty(const Faulty&) = delete;

  Machine& with(const char* fact) {
    Facts facts;
    facts.world[{circuit_.units[0].id, fact}] = true;
    machine_.run(facts);
    return machine_;
  }
  Machine& call(const char* name) {
    Facts facts;
    facts.call = name;
    machine_.run(facts);
    return machine_;
  }
  int device(const char* name) const { return branchOf(circuit_, name); }
  double volts(const char* name) const { return machine_.volts(device(name)); }
  bool in(const char* name) const { return machine_.positions().pulledIn[size_t(device(name))] != 0; }
  const asbuilt::AsBuilt& circuit() const { return circuit_; }
  const Machine& machine() const { return machine_; }

  static int branchOf(const asbuilt::AsBuilt& circuit, const std::string& name) {
    for (const auto& device : circuit.devices)
      if (circuit.element(device).id == name) return device.branch;
    ADD_FAILURE() << name;
    return -1;
  }

 private:
  static asbuilt::Conditions conditions(std::vector<Override> overrides) {
    asbuilt::Conditions conditions;
    conditions.overrides = std::move(overrides);
    return conditions;
  }
  asbuilt::AsBuilt circuit_;
  Machine machine_;
};

auto faultOf(Kind kind, const char* name, double value = 0) {
  return [=](const asbuilt::AsBuilt& circuit) {
    return std::vector<Override>{{kind, Faulty::branchOf(circuit, name), value, 0, 0}};
  };
}

SmallUnit relayUnit() {
  return behindJoint(1, {contact("S", "R", "n1", "world.a"), element("K", "n1", "C", "K4"),
                         contact("KC", "R", "T", "in(K)"), resistor("L", "T", "C", 500)});
}

TEST(Overrides, DevicesHaveTheBranchesOfTheirNumber) {
  const auto circuit = asbuilt::compile(ww::testing::rowG(), equipment::standardLibrary());
  for (size_t i = 0; i < circuit.devices.size(); ++i) EXPECT_EQ(circuit.devices[i].branch, int(i));
}

TEST(Overrides, ACoilThatIsOpenTakesItsVoltsAndDoesNothing) {
  Faulty faulty(relayUnit(), faultOf(Kind::open, "K"));
  const Machine& machine = faulty.with("a");
  EXPECT_GT(faulty.volts("K"), 27);
  EXPECT_EQ(machine.amps(faulty.device("K")), 0);
  EXPECT_FALSE(faulty.in("K"));
  EXPECT_EQ(faulty.volts("L"), 0);
  CallResult result;
  describe(faulty.circuit(), machine, RunEnd::settled, {}, result);
  EXPECT_EQ(result.coils.at(0).state, CoilState::out) << "it does not hum";
}

TEST(Overrides, AShortedCoilIsItsOhms) {
  Faulty faulty(relayUnit(), faultOf(Kind::ohms, "K", 50));
  const Machine& machine = faulty.with("a");
  EXPECT_NEAR(machine.amps(faulty.device("K")), 27.6 / (2.16 + 1 + 0.02 + 50), 1e-9);
  EXPECT_FALSE(faulty.in("K")) << "26 V over it, and no pull";
}

TEST(Overrides, APoorJointInACoilKeepsItsVoltsFromTheArmature) {
  Faulty fine(relayUnit(), faultOf(Kind::series, "K", 1));
  fine.with("a");
  EXPECT_TRUE(fine.in("K"));
  Faulty poor(relayUnit(), faultOf(Kind::series, "K", 150));
  const Machine& machine = poor.with("a");
  EXPECT_GT(poor.volts("K"), 25) << "across both";
  EXPECT_LT(machine.ownVolts(poor.device("K")), 16.8);
  EXPECT_FALSE(poor.in("K"));
  EXPECT_NEAR(machine.ownVolts(poor.device("K")),
              machine.amps(poor.device("K")) *
                  std::abs(asbuilt::coilImpedance(
                      std::get<equipment::CoilPart>(equipment::standardLibrary().parts.at("K4")), false, 60)),
              1e-9);
}

TEST(Overrides, ContactsStickWhereTheyStick) {
  Faulty open(relayUnit(), faultOf(Kind::stuckOpen, "S"));
  open.with("a");
  EXPECT_EQ(open.volts("K"), 0);
  Faulty welded(relayUnit(), faultOf(Kind::stuckClosed, "S"));
  EXPECT_TRUE(welded.in("K")) << "without being asked";
  EXPECT_GT(welded.volts("L"), 20);
}

TEST(Overrides, ArmaturesAreHeld) {
  Faulty in(relayUnit(), faultOf(Kind::heldIn, "K"));
  EXPECT_TRUE(in.in("K"));
  EXPECT_GT(in.volts("L"), 20);
  Faulty out(relayUnit(), faultOf(Kind::heldOut, "K"));
  out.with("a");
  EXPECT_FALSE(out.in("K"));
  EXPECT_GT(out.volts("K"), 20);
}

TEST(Overrides, AReversedSecondaryTurnsItsPhaseAndAWrongTapItsVolts) {
  Faulty low(relayUnit(), faultOf(Kind::emf, "XF", 0.5));
  EXPECT_NEAR(low.volts("XF"), 13.8, 0.1);
  Faulty reversed(relayUnit(), faultOf(Kind::emf, "XF", -1));
  const auto& xf = reversed.circuit().devices[size_t(reversed.device("XF"))];
  EXPECT_LT(reversed.machine().solver().voltage(xf.a, xf.b).real(), -27);
}

TEST(Overrides, ADeadSupplyFeedsNobody) {
  auto unit = relayUnit();
  unit.elements += ", " + element("B", "R", "C", "B3");
  unit.logic = {"up := live"};
  Faulty faulty(unit, faultOf(Kind::open, "B"));
  EXPECT_FALSE(faulty.machine().logic(0).signal("up"));
  EXPECT_EQ(faulty.machine().amps(faulty.device("B")), 0);
  Faulty sound(unit, [](const asbuilt::AsBuilt&) { return std::vector<Override>(); });
  EXPECT_TRUE(sound.machine().logic(0).signal("up"));
}

TEST(Overrides, AnInputThatIsOpenSeesNothing) {
  auto unit = behindJoint(1, {element("W", "R", "C", "IN3")});
  unit.logic = {"asked := seen(W)"};
  EXPECT_FALSE(Faulty(unit, faultOf(Kind::open, "W")).machine().logic(0).signal("asked"));
  EXPECT_TRUE(Faulty(unit, faultOf(Kind::parallel, "W", 1000)).machine().logic(0).signal("asked"));
}

/// Every call of two solutions in the same volts and duties.
void expectAlike(const Solution& built, const sheet::Sheet& sheet, std::vector<Override> overrides) {
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  asbuilt::Conditions conditions;
  conditions.overrides = std::move(overrides);
  Machine rest(circuit, conditions);
  rest.powerUp({});
  int compared = 0;
  for (const SolvedCall& call : built.calls) {
    Machine machine = rest;
    Facts facts;
    facts.call = call.result.call;
    CallResult result;
    describe(circuit, machine, machine.run(facts), {}, result);
    EXPECT_EQ(result.duties, call.result.duties) << call.result.call;
    ASSERT_EQ(result.coils.size(), call.result.coils.size());
    for (size_t i = 0; i < result.coils.size(); ++i) {
      EXPECT_EQ(result.coils[i].state, call.result.coils[i].state);
      EXPECT_NEAR(result.coils[i].sealed.si(), call.result.coils[i].sealed.si(), 1e-3);
      EXPECT_NEAR(result.coils[i].pullIn.si(), call.result.coils[i].pullIn.si(), 1e-3);
      compared += result.coils[i].sealed.si() > 1;
    }
  }
  EXPECT_GT(compared, 0);
}

const asbuilt::Wire& wireOf(const asbuilt::AsBuilt& circuit, const sheet::Sheet& sheet, const char* cable,
                            const char* colour) {
  for (const auto& wire : circuit.wires) {
    const auto* row = sheet.conductors.find(wire.conductor);
    if (sheet.cables.find(*row->cable)->name == cable && sheet::print(row->colour) == colour) return wire;
  }
  throw std::invalid_argument("no such wire");
}

TEST(Overrides, ABrokenConductorIsTheSheetWithItLoose) {
  const auto sheet = ww::testing::rowG();
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  expectAlike(solveSheet(ww::testing::rowGLoose(), equipment::standardLibrary()), sheet,
              {asbuilt::openAt(wireOf(circuit, sheet, "2", "OG").branch)});
}

TEST(Overrides, SwappedEndsAreTwoOpensAndTwoBridges) {
  const auto sheet = ww::testing::rowA();
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  const auto& yellow = wireOf(circuit, sheet, "1", "YE");
  const auto& green = wireOf(circuit, sheet, "1", "GN");
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  asbuilt::solve(circuit, unpowered(circuit), {}, solver);
  const double ohms = 1 / solver.admittance(yellow.branch).real();
  expectAlike(solveSheet(ww::testing::rowASwapped(), equipment::standardLibrary()), sheet,
              {asbuilt::openAt(yellow.branch), asbuilt::openAt(green.branch),
               asbuilt::bridgeOf(yellow.a, green.b, ohms), asbuilt::bridgeOf(green.a, yellow.b, ohms)});
}

TEST(Overrides, ABridgeIsTheJumperOnTheSheet) {
  auto jumpered = ww::testing::rowA();
  const auto furnace = jumpered.unitByTag("F")->id;
  ww::testing::addJumper(jumpered, furnace, "R", "G");
  const auto sheet = ww::testing::rowA();
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  expectAlike(solveSheet(jumpered, equipment::standardLibrary()), sheet,
              {asbuilt::bridgeOf(circuit.node({furnace, "R"}), circuit.node({furnace, "G"}), 1e-4)});
}

TEST(Overrides, ConditionsMayChangeUnderWay) {
  // Row A cools; then yellow breaks, and then it is whole again.
  const auto sheet = ww::testing::rowA();
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  Machine machine(circuit);
  machine.powerUp({});
  Facts facts;
  facts.call = "cool1";
  machine.run(facts);
  const int cc = Faulty::branchOf(circuit, "CC");
  ASSERT_TRUE(machine.positions().pulledIn[size_t(cc)]);
  asbuilt::Conditions broken;
  broken.overrides = {asbuilt::openAt(wireOf(circuit, sheet, "2", "YE").branch)};
  machine.setConditions(broken);
  machine.run(facts);
  EXPECT_FALSE(machine.positions().pulledIn[size_t(cc)]);
  machine.setConditions({});
  machine.run(facts);
  EXPECT_TRUE(machine.positions().pulledIn[size_t(cc)]);
}

TEST(Overrides, AnOhmmeterSeesThemToo) {
  const auto sheet = ww::testing::rowA();
  const auto circuit = asbuilt::compile(sheet, equipment::standardLibrary());
  const auto& yellow = wireOf(circuit, sheet, "2", "YE");
  const auto measured = [&](std::vector<Override> overrides) {
    asbuilt::Conditions conditions;
    conditions.overrides = std::move(overrides);
    circuit::Solver<double> solver(asbuilt::planFor(circuit, conditions.overrides));
    std::vector<char> lifted(circuit.devices.size(), 0);
    lifted[size_t(Faulty::branchOf(circuit, "XF"))] = 1;
    asbuilt::stampDead(circuit, unpowered(circuit), conditions, lifted, solver);
    return solver.thevenin(yellow.a, circuit.node({circuit.units[1].id, "C"})).impedance;
  };
  const double sound = measured({});
  EXPECT_NEAR(measured({asbuilt::seriesOhms(yellow.branch, 10)}), sound + 10, 0.1);
  EXPECT_NEAR(measured({asbuilt::bridgeOf(yellow.a, circuit.node({circuit.units[1].id, "C"}), 1)}),
              1 / (1 + 1 / sound), 1e-9);
}

}  // namespace
}  // namespace ww::operation
