// SPDX-License-Identifier: GPL-3.0-or-later
// Volts and amps of the reference wirings, worked out independently of this program from the same typical
// parts (common practice): rated line, all coils of the call starting together.
#include <gtest/gtest.h>

#include <cmath>

#include "operation/machine.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"

namespace ww::operation {
namespace {

constexpr double kVoltTolerance = 0.1;
constexpr double kAmpTolerance = 0.02;

struct Figures {
  const std::string* row;
  const char* call;
  double volts, amps;  // secondary, before the fuse
  const char* coil;    // worst coil, or null
  double sealed, inrush, inrushLow;
};

/// The name of the test.
std::ostream& operator<<(std::ostream& out, const Figures& figures) {
  return out << figures.call << " at " << figures.volts << " V";
}

class ReferenceFigures : public ::testing::TestWithParam<Figures> {};

const CoilResult* coilNamed(const CallResult& call, const std::string& part) {
  for (const auto& coil : call.coils)
    if (coil.part == part) return &coil;
  return nullptr;
}

TEST_P(ReferenceFigures, AreReproduced) {
  const Figures& want = GetParam();
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(*want.row, library);
  ASSERT_TRUE(sheet);
  const Solution solution = solveSheet(*sheet.value, library);
  const SolvedCall* call = solution.call(want.call);
  ASSERT_NE(call, nullptr);
  ASSERT_EQ(call->result.sources.size(), 1U);
  EXPECT_NEAR(call->result.sources[0].volts.si(), want.volts, kVoltTolerance);
  EXPECT_NEAR(call->result.sources[0].amps.si(), want.amps, kAmpTolerance);
  if (want.coil == nullptr) return;
  const CoilResult* coil = coilNamed(call->result, want.coil);
  ASSERT_NE(coil, nullptr);
  EXPECT_NEAR(coil->sealed.si(), want.sealed, kVoltTolerance);
  if (want.inrush == 0) return;
  EXPECT_NEAR(coil->pullIn.si(), want.inrush, kVoltTolerance);
  EXPECT_NEAR(coil->pullInLow.si(), want.inrushLow, kVoltTolerance);
}

using testing::kRowA;
using testing::kRowB;
using testing::kRowG;

INSTANTIATE_TEST_SUITE_P(Rows, ReferenceFigures,
                         ::testing::Values(Figures{&kRowA, "rest", 27.37, 0.15, nullptr, 0, 0, 0},
                                           Figures{&kRowA, "fan", 27.30, 0.19, nullptr, 0, 0, 0},
                                           Figures{&kRowA, "cool1", 27.01, 0.51, "CC", 26.84, 23.35, 21.43},
                                           Figures{&kRowA, "heat1", 26.53, 0.73, "GV", 26.48, 26.00, 23.85},
                                           Figures{&kRowB, "rest", 27.52, 0.05, nullptr, 0, 0, 0},
                                           Figures{&kRowB, "cool1", 27.03, 0.56, "CC", 26.87, 23.30, 21.42},
                                           Figures{&kRowB, "heat1", 27.01, 0.28, "H1", 26.87, 0, 0},
                                           Figures{&kRowG, "cool1", 26.49, 0.92, "CC", 26.20, 22.09, 20.24},
                                           Figures{&kRowG, "heat2", 26.28, 0.80, "CC", 26.06, 22.67, 20.76},
                                           Figures{&kRowG, "defrost", 25.87, 1.13, "CC", 25.62, 21.68,
                                                   19.84}));

TEST(ReferenceFaults, TenOhmJointInHotHumsTheContactor) {
  // 10 ohm are as much copper as 477 m of 18 AWG; typical pull-in 17.3 V is not reached at inrush.
  const auto& library = equipment::standardLibrary();
  auto sheet = sheet::readCsv(testing::kRowA, library);
  ASSERT_TRUE(sheet);
  asbuilt::AsBuilt circuit = asbuilt::compile(*sheet.value, library);
  const double metres = 10 / quantity::copperResistance({}, quantity::Metres(1), quantity::Celsius(20)).si();
  for (auto& wire : circuit.wires)
    if (circuit.nodeNames[size_t(wire.a)] == "T.R") wire.length = wire.length + quantity::Metres(metres);
  Machine machine(circuit);
  Facts facts;
  machine.powerUp(facts);
  const auto voltsOf = [&](const char* unit, const char* part) {
    for (size_t i = 0; i < circuit.devices.size(); ++i)
      if (circuit.units[size_t(circuit.devices[i].unit)].tag == unit &&
          circuit.element(circuit.devices[i]).id == part)
        return machine.volts(int(i));
    return -1.0;
  };
  EXPECT_NEAR(voltsOf("T", "S"), 26.9, 0.2);
  facts.call = "cool1";
  machine.run(facts);
  EXPECT_NEAR(voltsOf("O", "CC"), 15.4, 0.3);
}

TEST(ReferenceFaults, OutdoorCommonOpenLeavesBothScrewsAtSupply) {
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(testing::edited(testing::kRowA, "BU,F,C,O,C", "BU,F,C,O,"), library);
  ASSERT_TRUE(sheet);
  const Solution solution = solveSheet(*sheet.value, library);
  const auto& cool = solution.call("cool1")->result;
  for (const auto& terminal : cool.terminals)
    if (terminal.terminal.unit == sheet.value->unitByTag("O")->id) {
      EXPECT_NEAR(std::abs(terminal.volts), 27.3, 0.1) << terminal.terminal.terminal;
    }
  EXPECT_EQ(coilNamed(cool, "CC")->state, CoilState::out);
}

}  // namespace
}  // namespace ww::operation
