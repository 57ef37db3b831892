// SPDX-License-Identifier: GPL-3.0-or-later
// Volts and amps of the reference wirings with heat pumps, computed independently of the program from the
// same typical parts (common practice): rated line, all coils of a call starting together, 18 AWG at 20 C.
#include <gtest/gtest.h>

#include <cmath>

#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_pumps.h"

namespace ww::operation {
namespace {

constexpr double kVolts = 0.1, kAmps = 0.02;

struct Figures {
  const char* name;
  std::string row;
  const char* call;
  double volts, amps;  ///< of the only transformer, before the fuse
  const char* coil;
  double sealed, inrush, inrushLow;  ///< 0: not stated
};

std::ostream& operator<<(std::ostream& out, const Figures& figures) { return out << figures.name; }

class Pumps : public ::testing::TestWithParam<Figures> {};

TEST_P(Pumps, AreReproduced) {
  const Figures& want = GetParam();
  const auto& library = equipment::standardLibrary();
  const auto sheet = sheet::readCsv(want.row, library);
  ASSERT_TRUE(sheet);
  const Solution solution = solveSheet(*sheet.value, library);
  const SolvedCall* call = solution.call(want.call);
  ASSERT_NE(call, nullptr);
  ASSERT_EQ(call->result.sources.size(), 1U);
  if (want.volts > 0) {
    EXPECT_NEAR(call->result.sources[0].volts.si(), want.volts, kVolts);
  }
  EXPECT_NEAR(call->result.sources[0].amps.si(), want.amps, kAmps);
  if (want.coil == nullptr) return;
  const auto coil = std::find_if(call->result.coils.begin(), call->result.coils.end(),
                                 [&](const auto& each) { return each.part == want.coil; });
  ASSERT_NE(coil, call->result.coils.end());
  EXPECT_NEAR(coil->sealed.si(), want.sealed, kVolts);
  if (want.inrush == 0) return;
  EXPECT_NEAR(coil->pullIn.si(), want.inrush, kVolts);
  EXPECT_NEAR(coil->pullInLow.si(), want.inrushLow, kVolts);
}

using testing::edited;
using testing::kRowI;
using testing::kRowJ;

INSTANTIATE_TEST_SUITE_P(
    Rows, Pumps,
    ::testing::Values(Figures{"iCool2", kRowI, "cool2", 26.35, 1.11, "CC", 25.85, 22.07, 20.24},
                      Figures{"iEmergency", kRowI, "emergency", 26.38, 0.74, "H1", 26.35, 0, 0},
                      Figures{"iDefrost", kRowI, "defrost", 25.86, 1.34, "CC", 25.41, 21.78, 19.96},
                      Figures{"jCool1", kRowJ, "cool1", 26.71, 0.93, "CC", 26.42, 22.76, 20.88},
                      Figures{"jGas", kRowJ, "heat2", 26.67, 0.80, "GV", 26.61, 26.22, 24.05},
                      Figures{"jGasInTheCold", kRowJ, "cold.heat1", 26.67, 0.80, "GV", 26.61, 26.22, 24.05},
                      Figures{"jDefrostWithBurner", kRowJ, "defrost", 26.03, 1.49, "CC", 25.77, 21.99, 20.13},
                      Figures{"jDefrostOfSmallTransformer",
                              edited(kRowJ, "transformer,XF50", "transformer,XF40"), "defrost", 0, 1.48,
                              nullptr, 0, 0, 0}),
    [](const auto& figures) { return figures.param.name; });

}  // namespace
}  // namespace ww::operation
