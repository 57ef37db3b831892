// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "drawing/placement.h"

namespace ww::drawing {

/// Which units are joined by cables, weighted by conductors.
struct CableGraph {
  struct Link {
    int unit = 0;
    int weight = 1;
  };
  std::vector<std::vector<Link>> links;  ///< of each strip
};

CableGraph cableGraph(const std::vector<Strip>& strips, const sheet::Sheet& sheet);

/// Orders the units inside each column by the barycentre of their partners, four sweeps to either side, then
/// exchanges neighbours while that takes weighted crossings away. Ties stay in id order.
void orderColumns(const CableGraph& graph, Placement& placement);

}  // namespace ww::drawing
