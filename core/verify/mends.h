// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "verify/check.h"
#include "verify/edit.h"
#include "verify/gain_common.h"

namespace ww::verify {

/// What a change of the installation would mend. Findings are counted above note.
struct Mend {
  std::vector<Edit> edits;          ///< in the order in which they were found
  int cost = 0;                     ///< of all edits
  std::vector<std::string> clears;  ///< keys of the findings that go
  size_t of = 0;                    ///< how many there were
  bool allCallsRight = false;       ///< afterwards
  size_t calls = 0;                 ///< rest among them
  std::vector<Finding> remains;     ///< what is left, or comes with it
  /// Set, with no edits, where only something forbidden would clear the findings: the safety that would have
  /// to be bridged. The answer is to find why it opened.
  std::optional<Place> findWhy;
  /// Set where it is a way to bring a unit the common that it lacks. With hardware it has no edits, and what
  /// it leaves is not known.
  std::optional<WayTo> way;
  bool clearsAll() const { return !edits.empty() && remains.empty(); }
};

struct MendLimits {
  operation::LineRange lines;
  size_t most = 5;            ///< mends handed back
  size_t mostTrials = 20000;  ///< changed sheets tried; then the best so far are handed back
  size_t seeds = 24;          ///< single edits from which pairs are built
  unsigned threads = 0;       ///< 0: as many as there are; the result is the same for any number
};

/// Searches what would mend the findings of a checked sheet: single edits first, those at oddly lying ends
/// before all others, then what mends only together (mend_sets.h), then pairs, then hardware. Best first:
/// clears all, least cost, fewest notes left, then the order of candidatesOf. Ways to a common that is
/// missing follow, then the edits that clear most. Nothing that `Protected` forbids or that brings a new stop
/// finding is ever handed back. Stops early, with the best so far, when asked to.
std::vector<Mend> searchMends(const sheet::Sheet& sheet, const equipment::Library& library,
                              const SheetCheck& check, const MendLimits& limits = {},
                              const std::stop_token& stop = {});

}  // namespace ww::verify
