// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "session/surroundings.h"
#include "wiring/mend_finder.h"

namespace ww::wiring {

/// The engine's search for mends, worded for a person. `around` must outlive it.
SearchMends mendSearch(const session::Surroundings& around);

}  // namespace ww::wiring
