// SPDX-License-Identifier: GPL-3.0-or-later
#include "quantity/conductor.h"

#include <gtest/gtest.h>

#include <cmath>

#include "quantity/text.h"

namespace ww::quantity {
namespace {

Gauge awg(double number) { return {Gauge::System::awg, number}; }
Gauge metric(double area) { return {Gauge::System::squareMillimetres, area}; }

TEST(Gauge, ReadsBothSystems) {
  EXPECT_EQ(parseGauge("18"), awg(18));
  EXPECT_EQ(parseGauge(" 20 AWG "), awg(20));
  EXPECT_EQ(parseGauge("22awg"), awg(22));
  EXPECT_EQ(parseGauge("0.75 mm2"), metric(0.75));
  EXPECT_EQ(parseGauge("0.05mm2"), metric(0.05));
}

TEST(Gauge, RefusesWhatNoControlCableHas) {
  for (const char* text :
       {"", "AWG", "mm2", "9", "31", "18.5", "18 ga", "x", "0.04 mm2", "11 mm2", "-18", "nan"})
    EXPECT_EQ(parseGauge(text), std::nullopt) << text;
}

TEST(Gauge, PrintsWhatItReads) {
  for (const Gauge& gauge : {awg(10), awg(18), awg(30), metric(0.05), metric(0.75), metric(1), metric(10)})
    EXPECT_EQ(parseGauge(printGauge(gauge)), gauge) << printGauge(gauge);
}

// ASTM B258: the gauge's two fixed points, and its ratio of 92 over 39 steps.
TEST(CrossSection, FollowsTheDefinitionOfTheGauge) {
  constexpr double kCircularMil = 5.0670748e-10;  // square metres
  EXPECT_NEAR(crossSection(awg(18)).si() / kCircularMil, 1624.3, 0.5);
  EXPECT_NEAR(crossSection(awg(10)).si() / kCircularMil, 10383, 4);
  EXPECT_NEAR(crossSection(awg(30)).si() / crossSection(awg(10)).si(), std::pow(92.0, -40.0 / 39), 1e-12);
  EXPECT_DOUBLE_EQ(crossSection(metric(0.75)).si(), 0.75e-6);
}

// NBS Handbook 100: annealed copper at 20 C, 18 AWG 6.385 ohm per 1000 ft, 22 AWG 16.14, 10 AWG 0.9989.
TEST(CopperResistance, AgreesWithTheWireTable) {
  const Metres thousandFeet(1000 * kMetresPerFoot);
  EXPECT_NEAR(copperResistance(awg(18), thousandFeet, Celsius(20)).si(), 6.385, 0.003);
  EXPECT_NEAR(copperResistance(awg(22), thousandFeet, Celsius(20)).si(), 16.14, 0.01);
  EXPECT_NEAR(copperResistance(awg(10), thousandFeet, Celsius(20)).si(), 0.9989, 0.0005);
}

TEST(CopperResistance, GrowsWithLengthAndWarmth) {
  const Ohms cold = copperResistance(awg(18), Metres(10), Celsius(20));
  EXPECT_NEAR(copperResistance(awg(18), Metres(30), Celsius(20)) / cold, 3, 1e-12);
  EXPECT_NEAR(copperResistance(awg(18), Metres(10), Celsius(70)) / cold, 1 + 0.00393 * 50, 1e-12);
  EXPECT_EQ(copperResistance(awg(18), Metres(0), Celsius(20)).si(), 0);
}

}  // namespace
}  // namespace ww::quantity
