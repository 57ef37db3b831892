// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <memory>
#include <vector>

#include "operation/call_result.h"
#include "operation/machine.h"
#include "operation/operation_table.h"

namespace ww::operation {

/// Line voltage over nominal at which a sheet is judged.
struct LineRange {
  double low = 0.92, high = 1.10;
};

/// One call carried to its end: what shows, and the electric state behind it.
struct SolvedCall {
  CallResult result;
  asbuilt::Positions positions;  ///< of the end state
  std::vector<Event> events;     ///< timeline from the start of the call, at nominal line
  Millis start = 0;              ///< of the call, on the events' clock
};

/// A sheet solved call by call at nominal line, with the volts that matter at low line.
struct Solution {
  std::shared_ptr<const asbuilt::AsBuilt> circuit;
  std::vector<CallDemand> table;
  std::vector<SolvedCall> calls;  ///< in the order of the table
  LineRange lines;
  const SolvedCall* call(std::string_view name) const;
};

/// Compiles the sheet and carries every call of its operation table to its settled end, each from rest.
/// Without a room control only "rest" is solved.
Solution solveSheet(const sheet::Sheet& sheet, const equipment::Library& library, LineRange lines = {});

}  // namespace ww::operation
