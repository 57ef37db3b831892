// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include "asbuilt/as_built.h"

namespace ww::asbuilt {

/// One element that is not as the sheet and the profiles say. A fault is a short list of these, laid over the
/// compiled circuit with the Conditions; nothing is copied and nothing compiled again.
struct Override {
  enum class Kind {
    open,         ///< carries nothing: a broken conductor, a burnt-out coil, a pulled fuse, a dead supply
    ohms,         ///< is `value` ohms and nothing else: a shorted coil; it neither pulls, sees, nor feeds
    series,       ///< has `value` ohms more in series: a poor joint (not on supplies)
    parallel,     ///< has `value` ohms beside it: a leaking contact (not on supplies)
    emf,          ///< its EMF is `value` times as large: a wrong tap; -1: secondary reversed
    stuckOpen,    ///< a contact that never closes: also a board output that is dead
    stuckClosed,  ///< a contact that never opens: welded
    heldOut,      ///< an armature that never pulls in
    heldIn,       ///< an armature that never lets go
    bridge  ///< `value` ohms between nodes a and b: two conductors that touch, a landing that is not there
  };
  Kind kind = Kind::open;
  int branch = -1;  ///< of the device, wire or bonding; for a bridge filled in by planFor
  double value = 0;
  int a = 0, b = 0;  ///< bridge alone
  friend bool operator==(const Override&, const Override&) = default;
};

inline Override openAt(int branch) { return {Override::Kind::open, branch, 0, 0, 0}; }
inline Override seriesOhms(int branch, double ohms) { return {Override::Kind::series, branch, ohms, 0, 0}; }
inline Override bridgeOf(int a, int b, double ohms) { return {Override::Kind::bridge, -1, ohms, a, b}; }

/// The plan that holds the circuit and all bridges of the list, whose branches are filled in; the circuit's
/// own where there are none. Made once for a list, not for every solve.
std::shared_ptr<const circuit::Plan> planFor(const AsBuilt& circuit, std::vector<Override>& overrides);

/// What the overrides make of a device's moving part.
struct Hold {
  bool dead = false;  ///< carries no current of its own: cannot pull in, see, warm up or feed
  int contact = 0;    ///< -1: stays open; 1: stays closed
  int armature = 0;   ///< -1: stays out; 1: stays in
  double series = 0;  ///< ohms before it that its volts do not reach
};

/// By device.
std::vector<Hold> holdsOf(const AsBuilt& circuit, const std::vector<Override>& overrides);

}  // namespace ww::asbuilt
