// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "operation/solution.h"
#include "verify/finding.h"

namespace ww::verify {

/// An element that decides whether a duty runs: a coil, heater or call input that its logic looks at.
struct Driver {
  int device = -1;
  double volts = 0;  ///< across it in the call
  double amps = 0;
  bool on = false;  ///< pulled in, warm, or seen
};

/// What a duty of a unit hangs on, in the end state of a call.
std::vector<Driver> driversOf(const operation::Solution& solution, const operation::SolvedCall& call,
                              sheet::UnitId unit, std::string_view duty);

/// The way of the current from the feeding transformer to an element, in the end state of a call: terminals
/// and conductors in order. Follows the strongest current upstream; empty when none flows.
Path currentPath(const operation::Solution& solution, const operation::SolvedCall& call, int device);

}  // namespace ww::verify
