// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::verify {

/// One end of a conductor.
struct End {
  sheet::ConductorId conductor{};
  char end = 'A';
  friend auto operator<=>(const End&, const End&) = default;
};

/// One thing a person can do to an installation. What is not named by the kind is unused.
struct Edit {
  enum class Kind {
    move,       ///< `end` goes from `from` to `to`
    swap,       ///< `end` and `other` change places (`to` and `from` are where they lie)
    land,       ///< a conductor, free at one end at least, is landed: its End A on `from`, its End B on `to`
    takeOff,    ///< a conductor is taken off at both ends and capped
    jumper,     ///< a new jumper from `from` to `to`
    offJumper,  ///< a jumper is taken out
    setting,    ///< `key` of `unit` (0: of the sheet) becomes `value`
    part,       ///< the same, where the value is a piece of equipment ("transformer" -> "XF75")
    gauge,      ///< `cable` is pulled anew in `gauge`
    exchange    ///< `unit` is replaced by one of profile `value`
  };
  Kind kind = Kind::move;
  End end{}, other{};
  sheet::Landing from{}, to{};
  sheet::UnitId unit{};
  std::string key{}, value{};
  sheet::CableId cable{};
  quantity::Gauge gauge{};
  int ends = 0;  ///< screws to be opened by takeOff
  friend bool operator==(const Edit&, const Edit&) = default;
};

/// Trouble of an edit: an end moved or two swapped 1, a setting 1, a spare landed at both ends 2, a jumper 2,
/// hardware, a whole unit too, 10.
int costOf(const Edit& edit);

/// The sheet with the edit done; an edit of something that is not there changes nothing.
sheet::Sheet edited(sheet::Sheet sheet, const Edit& edit);
sheet::Sheet edited(sheet::Sheet sheet, const std::vector<Edit>& edits);

/// Whether a setting names a piece of equipment instead of a choice at a switch.
bool namesPart(const equipment::Profile& profile, std::string_view key);

/// The landing of an end.
const sheet::Landing& landingOf(const sheet::Conductor& wire, char end);

}  // namespace ww::verify
