// SPDX-License-Identifier: GPL-3.0-or-later
// Worked examples of textbooks, quoted from memory; each is derived again beside the test. And a contactor's
// start moment by moment in ngspice, of which the phasors claim only the envelope.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "asbuilt/stamp.h"
#include "circuit/solver.h"
#include "support/spice.h"

namespace ww {
namespace {

using circuit::makePlan;
using circuit::Phasor;
using circuit::Solver;

TEST(Textbook, NodalAnalysisWithTwoCurrentSources) {
  // C. K. Alexander, M. N. O. Sadiku, Fundamentals of Electric Circuits, example 3.1: 5 A from node 2 into
  // node 1, 10 A into node 2, 4 ohm between them, 2 ohm and 6 ohm to ground. 3 v1 - v2 = 20 and
  // -3 v1 + 5 v2 = 60, so v1 = 40/3 V, v2 = 20 V.
  Solver<double> solver(makePlan({3, {{1, 2}, {1, 0}, {2, 0}, {1, 2}, {2, 0}}}));
  solver.setBranch(0, 1.0 / 4);
  solver.setBranch(1, 1.0 / 2);
  solver.setBranch(2, 1.0 / 6);
  constexpr double stiff = 1e-10;  // a current source is an EMF behind next to no admittance
  solver.setBranch(3, stiff, 5 / stiff);
  solver.setBranch(4, stiff, 10 / stiff);
  solver.solve();
  EXPECT_NEAR(solver.voltage(1, 0), 40.0 / 3, 1e-7);
  EXPECT_NEAR(solver.voltage(2, 0), 20, 1e-7);
}

/// A source behind an impedance and the load that takes `amps` at `volts` and that angle; returns the volts
/// the solver finds at the load and the EMF it took.
std::pair<double, double> loaded(Phasor series, double volts, double amps, double degrees) {
  const Phasor current = std::polar(amps, degrees * std::numbers::pi / 180);
  const Phasor emf = volts + series * current;
  Solver<Phasor> solver(makePlan({2, {{0, 1}, {0, 1}}}));
  solver.setBranch(0, 1.0 / series, emf);
  solver.setBranch(1, current / volts);
  solver.solve();
  return {std::abs(solver.voltage(0, 1)), std::abs(emf)};
}

TEST(Textbook, TransformerRegulationAtThreePowerFactors) {
  // S. J. Chapman, Electric Machinery Fundamentals, example 2-5: 15 kVA, 2300/230 V, equivalent 0.0445 ohm
  // and j0.0645 ohm on the low side; at 65.2 A the regulation is 2.1 % at 0.8 lagging, 1.28 % at unity and
  // -0.062 % at 0.8 leading. With 230 + 65.2 (0.0445 + j0.0645) at -36.87, 0 and 36.87 degrees the EMF is
  // 234.85, 232.94 and 229.86 V.
  const Phasor series(0.0445, 0.0645);
  const double angle = std::acos(0.8) * 180 / std::numbers::pi;
  const std::pair<double, double> printed[] = {{-angle, 2.1}, {0, 1.28}, {angle, -0.062}};
  for (const auto& [degrees, percent] : printed) {
    const auto [volts, emf] = loaded(series, 230, 65.2, degrees);
    EXPECT_NEAR(volts, 230, 1e-9);
    EXPECT_NEAR(100 * (emf - volts) / volts, percent, 0.015) << degrees;
  }
}

TEST(Textbook, RegulationOfOurTransformersIsNoLoadOverFullLoad) {
  for (const double regulation : {0.10, 0.15, 0.22}) {
    equipment::TransformerPart part;
    part.rating = quantity::VoltAmps(40);
    part.regulation = regulation;
    const double emf = asbuilt::emf(part, 1, {});
    const Phasor source = asbuilt::sourceImpedance(part, {});
    const double full = std::abs(emf / (source + 24.0 * 24 / 40) * (24.0 * 24 / 40));
    EXPECT_NEAR(full, 24, 1e-9);
    EXPECT_NEAR((emf - full) / full, regulation, 1e-12);
  }
}

/// Peak of all moments and of the last two periods, amps.
struct Peaks {
  double first = 0, settled = 0;
};

/// 27.6 V behind 2.16 ohm onto a coil of R and X at 60 Hz, switched on at a phase of the line.
Peaks started(Phasor coil, double degrees) {
  auto& simulator = spice::Simulator::instance();
  const double henries = coil.imag() / (2 * std::numbers::pi * 60);
  EXPECT_TRUE(simulator.load("start of a contactor\nv1 n1 0 sin(0 " + spice::number(27.6 * std::sqrt(2)) +
                             " 60 0 0 " + spice::number(degrees) + ")\nr1 n1 n2 " +
                             spice::number(2.16 + coil.real()) + "\nl1 n2 0 " + spice::number(henries) +
                             " ic=0\n"));
  EXPECT_TRUE(simulator.runTransient(2e-5, 0.3)) << simulator.messages();
  const auto series = simulator.ampsOverTime("v1");
  Peaks peaks;
  for (size_t i = 0; i < series.amps.size(); ++i) {
    const double amps = std::abs(series.amps[i]);
    peaks.first = std::max(peaks.first, amps);
    if (series.seconds[i] > 0.3 - 2.0 / 60) peaks.settled = std::max(peaks.settled, amps);
  }
  EXPECT_GT(series.amps.size(), 1000u);
  return peaks;
}

/// The start of an R-L circuit is sin(a + w) - d sin(a) times the settled peak, with w the phase since the
/// start, a that of the line less the circuit's angle, and the offset decaying as d = exp(-w R / X)
/// (textbook). The largest over all a is sqrt(1 + d^2 - 2 d cos w); of that the largest over the first
/// period.
double worstOvershoot(double resistanceOverReactance) {
  double worst = 1;
  for (int step = 0; step < 3600; ++step) {
    const double phase = 2 * std::numbers::pi * step / 3600;
    const double offset = std::exp(-phase * resistanceOverReactance);
    worst = std::max(worst, std::sqrt(1 + offset * offset - 2 * offset * std::cos(phase)));
  }
  return worst;
}

TEST(Transient, AStartStaysInTheEnvelopeOfItsPhasor) {
  for (const char* name : {"C7", "RV7", "GV10"}) {
    const auto& part = std::get<equipment::CoilPart>(equipment::standardLibrary().parts.at(name));
    for (const bool sealed : {false, true}) {
      const Phasor coil = asbuilt::coilImpedance(part, sealed, 60);
      const double peak = std::sqrt(2) * 27.6 / std::abs(2.16 + coil);
      const double worst = peak * worstOvershoot((2.16 + coil.real()) / coil.imag());
      double highest = 0;
      for (const double degrees : {0.0, 30.0, 60.0, 90.0, 120.0, 150.0}) {
        const Peaks peaks = started(coil, degrees);
        EXPECT_NEAR(peaks.settled, peak, 0.005 * peak) << name << " at " << degrees;
        EXPECT_LE(peaks.first, 1.005 * worst) << name << " at " << degrees;
        highest = std::max(highest, peaks.first);
      }
      EXPECT_GT(highest, 1.0 * peak) << name << ": some start overshoots";
    }
  }
}

}  // namespace
}  // namespace ww
