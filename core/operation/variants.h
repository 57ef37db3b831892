// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "operation/machine.h"
#include "operation/solution.h"

namespace ww::operation {

/// Carries a call's end state on at low line, at high line, and with each safety open that carries something
/// or is looked at by its unit's logic. `trial` is kept from call to call for the memory it has; `work` gains
/// what was done.
/// Where more than 40 units hang together, only safeties of units that the call moves, and no lines: all of
/// them would be as many ends as calls times units. None where it is more than 100. `rest`: the machine the
/// call began from.
std::vector<Variant> variantsOf(const asbuilt::AsBuilt& circuit, const Machine& rest, const Machine& end,
                                const Facts& facts, LineRange lines, std::optional<Machine>& trial,
                                Work& work);

}  // namespace ww::operation
