// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <string>
#include <variant>
#include <vector>

#include "quantity/quantity.h"

namespace ww::equipment {

using quantity::Amps;
using quantity::Ohms;
using quantity::Seconds;
using quantity::VoltAmps;
using quantity::Volts;

/// Phasor ohms at the supply frequency the part is rated for (60 Hz).
using Impedance = std::complex<double>;

/// Power at 24 V and its power factor.
struct Load {
  VoltAmps power;
  double powerFactor = 1;
  friend bool operator==(const Load&, const Load&) = default;
};

/// Z = V^2 / S (pf + j sqrt(1 - pf^2)) at 24 V.
Impedance impedance(const Load& load);

/// A coil with an armature: contactor, relay, valve, damper or zone-valve motor.
struct CoilPart {
  Load sealed, inrush;
  Ohms dc;
  Volts pullInTypical, pullInGuaranteed, dropOut;
  Seconds operating{0.025};  ///< from pull-in to the contacts' move
  friend bool operator==(const CoilPart&, const CoilPart&) = default;
};

/// A heater that closes its contact when warm (sequencer, heat motor).
struct ThermalPart {
  Ohms resistance;
  Seconds closing;        ///< at 24 V; scaled by (24 / V)^2
  Seconds opening;        ///< after loss of power
  Volts marginal, never;  ///< below marginal: late; below never: does not close
  friend bool operator==(const ThermalPart&, const ThermalPart&) = default;
};

/// Control transformer, secondary between a (hot) and b (common).
struct TransformerPart {
  VoltAmps rating;
  Volts rated{24};
  double regulation = 0.15;        ///< (no load - full load) / full load
  double angleDegrees = 0;         ///< of the source impedance: 0 plain, 35 inherently limited
  bool inherentlyLimited = false;  ///< primary link instead of a fuse
  double linkHoldsTo = 2;          ///< times rated secondary amps that the link carries for ever
  Seconds linkOpensAfter{120};     ///< of more than that
  friend bool operator==(const TransformerPart&, const TransformerPart&) = default;
};

/// Low-voltage fuse in series. Above `quickFrom` times its rating it melts by I^2 t; from `holdsTo`, where it
/// takes `slowest`, the time falls to that along a straight line on double-logarithmic paper.
struct FusePart {
  Amps rating;
  Ohms resistance;
  double meltingAmpSquaredSeconds = 0;
  double holdsTo = 1.35;  ///< times rated amps
  Seconds slowest{60};
  double quickFrom = 1.85;
  friend bool operator==(const FusePart&, const FusePart&) = default;
};

/// A board's call input to common.
struct InputPart {
  Ohms resistance;
  Volts seenFrom{12}, goneBelow{6};
  friend bool operator==(const InputPart&, const InputPart&) = default;
};

/// A contact or switch; closed exactly while its expression is true.
struct ContactPart {
  Ohms closed{0.020};
  Seconds operating{0.015};
  bool safety = false;  ///< limit, pressure, float, roll-out, draft: never bridged
  bool handReset = false;
  friend bool operator==(const ContactPart&, const ContactPart&) = default;
};

/// A control's or board's own supply: constant VA with under-voltage lock-out.
struct SupplyPart {
  VoltAmps power;
  double powerFactor = 0.7;
  Volts outBelow{14}, backAt{17};
  Ohms dc{2200};         ///< polarity-dependent, +-50 %
  VoltAmps perRelay{1};  ///< added for each energised board relay
  friend bool operator==(const SupplyPart&, const SupplyPart&) = default;
};

/// A plain resistance that is neither input nor coil (sense resistor, bleed, temperature sensor).
struct ResistorPart {
  Ohms resistance;  ///< of a sensor: at 25 C
  double beta = 0;  ///< kelvin; 0: the same at any temperature
  friend bool operator==(const ResistorPart&, const ResistorPart&) = default;
};

/// An electronic switch. Open it lets a little through; closed it keeps some volts for itself, in phase with
/// the current. One that feeds its control draws its living through the idle load when open and from those
/// volts when closed.
struct SolidStatePart {
  Ohms open{47000};
  Volts drop{1.5};
  Seconds operating{0.002};
  bool feeds = false;
  Volts outBelow{12}, backAt{13};  ///< across it when open, if it feeds
  Amps leastAmps{0.020};           ///< through it when closed, if it feeds
  friend bool operator==(const SolidStatePart&, const SolidStatePart&) = default;
};

/// A thermopile: direct volts behind some ohms, positive at a.
struct PilePart {
  Volts open;
  Ohms resistance;
  friend bool operator==(const PilePart&, const PilePart&) = default;
};

/// A diode: lets through the half waves that go from a to b.
struct DiodePart {
  Volts drop{0.8};
  friend bool operator==(const DiodePart&, const DiodePart&) = default;
};

/// A small relay behind a diode, with a reservoir: the half waves from a to b pull it in, and one a cycle
/// holds it. No phasor stands for what it draws, so it is no load of the solved circuit.
struct HalfWaveRelayPart {
  Volts rated{24};
  Volts drop{0.8};         ///< of its diode
  double pullsFrom = 0.7;  ///< share of the rated peak that the peak behind the diodes must reach
  friend bool operator==(const HalfWaveRelayPart&, const HalfWaveRelayPart&) = default;
};

using Part = std::variant<TransformerPart, FusePart, CoilPart, ThermalPart, InputPart, ContactPart,
                          SupplyPart, ResistorPart, SolidStatePart, PilePart, DiodePart, HalfWaveRelayPart>;

/// Whether it opens and closes by logic.
inline bool isContact(const Part& part) {
  return std::holds_alternative<ContactPart>(part) || std::holds_alternative<SolidStatePart>(part);
}

/// Whether it has an armature that logic can look at.
inline bool isRelay(const Part& part) {
  return std::holds_alternative<CoilPart>(part) || std::holds_alternative<HalfWaveRelayPart>(part);
}

/// Whether it keeps a unit's electronics alive.
inline bool isSupply(const Part& part) {
  const auto* output = std::get_if<SolidStatePart>(&part);
  return std::holds_alternative<SupplyPart>(part) || (output != nullptr && output->feeds);
}

/// Ohms of a resistor at a temperature: R25 exp(beta (1/T - 1/298.15 K)).
Ohms resistanceAt(const ResistorPart& part, double celsius);

/// How long a cold fuse carries a current until it melts; infinite where it holds.
double meltingSeconds(const FusePart& fuse, double amps);

/// What is wrong with a coil's figures, as problem keys; empty when physics agrees: Rdc <= pf_i V^2/S_i,
/// Rdc <= sealed real part, sealed X >= inrush X, drop-out < typical < guaranteed pull-in.
std::vector<std::string> contradictions(const CoilPart& coil);

}  // namespace ww::equipment
