// SPDX-License-Identifier: GPL-3.0-or-later
// A safety that opens stops its duty by the wiring, within one event; and the heat pump's defrost in time.
#include <gmock/gmock.h>

#include "support/reference_sheets.h"
#include "support/small_machine.h"

namespace ww::operation {
namespace {

using ww::testing::SmallMachine;

struct Safety {
  const char* what;
  sheet::Sheet (*row)();
  const char* call;
  int unit;  ///< index of the unit that has it
  const char* fact;
  const char* coil;  ///< that must fall
};

/// The name of the test.
std::ostream& operator<<(std::ostream& out, const Safety& safety) { return out << safety.what; }

class ASafetyThatOpens : public ::testing::TestWithParam<Safety> {};

TEST_P(ASafetyThatOpens, StopsItsDutyAtOnce) {
  const Safety& safety = GetParam();
  SmallMachine house(safety.row(), equipment::standardLibrary());
  house.powerUp();
  house.call(safety.call);
  ASSERT_TRUE(house.in(safety.coil));
  house.with(safety.fact, true, safety.unit);
  EXPECT_FALSE(house.in(safety.coil));
  EXPECT_NEAR(house.when(safety.coil, false), 0.015, 1e-9) << "with the switch, not by logic";
}

INSTANTIATE_TEST_SUITE_P(
    Rows, ASafetyThatOpens,
    ::testing::Values(Safety{"limit", ww::testing::rowA, "heat1", 1, "LIMOpen", "GV"},
                      Safety{"rollOut", ww::testing::rowA, "heat1", 1, "ROOpen", "GV"},
                      Safety{"draft", ww::testing::rowA, "heat1", 1, "DSOpen", "GV"},
                      Safety{"highPressure", ww::testing::rowA, "cool1", 2, "HPOpen", "CC"},
                      Safety{"lowPressure", ww::testing::rowA, "cool1", 2, "LPOpen", "CC"},
                      Safety{"highPressureB", ww::testing::rowB, "cool1", 2, "HPOpen", "CC"},
                      Safety{"highPressureG", ww::testing::rowG, "heat1", 2, "HPOpen", "CC"},
                      Safety{"lossOfChargeG", ww::testing::rowG, "cool1", 2, "LCOpen", "CC"}),
    [](const auto& row) { return std::string(row.param.what); });

TEST(Safeties, TheFloatTakesTheBoardAndWithItBlowerAndElements) {
  auto sheet = ww::testing::rowG();
  sheet.settings.set("A.floatPair", "float");
  SmallMachine house(sheet, equipment::standardLibrary());
  house.powerUp();
  house.call("heat2");
  ASSERT_TRUE(house.machine().logic(1).signal("blower"));
  house.with("FLTOpen", true, 1);
  EXPECT_FALSE(house.supplyOn("B"));
  EXPECT_FALSE(house.machine().logic(1).signal("blower"));
  EXPECT_FALSE(house.closed("K1"));
}

class Defrost : public ::testing::Test {
 protected:
  static constexpr int kOutdoor = 2;
  Defrost() : house_(ww::testing::rowG(), equipment::standardLibrary()) { house_.powerUp(); }
  bool outdoor(const char* signal) const { return house_.machine().logic(kOutdoor).signal(signal); }
  SmallMachine house_;
};

TEST_F(Defrost, ComesAfterAnHourOfHeatingWithFrost) {
  house_.with("coilFrost", true, kOutdoor);
  house_.call("heat1");
  const double compressor = house_.when("CC", true);
  const double defrost = house_.when("defrost", true);
  EXPECT_NEAR(defrost - compressor, 3600, 0.5);
  EXPECT_NEAR(house_.when("RV", true) - defrost, 0.010, 0.001) << "the valve turns with the board's relay";
  EXPECT_NEAR(house_.when("KW", true) - defrost, 0.010, 0.001) << "and the indoor heat is called";
  EXPECT_NEAR(house_.when("defrost", false) - defrost, 240, 0.5) << "the coil is warm after four minutes";
  EXPECT_GE(house_.when("H1", true), defrost);
}

TEST_F(Defrost, DoesNotComeWithoutFrost) {
  house_.call("heat1");
  EXPECT_EQ(house_.when("defrost", true), -1);
}

TEST_F(Defrost, DoesNotComeInCooling) {
  house_.with("coilFrost", true, kOutdoor);
  house_.call("cool1");
  EXPECT_EQ(house_.when("defrost", true), -1);
  EXPECT_TRUE(house_.in("RV"));
}

TEST_F(Defrost, ForcedByTheCallItStaysUntilTheCallEnds) {
  EXPECT_EQ(house_.call("defrost"), RunEnd::settled);
  EXPECT_TRUE(outdoor("defrost"));
  EXPECT_TRUE(house_.in("RV") && house_.in("CC"));
  EXPECT_TRUE(house_.machine().logic(1).signal("blower"));
  house_.call("rest");
  EXPECT_FALSE(outdoor("defrost"));
  EXPECT_FALSE(house_.in("CC"));
}

TEST_F(Defrost, AfterAPowerCutTheCompressorWaits) {
  house_.call("heat1");
  house_.with("line", false, 1);
  EXPECT_FALSE(house_.in("CC"));
  house_.with("line", true, 1);
  EXPECT_NEAR(house_.when("KT", true), 300, 1)
      << "the control's five minutes are longer than the board's three";
  EXPECT_TRUE(house_.in("CC"));
}

}  // namespace
}  // namespace ww::operation
