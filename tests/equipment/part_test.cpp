// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/part.h"

#include <gmock/gmock.h>

#include <numbers>

#include "equipment/profile.h"

namespace ww::equipment {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// Phasor ohms worked out apart from the program from V^2/S and the power factor, V = 24; ohms, and
/// millihenry at 60 Hz.
struct Row {
  const char* part;
  double sealedR, sealedX, inrushR, inrushX, dc, sealedHenry, inrushHenry;
};
constexpr Row kRows[] = {
    {"C7", 28.8, 77.1, 12.3, 10.9, 8.0, 204, 29},  {"C9", 22.4, 60.0, 8.6, 7.6, 6.0, 159, 20},
    {"K4", 72.0, 124.7, 50.4, 51.4, 38, 331, 136}, {"K2", 187, 219, 166, 147, 140, 581, 389},
    {"GV10", 34.6, 46.1, 30.9, 27.2, 24, 122, 72}, {"GVH6", 57.6, 76.8, 54.0, 47.6, 42, 204, 126},
    {"RV7", 37.0, 73.5, 25.0, 29.2, 20, 195, 77},  {"US5", 103.7, 50.2, 103.7, 50.2, 95, 133, 133},
    {"ZM6", 70.9, 53.2, 70.9, 53.2, 55, 141, 141}, {"DM8", 54.0, 47.6, 54.0, 47.6, 45, 126, 126},
    {"EA6", 67.2, 68.6, 67.2, 68.6, 60, 182, 182}, {"HV10", 28.8, 49.9, 20.8, 24.3, 17, 132, 65}};

class CoilRows : public testing::TestWithParam<Row> {};

TEST_P(CoilRows, computeToTheTable) {
  const Row& row = GetParam();
  const auto& coil = std::get<CoilPart>(standardLibrary().parts.at(row.part));
  const auto near = [](double value, double table) {
    const bool whole = table > 140;  // the table rounds large values to whole ohms
    EXPECT_NEAR(value, table, whole ? 0.51 : 0.051);
  };
  near(impedance(coil.sealed).real(), row.sealedR);
  near(impedance(coil.sealed).imag(), row.sealedX);
  near(impedance(coil.inrush).real(), row.inrushR);
  near(impedance(coil.inrush).imag(), row.inrushX);
  EXPECT_EQ(coil.dc.si(), row.dc);
  constexpr double kOmega = 2 * std::numbers::pi * 60;
  EXPECT_NEAR(impedance(coil.sealed).imag() / kOmega * 1000, row.sealedHenry, 1);
  EXPECT_NEAR(impedance(coil.inrush).imag() / kOmega * 1000, row.inrushHenry, 1);
}

TEST_P(CoilRows, agreeWithPhysics) {
  EXPECT_THAT(contradictions(std::get<CoilPart>(standardLibrary().parts.at(GetParam().part))), IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(Library, CoilRows, testing::ValuesIn(kRows),
                         [](const auto& row) { return std::string(row.param.part); });

CoilPart contactor() { return std::get<CoilPart>(standardLibrary().parts.at("C7")); }

TEST(Contradictions, windingOhmsAboveTheInrushLoad) {
  CoilPart coil = contactor();
  coil.dc = Ohms(12.5);  // bound 12.34
  EXPECT_THAT(contradictions(coil), ElementsAre("coil-dc-above-inrush"));
}

TEST(Contradictions, windingOhmsAboveTheSealedLoad) {
  CoilPart coil = contactor();
  coil.sealed = {VoltAmps(20), 0.25};  // 7.2 ohm real part, below the 8 ohm winding
  EXPECT_THAT(contradictions(coil), ElementsAre("coil-dc-above-sealed"));
}

TEST(Contradictions, inductanceThatFallsAsTheGapCloses) {
  CoilPart coil = contactor();
  coil.sealed = {VoltAmps(7), 0.9999};
  EXPECT_THAT(contradictions(coil), ElementsAre("coil-reactance-falls"));
}

TEST(Contradictions, voltsOutOfOrder) {
  CoilPart coil = contactor();
  coil.dropOut = coil.pullInTypical;
  EXPECT_THAT(contradictions(coil), ElementsAre("coil-drop-out-order"));
  coil = contactor();
  coil.pullInGuaranteed = coil.pullInTypical;
  EXPECT_THAT(contradictions(coil), ElementsAre("coil-pull-in-order"));
}

TEST(Library, holdsTheOtherPartsAsTheTradeKnowsThem) {
  const PartLibrary& parts = standardLibrary().parts;
  const auto& sequencer = std::get<ThermalPart>(parts.at("SQ5"));
  EXPECT_NEAR(24 * 24 / sequencer.resistance.si(), 5.0, 1e-9);  // 5 VA
  const auto& heatMotor = std::get<ThermalPart>(parts.at("HM22"));
  EXPECT_NEAR(24 / heatMotor.resistance.si(), 0.90, 0.002);
  for (const auto& [name, voltAmps] :
       {std::pair{"XF20", 20.0}, {"XF40", 40.0}, {"XF50", 50.0}, {"XF75", 75.0}}) {
    const auto& transformer = std::get<TransformerPart>(parts.at(name));
    EXPECT_EQ(transformer.rating.si(), voltAmps);
    EXPECT_NEAR(transformer.rated.si() * (1 + transformer.regulation), 27.60, 1e-9);
  }
  EXPECT_EQ(std::get<FusePart>(parts.at("fuse3")).rating.si(), 3);
  EXPECT_EQ(std::get<FusePart>(parts.at("fuse5")).meltingAmpSquaredSeconds, 24);
  EXPECT_EQ(std::get<InputPart>(parts.at("IN3")).resistance.si(), 3000);
  EXPECT_EQ(std::get<InputPart>(parts.at("IN5")).resistance.si(), 4700);
  EXPECT_EQ(std::get<SupplyPart>(parts.at("S1.5")).outBelow.si(), 16);
  EXPECT_EQ(std::get<SupplyPart>(parts.at("B2.5")).backAt.si(), 17);
  EXPECT_EQ(std::get<ContactPart>(parts.at("relay")).operating.si(), 0.015);
  EXPECT_EQ(std::get<ContactPart>(parts.at("boardRelay")).operating.si(), 0.010);
  EXPECT_EQ(std::get<CoilPart>(parts.at("C7")).operating.si(), 0.025);
  EXPECT_TRUE(std::get<ContactPart>(parts.at("safety")).safety);
  EXPECT_TRUE(std::get<ContactPart>(parts.at("handResetSafety")).handReset);
  EXPECT_FALSE(std::get<ContactPart>(parts.at("jumper")).safety);
}

}  // namespace
}  // namespace ww::equipment
