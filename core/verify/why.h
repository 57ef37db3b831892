// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <set>
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

/// What the screw that calls for a duty is there for: "heat1" for a burner.
std::string purposeOf(std::string_view duty);

/// Names of the elements that a duty hangs on, whatever the call.
std::set<std::string> driverNames(const equipment::Profile& profile, std::string_view duty);

/// The way of the current from the feeding transformer to an element, in the end state of a call: terminals
/// and conductors in order. Follows the strongest current upstream; empty when none flows.
Path currentPath(const operation::Solution& solution, const operation::SolvedCall& call, int device);

/// The same from an element back to the transformer. Empty where it goes through no conductor.
Path returnPath(const operation::Solution& solution, const operation::SolvedCall& call, int device);

/// How far a call gets: from the control's screw for it along conductors to a screw of another unit.
struct Reach {
  Path path;         ///< terminals and conductors in order, the control's screw first
  double volts = 0;  ///< at its end, to the common of what should have run
};

/// Where the call for a duty ends that does not run, with its volts to the element's common; nothing where
/// the control has no screw for it or no conductor lies there.
std::optional<Reach> reachOf(const operation::Solution& solution, const operation::SolvedCall& call,
                             std::string_view duty, int device);

}  // namespace ww::verify
