// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

#include "drawing/sheaths.h"

namespace ww::drawing {

/// A net in the fan of one zone.
struct Piece {
  int zone = -1, net = -1;
  bool exists() const { return zone >= 0; }
};

/// How one end of a conductor reaches its sheath (or its other end): straight through its fan, or up into a
/// header lane and down again in another zone.
struct Route {
  Piece home;       ///< in the zone at the sheath; of a conductor without a cable: at the screw
  Piece away;       ///< in the zone at the screw, where that is another one
  double lane = 0;  ///< y of the lane between the two
};

/// Where every run goes: tracks of the zones, header lanes, and from them the columns' places.
struct Routing {
  std::vector<std::vector<FanNet>> zones;
  std::vector<Route> routeA, routeB;  ///< of each wire; a jumper's in A
  std::vector<double> zoneWidth;
  std::vector<double> columnX, columnWidth;
  std::vector<Box> sheaths;  ///< of each cable
  std::int64_t work = 0;

  double edge(int zone) const;         ///< x of the plates' edge
  double x(int zone, double u) const;  ///< of a distance from that edge
};

/// Width of each cable's capsule, and whether its two texts fit.
Routing route(Wiring& wiring, const ZoneRules& rules, const std::vector<double>& sheathWidths);

}  // namespace ww::drawing
