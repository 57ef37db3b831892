// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include "asbuilt/stamp.h"
#include "operation/call_result.h"
#include "operation/event.h"
#include "operation/operation_table.h"
#include "operation/work.h"

namespace ww::operation {

/// Line voltage over nominal at which a sheet is judged.
struct LineRange {
  double low = 0.92, high = 1.10;
};

/// A load in the end state of a variant.
struct LoadState {
  int device = 0;  ///< coil or thermal element, index into AsBuilt::devices
  CoilState state = CoilState::out;
  quantity::Volts volts;
};

/// A call's end state carried on under one other circumstance.
struct Variant {
  double line = 1;  ///< over nominal
  int safety = -1;  ///< the device that is open; -1: none
  CallState state = CallState::ok;
  std::vector<RunningDuty> duties;
  std::vector<LoadState> loads;
  std::vector<SourceResult> sources;
};

/// One call carried to its end: what shows, and the electric state behind it.
struct SolvedCall {
  CallResult result;
  asbuilt::Positions positions;  ///< of the end state
  std::vector<Event> events;     ///< timeline from the start of the call, at nominal line
  Millis start = 0;              ///< of the call, on the events' clock
  /// At low and high line, then with each safety open that matters to the call: a safety that carries nothing
  /// and is not looked at changes nothing when it opens, and is left out. Fewer where very many units
  /// hang together, see variantsOf.
  std::vector<Variant> variants;

  const Variant* at(double line) const;      ///< nothing unless solved across
  const Variant* without(int safety) const;  ///< the same; nothing also where the safety is of no matter
};

/// How much of a sheet is solved: every call to its end at nominal line; or besides, each end state carried
/// on at low line, at high line and with each safety open.
enum class Depth { calls, across };

/// A sheet solved call by call at nominal line, with the volts that matter at low line.
struct Solution {
  std::shared_ptr<const asbuilt::AsBuilt> circuit;
  std::vector<CallDemand> table;
  std::vector<SolvedCall> calls;  ///< in the order of the table
  LineRange lines;
  asbuilt::Conditions conditions;  ///< the calls were solved under
  /// Where a common's bond to metal is unknown and can matter: every call again with all of these bonded;
  /// empty where it cannot. `calls` takes them as floating.
  std::vector<SolvedCall> ifBonded;
  Work work;  ///< all calls

  const SolvedCall* call(std::string_view name) const;
  /// `ifBonded` as a solution of its own, with nothing unknown left; without calls where it is empty.
  Solution bonded() const;
  /// Calls that run otherwise when the unknown bonds are there.
  std::vector<std::string> callsThatBondingChanges() const;
};

/// Compiles the sheet and carries every call of its operation table to its settled end, each from rest, and
/// on from there. Without a room control only "rest" is solved.
Solution solveSheet(const sheet::Sheet& sheet, const equipment::Library& library, LineRange lines = {},
                    Depth depth = Depth::across);

/// The same for a circuit that is compiled, under conditions of one's own: faults are tried on one circuit.
Solution solveCircuit(std::shared_ptr<const asbuilt::AsBuilt> circuit, const asbuilt::Conditions& conditions,
                      LineRange lines = {}, Depth depth = Depth::calls);

}  // namespace ww::operation
