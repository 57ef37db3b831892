// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "circuit/solver.h"

#include <optional>
#include <vector>

namespace ww::circuit {

/// Volts (magnitude) at a load of constant complex power S behind a source E with impedance Z: the upper
/// root of |V|^4 + (2a - |E|^2) |V|^2 + a^2 + b^2 = 0 with a = Re(Z S*), b = Im(Z S*). Nothing when there is
/// none: the source cannot carry the load.
std::optional<double> operatingVolts(Phasor openVolts, Phasor impedance, Phasor voltAmps);

/// A network seen from its n constant-power ports.
struct PowerNetwork {
  std::vector<Phasor> openVolts;  ///< n
  std::vector<Phasor> impedance;  ///< n x n, symmetric: volts at one port for 1 A into another
  std::vector<Phasor> voltAmps;   ///< n, drawn

  std::size_t size() const { return openVolts.size(); }
};

/// Volts at all ports on the upper branch, which is the one that grows out of no load; nothing when the
/// network cannot carry the loads. Fixed point, then Newton; by continuation of the load from zero where
/// that does not end on the upper branch.
std::optional<std::vector<Phasor>> operatingVolts(const PowerNetwork& network);
/// The same into memory that is kept from one to the next; false where there is none. `volts` may be
/// anything.
bool operatingVolts(const PowerNetwork& network, std::vector<Phasor>& volts);

/// How strongly the fixed-point map V -> E - Z (S/V)* expands around V: the spectral radius of its
/// derivative. Zero without load, below one on the upper branch, one where it ends.
double expansion(const PowerNetwork& network, const std::vector<Phasor>& volts);

}  // namespace ww::circuit
