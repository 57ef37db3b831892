// SPDX-License-Identifier: GPL-3.0-or-later
// Private to the room: what stands of a profile, as rich text.
#pragma once

#include <QString>
#include <string>

#include "equipment/profile.h"
#include "paint/theme.h"
#include "wording/language.h"

namespace ww::library {

/// Everything a profile says but its picture: terminals, elements with their ratings and the source of those,
/// duties, settings, nameplate fields, places for switches, cautions, logic. `logic`: the statements as they
/// are written.
QString profileHtml(const wording::Language& language, const paint::Theme& theme,
                    const equipment::Profile& profile, const QStringList& logic);

/// The letters, words and ids a profile is found by.
QString searchTextOf(const wording::Language& language, const equipment::Profile& profile);

}  // namespace ww::library
