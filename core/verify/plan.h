// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::verify {

/// Where a conductor that hangs loose would customarily go. An end that is landed already is proposed as it
/// lies; a conductor with nothing to do is proposed as a capped spare.
struct Proposal {
  sheet::ConductorId conductor{};
  sheet::Landing endA, endB;
  std::string purpose;  ///< "hot", "compressor1", ...; empty for a spare
};

/// Two terminals that want a conductor and have none.
struct Wanting {
  enum class Why {
    noConductor,  ///< the cable between their units has no conductor left
    noCable       ///< no cable runs between their units; `cable` is 0
  };
  sheet::CableId cable{};
  sheet::TerminalRef a, b;
  std::string purpose;
  Why why = Why::noConductor;
};

struct Plan {
  std::vector<Proposal> landings;  ///< of conductors with a loose end, by id
  std::vector<Wanting> wanting;    ///< in order of need
};

/// Proposes landings cable by cable: terminals of the two units that serve the same purpose are joined, each
/// by the conductor of its customary colour where the cable has one (common practice, no source), else by
/// the next that is free: hot first, then the calls, the common last. A call that the unit in between has no
/// screw for passes it on a splice. Where two calls share a conductor by a kit, that is one of those left,
/// from splice to splice. What nothing placed would use (second stage of a single-stage unit) gets no
/// conductor.
Plan plan(const sheet::Sheet& sheet, const equipment::Library& library);

/// Where one end of a conductor would customarily go.
struct EndProposal {
  sheet::ConductorId conductor{};
  char end = 'A';
  sheet::TerminalRef terminal;
};

/// The same end by end: for every loose end that has a place, its screw; by conductor, End A first.
std::vector<EndProposal> proposedLandings(const sheet::Sheet& sheet, const equipment::Library& library);

/// The sheet with every proposal landed.
sheet::Sheet landed(sheet::Sheet sheet, const Plan& plan);

}  // namespace ww::verify
