// SPDX-License-Identifier: GPL-3.0-or-later
// What must run where there are boilers, zone valves, water coils, dampers and accessories, and what the
// units do meanwhile. Operation tables and delays: common practice, no source.
#include <gmock/gmock.h>

#include "support/across_lines.h"
#include "support/installation.h"
#include "support/reference_rows_water.h"

namespace ww::operation {
namespace {

using ::testing::Contains;
using testing::edited;
using testing::Installation;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::sheetOf;
using testing::stuckClosed;
using ::testing::UnorderedElementsAre;
using testing::with;

const equipment::Library& library() { return equipment::standardLibrary(); }

struct Line {
  const char* row;  ///< name of the test
  std::string csv;
  const char* call;
  std::vector<std::string> must;
};

std::ostream& operator<<(std::ostream& out, const Line& line) { return out << line.row << " " << line.call; }

class TableLines : public ::testing::TestWithParam<Line> {};

/// The table says it and the circuit does it.
TEST_P(TableLines, AreDemandedAndDone) {
  const Line& line = GetParam();
  const Solution solution = solveSheet(sheetOf(line.csv), library());
  const auto demand = std::find_if(solution.table.begin(), solution.table.end(),
                                   [&](const CallDemand& d) { return d.call == line.call; });
  ASSERT_NE(demand, solution.table.end());
  EXPECT_THAT(demand->must, ::testing::UnorderedElementsAreArray(line.must));
  std::vector<std::string> runs;
  for (const auto& duty : solution.call(line.call)->result.duties) runs.push_back(duty.duty);
  const std::string call = line.call;
  const bool resting = call == "rest";
  if (!resting) {
    EXPECT_THAT(runs, ::testing::UnorderedElementsAreArray(line.must));
  }
  for (const std::string& duty : runs)
    EXPECT_TRUE(!resting || std::count(demand->may.begin(), demand->may.end(), duty) ||
                std::count(line.must.begin(), line.must.end(), duty))
        << duty;
  if (resting) {
    EXPECT_THAT(runs, ::testing::IsSupersetOf(line.must));
  }
}

using testing::kRowE;
using testing::kRowK;
using testing::kRowM;
using testing::kRowN;
using testing::kRowO;
using testing::kRowP;
using testing::kRowQ;

INSTANTIATE_TEST_SUITE_P(
    Rows, TableLines,
    ::testing::Values(
        Line{"E", kRowE, "rest", {}}, Line{"E", kRowE, "zone1.heat1", {"zoneValve1", "boiler", "pump"}},
        Line{"E", kRowE, "zone3.heat1", {"zoneValve3", "boiler", "pump"}},
        Line{"E", kRowE, "zones.heat1", {"zoneValve1", "zoneValve2", "zoneValve3", "boiler", "pump"}},
        Line{"K", kRowK, "rest", {}}, Line{"K", kRowK, "fan", {"blower"}},
        Line{"K", kRowK, "cool1", {"blower", "compressor1"}}, Line{"K", kRowK, "heat1", {"boiler", "pump"}},
        Line{"M", kRowM, "heat1", {"burner1"}}, Line{"M", kRowM, "rest", {}},
        Line{"N", kRowN, "zone2.cool1", {"compressor1", "blower:cool1", "damper2"}},
        Line{"N", kRowN, "zone3.heat1", {"burner1", "blower:heat", "damper3"}},
        Line{"N", kRowN, "zone1.fan", {"blower:circulate", "damper1"}},
        Line{"N", kRowN, "zones.heat1", {"burner1", "blower:heat", "damper1", "damper2", "damper3"}},
        Line{"N", kRowN, "rest", {"damper1", "damper2", "damper3"}}, Line{"O", kRowO, "heat1", {"burner1"}},
        Line{"O", kRowO, "rest", {}}, Line{"P", kRowP, "fan", {"blower"}},
        Line{"P", kRowP, "cool1", {"blower", "compressor1"}}, Line{"P", kRowP, "heat1", {"blower", "pump"}},
        Line{"Q", kRowQ, "fan", {"blower"}}, Line{"Q", kRowQ, "cool1", {"blower", "zoneValve1"}},
        Line{"Q", kRowQ, "heat1", {"blower", "zoneValve1"}}, Line{"Q", kRowQ, "rest", {}}),
    [](const auto& line) {
      std::string name = std::string(line.param.row) + "_" + line.param.call;
      std::replace(name.begin(), name.end(), '.', '_');
      return name;
    });

TEST(WaterTable, RowsHoldAtLowAndHighLine) {
  for (const auto* row : {&kRowE, &kRowK, &kRowM, &kRowN, &kRowO, &kRowP, &kRowQ}) {
    SCOPED_TRACE(*row);
    testing::expectAlikeAcrossLines(sheetOf(*row));
  }
}

TEST(WaterTable, ZonesAreNamedInTheOrderOfTheirControls) {
  std::vector<std::string> calls;
  for (const auto& demand : operationTable(asbuilt::compile(sheetOf(kRowE), library())))
    calls.push_back(demand.call);
  EXPECT_THAT(calls,
              ::testing::ElementsAre("rest", "zone1.heat1", "zone2.heat1", "zone3.heat1", "zones.heat1"));
}

TEST(WaterTable, ValvesOfSeveralHousesCountThroughTheWhole) {
  // Two houses on one sheet: each is solved alone, and the second one's valves are 4 to 6.
  std::string second = kRowE;
  second = second.substr(0, second.find("cable,gauge"));
  for (const char* tag : {"T1", "T2", "T3", "V1", "V2", "V3"})
    second = edited(second, std::string("#unit,") + tag, std::string("#unit,X") + tag);
  for (const char* tag : {"B", "Z", "S"})
    second = edited(second, std::string("#unit,") + tag + ",", std::string("#unit,X") + tag + ",");
  std::string rows = kRowE.substr(kRowE.find("\n1,18") + 1);
  std::string moved;
  std::istringstream lines(rows);
  for (std::string line; std::getline(lines, line);) {
    std::vector<std::string> cells;
    std::istringstream text(line + " ");
    for (std::string cell; std::getline(text, cell, ',');) cells.push_back(cell);
    cells[0] = "2" + cells[0];
    cells[6] = "X" + cells[6];
    cells[8] = "X" + cells[8];
    for (size_t i = 0; i + 1 < cells.size(); ++i) moved += cells[i] + ",";
    moved += "\n";
  }
  const Solution solution = solveSheet(sheetOf(with(kRowE, second, moved)), library());
  const auto& result = solution.call("zone5.heat1")->result;
  std::vector<std::string> runs;
  for (const auto& duty : result.duties) runs.push_back(duty.duty);
  EXPECT_THAT(runs, UnorderedElementsAre("zoneValve5", "boiler", "pump"));
}

TEST(Boiler, NeverFiresBeforeAnEndSwitch) {
  Installation house(kRowE);
  house.call("rest");
  house.call("zone2.heat1");
  EXPECT_NEAR(house.when("V2", "ES"), 15, 0.1);
  EXPECT_GE(house.when("B", "pump"), house.when("V2", "ES"));
  EXPECT_NEAR(house.when("B", "burner") - house.when("B", "pump"), 5, 0.1);
  house.call("rest");
  EXPECT_NEAR(house.when("V2", "ES", false), 5, 0.1);
  EXPECT_NEAR(house.when("B", "burner", false), 5, 0.1);
  EXPECT_THAT(house.runs(), IsEmpty());
}

TEST(Boiler, WaitsForAHeatMotor) {
  // 150 s at 24 V, quicker by (24 / V)^2 at 25.1 V.
  Installation house(edited(kRowE, "V1,zonevalve-motor-4", "V1,zonevalve-heatmotor-4"));
  house.call("rest");
  house.call("zone1.heat1");
  const double volts = house.volts("V1", "HM");
  EXPECT_NEAR(house.when("V1", "valveOpen"), 150 * 24 * 24 / (volts * volts), 0.5);
  EXPECT_THAT(house.runs(), UnorderedElementsAre("zoneValve1", "boiler", "pump"));
  house.call("rest");
  EXPECT_NEAR(house.when("V1", "valveOpen", false), 120, 0.1);
}

TEST(Boiler, OverrunsWhereItIsSetTo) {
  Installation house(edited(kRowK, "fanWithHeat,equipment", "fanWithHeat,equipment\n#set,B.pumpOverrun,on"));
  house.call("rest");
  house.call("heat1");
  house.call("rest");
  EXPECT_NEAR(house.when("B", "burner", false), 0, 0.1);
  EXPECT_NEAR(house.when("B", "pump", false), 120, 0.1);
}

TEST(Boiler, ASafetyStopsTheBurnerAndNothingElse) {
  for (const auto& [part, set] : {std::pair("HL", ""), std::pair("LW", "#set,B.lowWater,fitted\n"),
                                  std::pair("VP", "#set,B.ventProof,fitted\n")}) {
    Installation house(with(kRowK, set, ""));
    house.call("rest");
    house.call("heat1");
    EXPECT_THAT(house.runs(), UnorderedElementsAre("boiler", "pump")) << part;
    house.world("B", std::string(part) + "Open", true);
    house.call("heat1");
    EXPECT_THAT(house.runs(), UnorderedElementsAre("pump")) << part;
  }
}

TEST(Boiler, AWeldedEndSwitchFiresItAtRest) {
  Installation house(kRowE, stuckClosed(kRowE, "V1", "ES"));
  house.call("rest");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("boiler", "pump"));
}

TEST(Oil, LocksOutWithoutFlameAndStaysSoUntilReset) {
  Installation house(kRowO);
  house.world("B", "oil", false);
  house.call("rest");
  house.call("heat1");
  EXPECT_NEAR(house.when("B", "lock"), 15, 0.1);
  house.world("B", "oil", true);
  house.call("rest");
  house.call("heat1");
  EXPECT_THAT(house.runs(), IsEmpty());
  house.world("B", "line", false);
  house.call("heat1");
  house.world("B", "line", true);
  house.call("heat1");
  EXPECT_THAT(house.runs(), IsEmpty()) << "the lock-out outlives the power";
  house.world("B", "resetPressed", true);
  house.call("heat1");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("burner1"));
}

TEST(Oil, TriesOnceAgainWhenTheFlameIsLost) {
  Installation house(kRowO);
  house.call("rest");
  house.call("heat1");
  house.world("B", "oil", false);
  house.call("heat1");
  EXPECT_NEAR(house.when("B", "motor", false), 1, 0.1);
  EXPECT_NEAR(house.when("B", "motor", true), 61, 1.5);
  EXPECT_NEAR(house.when("B", "lock"), 76, 1.5);
}

TEST(Oil, DoesNotStartWithFalseLight) {
  Installation house(kRowO);
  house.world("B", "falseLight", true);
  house.call("rest");
  house.call("heat1");
  EXPECT_THAT(house.runs(), IsEmpty());
}

TEST(WaterCoil, BlowsNoColdAir) {
  Installation house(kRowP);
  house.call("rest");
  house.call("heat1");
  EXPECT_NEAR(house.when("A", "blower") - house.when("A", "pump"), 90, 0.2);
  house.world("A", "LWOpen", true);
  house.call("heat1");
  EXPECT_THAT(house.runs(), IsEmpty());
  Installation cold(kRowP);
  cold.world("A", "hotWater", false);
  cold.call("rest");
  cold.call("heat1");
  EXPECT_THAT(cold.runs(), UnorderedElementsAre("pump"));
}

TEST(TwoPipe, ServesTheSeasonOfItsPipe) {
  Installation house(kRowQ);
  house.world("A", "pipeCold", true);
  house.call("rest");
  house.call("heat1");
  EXPECT_THAT(house.runs(), IsEmpty());
  house.call("cool1");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("zoneValve1", "blower"));
  house.world("A", "pipeCold", false);
  house.world("A", "pipeHot", true);
  house.call("cool1");
  EXPECT_THAT(house.runs(), IsEmpty());
}

TEST(ZonePanel, OpposingCallsAreServedOneAfterTheOther) {
  // Zone 2 asks for heat without end while zone 1 asks for cooling.
  Installation house(kRowN, stuckClosed(kRowN, "T2", "KW"));
  house.call("rest");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("burner1", "blower", "damper1"));
  house.call("zone1.cool1");
  EXPECT_NEAR(house.when("P", "PKW", false), 1200, 1);
  EXPECT_GE(house.when("P", "PKY") - house.when("P", "PKW", false), 120);
  EXPECT_THAT(house.runs(), UnorderedElementsAre("compressor1", "blower", "damper1"));
  house.call("rest");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("burner1", "blower", "damper1"));
}

TEST(ZonePanel, NeverShutsAllDampers) {
  Installation house(kRowN);
  int shut = 0, most = 0;
  for (const char* call :
       {"rest", "zone1.heat1", "zone2.heat1", "zone3.cool1", "zones.cool1", "zone2.fan", "rest"}) {
    house.call(call);
    for (const Event& event : house.machine().events()) {
      if (event.name != "DM") continue;
      shut += event.on ? 1 : -1;
      most = std::max(most, shut);
    }
  }
  EXPECT_EQ(most, 2);
  EXPECT_EQ(shut, 0) << "at rest the springs hold all open";
}

TEST(ZonePanel, TheLastZoneStaysOpenThroughThePurge) {
  Installation house(kRowN);
  house.call("rest");
  house.call("zone1.heat1");
  house.call("rest");
  EXPECT_NEAR(house.when("P", "purge"), 0, 0.1);
  EXPECT_NEAR(house.when("P", "purge", false), 120, 0.2);
  EXPECT_NEAR(house.when("P", "open1", false), 120, 0.2);
}

TEST(ZonePanel, HotAndColdAirStopTheEquipment) {
  Installation house(kRowN);
  house.call("rest");
  house.call("zone1.heat1");
  house.world("P", "hotAir", true);
  house.call("zone1.heat1");
  EXPECT_THAT(house.runs(), Not(Contains("burner1")));
}

TEST(ZonePanel, DampersThatArePoweredToOpen) {
  std::string row = kRowN;
  for (int damper = 0; damper < 3; ++damper) row = edited(row, "damper-pc", "damper-po");
  Installation house(with(row, "#set,P.dampers,powerOpen\n", ""));
  house.call("rest");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("damper1", "damper1", "damper1"))
      << "each is its unit's first";
  house.call("zone3.cool1");
  EXPECT_THAT(house.runs(), UnorderedElementsAre("compressor1", "blower", "damper1"));
}

}  // namespace
}  // namespace ww::operation
