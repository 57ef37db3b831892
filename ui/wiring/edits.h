// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::wiring {

/// One end of a conductor.
struct EndRef {
  sheet::ConductorId conductor{};
  bool atA = true;
  friend auto operator<=>(const EndRef&, const EndRef&) = default;
};

/// A sheet that an edit would give, or why it cannot be: a key below "wiring.bad." with its arguments.
struct Edit {
  std::optional<sheet::Sheet> sheet;
  std::string refused;
  std::vector<std::pair<std::string, std::string>> args;
};

/// Where the end lies; loose when there is no such conductor.
sheet::Landing landingOf(const sheet::Sheet& sheet, EndRef end);
/// The unit an end can be landed at: its cable's unit there; of a jumper its own; nothing without one.
std::optional<sheet::UnitId> homeOf(const sheet::Sheet& sheet, EndRef end);
const equipment::Profile* profileAt(const sheet::Sheet& sheet, const equipment::Library& library,
                                    sheet::UnitId unit);

/// Puts an end elsewhere. Refused where the landing is at another unit than the end's own ("other-unit"
/// {unit, wanted}) or the end is a jumper's and hangs free ("jumper-free").
Edit withLanding(const sheet::Sheet& sheet, EndRef end, const sheet::Landing& landing);
/// Exchanges two ends at one unit; refused with "swap-units" where they lie at two.
Edit withEndsSwapped(const sheet::Sheet& sheet, EndRef first, EndRef second);
/// End B on the terminal that answers End A: the same letters at the other unit, else the same purpose.
/// Refused with "no-same" {terminal} where the other unit has neither, "end-a-loose" without a terminal at A.
Edit withEndBAsA(const sheet::Sheet& sheet, const equipment::Library& library, sheet::ConductorId conductor);
/// A jumper between two terminals of one unit; refused with "jumper-units" or "jumper-same".
Edit withJumper(const sheet::Sheet& sheet, const sheet::TerminalRef& from, const sheet::TerminalRef& to);

/// Every end at the unit's terminals and splices loose; its jumpers go.
sheet::Sheet withUnitFreed(sheet::Sheet sheet, sheet::UnitId unit);
bool anythingAt(const sheet::Sheet& sheet, sheet::UnitId unit);
/// Both ends loose.
sheet::Sheet withConductorFreed(sheet::Sheet sheet, sheet::ConductorId conductor);
/// Without the conductor; its cable goes with the last of its conductors.
sheet::Sheet withoutConductor(sheet::Sheet sheet, sheet::ConductorId conductor);
/// Without the cable and its conductors.
sheet::Sheet withoutCable(sheet::Sheet sheet, sheet::CableId cable);

/// What the conductor is for by the terminal it lies on, End A before End B: "hot", "compressor1"; "spare"
/// for one that is capped or hangs free at both ends with a cap at one; empty when nothing customary.
std::string purposeOf(const sheet::Sheet& sheet, const equipment::Library& library,
                      const sheet::Conductor& wire);

/// A free name for one more cable: the lowest number not taken.
std::string freeCableName(const sheet::Sheet& sheet);
/// The two units that the next cable most likely joins: neighbours by column that no cable joins yet, else
/// the first two that can be joined; nothing with fewer than two units.
std::optional<std::pair<sheet::UnitId, sheet::UnitId>> nextPair(const sheet::Sheet& sheet,
                                                                const equipment::Library& library);

}  // namespace ww::wiring
