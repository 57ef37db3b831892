// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

#include "drawing/wiring.h"

namespace ww::drawing {

inline constexpr double kTagOffset = 20;  ///< from the plate's edge to the tag

using Slots = std::map<sheet::ConductorId, double>;  ///< y of conductors at their sheaths

/// Widths of tags, and from them where the tracks of each zone begin.
struct ZoneRules {
  std::vector<double> tagWidth;   ///< of each wire
  std::vector<FanRule> rules;     ///< of each zone
  std::vector<double> baseWidth;  ///< of each zone's fan, from its cables' conductors alone
};

ZoneRules zoneRules(const Wiring& wiring, const TextMeasure& measure);

/// Orders the conductors inside every sheath and places the sheaths of direct cables in their channels: end A
/// order, so that every inversion falls into the fan at end B, or the other way round where that fan has more
/// room; the height is the one near the middle of the cable's screws where no constraint cycle is left.
/// Earlier slots pull. Returns the steps taken.
std::int64_t placeSheaths(Wiring& wiring, const ZoneRules& rules, const Slots& kept);

}  // namespace ww::drawing
