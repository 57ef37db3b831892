// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "session/surroundings.h"
#include "wiring/mend_finder.h"

namespace ww::wiring {

/// The search for mends, worded for a person. Nothing while the engine has none.
SearchMends mendSearch(const session::Surroundings& around);

}  // namespace ww::wiring
