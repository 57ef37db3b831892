// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "asbuilt/stamp.h"
#include "circuit/joints.h"

namespace ww::asbuilt {

/// What a meter shows of one half wave of a sine, as a share of the sine's rms volts: true rms of all; its
/// direct part; true rms of the rest, as an AC-coupled meter shows it; and an AC-coupled meter that takes the
/// average of the rectified rest and scales it for a sine. Integrals over one period; numbers to five places.
inline constexpr double kHalfWaveRms = 0.70711;        ///< 1 / sqrt 2
inline constexpr double kHalfWaveDirect = 0.45016;     ///< sqrt 2 / pi
inline constexpr double kHalfWaveCoupled = 0.54531;    ///< sqrt(1/2 - 2 / pi^2)
inline constexpr double kHalfWaveAveraging = 0.55110;  ///< pi / (2 sqrt 2) x mean |v - mean|

/// The half waves that stand at a place against another: rms volts of the alternating source behind each, 0
/// where that half does not come. Both: the full wave.
struct HalfWaves {
  double positive = 0, negative = 0;
};

/// Ways for half waves in one solved state: from a transformer that is on through metal, closed contacts and
/// at most one diode. Diodes and the relays behind them stand in no phasor solution; whether such a relay
/// comes in is a matter of connection and of the volts of its source alone. A way of 100 ohms or more is
/// none: behind it a relay of 2 VA at 24 V (288 ohms) is left less than 0.7 of its rated peak.
class HalfWaveWays {
 public:
  HalfWaveWays(const AsBuilt& circuit, const Positions& positions,
               const circuit::Solver<circuit::Phasor>& solver);

  /// Whether a half-wave relay (device index) gets what pulls it in: half waves of its own way round, from
  /// the transformer that its unit's hot screw hangs on, with a peak less the volts of the diodes passed of
  /// at least the share of its rated peak that it needs.
  bool pulls(size_t relay) const;
  HalfWaves at(int node, int reference) const;
  /// Whether metal and closed contacts join two nodes.
  bool joined(int a, int b) const { return joints_.joined(a, b); }

 private:
  int hotOf(int unit) const;
  double between(int p, int q, int hot = -1) const;

  const AsBuilt& circuit_;
  const Positions& positions_;
  const circuit::Solver<circuit::Phasor>& solver_;
  circuit::Joints joints_;
};

/// Half-wave relays by device index; empty where no calls share a conductor.
std::vector<size_t> halfWaveRelays(const AsBuilt& circuit);

/// By node: whether it is metal with a conductor that two calls share, from where two diodes of one unit meet
/// head to tail. A meter there shows half waves, which no band is given for.
std::vector<char> sharedNodes(const AsBuilt& circuit);

}  // namespace ww::asbuilt
