// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "operation/operation_table.h"

namespace ww::operation {

/// Water and zones: adds to the demand of a call what boilers, pumps, zone valves and dampers must do, and
/// what humidifier and ventilation may do while there is air. `demand.call` is without its zone; `zone` is
/// the 1-based number of the control that calls, 0: there is one, or all call at once.
void addWaterAndZones(const asbuilt::AsBuilt& circuit, int zone, CallDemand& demand);

/// Whether zones share equipment, so that what all of them ask at once is a case of its own.
bool hasZones(const asbuilt::AsBuilt& circuit);

}  // namespace ww::operation
