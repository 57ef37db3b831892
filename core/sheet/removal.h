// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "sheet/sheet.h"

namespace ww::sheet {

/// The sheet without a unit: the cables that ran to it go with their conductors, its jumpers and its own
/// settings go.
Sheet withoutUnit(Sheet sheet, UnitId unit);

}  // namespace ww::sheet
