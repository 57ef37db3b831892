// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "wiring/typed.h"

namespace ww::wiring {

/// The sheet after pasting text while a conductor or a cable is chosen: rows of a sheet in CSV, which land
/// the conductors of cables that stand on the sheet and bring those that do not; or a column of colours,
/// which go down the cable from the chosen conductor on. One sentence, and no sheet, when it is neither.
Typed<sheet::Sheet> pasted(const QString& text, const sheet::Sheet& sheet, const equipment::Library& library,
                           std::optional<sheet::CableId> cable, std::optional<sheet::ConductorId> from,
                           const wording::Language& language);

}  // namespace ww::wiring
