// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/solution.h"

#include <gmock/gmock.h>

#include "operation/describe.h"
#include "support/reference_sheets.h"
#include "support/small_machine.h"

namespace ww::operation {
namespace {

using sheet::TerminalRef;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::UnorderedElementsAre;
using ww::testing::SmallUnit;

const equipment::Library& shipped() { return equipment::standardLibrary(); }

std::vector<std::string> names(const std::vector<CallDemand>& table) {
  std::vector<std::string> calls;
  for (const auto& demand : table) calls.push_back(demand.call);
  return calls;
}

const CallDemand& demand(const std::vector<CallDemand>& table, std::string_view call) {
  for (const auto& row : table)
    if (row.call == call) return row;
  throw std::invalid_argument("no call " + std::string(call));
}

std::vector<std::string> duties(const CallResult& result) {
  std::vector<std::string> running;
  for (const auto& duty : result.duties) running.push_back(duty.duty);
  return running;
}

// What each call must make run is the trade's general understanding of these systems.
TEST(OperationTable, FurnaceWithCooling) {
  const auto table = operationTable(asbuilt::compile(ww::testing::rowA(), shipped()));
  EXPECT_THAT(names(table), ElementsAre("rest", "fan", "cool1", "heat1"));
  EXPECT_THAT(demand(table, "rest").must, IsEmpty());
  EXPECT_THAT(demand(table, "fan").must, UnorderedElementsAre("blower:circulate"));
  EXPECT_THAT(demand(table, "cool1").must, UnorderedElementsAre("compressor1", "blower:cool1"));
  EXPECT_THAT(demand(table, "heat1").must, UnorderedElementsAre("burner1", "blower:heat"));
}

TEST(OperationTable, ElectricAirHandlerWithCooling) {
  const auto table = operationTable(asbuilt::compile(ww::testing::rowB(), shipped()));
  EXPECT_THAT(names(table), ElementsAre("rest", "fan", "cool1", "heat1"));
  EXPECT_THAT(demand(table, "heat1").must, UnorderedElementsAre("electricHeat1", "blower"))
      << "never an element without the blower";
}

TEST(OperationTable, HeatPumpWithElectricHeat) {
  const auto table = operationTable(asbuilt::compile(ww::testing::rowG(), shipped()));
  EXPECT_THAT(names(table), ElementsAre("rest", "fan", "cool1", "heat1", "heat2", "emergency", "defrost"));
  EXPECT_THAT(demand(table, "cool1").must,
              UnorderedElementsAre("compressor1", "outdoorFan", "reversingValve", "blower:cool1"));
  EXPECT_THAT(demand(table, "heat1").must, UnorderedElementsAre("compressor1", "outdoorFan", "blower:cool1"));
  EXPECT_THAT(demand(table, "heat2").must,
              UnorderedElementsAre("compressor1", "outdoorFan", "electricHeat1", "blower:heat"));
  EXPECT_THAT(demand(table, "emergency").must, UnorderedElementsAre("electricHeat1", "blower:heat"));
  EXPECT_THAT(demand(table, "emergency").may, ::testing::Not(::testing::Contains("compressor1")));
  EXPECT_THAT(demand(table, "defrost").must,
              UnorderedElementsAre("compressor1", "reversingValve", "defrost", "blower"));
}

TEST(OperationTable, AValveOnBIsEnergisedInHeating) {
  auto sheet = ww::testing::rowG();
  auto outdoor = sheet.units.rows()[2];
  outdoor.profile = "od-heatpump-1-b";
  sheet.units.put(outdoor);
  const auto table = operationTable(asbuilt::compile(sheet, shipped()));
  EXPECT_THAT(demand(table, "cool1").must, UnorderedElementsAre("compressor1", "outdoorFan", "blower:cool1"));
  EXPECT_THAT(demand(table, "heat1").must,
              UnorderedElementsAre("compressor1", "outdoorFan", "reversingValve", "blower:cool1"));
  EXPECT_THAT(demand(table, "heat2").must, ::testing::Contains("reversingValve"));
  EXPECT_THAT(demand(table, "defrost").must, ::testing::Not(::testing::Contains("reversingValve")));
  EXPECT_THAT(demand(table, "rest").may, ::testing::Contains("reversingValve"));
}

TEST(OperationTable, AControlThatOnlyCoolsAsksForNoHeat) {
  SmallUnit control;
  control.kind = "roomControl";
  control.terminals = {"R:hot", "Y:callOut", "G:callOut"};
  control.calls = {"fan", "cool1"};
  auto library = ww::testing::libraryOf({control});
  auto sheet = ww::testing::rowA();
  library.profiles.insert(shipped().profiles.begin(), shipped().profiles.end());
  auto placed = sheet.units.rows()[0];
  placed.profile = control.id;
  sheet.units.put(placed);
  EXPECT_THAT(names(operationTable(asbuilt::compile(sheet, library))), ElementsAre("rest", "fan", "cool1"));
}

TEST(OperationTable, SeveralControlsSpeakForTheirZones) {
  auto sheet = ww::testing::rowA();
  ww::testing::addUnit(sheet, "T2", "rc-1h1c-battery", "upstairs");
  const auto table = operationTable(asbuilt::compile(sheet, shipped()));
  EXPECT_THAT(names(table), ElementsAre("rest", "zone1.fan", "zone1.cool1", "zone1.heat1", "zone2.fan",
                                        "zone2.cool1", "zone2.heat1"));
}

TEST(OperationTable, WithoutAControlThereIsOnlyRest) {
  sheet::Sheet sheet;
  ww::testing::addUnit(sheet, "F", "furnace-1", "closet");
  EXPECT_THAT(operationTable(asbuilt::compile(sheet, shipped())), IsEmpty());
  const auto solution = solveSheet(sheet, shipped());
  ASSERT_EQ(solution.calls.size(), 1U);
  EXPECT_EQ(solution.calls[0].result.call, "rest");
}

struct Row {
  const char* name;
  sheet::Sheet (*sheet)();
};

/// The name of the test.
std::ostream& operator<<(std::ostream& out, const Row& row) { return out << row.name; }

/// Every healthy row: what must run runs, what runs may run, and all is well.
class HealthyRow : public ::testing::TestWithParam<Row> {};

TEST_P(HealthyRow, EveryCallRunsWhatItMust) {
  const auto solution = solveSheet(GetParam().sheet(), shipped());
  ASSERT_EQ(solution.calls.size(), solution.table.size());
  for (size_t i = 0; i < solution.calls.size(); ++i) {
    const auto& want = solution.table[i];
    const auto& result = solution.calls[i].result;
    SCOPED_TRACE(want.call);
    EXPECT_EQ(result.call, want.call);
    EXPECT_EQ(result.state, CallState::ok);
    EXPECT_THAT(result.marginalInputs, IsEmpty());
    const auto running = duties(result);
    const auto isThere = [&](const std::string& duty) {
      return std::any_of(running.begin(), running.end(), [&](const std::string& r) {
        return r == duty || (duty.find(':') == std::string::npos && dutyName(r) == duty);
      });
    };
    for (const auto& duty : want.must) EXPECT_TRUE(isThere(duty)) << duty;
    for (const auto& duty : running) {
      const auto listed = [&](const std::string& entry) { return entry == duty || entry == dutyName(duty); };
      EXPECT_TRUE(std::any_of(want.must.begin(), want.must.end(), listed) ||
                  std::any_of(want.may.begin(), want.may.end(), listed))
          << duty;
    }
    for (const auto& coil : result.coils)
      EXPECT_TRUE(coil.state == CoilState::in || coil.state == CoilState::out) << coil.part;
  }
}

INSTANTIATE_TEST_SUITE_P(Rows, HealthyRow,
                         ::testing::Values(Row{"FurnaceWithCooling", ww::testing::rowA},
                                           Row{"ElectricAirHandler", ww::testing::rowB},
                                           Row{"HeatPump", ww::testing::rowG}));

class CoolingCall : public ::testing::Test {
 protected:
  CoolingCall() : sheet_(ww::testing::rowA()), solution_(solveSheet(sheet_, shipped())) {}
  const CallResult& result() const { return solution_.call("cool1")->result; }
  const WireResult& wire(const char* colour, const char* cable) const {
    for (const auto& row : sheet_.conductors)
      if (print(row.colour) == colour && row.cable == sheet_.cableByName(cable)->id)
        for (const auto& entry : result().wires)
          if (entry.conductor == row.id) return entry;
    throw std::invalid_argument("no such conductor");
  }
  sheet::Sheet sheet_;
  Solution solution_;
};

TEST_F(CoolingCall, EachConductorSaysWhereItsCurrentGoes) {
  EXPECT_TRUE(wire("YE", "1").fromHot) << "from the control to the furnace";
  EXPECT_TRUE(wire("YE", "2").fromHot) << "from the furnace to the outdoor unit";
  EXPECT_FALSE(wire("RD", "1").fromHot) << "red comes from the furnace, its End B";
  EXPECT_TRUE(wire("BU", "1").fromHot) << "the control's return";
  EXPECT_FALSE(wire("BU", "2").fromHot) << "the contactor's return";
  EXPECT_NEAR(std::abs(wire("YE", "2").amps), std::abs(wire("BU", "2").amps), 1e-9);
}

TEST_F(CoolingCall, LiveIsWhatStandsAtVoltsOrCarriesAmps) {
  for (const char* colour : {"RD", "BU", "YE", "GN"}) EXPECT_TRUE(wire(colour, "1").live) << colour;
  EXPECT_FALSE(wire("WH", "1").live);
}

TEST_F(CoolingCall, TerminalsAreReadAgainstTheCommonThatFeedsThem) {
  const TerminalRef common{sheet_.unitByTag("F")->id, "C"};
  int solid = 0;
  for (const auto& terminal : result().terminals) {
    if (terminal.reference == terminal.terminal && terminal.terminal != common) continue;  // hangs on nothing
    ++solid;
    EXPECT_EQ(terminal.quality, circuit::Quality::solid);
    EXPECT_EQ(terminal.reference, common) << terminal.terminal.terminal;
    if (terminal.terminal == common) {
      EXPECT_EQ(std::abs(terminal.volts), 0);
    }
    if (terminal.terminal == TerminalRef{sheet_.unitByTag("O")->id, "Y"}) {
      EXPECT_NEAR(std::abs(terminal.volts), 26.9, 0.1);
    }
  }
  EXPECT_GE(solid, 12);
}

TEST_F(CoolingCall, TheSourceSaysItsLoadInAmps) {
  ASSERT_EQ(result().sources.size(), 1U);
  const auto& source = result().sources[0];
  EXPECT_EQ(source.part, "XF");
  EXPECT_NEAR(source.loadPercent, 100 * source.amps.si() / (40.0 / 24), 1e-9);
  EXPECT_NEAR(source.shown.si(), 24 * source.amps.si(), 1e-12);
  EXPECT_EQ(source.rating.si(), 40);
}

TEST_F(CoolingCall, EveryCallStartsFromRest) {
  // Heat comes after cooling in the table; nothing of the cooling call may be left in it.
  const auto& heat = solution_.call("heat1")->result;
  EXPECT_THAT(duties(heat), UnorderedElementsAre("burner1", "blower:heat"));
  EXPECT_EQ(solution_.call("heat1")->start, solution_.call("cool1")->start);
  EXPECT_EQ(solution_.call("nothing"), nullptr);
}

TEST(Solution, SolvedTwiceIsTheSameToTheLastDigit) {
  const auto sheet = ww::testing::rowG();
  const auto one = solveSheet(sheet, shipped()), other = solveSheet(sheet, shipped());
  ASSERT_EQ(one.calls.size(), other.calls.size());
  for (size_t i = 0; i < one.calls.size(); ++i) {
    const SolvedCall &a = one.calls[i], &b = other.calls[i];
    SCOPED_TRACE(a.result.call);
    EXPECT_TRUE(a.positions == b.positions);
    EXPECT_EQ(a.result.duties, b.result.duties);
    ASSERT_EQ(a.events.size(), b.events.size());
    for (size_t e = 0; e < a.events.size(); ++e)
      EXPECT_TRUE(a.events[e].at == b.events[e].at && a.events[e].name == b.events[e].name &&
                  a.events[e].on == b.events[e].on)
          << a.events[e].name;
    for (size_t t = 0; t < a.result.terminals.size(); ++t)
      EXPECT_EQ(a.result.terminals[t].volts, b.result.terminals[t].volts);
    for (size_t w = 0; w < a.result.wires.size(); ++w)
      EXPECT_EQ(a.result.wires[w].amps, b.result.wires[w].amps);
  }
}

/// What stays the same is not solved again; what was kept must be what a new solution gives.
TEST(Solution, KeptVoltsAreThoseOfTheEndState) {
  for (const auto row : {ww::testing::rowA, ww::testing::rowB, ww::testing::rowG}) {
    const auto solution = solveSheet(row(), shipped());
    const auto& circuit = *solution.circuit;
    for (const auto& call : solution.calls) {
      circuit::Solver<circuit::Phasor> solver(circuit.plan);
      asbuilt::solve(circuit, call.positions, asbuilt::Conditions{}, solver);
      ASSERT_EQ(call.result.wires.size(), circuit.wires.size());
      for (size_t w = 0; w < circuit.wires.size(); ++w)
        EXPECT_EQ(call.result.wires[w].amps, solver.current(circuit.wires[w].branch)) << call.result.call;
    }
  }
}

TEST(CallState, AShortMeltsTheFuseInEveryCall) {
  auto sheet = ww::testing::rowA();
  sheet::Conductor jumper;
  const auto furnace = sheet.unitByTag("F")->id;
  jumper.endA = TerminalRef{furnace, "R"};
  jumper.endB = TerminalRef{furnace, "C"};
  sheet.addConductor(jumper);
  const auto solution = solveSheet(sheet, shipped());
  for (const auto& call : solution.calls) {
    EXPECT_EQ(call.result.state, CallState::fuseOpen) << call.result.call;
    EXPECT_THAT(call.result.duties, IsEmpty());
  }
  ASSERT_EQ(solution.calls[0].result.melted.size(), 1U);
  EXPECT_EQ(solution.calls[0].result.melted[0].part, "F");
  EXPECT_NEAR(solution.calls[0].result.melted[0].amps.si(), 27.6 / (2.16 + 0.035), 0.01);
}

/// A control whose call closes K, on a transformer, with a coil and what else is given.
CallState stateOf(const std::vector<std::string>& elements) {
  SmallUnit unit = ww::testing::behindJoint(0.001, elements);
  unit.kind = "roomControl";
  unit.logic = {"asked := call.cool1"};
  unit.calls = {"cool1"};
  return solveSheet(ww::testing::sheetOf({unit}), ww::testing::libraryOf({unit})).call("cool1")->result.state;
}

TEST(CallState, IsTheWorstOfItsCoils) {
  using ww::testing::contact;
  using ww::testing::element;
  using ww::testing::resistor;
  EXPECT_EQ(stateOf({contact("K", "R", "n", "asked"), element("Q", "n", "C", "C7")}), CallState::ok);
  EXPECT_EQ(stateOf({contact("K", "R", "n", "asked"), resistor("J2", "n", "q", 20),
                     element("Q", "q", "C", "C7"), element("Q2", "n", "C", "K4")}),
            CallState::hum);
  EXPECT_EQ(
      stateOf({contact("K", "R", "n", "asked"), contact("KC", "n", "q", "!in(Q)"),
               element("Q", "q", "C", "C7"), resistor("J2", "n", "p", 20), element("Q2", "p", "C", "C7")}),
      CallState::chatter)
      << "worse than the hum beside it";
  // 300 ohm give 27.6^2 / 4 / 302 = 0.63 VA at most.
  EXPECT_EQ(stateOf({contact("K", "R", "n", "asked"), resistor("J2", "n", "q", 300),
                     element("S", "q", "C", "S1.5")}),
            CallState::collapse);
}

}  // namespace
}  // namespace ww::operation
