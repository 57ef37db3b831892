// SPDX-License-Identifier: GPL-3.0-or-later
// Private to the room.
#pragma once

#include "recommend/installation.h"
#include "recommend/recommend.h"

namespace ww::recommend {

/// What contradicts what, worst first.
std::vector<Conflict> conflictsOf(const Sheet& sheet, const Wishes& wishes, const Installation& found);

}  // namespace ww::recommend
