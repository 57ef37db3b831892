// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "asbuilt/override.h"

namespace ww::asbuilt {

/// What can be wrong with one thing.
enum class FaultKind {
  conductorOpen,
  poorJoint,        ///< at one of the grid's ohms
  conductorsTouch,  ///< with another of its cable, at either end
  touchesMetal,     ///< where there is metal that some common is bonded to
  coilOpen,
  coilShorted,
  contactStuckOpen,    ///< a dead board output, a safety that opened, a switch left out
  contactStuckClosed,  ///< welded, bypassed
  armatureStuckOut,
  armatureStuckIn,
  fuseOpen,
  transformerDead,
  transformerReversed,
  wrongTap,  ///< 208 V on the 240 V tap
  supplyDead
};

/// A fault as overrides, with what it concerns.
struct SingleFault {
  FaultKind kind = FaultKind::conductorOpen;
  int wire = -1;   ///< index into AsBuilt::wires
  int other = -1;  ///< the wire it touches
  int device = -1;
  double ohms = 0;  ///< of a joint
  std::vector<Override> overrides;
};

/// Ohms that stand for joints of unknown size.
inline constexpr double kJointGrid[] = {1, 5, 20, 100, 1000};

/// Every single fault of an installation, in a fixed order: wires as on the sheet, then devices.
std::vector<SingleFault> singleFaults(const AsBuilt& circuit);

}  // namespace ww::asbuilt
