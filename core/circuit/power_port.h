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

}  // namespace ww::circuit
