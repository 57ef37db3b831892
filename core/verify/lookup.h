// SPDX-License-Identifier: GPL-3.0-or-later
// Private to the room: what a sheet's ids stand for in a library of profiles.
#pragma once

#include <variant>

#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::verify {

/// Null for a unit or a profile that is not there.
inline const equipment::Profile* profileOf(const sheet::Sheet& sheet, const equipment::Library& library,
                                           sheet::UnitId id) {
  const sheet::Unit* unit = sheet.units.find(id);
  return unit == nullptr ? nullptr : library.find(unit->profile);
}

/// The screw an end lies on; null for all else, and for a screw its profile does not have.
inline const equipment::Terminal* terminalOf(const sheet::Sheet& sheet, const equipment::Library& library,
                                             const sheet::Landing& landing) {
  const auto* ref = std::get_if<sheet::TerminalRef>(&landing);
  const auto* profile = ref == nullptr ? nullptr : profileOf(sheet, library, ref->unit);
  return profile == nullptr ? nullptr : profile->terminal(ref->terminal);
}

}  // namespace ww::verify
