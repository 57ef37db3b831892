// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

#include "drawing/strip.h"

namespace ww::drawing {

/// Columns of strips, top to bottom; indices into the strips.
struct Placement {
  std::vector<std::vector<int>> columns;
  std::vector<int> column;    ///< of each strip
  std::vector<double> top;    ///< of each strip's plate
  std::vector<double> width;  ///< of each column
  std::int64_t work = 0;
};

/// Puts units into columns by role, orders each column by its cables' partners and lines plates up so that
/// terminals of one purpose stand level. Depends on units and cables only, never on landings, so that an edit
/// of a conductor moves no plate.
Placement place(const std::vector<Strip>& strips, const sheet::Sheet& sheet,
                const std::map<sheet::UnitId, Kept>& kept);

}  // namespace ww::drawing
