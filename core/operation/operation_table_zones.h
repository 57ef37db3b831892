// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "operation/operation_table.h"

namespace ww::operation {

/// Which of several controls a call speaks to.
struct Zone {
  int number = 0;    ///< 1-based; 0: there is one control, or all are meant
  bool all = false;  ///< all controls at once
};

/// Water and zones: adds to the demand of a call what boilers, pumps, zone valves and dampers must do, and
/// what humidifier and ventilation may do while there is air. `demand.call` is without its zone.
void addWaterAndZones(const asbuilt::AsBuilt& circuit, Zone zone, CallDemand& demand);

/// Whether zones share equipment, so that what all of them ask at once is a case of its own.
bool hasZones(const asbuilt::AsBuilt& circuit);

}  // namespace ww::operation
