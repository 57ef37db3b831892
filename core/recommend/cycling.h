// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

#include "quantity/quantity.h"

namespace ww::recommend {

/// One cycle of an on-off control at a steady load.
struct Cycle {
  double share = 0;  ///< load over capacity, which is the share of the time that the stage runs; 0 to 1
  quantity::Seconds on, off;  ///< infinite where the stage never stops, or never starts
  double perHour = 0;         ///< starts an hour
  bool held = false;          ///< the off time is the protection's, longer than the control asks for
  friend bool operator==(const Cycle&, const Cycle&) = default;
};

/// What a control of `most` starts an hour asks for: N = 4 most X (1 - X), on 1 / (4 most (1 - X)), off
/// 1 / (4 most X) hours. Source: EnergyPlus Engineering Reference, latent capacity degradation, after
/// Henderson and Rengarajan 1996. `most` > 0; a share outside 0 to 1 is taken as the nearest end.
Cycle asked(double most, double share);

/// What remains of it where the stage stays off for `least` seconds at least. Where the control asks for
/// less, the off time is `least`, and to carry the same load the stage runs on = least X / (1 - X), so that
/// N = 3600 (1 - X) / least: a straight line down to full load. Exact, no rounding.
Cycle delivered(double most, double share, quantity::Seconds least);

/// The share of load above which the protection holds the stage back, 3600 / (4 most least); nothing where it
/// never does: 15 / most minutes, the shortest off time asked for, are enough.
std::optional<double> heldAbove(double most, quantity::Seconds least);

/// The most starts an hour that are really delivered, and the load where they are.
Cycle busiest(double most, quantity::Seconds least);

/// The delivered curve from no load to full load in `steps` equal steps, with the corner where the protection
/// takes over and half load between them. At both ends the stage does not cycle. `steps` is 2 at least.
std::vector<Cycle> curve(double most, quantity::Seconds least, int steps);

}  // namespace ww::recommend
