// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "asbuilt/as_built.h"

namespace ww::operation {

/// What must and may run in one call; whatever is not listed must not run.
struct CallDemand {
  std::string call;
  std::vector<std::string>
      must;  ///< "compressor1", "blower:cool1" (a speed where the unit has several), "blower"
  std::vector<std::string> may;
};

/// Composes the operation table from the duties that the placed units offer and the calls that the controls
/// make: rest first, then the calls in the customary order, outdoor states last. Calls of several controls
/// are grouped "zone1.heat1"; where zones share equipment follows what all ask at once, "zones.heat1". Where
/// a heat pump and a burner change over, follows what each control asks below the changeover, "cold.heat1",
/// "zone2.cold.heat1"; where one control tells that people are in, rest, cooling and heating while nobody is,
/// "unoccupied.rest".
/// Empty without a room control.
std::vector<CallDemand> operationTable(const asbuilt::AsBuilt& circuit);

/// The sense of an outdoor unit's reversing valve by the letter of its screw, B in heating, O in cooling. A
/// unit whose B is its common has its valve on O.
bool valveEnergisedInHeating(const asbuilt::PlacedUnit& outdoor);

/// "blower:cool1" -> "blower".
std::string dutyName(std::string_view duty);

}  // namespace ww::operation
