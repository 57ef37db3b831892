// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <cmath>

#include "quantity/conductor.h"

namespace ww::quantity {
namespace {

constexpr double kMetresPerKft = 304.8;

double ohmsPerKilometre(const Gauge& gauge, double celsius) {
  return copperResistance(gauge, Metres(1000), Celsius(celsius)).si();
}

Gauge awg(double number) { return {Gauge::System::awg, number}; }

// NFPA 70 (NEC), Chapter 9, Table 8: uncoated solid copper, DC, 75 C; ohm per kilometre and per thousand
// feet.
TEST(Conductors, AgreeWithNecChapter9Table8ToItsRounding) {
  struct Row {
    double gauge, perKilometre, kilometreRounding, perThousandFeet;
  };
  for (const Row& row : {Row{18, 25.5, 0.05, 7.77}, Row{16, 16.0, 0.05, 4.89}, Row{14, 10.1, 0.05, 3.07},
                         Row{12, 6.34, 0.005, 1.93}}) {
    const double perKilometre = ohmsPerKilometre(awg(row.gauge), 75);
    EXPECT_NEAR(perKilometre, row.perKilometre, row.kilometreRounding) << row.gauge;
    // The table's own columns disagree by up to 0.3 % (16.0 ohm/km are 4.877 ohm/kft, it prints 4.89).
    EXPECT_NEAR(perKilometre * kMetresPerKft / 1000, row.perThousandFeet, 0.003 * row.perThousandFeet)
        << row.gauge;
  }
}

// ASTM B258: 0.4600 in for 0000 (as -3) and 0.0050 in for 36, exactly; 39 steps between them.
TEST(Conductors, DiametersFollowTheB258Series) {
  const double inch = 0.0254;
  const auto diameter = [](double gauge) { return std::sqrt(crossSection(awg(gauge)).si() * 4 / M_PI); };
  EXPECT_NEAR(diameter(36) / inch, 0.0050, 1e-12);
  EXPECT_NEAR(diameter(-3) / inch, 0.4600, 1e-12);
  EXPECT_NEAR(diameter(18) / diameter(24), std::pow(92.0, 6.0 / 39), 1e-12)
      << "halves about every six gauges";
}

// ASTM B258: diameters in inches, to 0.0001 in, and areas in circular mils to four figures; from memory, as
// printed in wire tables. A circular mil is the area of a round of 0.001 in.
TEST(Conductors, DiametersAndAreasAreThoseOfTheB258Table) {
  struct Row {
    double gauge, inches, circularMils;
  };
  for (const Row& row :
       {Row{12, 0.0808, 6530}, Row{14, 0.0641, 4110}, Row{16, 0.0508, 2580}, Row{18, 0.0403, 1620},
        Row{20, 0.0320, 1020}, Row{22, 0.0253, 640}, Row{24, 0.0201, 404}}) {
    const double area = crossSection(awg(row.gauge)).si();
    const double mils = std::sqrt(area * 4 / M_PI) / 0.0254 * 1000;
    EXPECT_NEAR(mils / 1000, row.inches, 0.00005) << row.gauge;
    // The table squares the rounded diameter: 0.05 mil of 20 mil are half a per cent.
    EXPECT_NEAR(mils * mils, row.circularMils, 0.006 * row.circularMils) << row.gauge;
  }
}

// Debian `units`, definitions.units, AWG section (cites ASTM B258) with copper of 100 % IACS: ohm per
// thousand feet at 20 C; the gauges below 18 AWG have no row in the NEC table.
TEST(Conductors, SmallGaugesAreThoseOfTheUnitsFile) {
  for (const auto& [gauge, ohms] : {std::pair{12.0, 1.5883},
                                    {14.0, 2.5254},
                                    {16.0, 4.0156},
                                    {18.0, 6.3850},
                                    {20.0, 10.1526},
                                    {22.0, 16.1432},
                                    {24.0, 25.6688}})
    EXPECT_NEAR(ohmsPerKilometre(awg(gauge), 20) * kMetresPerKft / 1000, ohms, 0.00006) << gauge;
}

// IEC 60228, R20 = k Rt, as reported for the standard. Its factors follow 1 / (1 + 0.004 (t - 20)), which is
// 0.4 % from copper's own 0.00393 at 75 C.
TEST(Conductors, TemperatureFactorsAreNearThoseOfIec60228) {
  for (const auto& [celsius, factor] : {std::pair{5.0, 1.064},
                                        {10.0, 1.042},
                                        {15.0, 1.020},
                                        {25.0, 0.980},
                                        {30.0, 0.962},
                                        {50.0, 0.893},
                                        {75.0, 0.820}})
    EXPECT_NEAR(ohmsPerKilometre(awg(18), 20) / ohmsPerKilometre(awg(18), celsius), factor, 0.0035)
        << celsius;
}

// NBS Handbook 100: annealed copper of 100 % IACS has 0.017241 ohm mm2 / m at 20 C.
TEST(Conductors, ResistivityIsThatOfAnnealedCopper) {
  const Gauge square{Gauge::System::squareMillimetres, 1.0};
  EXPECT_NEAR(copperResistance(square, Metres(1), Celsius(20)).si(), 0.017241, 1e-6);
}

// IEC 60228, class 1 and 2, plain copper: greatest resistance at 20 C, ohm per kilometre. A true area stays
// below.
TEST(Conductors, NominalAreasStayBelowTheMaximaOfIec60228) {
  for (const auto& [area, most] :
       {std::pair{0.5, 36.0}, {0.75, 24.5}, {1.0, 18.1}, {1.5, 12.1}, {2.5, 7.41}}) {
    const double ohms = ohmsPerKilometre({Gauge::System::squareMillimetres, area}, 20);
    EXPECT_LT(ohms, most) << area;
    EXPECT_GT(ohms, 0.9 * most) << area;
  }
}

}  // namespace
}  // namespace ww::quantity
