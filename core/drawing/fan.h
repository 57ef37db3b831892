// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <vector>

namespace ww::drawing {

/// Where a net of a fan ends: at a screw of the plate, at the sheath's side, or up in a header lane.
enum class FanSide { plate, sheath, lane };

struct FanEnd {
  FanSide side = FanSide::plate;
  double y = 0;
};

/// One conductor between a column and the sheaths beside it: horizontal from each end, one vertical. With a
/// single end it is a stub that hangs free.
struct FanNet {
  FanEnd ends[2];
  int count = 2;
  double u = 0;             ///< out: the vertical's distance from the plate's edge; 0 where there is none
  bool behindStub = false;  ///< out: its vertical passes a stub at the sheath and must stay clear of its tip

  double low() const;
  double high() const;
  bool straight() const { return count == 1 || ends[0].y == ends[1].y; }
};

struct FanRule {
  double first = 62;  ///< least u, beyond the tags
  double pitch = 18;  ///< between tracks
};

/// What came out of a track assignment.
struct FanResult {
  double width = 0;    ///< from the plate's edge to the sheath that all nets need
  int violations = 0;  ///< pairs that come closer than allowed because the constraints have a cycle
  int crossings = 0;
  std::int64_t work = 0;
};

/// Gives every net a track, left-edge packing in the order of the constraint graph: a horizontal from a screw
/// must end before a near one from the sheath begins, and of the two orders of a pair the one with fewer
/// crossings is taken.
FanResult assignTracks(std::vector<FanNet>& nets, const FanRule& rule);

inline constexpr double kStubLength = 46;  ///< of a free end at a sheath, to the tip
inline constexpr double kTipGap = 14;      ///< from the tip to the next track
inline constexpr double kSheathGap = 14;   ///< from the last track to the sheath

}  // namespace ww::drawing
