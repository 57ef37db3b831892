// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "asbuilt/as_built.h"
#include "circuit/solver.h"

namespace ww::asbuilt {

/// A solved state as a SPICE deck that runs as it is.
struct Netlist {
  std::string text;
  std::vector<std::string> nodeNames;  ///< by node; "0" for the reference, "" for a node nothing touches
};

/// Writes every branch that is present in the solver: R, or R with L or C in series at the supply frequency,
/// and an AC source where it has an EMF. Constant-VA supplies appear as the impedance of their operating
/// point; diodes and the relays behind them, which are no branches of the solution, as comments beside the
/// contacts they close. The common of the first transformer is node 0; every other part of the circuit is
/// tied to it by one 1 gigohm leak, which carries no current. Values with 17 digits.
Netlist spice(const AsBuilt& circuit, const circuit::Solver<circuit::Phasor>& solver,
              const std::string& title);

}  // namespace ww::asbuilt
