// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "equipment/profile.h"
#include "wording/language.h"

namespace ww::wording {

/// What kind of part it is: "coil", "safety switch".
QString partKind(const Language& language, const equipment::Part& part);
/// Its one figure that stands at its symbol: "7 VA", "3 A"; empty for a contact.
QString partFigure(const Language& language, const equipment::Part& part);
/// All its figures as one line.
QString partFigures(const Language& language, const equipment::Part& part);
/// "hot", "call in", "dry": ids as files have them, worded.
QString roleName(const Language& language, equipment::Role role);
QString kindName(const Language& language, equipment::Kind kind);
QString bondName(const Language& language, equipment::Bond bond);

}  // namespace ww::wording
