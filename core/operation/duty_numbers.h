// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "asbuilt/as_built.h"

namespace ww::operation {

/// Zone valves and dampers are counted through the whole installation, in the order of its units: the second
/// valve's "zoneValve1" is "zoneValve2". Any other duty is what the profile calls it.
std::string numberedDuty(const asbuilt::AsBuilt& circuit, int unit, const std::string& duty);
/// The same for a sheet that is not compiled.
std::string numberedDuty(const sheet::Sheet& sheet, const equipment::Library& library, sheet::UnitId unit,
                         const std::string& duty);

}  // namespace ww::operation
