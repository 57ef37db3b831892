// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "circuit/solver.h"

#include <span>

namespace ww::circuit {

/// A load that draws constant power, on a branch of the pattern kept for it.
struct PowerPort {
  int branch = 0;
  Phasor voltAmps;         ///< drawn; positive imaginary part lags
  double cutOutVolts = 0;  ///< below this the load lets go
};

/// An electronic switch that keeps some volts for itself, in phase with its current, on a branch of the
/// pattern kept for it: R = volts / |I|, inside its bounds.
struct DropPort {
  int branch = 0;
  double volts = 0;
  double leastOhms = 0.05, mostOhms = 1e6;
};

enum class PowerOutcome {
  settled,
  collapse  ///< no operating point, or only one below the cut-out of some port
};

/// Sets each port branch to the admittance its load has at the operating point (upper branch) and leaves the
/// solver solved. All other branches must be set before. On collapse all port branches are left absent, and
/// the solver solved: the volts are those without these loads. A port of 0 VA is absent.
/// Method: one port by the closed form for the volts behind a source impedance; several on the port-reduced
/// network by fixed point and Newton, and by continuation of the load from zero where these do not settle.
PowerOutcome solveWithConstantPower(Solver<Phasor>& solver, std::span<const PowerPort> ports);

/// The same with switches that keep some volts. Method: the ohms of all switches are taken from the amps of
/// the solution before, until they agree to 1e-10; that contracts by the switch's share of the loop's volts.
PowerOutcome solveWithConstantPower(Solver<Phasor>& solver, std::span<const PowerPort> ports,
                                    std::span<const DropPort> drops);

}  // namespace ww::circuit
