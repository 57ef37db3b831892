// SPDX-License-Identifier: GPL-3.0-or-later
// Volts and amps of the reference wirings with water and zones, computed independently of the program from
// the same typical parts (common practice; the thermopile's from memory): rated line, all coils of a call
// starting together, 18 AWG at 20 C.
#include <gtest/gtest.h>

#include <cmath>

#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_water.h"

namespace ww::operation {
namespace {

using testing::edited;

constexpr double kVolts = 0.1, kAmps = 0.02, kMillivolts = 0.5;

Solution solved(const std::string& csv) {
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(csv, library);
  EXPECT_TRUE(sheet);
  return sheet ? solveSheet(*sheet.value, library) : Solution();
}

sheet::UnitId unitOf(const Solution& solution, const std::string& tag) {
  for (const auto& unit : solution.circuit->units)
    if (unit.tag == tag) return unit.id;
  ADD_FAILURE() << "no unit " << tag;
  return {};
}

template <class Rows>
auto& rowOf(Rows& rows, sheet::UnitId unit, const std::string& part) {
  for (auto& row : rows)
    if (row.unit == unit && row.part == part) return row;
  throw std::invalid_argument("no part " + part);
}

struct Figures {
  const char* name;
  std::string row;
  const char* call;
  const char* unit;  ///< of the transformer
  double volts, amps;
  const char* coilUnit;
  const char* coil;
  double sealed, inrush, inrushLow;  ///< 0: not stated
};

std::ostream& operator<<(std::ostream& out, const Figures& figures) { return out << figures.name; }

class WaterAndZones : public ::testing::TestWithParam<Figures> {};

TEST_P(WaterAndZones, AreReproduced) {
  const Figures& want = GetParam();
  const Solution solution = solved(want.row);
  const SolvedCall* call = solution.call(want.call);
  ASSERT_NE(call, nullptr);
  const auto& source = rowOf(call->result.sources, unitOf(solution, want.unit), "XF");
  EXPECT_NEAR(source.volts.si(), want.volts, kVolts);
  EXPECT_NEAR(source.amps.si(), want.amps, kAmps);
  if (want.coil == nullptr) return;
  const auto& coil = rowOf(call->result.coils, unitOf(solution, want.coilUnit), want.coil);
  EXPECT_NEAR(coil.sealed.si(), want.sealed, kVolts);
  if (want.inrush == 0) return;
  EXPECT_NEAR(coil.pullIn.si(), want.inrush, kVolts);
  EXPECT_NEAR(coil.pullInLow.si(), want.inrushLow, kVolts);
}

/// Row E with heat-motor valves.
std::string heatMotors(const std::string& transformer) {
  std::string text = testing::kRowE;
  for (int valve = 0; valve < 3; ++valve) text = edited(text, "zonevalve-motor-4", "zonevalve-heatmotor-4");
  return edited(text, "cable,gauge", "#set,Z.transformer," + transformer + "\ncable,gauge");
}

INSTANTIATE_TEST_SUITE_P(
    Rows, WaterAndZones,
    ::testing::Values(
        Figures{"kCool", testing::kRowK, "cool1", "A", 27.03, 0.56, "O", "CC", 26.85, 23.16, 21.29},
        Figures{"kHeat", testing::kRowK, "heat1", "B", 26.77, 0.65, "B", "KR", 26.70, 25.79, 23.73},
        Figures{"eOneZone", testing::kRowE, "zone1.heat1", "Z", 27.07, 0.30, "V1", "ZM", 26.85, 0, 0},
        Figures{"eThreeZones", testing::kRowE, "zones.heat1", "Z", 26.06, 0.87, "V3", "ZM", 25.83, 0, 0},
        Figures{"nPanel", testing::kRowN, "zone1.cool1", "Z", 26.07, 1.17, "D2", "DM", 25.91, 0, 0},
        Figures{"nFurnace", testing::kRowN, "zone1.cool1", "F", 27.10, 0.46, "O", "CC", 27.01, 24.01, 22.06}),
    [](const auto& figures) { return figures.param.name; });

TEST(WaterAndZones, NothingFlowsBetweenTheTwoHotsOfAControl) {
  const Solution solution = solved(testing::kRowK);
  ASSERT_EQ(solution.calls.size(), 4U);
  const auto& circuit = *solution.circuit;
  for (const SolvedCall& call : solution.calls) {
    circuit::Solver<circuit::Phasor> solver(circuit.plan);
    asbuilt::solve(circuit, call.positions, {}, solver);
    const int jumper = circuit.device(unitOf(solution, "T"), "JRR")->branch;
    EXPECT_EQ(std::abs(solver.current(jumper)), 0) << call.result.call;
    const auto control = unitOf(solution, "T");
    EXPECT_EQ(solver.quality(circuit.node({control, "RC"}), circuit.node({control, "RH"})),
              circuit::Quality::floating)
        << call.result.call;
  }
}

TEST(WaterAndZones, HeatMotorsAskMoreThanFortyVoltAmps) {
  for (const auto& [transformer, amps, percent] :
       {std::tuple("XF40", 2.43, 146.0), std::tuple("XF75", 2.66, 85.0)}) {
    const Solution solution = solved(heatMotors(transformer));
    const auto& call = solution.call("zones.heat1")->result;
    const auto& source = rowOf(call.sources, unitOf(solution, "Z"), "XF");
    EXPECT_NEAR(source.amps.si(), amps, kAmps) << transformer;
    EXPECT_NEAR(source.loadPercent, percent, 1.3) << transformer;  // as the amps
  }
}

/// Volts between two terminals of a unit in a call.
double between(const Solution& solution, const char* call, const char* unit, const char* a, const char* b) {
  const auto& circuit = *solution.circuit;
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  asbuilt::solve(circuit, solution.call(call)->positions, {}, solver);
  const auto id = unitOf(solution, unit);
  return std::abs(solver.voltage(circuit.node({id, a}), circuit.node({id, b})));
}

TEST(WaterAndZones, ABoilersDryPairShowsItsOwnSupply) {
  const Solution solution = solved(testing::kRowK);
  EXPECT_NEAR(between(solution, "rest", "B", "T1", "T2"), 27.6, kVolts);
  EXPECT_NEAR(between(solution, "heat1", "B", "T1", "T2"), 0.1, 0.1);
  const auto& coil = rowOf(solution.call("heat1")->result.coils, unitOf(solution, "B"), "KR");
  EXPECT_NEAR(coil.amps.si(), 0.19, kAmps);
}

TEST(WaterAndZones, TheOilPrimarysSupplyIsTwentyPercentAbove24) {
  const Solution solution = solved(testing::kRowO);
  EXPECT_NEAR(between(solution, "rest", "B", "T1", "T2"), 28.8, kVolts);
}

/// Millivolts at the valve with the pile's open volts and a joint in the loop.
double valveMillivolts(double pileVolts, double jointOhms) {
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(testing::kRowM, library);
  auto circuit = std::make_shared<asbuilt::AsBuilt>(asbuilt::compile(*sheet.value, library));
  asbuilt::Conditions conditions;
  for (auto& device : circuit->devices)
    if (auto* pile = std::get_if<equipment::PilePart>(&device.part)) pile->open = quantity::Volts(pileVolts);
  if (jointOhms > 0) conditions.overrides.push_back(asbuilt::seriesOhms(circuit->wires[0].branch, jointOhms));
  const Solution solution = solveCircuit(circuit, conditions);
  return 1000 * rowOf(solution.call("heat1")->result.coils, unitOf(solution, "H"), "GV").sealed.si();
}

TEST(WaterAndZones, MillivoltsAtTheValve) {
  EXPECT_NEAR(valveMillivolts(0.70, 0), 399, kMillivolts);
  EXPECT_NEAR(valveMillivolts(0.65, 0), 370, 1);
  EXPECT_NEAR(valveMillivolts(0.65, 2), 288, 1);
  EXPECT_NEAR(valveMillivolts(0.40, 0), 228, kMillivolts);
  const Solution solution = solved(testing::kRowM);
  EXPECT_NEAR(1000 * between(solution, "heat1", "T", "M1", "M2"), 4, 1.1) << "across the closed contact";
}

TEST(WaterAndZones, AWeakPileDoesNotOpenTheValve) {
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(testing::kRowM, library);
  for (const double volts : {0.65, 0.40}) {
    auto circuit = std::make_shared<asbuilt::AsBuilt>(asbuilt::compile(*sheet.value, library));
    for (auto& device : circuit->devices)
      if (auto* pile = std::get_if<equipment::PilePart>(&device.part)) pile->open = quantity::Volts(volts);
    const Solution solution = solveCircuit(circuit, {});
    EXPECT_EQ(solution.call("heat1")->result.duties.empty(), volts < 0.5) << volts;
  }
}

TEST(WaterAndZones, APipeSensorsVoltsFollowThePipe) {
  // 5 V behind 10 kohm: 5 x 20.2 / 30.2 on a cold pipe, 5 x 4.39 / 14.39 on a warm one.
  const Solution solution = solved(testing::kRowQ);
  EXPECT_NEAR(between(solution, "cool1", "T", "S1", "S2"), 3.34, 0.05);
  EXPECT_NEAR(between(solution, "heat1", "T", "S1", "S2"), 1.52, 0.05);
}

}  // namespace
}  // namespace ww::operation
