// SPDX-License-Identifier: GPL-3.0-or-later
// Volts and amps of cooling alone, heating alone, two stages and the rooftop unit, computed by a nodal script
// written apart from the program from the same typical parts (common practice): rated line, all coils of a
// call starting together, 18 AWG at 20 C.
#include <gtest/gtest.h>

#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows_air.h"

namespace ww::operation {
namespace {

constexpr double kVolts = 0.1, kAmps = 0.02;

struct Figures {
  const char* name;
  const std::string* row;
  const char* call;
  const char* unit;  ///< of the transformer
  double volts, amps, percent;
  const char* coilUnit;
  const char* coil;
  double sealed, inrush, inrushLow;
};

std::ostream& operator<<(std::ostream& out, const Figures& figures) { return out << figures.name; }

class AirFigures : public ::testing::TestWithParam<Figures> {};

template <class Rows>
const auto& rowOf(const Rows& rows, const Solution& solution, const std::string& tag,
                  const std::string& part) {
  for (const auto& row : rows)
    if (row.part == part && solution.circuit->units[size_t(solution.circuit->unitIndex(row.unit))].tag == tag)
      return row;
  throw std::invalid_argument("no part " + part);
}

TEST_P(AirFigures, AreReproduced) {
  const Figures& want = GetParam();
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(*want.row, library);
  ASSERT_TRUE(sheet);
  const Solution solution = solveSheet(*sheet.value, library);
  const SolvedCall* call = solution.call(want.call);
  ASSERT_NE(call, nullptr);
  const auto& source = rowOf(call->result.sources, solution, want.unit, "XF");
  EXPECT_NEAR(source.volts.si(), want.volts, kVolts);
  EXPECT_NEAR(source.amps.si(), want.amps, kAmps);
  EXPECT_NEAR(source.loadPercent, want.percent, 1);
  const auto& coil = rowOf(call->result.coils, solution, want.coilUnit, want.coil);
  EXPECT_NEAR(coil.sealed.si(), want.sealed, kVolts);
  EXPECT_NEAR(coil.pullIn.si(), want.inrush, kVolts);
  EXPECT_NEAR(coil.pullInLow.si(), want.inrushLow, kVolts);
}

using testing::kRowC;
using testing::kRowD;
using testing::kRowF;
using testing::kRowL;

INSTANTIATE_TEST_SUITE_P(
    Rows, AirFigures,
    ::testing::Values(
        Figures{"cCool", &kRowC, "cool1", "A", 27.03, 0.565, 34, "O", "CC", 26.87, 23.30, 21.42},
        Figures{"dHeat", &kRowD, "heat1", "F", 26.62, 0.680, 41, "F", "GV", 26.56, 26.08, 23.94},
        Figures{"fCool1", &kRowF, "cool1", "F", 27.13, 0.511, 25, "O", "CC", 26.96, 23.86, 21.91},
        Figures{"fCool2", &kRowF, "cool2", "F", 26.76, 0.715, 34, "O", "CC", 26.46, 23.45, 21.53},
        Figures{"fStageSolenoid", &kRowF, "cool2", "F", 26.76, 0.715, 34, "O", "US", 26.42, 24.08, 22.11},
        Figures{"fHeat1", &kRowF, "heat1", "F", 26.75, 0.737, 35, "F", "GV", 26.68, 26.29, 24.13},
        Figures{"fHeat2", &kRowF, "heat2", "F", 26.33, 1.089, 52, "F", "GVH", 26.25, 25.68, 23.55},
        Figures{"lRest", &kRowL, "rest", "U", 27.05, 0.803, 26, "U", "IFC", 27.04, 25.76, 23.67},
        // 45 m, two compressors; stated as 26.70 / 23.06 / 21.19 V where it was first worked out.
        Figures{"lCool2", &kRowL, "cool2", "U", 26.74, 1.44, 46, "U", "CC1", 26.70, 23.06, 21.19},
        Figures{"lHeat2", &kRowL, "heat2", "U", 26.50, 1.539, 49, "U", "GVH", 26.42, 24.82, 22.80}),
    [](const auto& figures) { return figures.param.name; });

}  // namespace
}  // namespace ww::operation
