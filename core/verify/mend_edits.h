// SPDX-License-Identifier: GPL-3.0-or-later
// The changes that a search for mends tries. Private to the room.
#pragma once

#include "verify/mends.h"

namespace ww::verify {

enum class Reach { near, far };

/// The single changes worth trying on a sheet, in the order of their ids. Near: at the ends and units that
/// its findings name, and every setting. Far: at all the other ends.
std::vector<Edit> candidateEdits(const sheet::Sheet& sheet, const equipment::Library& library,
                                 const SheetCheck& check, Reach reach);

/// Landings of spare and loose conductors where the plan of the sheet wants one: both ends at once.
std::vector<std::vector<Edit>> plannedEdits(const sheet::Sheet& sheet, const equipment::Library& library);

}  // namespace ww::verify
