// SPDX-License-Identifier: GPL-3.0-or-later
// What must run where there are heat pumps in two stages, two fuels or an inverter, and what they do
// meanwhile. Operation tables and delays: common practice, no source.
#include <gmock/gmock.h>

#include <sstream>

#include "support/across_lines.h"
#include "support/installation.h"
#include "support/reference_rows_pumps.h"

namespace ww::operation {
namespace {

using ::testing::Contains;
using testing::edited;
using testing::Installation;
using ::testing::Not;
using testing::sheetOf;
using testing::with;

using testing::kRowH;
using testing::kRowI;
using testing::kRowJ;
using testing::kRowJWithKit;
using testing::kRowR;

const equipment::Library& library() { return equipment::standardLibrary(); }

struct Line {
  const char* row;  ///< name of the test
  std::string csv;
  const char* call;
  std::vector<std::string> must;
  std::vector<std::string> besides{};  ///< runs as well, and may
};

std::ostream& operator<<(std::ostream& out, const Line& line) { return out << line.row << " " << line.call; }

class PumpLines : public ::testing::TestWithParam<Line> {};

/// The table says it and the circuit does it.
TEST_P(PumpLines, AreDemandedAndDone) {
  const Line& line = GetParam();
  const Solution solution = solveSheet(sheetOf(line.csv), library());
  const auto demand = std::find_if(solution.table.begin(), solution.table.end(),
                                   [&](const CallDemand& d) { return d.call == line.call; });
  ASSERT_NE(demand, solution.table.end());
  EXPECT_THAT(demand->must, ::testing::UnorderedElementsAreArray(line.must));
  std::vector<std::string> runs, names, wanted;
  for (const auto& duty : solution.call(line.call)->result.duties) names.push_back(dutyName(duty.duty));
  for (const auto& duty : line.must) wanted.push_back(dutyName(duty));
  for (const auto& duty : line.besides) {
    wanted.push_back(duty);
    EXPECT_THAT(demand->may, Contains(duty));
  }
  EXPECT_THAT(names, ::testing::UnorderedElementsAreArray(wanted));
}

INSTANTIATE_TEST_SUITE_P(
    Rows, PumpLines,
    ::testing::Values(
        Line{"H", kRowH, "cool1", {"compressor1", "outdoorFan", "blower:cool1"}},
        Line{"H", kRowH, "heat1", {"compressor1", "outdoorFan", "reversingValve", "blower:cool1"}},
        Line{"H",
             kRowH,
             "heat2",
             {"compressor1", "outdoorFan", "reversingValve", "electricHeat1", "blower:heat"}},
        Line{"H", kRowH, "emergency", {"electricHeat1", "blower:heat"}},
        Line{"H", kRowH, "defrost", {"compressor1", "defrost", "blower"}, {"electricHeat1"}},
        Line{"I",
             kRowI,
             "cool2",
             {"compressor1", "compressor2", "outdoorFan", "reversingValve", "blower:cool2"}},
        Line{"I", kRowI, "heat2", {"compressor1", "compressor2", "outdoorFan", "blower:cool2"}},
        Line{"I",
             kRowI,
             "heat3",
             {"compressor1", "compressor2", "outdoorFan", "electricHeat1", "blower:heat"}},
        Line{"I", kRowI, "emergency", {"electricHeat1", "blower:heat"}, {"electricHeat2"}},
        Line{"I",
             kRowI,
             "defrost",
             {"compressor1", "reversingValve", "defrost", "blower"},
             {"compressor2", "electricHeat1"}},
        Line{"J", kRowJ, "cool1", {"compressor1", "outdoorFan", "reversingValve", "blower:cool1"}},
        Line{"J", kRowJ, "heat1", {"compressor1", "outdoorFan", "blower:cool1"}},
        Line{"J", kRowJ, "heat2", {"burner1", "blower:heat"}},
        Line{"J", kRowJ, "emergency", {"burner1", "blower:heat"}},
        Line{"J", kRowJ, "cold.heat1", {"burner1", "blower:heat"}},
        Line{"J", kRowJ, "defrost", {"compressor1", "reversingValve", "defrost", "blower"}, {"burner1"}},
        Line{"JKit", kRowJWithKit, "heat1", {"compressor1", "outdoorFan", "blower:cool1"}},
        Line{"JKit", kRowJWithKit, "heat2", {"burner1", "blower:heat"}},
        Line{"JKit", kRowJWithKit, "cold.heat1", {"burner1", "blower:heat"}},
        Line{"JKit",
             kRowJWithKit,
             "cold.cool1",
             {"compressor1", "outdoorFan", "reversingValve", "blower:cool1"}},
        Line{"JKit",
             kRowJWithKit,
             "defrost",
             {"compressor1", "reversingValve", "defrost", "blower"},
             {"burner1"}},
        Line{"R", kRowR, "cool1", {"compressor1", "reversingValve", "blower:cool1"}},
        Line{"R", kRowR, "heat2", {"compressor1", "compressor2", "blower:cool2"}},
        Line{"R", kRowR, "emergency", {"electricHeat1", "blower:heat"}},
        Line{"R",
             kRowR,
             "defrost",
             {"compressor1", "reversingValve", "defrost", "blower"},
             {"compressor2", "electricHeat1"}}),
    [](const auto& line) {
      std::string name = std::string(line.param.row) + "_" + line.param.call;
      std::replace(name.begin(), name.end(), '.', '_');
      return name;
    });

TEST(PumpTable, RowsHoldAtLowAndHighLine) {
  for (const auto* row : {&kRowH, &kRowI, &kRowJ, &kRowJWithKit, &kRowR}) {
    SCOPED_TRACE(*row);
    testing::expectAlikeAcrossLines(sheetOf(*row));
  }
}

TEST(PumpTable, StagesAreTheControls) {
  std::vector<std::string> calls;
  const auto circuit =
      asbuilt::compile(sheetOf(edited(kRowI, "compressorStages,2", "compressorStages,1")), library());
  for (const auto& demand : operationTable(circuit)) {
    calls.push_back(demand.call);
    EXPECT_THAT(demand.must, Not(Contains("compressor2"))) << demand.call;
    if (demand.call == "heat2") {
      EXPECT_THAT(demand.must, Contains("electricHeat1"));
    }
  }
  EXPECT_THAT(calls,
              ::testing::ElementsAre("rest", "fan", "cool1", "heat1", "heat2", "emergency", "defrost"));
}

TEST(PumpControl, LockedOutByColdItHeatsOtherwise) {
  Installation house(kRowH);
  house.world("T", "compressorLockedOut", true);
  house.call("rest");
  house.call("heat1");
  EXPECT_THAT(house.runs(), ::testing::UnorderedElementsAre("electricHeat1", "blower"));
  house.world("T", "auxiliaryLockedOut", true);
  house.call("rest");
  house.call("heat1");
  EXPECT_THAT(house.runs(), ::testing::IsEmpty()) << "no air without heat";
}

/// Two houses of row J on one sheet: units T2, F2 and O2, cables 11 and 12.
std::string twoHouses() {
  std::string units, wires;
  std::istringstream rows(kRowJ);
  for (std::string line; std::getline(rows, line);) {
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    if (cells[0] == "#unit") units += "#unit," + cells[1] + "2," + cells[2] + "\n";
    if (cells[0] != "1" && cells[0] != "2") continue;
    cells.resize(10);  // no remark
    wires += "1";
    for (size_t i = 0; i < cells.size(); ++i) wires += cells[i] + (i == 6 || i == 8 ? "2," : ",");
    wires += "\n";
  }
  return with(kRowJ, units + "#set,F2.transformer,XF50\n", wires);
}

TEST(DualFuel, EveryHouseHasItsCallBelowTheChangeover) {
  const Solution solution = solveSheet(sheetOf(twoHouses()), library());
  for (const char* call : {"zone1.cold.heat1", "zone2.cold.heat1"}) {
    ASSERT_NE(solution.call(call), nullptr) << call;
    std::vector<std::pair<std::string, std::string>> runs;
    for (const auto& duty : solution.call(call)->result.duties)
      runs.emplace_back(solution.circuit->units[size_t(solution.circuit->unitIndex(duty.unit))].tag,
                        duty.duty);
    const std::string furnace = std::string(call).starts_with("zone1") ? "F" : "F2";
    EXPECT_THAT(runs, ::testing::UnorderedElementsAre(std::pair(furnace, "burner1"),
                                                      std::pair(furnace, "blower:heat")))
        << call;
  }
  for (const auto& demand : solution.table)
    if (demand.call.ends_with("cold.heat1")) {
      EXPECT_THAT(demand.must, ::testing::UnorderedElementsAre("burner1", "blower:heat"));
    }
}

TEST(DualFuel, TheCompressorWaitsAfterTheBurner) {
  for (const auto* row : {&kRowJ, &kRowJWithKit}) {
    Installation house(*row);
    house.call("rest");
    house.call("cold.heat1");
    EXPECT_THAT(house.runs(), Contains("burner1"));
    house.call("heat1");
    EXPECT_THAT(house.runs(), Contains("compressor1"));
    EXPECT_THAT(house.runs(), Not(Contains("burner1")));
    EXPECT_GE(house.when("O", "CC"), 180) << *row;
  }
}

TEST(DualFuel, TheKitLetsTheCompressorRunThroughDefrost) {
  Installation house(kRowJWithKit);
  house.call("rest");
  house.call("defrost");
  EXPECT_THAT(house.runs(), ::testing::IsSupersetOf({"compressor1", "burner1", "defrost"}));
  EXPECT_TRUE(house.when("K", "KY", false) < 0) << "the board never opens Y meanwhile";
}

}  // namespace
}  // namespace ww::operation
