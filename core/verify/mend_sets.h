// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "verify/check.h"
#include "verify/edit.h"

namespace ww::verify {

/// Edits that mend only together, and so are tried as one.
using EditSet = std::vector<Edit>;

/// A condensate float that a finding says stops too little, brought into the control's hot at the board: the
/// conductor it stood in goes to its own screw, and what the control is fed by passes the float.
std::vector<EditSet> floatsIntoHot(const sheet::Sheet& sheet, const equipment::Library& library,
                                   const SheetCheck& check);

/// Where a second compressor stage is never called: the control set to two stages, and the stage's conductors
/// landed on spares.
std::vector<EditSet> stagesCounted(const sheet::Sheet& sheet, const equipment::Library& library,
                                   const SheetCheck& check);

/// Each control replaced by each other one on which every conductor that is landed now has a place; the
/// landings that have another letter there are edits of their own.
std::vector<EditSet> controlsExchanged(const sheet::Sheet& sheet, const equipment::Library& library);

}  // namespace ww::verify
