// SPDX-License-Identifier: GPL-3.0-or-later
// What must run where there is cooling alone, heating alone, two stages, or a rooftop unit with fresh air,
// and what the rooftop unit does meanwhile. Operation tables and delays: common practice, no source.
#include <gmock/gmock.h>

#include "operation/operation_table_air.h"
#include "support/across_lines.h"
#include "support/installation.h"
#include "support/reference_rows_air.h"

namespace ww::operation {
namespace {

using ::testing::Contains;
using testing::edited;
using testing::Installation;
using ::testing::IsEmpty;
using testing::kRowC;
using testing::kRowD;
using testing::kRowF;
using testing::kRowL;
using ::testing::Not;
using testing::sheetOf;
using ::testing::UnorderedElementsAre;
using testing::with;

using Duties = std::vector<std::string>;

const equipment::Library& library() { return equipment::standardLibrary(); }

struct Line {
  const char* name;
  std::string csv;
  const char* call;
  Duties must;
};

std::ostream& operator<<(std::ostream& out, const Line& line) { return out << line.name << " " << line.call; }

class AirLines : public ::testing::TestWithParam<Line> {};

/// The table says it and the circuit does it.
TEST_P(AirLines, AreDemandedAndDone) {
  const Line& line = GetParam();
  const Solution solution = solveSheet(sheetOf(line.csv), library());
  const auto demand = std::find_if(solution.table.begin(), solution.table.end(),
                                   [&](const CallDemand& each) { return each.call == line.call; });
  ASSERT_NE(demand, solution.table.end());
  EXPECT_THAT(demand->must, ::testing::UnorderedElementsAreArray(line.must));
  Duties runs;
  for (const auto& duty : solution.call(line.call)->result.duties) runs.push_back(duty.duty);
  EXPECT_THAT(runs, ::testing::UnorderedElementsAreArray(line.must));
}

INSTANTIATE_TEST_SUITE_P(
    Rows, AirLines,
    ::testing::Values(Line{"C", kRowC, "rest", {}}, Line{"C", kRowC, "fan", {"blower"}},
                      Line{"C", kRowC, "cool1", {"compressor1", "blower"}}, Line{"C", kRowC, "heat1", {}},
                      Line{"D", kRowD, "rest", {}}, Line{"D", kRowD, "heat1", {"burner1", "blower:heat"}},
                      Line{"F", kRowF, "rest", {}}, Line{"F", kRowF, "fan", {"blower:circulate"}},
                      Line{"F", kRowF, "cool1", {"compressor1", "blower:cool1"}},
                      Line{"F", kRowF, "cool2", {"compressor1", "compressor2", "blower:cool2"}},
                      Line{"F", kRowF, "heat1", {"burner1", "blower:heat"}},
                      Line{"F", kRowF, "heat2", {"burner1", "burner2", "blower:heat2"}},
                      Line{"L", kRowL, "rest", {"blower", "ventilate:minimum"}},
                      Line{"L", kRowL, "fan", {"blower", "ventilate:minimum"}},
                      Line{"L", kRowL, "cool1", {"compressor1", "blower", "ventilate:minimum"}},
                      Line{
                          "L", kRowL, "cool2", {"compressor1", "compressor2", "blower", "ventilate:minimum"}},
                      Line{"L", kRowL, "heat1", {"burner1", "blower", "ventilate:minimum"}},
                      Line{"L", kRowL, "heat2", {"burner1", "burner2", "blower", "ventilate:minimum"}}),
    [](const auto& line) { return std::string(line.param.name) + "_" + line.param.call; });

TEST(AirTable, RowsHoldAtLowAndHighLine) {
  const std::string condensing = edited(kRowF, "F,furnace-2", "F,furnace-2-condensing"),
                    small = edited(kRowD, "F,furnace-1", "F,furnace-1-condensing"),
                    timed = edited(kRowF, "stagedBy,control", "stagedBy,board");
  for (const auto* row : {&kRowC, &kRowD, &kRowF, &kRowL, &condensing, &small, &timed}) {
    SCOPED_TRACE(*row);
    testing::expectAlikeAcrossLines(sheetOf(*row));
  }
}

CallDemand demandOf(const std::string& csv, const char* call, const Facts& facts = {}) {
  for (CallDemand& demand : operationTable(asbuilt::compile(sheetOf(csv), library()), facts))
    if (demand.call == call) return demand;
  ADD_FAILURE() << call;
  return {};
}

TEST(AirTable, AStageThatTheBoardTimesMayRun) {
  const std::string row = edited(kRowF, "stagedBy,control", "stagedBy,board");
  for (const char* call : {"heat1", "heat2"}) {
    const CallDemand demand = demandOf(row, call);
    EXPECT_THAT(demand.must, UnorderedElementsAre("burner1", "blower:heat")) << call;
    EXPECT_THAT(demand.may, UnorderedElementsAre("burner2", "blower:heat2")) << call;
  }
}

TEST(AirTable, ABlowerOfOneCoolingSpeedGivesThatOneToBothStages) {
  std::string row = edited(edited(kRowF, "F,furnace-2", "F,furnace-1"), "#set,stagedBy,control\n", "");
  for (const auto& [piece, by] : {std::pair("T,Y1,F,Y1", "T,Y1,F,Y"),
                                  {"T,Y2,F,Y2", "T,Y2,F,/S2"},
                                  {"T,W1,F,W1", "T,W1,F,W"},
                                  {"T,W2,F,W2", "T,*,F,*"},
                                  {"F,Y1,O,Y1", "F,Y,O,Y1"},
                                  {"F,Y2,O,Y2", "F,/S2,O,Y2"}})
    row = edited(row, piece, by);
  EXPECT_THAT(demandOf(row, "cool2").must,
              UnorderedElementsAre("compressor1", "compressor2", "blower:cool1"));
  EXPECT_THAT(demandOf(row, "heat2").must, UnorderedElementsAre("burner1", "blower:heat"));
}

TEST(AirTable, CallsAreThoseOfTheStagesThatAreSet) {
  const auto callsOf = [](const std::string& csv) {
    Duties calls;
    for (const auto& demand : operationTable(asbuilt::compile(sheetOf(csv), library())))
      calls.push_back(demand.call);
    return calls;
  };
  EXPECT_THAT(callsOf(kRowF), ::testing::ElementsAre("rest", "fan", "cool1", "cool2", "heat1", "heat2"));
  EXPECT_THAT(callsOf(with(kRowF, "#set,coolStages,1\n#set,heatStages,1\n", "")),
              ::testing::ElementsAre("rest", "fan", "cool1", "heat1"));
}

/// A fact of a unit of the row, told.
Facts told(const std::string& csv, std::initializer_list<std::tuple<const char*, const char*, bool>> facts) {
  const auto circuit = asbuilt::compile(sheetOf(csv), library());
  Facts result;
  for (const auto& [tag, fact, holds] : facts)
    for (const auto& unit : circuit.units)
      if (unit.tag == tag) result.world[{unit.id, fact}] = holds;
  return result;
}

TEST(FreshAir, UnoccupiedTheDamperIsShut) {
  const Facts away = told(kRowL, {{"T", "occupied", false}});
  Installation shop(kRowL);
  shop.world("T", "occupied", false);
  shop.call("rest");
  for (const char* call : {"rest", "fan", "cool1", "heat1", "cool2", "heat2"}) {
    const CallDemand demand = demandOf(kRowL, call, away);
    shop.call(call);
    EXPECT_THAT(shop.runs(), ::testing::UnorderedElementsAreArray(demand.must)) << call;
    EXPECT_THAT(demand.may, Not(Contains("ventilate"))) << call;
    EXPECT_THAT(shop.runs(), Not(Contains("ventilate"))) << call;
  }
}

TEST(FreshAir, TheScheduleAsksForCallsWhileNobodyIsIn) {
  const Solution solution = solveSheet(sheetOf(kRowL), library());
  const auto duties = [&](const char* call) {
    Duties runs;
    for (const auto& duty : solution.call(call)->result.duties) runs.push_back(duty.duty);
    return runs;
  };
  std::vector<std::string> calls;
  for (const auto& demand : solution.table) calls.push_back(demand.call);
  EXPECT_THAT(calls, ::testing::ElementsAre("rest", "fan", "cool1", "cool2", "heat1", "heat2",
                                            "unoccupied.rest", "unoccupied.cool1", "unoccupied.heat1"));
  for (const CallDemand& demand : solution.table)
    EXPECT_THAT(duties(demand.call.c_str()), ::testing::UnorderedElementsAreArray(demand.must))
        << demand.call;
  EXPECT_THAT(duties("unoccupied.rest"), IsEmpty());
  EXPECT_THAT(duties("unoccupied.cool1"), UnorderedElementsAre("compressor1", "blower"));
  EXPECT_THAT(duties("unoccupied.heat1"), UnorderedElementsAre("burner1", "blower"));
}

TEST(FreshAir, WhereNoConductorTellsItTheScheduleAsksForNothing) {
  const std::string row =
      edited(kRowL, "1,18,8,45,m,OG,T,OC,U,OC", ",,,,,RD,U,R,U,OC,\n1,18,8,45,m,OG,T,*,U,*");
  EXPECT_EQ(solveSheet(sheetOf(row), library()).call("unoccupied.rest"), nullptr);
}

TEST(FreshAir, CoolOutdoorAirTakesTheFirstStagesPlace) {
  const Facts cool = told(kRowL, {{"U", "freeAir", true}});
  EXPECT_THAT(demandOf(kRowL, "cool1", cool).must, UnorderedElementsAre("blower", "ventilate:free"));
  EXPECT_THAT(demandOf(kRowL, "cool2", cool).must,
              UnorderedElementsAre("compressor1", "blower", "ventilate:free"));
  EXPECT_THAT(demandOf(kRowL, "heat1", cool).must,
              UnorderedElementsAre("burner1", "blower", "ventilate:minimum"));
  Installation shop(kRowL);
  shop.world("U", "freeAir", true);
  shop.call("rest");
  shop.call("cool1");
  EXPECT_THAT(shop.runs(), UnorderedElementsAre("blower", "ventilate"));
  shop.call("cool2");
  EXPECT_THAT(shop.runs(), UnorderedElementsAre("compressor1", "blower", "ventilate"));
}

TEST(FreshAir, UnoccupiedTheCompressorCoolsThoughTheAirOutsideIsCool) {
  Installation shop(kRowL);
  shop.world("U", "freeAir", true);
  shop.world("T", "occupied", false);
  shop.call("rest");
  shop.call("cool1");
  EXPECT_THAT(shop.runs(), UnorderedElementsAre("compressor1", "blower")) << "else nothing would cool";
}

TEST(FreshAir, ABridgedInputIsAlwaysOccupied) {
  const std::string row =
      edited(kRowL, "1,18,8,45,m,OG,T,OC,U,OC", ",,,,,RD,U,R,U,OC,\n1,18,8,45,m,OG,T,*,U,*");
  EXPECT_THAT(demandOf(row, "rest").must, UnorderedElementsAre("blower", "ventilate:minimum"));
}

TEST(Rooftop, TheDamperTravelsAndSpringsShut) {
  Installation shop(kRowL);
  shop.world("T", "occupied", false);
  shop.call("rest");
  shop.world("T", "occupied", true);
  shop.call("rest");
  EXPECT_NEAR(shop.when("U", "airOpen"), 30, 0.2);
  shop.world("T", "occupied", false);
  shop.call("rest");
  EXPECT_NEAR(shop.when("U", "airOpen", false), 15, 0.2);
}

TEST(Rooftop, AnOpenShutDownStopsAllAndLeavesTheControlAlive) {
  const std::string row = with(kRowL, "#unit,D,smoke-shutdown\n#set,U.jumperSd,out\n",
                               "2,18,2,3,m,RD,U,SD1,D,A,\n2,18,2,3,m,WH,U,SD2,D,B,\n");
  Installation shop(row);
  shop.call("rest");
  shop.call("heat2");
  EXPECT_THAT(shop.runs(), UnorderedElementsAre("burner1", "burner2", "blower", "ventilate"));
  shop.world("D", "SDOpen", true);
  shop.call("heat2");
  EXPECT_THAT(shop.runs(), IsEmpty()) << "the fan too; the damper springs shut";
  EXPECT_GT(shop.volts("T", "S"), 24);
  EXPECT_NEAR(shop.volts("U", "B"), 0, 1e-6);
}

TEST(Rooftop, WithoutJumperOrContactItIsDead) {
  Installation shop(with(kRowL, "#set,U.jumperSd,out\n", ""));
  shop.call("rest");
  shop.call("cool1");
  EXPECT_THAT(shop.runs(), IsEmpty());
}

TEST(Rooftop, TheBurnersFanRunsOn) {
  Installation shop(kRowL);
  shop.world("T", "occupied", false);
  shop.call("rest");
  shop.call("heat1");
  EXPECT_NEAR(shop.when("U", "flame"), 40, 0.2);
  EXPECT_NEAR(shop.when("U", "IFC"), 70, 0.2);
  shop.call("rest");
  EXPECT_NEAR(shop.when("U", "GV", false), 0, 0.2);
  EXPECT_NEAR(shop.when("U", "IFC", false), 90, 0.2);
}

TEST(CoolingUnit, TheSecondStageNeedsTheFirst) {
  Installation house(edited(kRowF, "YE,F,Y1,O,Y1", "YE,F,*,O,*"));
  house.call("rest");
  house.call("cool2");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("blower"));
}

}  // namespace
}  // namespace ww::operation
