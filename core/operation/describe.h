// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "operation/machine.h"
#include "operation/solution.h"

namespace ww::operation {

/// Fills in what a settled machine shows: duties, coils with their volts at inrush and at low line,
/// terminals, wires, sources, melted fuses. The call's name and state are left alone. `low`: the circuit at
/// low line. Returns what was done.
Work describe(const asbuilt::AsBuilt& circuit, const Machine& machine, RunEnd end, const asbuilt::Stamp& low,
              CallResult& result);
/// The same for one call alone.
Work describe(const asbuilt::AsBuilt& circuit, const Machine& machine, RunEnd end, LineRange lines,
              CallResult& result);

RunningDuty runningDuty(const asbuilt::AsBuilt& circuit, int unit, int duty);
/// What a transformer gives in a solved state.
SourceResult sourceResult(const asbuilt::AsBuilt& circuit, const circuit::Solver<circuit::Phasor>& solver,
                          const asbuilt::Device& transformer);

/// The reference of a node: the common of the transformer that feeds its part of the circuit, else the
/// smallest terminal of the part. -1 when the part has no terminal at all.
int referenceNode(const asbuilt::AsBuilt& circuit, const circuit::Solver<circuit::Phasor>& solver, int node);

}  // namespace ww::operation
