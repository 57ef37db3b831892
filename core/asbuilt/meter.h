// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <span>

#include "asbuilt/stamp.h"

namespace ww::asbuilt {

/// What a voltmeter puts between its probes: 10 megohm and 100 pF, or 3 kilohm, which drains what hangs on
/// capacitance alone (common practice, no source).
enum class MeterKind { highImpedance, lowImpedance };

/// A meter. Shows its value to `accuracy` of it plus `counts` of the last digit; `gain` is an error of this
/// one meter, the same in every reading.
struct Meter {
  MeterKind kind = MeterKind::highImpedance;
  double accuracy = 0.01;
  int counts = 3;
  double digit = 0.1;  ///< last digit shown, in the unit read: V, A, ohm
  double gain = 1;
  bool direct = false;  ///< set to direct volts; reads nothing of alternating ones, nor the other way round
};

/// What a meter shows. solid: a number with the meter's own limits; ghost: what capacitance lets through,
/// with limits of 50 % (nobody knows how a cable lies); floating: the two probes have nothing in common, and
/// any number is chance. An ohmmeter shows OL where it has no value.
struct Shown {
  std::optional<double> value;
  circuit::Quality quality = circuit::Quality::floating;
  double low = 0, high = 0;  ///< between these the meter may stand
};

/// A compiled circuit with what its cables couple: 80 pF a metre between conductors of one cable (from
/// memory), 20 pF a metre from each to the metal around (common practice, no source), half at either end; and
/// 1 nF from a floating common to its unit's metal. Made when a meter is to be read, once a circuit; ordinary
/// solves do without and are no slower for it.
class Coupling {
 public:
  explicit Coupling(const AsBuilt& circuit);

  /// The circuit's own branches first, by the same numbers.
  const std::shared_ptr<const circuit::Plan>& plan() const { return plan_; }
  int earth() const { return earth_; }  ///< node; the circuit's own where it has one
  void stamp(const AsBuilt& circuit, const Conditions& conditions,
             circuit::Solver<circuit::Phasor>& solver) const;

 private:
  struct Capacitor {
    double perMetre;  ///< farads a metre; farads where it belongs to no wire
    int wire;         ///< -1: of none
  };
  void add(int a, int b, Capacitor capacitor);

  circuit::Pattern pattern_;
  int earth_ = -1;
  int first_ = 0;  ///< branch of the first capacitor
  std::vector<Capacitor> capacitors_;
  std::shared_ptr<const circuit::Plan> plan_;
};

/// One state under power, held still while meters are read.
class LiveState {
 public:
  LiveState(const AsBuilt& circuit, const Coupling& coupling, const Positions& positions,
            const Conditions& conditions);

  /// Volts of `plus` over `minus`, rms; direct volts keep their sign.
  Shown volts(int plus, int minus, const Meter& meter = {});
  /// What a clamp around these wires shows: the sum of their currents, A to B, so that a pair shows nothing.
  Shown clampAmps(std::span<const int> wires,
                  const Meter& clamp = {MeterKind::highImpedance, 0.02, 5, 0.01}) const;

 private:
  bool isDirect(int node) const;

  const AsBuilt* circuit_;
  circuit::Solver<circuit::Phasor> solver_;
};

/// One state without power.
class DeadState {
 public:
  /// `lifted`: elements taken out, by device index.
  DeadState(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
            const std::vector<char>& lifted);
  /// Ohms between two nodes; OL (no value) where nothing joins them, or beyond 40 megohm.
  Shown ohms(int a, int b, const Meter& meter = {});

 private:
  circuit::Solver<double> solver_;
};

/// One reading of volts, everything made for it: see Coupling and LiveState for many.
Shown readVolts(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions, int plus,
                int minus, const Meter& meter = {});

}  // namespace ww::asbuilt
