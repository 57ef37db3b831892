// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "asbuilt/override.h"
#include "circuit/power_port.h"
#include "circuit/solver.h"

namespace ww::asbuilt {

/// The circumstances of one solve, and how the installation deviates from its typical figures. All factors 1
/// and all shifts 0: typical.
struct Conditions {
  double line = 1;                 ///< line voltage over nominal
  double temperature = 20;         ///< of the conductors, Celsius
  double regulationShift = 0;      ///< added to each transformer's regulation
  double coilScale = 1;            ///< on every coil's and heater's impedance
  double supplyScale = 1;          ///< on every supply's VA; at DC on its ohms
  double inputScale = 1;           ///< on every input's resistance
  double pileScale = 1;            ///< on every thermopile's volts
  double contactScale = 1;         ///< on every contact's and switch's resistance
  std::vector<double> cableScale;  ///< on each cable's length, by cable index; empty: 1
  bool unknownBonded = false;  ///< commons of which nobody knows are taken as bonded to metal, not floating
  std::vector<Override> overrides;  ///< faults; bridges among them need a solver on the plan of planFor
};

/// State of everything that can move, by device index. Entries of devices of other kinds are unused.
struct Positions {
  std::vector<char> closed;            ///< contacts: closed; fuses: not blown; transformers: primary live
  std::vector<char> pulledIn;          ///< coils: sealed
  std::vector<char> supplyOn;          ///< supplies: above their lock-out
  std::vector<double> supplyVoltAmps;  ///< what an energised supply draws, relays included
  bool allAtInrush = false;            ///< every coil taken as starting, whatever `pulledIn` says

  explicit Positions(size_t devices = 0)
      : closed(devices, 0), pulledIn(devices, 0), supplyOn(devices, 0), supplyVoltAmps(devices, 0) {}
  friend bool operator==(const Positions&, const Positions&) = default;
};

/// Open-circuit EMF of a transformer, volts rms: Vrated (1 + regulation) Vline / Vtap.
double emf(const equipment::TransformerPart& part, double tapRatio, const Conditions& conditions);
/// Source impedance from the regulation at rated VA, ohms.
circuit::Phasor sourceImpedance(const equipment::TransformerPart& part, const Conditions& conditions);
/// A coil's impedance at the supply frequency, sealed or at inrush.
circuit::Phasor coilImpedance(const equipment::CoilPart& part, bool sealed, double frequency);

/// A circuit as some conditions make it, whatever the positions: made once, solved in many positions.
/// Overrides among the conditions that are bridges need a solver on the plan of planFor.
class Stamp {
 public:
  Stamp(const AsBuilt& circuit, const Conditions& conditions);

  /// Puts every element into the solver as `positions` says and solves, supplies drawing constant VA. What
  /// the solver has already is left alone, so that little is solved again where little has moved.
  circuit::PowerOutcome solve(const Positions& positions, circuit::Solver<circuit::Phasor>& solver) const;

 private:
  /// What moves, or draws what it needs.
  enum class Kind { closing, armature, supply, output };
  struct Moving {
    Kind kind;
    size_t device;
    int branch;
    circuit::Phasor off, on;  ///< siemens; for a supply VA drawn for one VA
    circuit::Phasor volts;    ///< EMF while closed
  };
  friend class Stamper;

  const AsBuilt* circuit_;
  std::vector<circuit::Phasor> siemens_, volts_;  ///< by branch, of what stands still
  std::vector<Moving> moving_;
  Conditions conditions_;
};

/// The same for one solve.
circuit::PowerOutcome solve(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
                            circuit::Solver<circuit::Phasor>& solver);

/// The same circuit at DC with every transformer primary isolated: what an ohmmeter sees. `lifted` names
/// elements taken out (pulled fuses, devices of a control off its base), by device index.
void stampDead(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
               const std::vector<char>& lifted, circuit::Solver<double>& solver);

}  // namespace ww::asbuilt
