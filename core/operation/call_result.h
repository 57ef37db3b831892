// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "circuit/solver.h"
#include "operation/call_name.h"
#include "quantity/quantity.h"
#include "sheet/ids.h"

namespace ww::operation {

/// out: not energised; in: pulled in; late: in, but only after others; hum: energised and not pulled in;
/// chatter: in and out without end; under: in, below its guaranteed pull-in at rated line.
enum class CoilState { out, in, late, hum, chatter, under };

/// Worst first wins: ok < late < hum < race < chatter < collapse < fuseOpen. race: which of several coils
/// wins is chance, one end is shown; collapse: a supply finds no operating point.
enum class CallState { ok, late, hum, race, chatter, collapse, fuseOpen };

/// A coil (or thermal element) at the end of a call.
struct CoilResult {
  sheet::UnitId unit{};
  std::string part;
  CoilState state = CoilState::out;
  quantity::Volts pullIn;                ///< across it at inrush with all coils of the call together
  quantity::Volts sealed;                ///< across it in the end state
  quantity::Volts pullInLow, sealedLow;  ///< the same two at low line
  quantity::Amps amps;                   ///< through it in the end state
};

/// Volts of one terminal against the reference of its part of the circuit.
struct TerminalResult {
  sheet::TerminalRef terminal;
  std::complex<double> volts;    ///< phasor, rms
  sheet::TerminalRef reference;  ///< the common of the transformer that feeds it, else the smallest place
  circuit::Quality quality = circuit::Quality::floating;
};

/// A conductor's current, from End A to End B.
struct WireResult {
  sheet::ConductorId conductor{};
  std::complex<double> amps;
  std::complex<double> volts;  ///< of its End A against the reference
  bool live = false;           ///< stands at volts of a source, whether or not current flows
  bool fromHot = false;        ///< current goes from hot towards common along A -> B
};

/// Secondary side of one transformer.
struct SourceResult {
  sheet::UnitId unit{};
  std::string part;
  quantity::Amps amps;
  quantity::Volts volts;     ///< at its terminals
  double loadPercent = 0;    ///< secondary amps over rated amps
  quantity::VoltAmps shown;  ///< secondary amps x 24 V
  quantity::VoltAmps rating;
};

/// A duty that runs, with the unit that does it.
struct RunningDuty {
  std::string duty;  ///< "compressor1", "blower:cool1"
  sheet::UnitId unit{};
  friend bool operator==(const RunningDuty&, const RunningDuty&) = default;
};

/// Why a fuse or a link opened: a path that is no load carries the current; several coils stand at inrush and
/// none pulls in; or the loads together are too much for it.
enum class MeltCause { shortCircuit, hum, overload };

/// A low-voltage fuse, or the primary link of a transformer, that opened during the call.
struct MeltedFuse {
  sheet::UnitId unit{};
  std::string part;
  quantity::Amps amps;      ///< that melted it; secondary amps for a link
  quantity::Seconds after;  ///< of such current
  MeltCause cause = MeltCause::overload;
  bool primary = false;  ///< a link: not resettable, the transformer is dead
};

/// A supply that let go in the dip of the start.
struct SupplyDip {
  sheet::UnitId unit{};
  std::string part;
  bool cameBack = true;
};

/// One end of a race: whose coil was quickest, and what runs then.
struct RaceEnd {
  sheet::UnitId unit{};
  std::string part;
  std::vector<RunningDuty> duties;
};

/// The settled end state of one call.
struct CallResult {
  std::string call;  ///< "rest", "cool1", ...
  CallState state = CallState::ok;
  std::vector<RunningDuty> duties;
  std::vector<CoilResult> coils;
  std::vector<TerminalResult> terminals;
  std::vector<WireResult> wires;
  std::vector<SourceResult> sources;
  std::vector<MeltedFuse> melted;
  std::vector<sheet::TerminalRef> marginalInputs;  ///< inputs left between "seen" and "gone"
  std::vector<SupplyDip> dips;                     ///< supplies that let go while coils pulled in
  std::vector<RaceEnd> raceEnds;                   ///< every end it can have, the shown one first
  quantity::Seconds period;  ///< of what goes round (chatter, a board that tries again); 0: nothing does
};

}  // namespace ww::operation
