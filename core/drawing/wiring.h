// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <vector>

#include "drawing/fan.h"
#include "drawing/placement.h"

namespace ww::drawing {

/// One end of a conductor in terms of strips.
struct End {
  enum class Kind { landed, loose, capped } kind = Kind::loose;
  int strip = -1, row = -1;
  Side side = Side::right;
  double y = 0;  ///< at the plate's edge; off the screw's centre where several ends share it
};

/// Free distance from a plate's edge in one direction: the room in which a fan unfolds.
struct Zone {
  int column = 0;
  Side side = Side::right;
  int index() const { return 2 * column + (side == Side::right ? 1 : 0); }
};

/// A cable whose two units are on the sheet.
struct CableLine {
  const sheet::Cable* cable = nullptr;
  int a = 0, b = 0;  ///< strips
  Zone zoneA, zoneB;
  bool direct = true;      ///< between neighbour columns; else its sheath hangs in a header lane
  std::vector<int> wires;  ///< by slot, top to bottom
  double firstSlot = 0;    ///< y
  double slotY(size_t slot) const { return firstSlot + kSlotPitch * static_cast<double>(slot); }
};

struct WireLine {
  const sheet::Conductor* row = nullptr;
  int cable = -1;
  End a, b;
  double slotY = 0;
  const End& end(bool isA) const { return isA ? a : b; }
  End& end(bool isA) { return isA ? a : b; }
  bool jumper() const { return cable < 0 && a.strip >= 0 && a.strip == b.strip && a.row >= 0 && b.row >= 0; }
  bool tight = false;  ///< jumper as a narrow bow at the strip
  bool drawn = true;
};

/// The sheet with ids resolved.
struct Wiring {
  const std::vector<Strip>* strips = nullptr;
  const Placement* placement = nullptr;
  std::vector<CableLine> cables;  ///< by id
  std::vector<WireLine> wires;    ///< by id
  int columns = 0;

  double rowY(int strip, int row) const;
  Zone zoneOf(const End& end) const;
  /// Whether the end is reached from its cable's own fan.
  bool atHome(const WireLine& wire, bool isA) const;
};

Wiring resolve(const sheet::Sheet& sheet, const std::vector<Strip>& strips, const Placement& placement);

/// Chooses the side of each jumper: where no conductor lands between its screws, else where fewest do.
void sideJumpers(Wiring& wiring);

/// Spreads the ends that share a screw's side, and their neighbours, 16 px apart; needs the cables' slot
/// orders.
void spreadEnds(Wiring& wiring);

}  // namespace ww::drawing
