// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "operation/logic_run.h"
#include "operation/operation_table.h"

namespace ww::operation {

/// Fresh air: adds to the demand of a call what a unit with an outdoor-air damper and an occupied input must
/// do. Occupied, the blower runs and the damper stands at its minimum in every call, at rest too; where the
/// outdoor air is cool enough it takes the place of a compressor stage. Unoccupied, the damper stays shut. An
/// input on which nothing lies asks for nothing.
void addFreshAir(const asbuilt::AsBuilt& circuit, const Facts& facts, CallDemand& demand);

/// The same while nobody is in: no air may be let in.
void leaveFreshAir(CallDemand& demand);

/// Whether a control has a conductor on the screw that tells the unit that people are in, so that its
/// schedule says whether the damper opens.
bool tellsOccupied(const asbuilt::AsBuilt& circuit);

/// The unit that ventilates when it is told that people are in; -1: none does.
int freshAirUnit(const asbuilt::AsBuilt& circuit);
/// The screw that tells it so.
sheet::TerminalRef occupiedInput(const asbuilt::AsBuilt& circuit, int unit);
/// A conductor or a jumper lies on the screw.
bool isLanded(const asbuilt::AsBuilt& circuit, const sheet::TerminalRef& screw);

/// The operation table under facts that are not the units' standard ones: unoccupied, outdoor air cool
/// enough.
std::vector<CallDemand> operationTable(const asbuilt::AsBuilt& circuit, const Facts& facts);

}  // namespace ww::operation
