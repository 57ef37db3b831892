// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "operation/solution.h"
#include "verify/finding.h"

namespace ww::verify {

/// One call against the operation table.
struct CallVerdict {
  std::string call;
  std::vector<std::string> must, runs;      ///< duties, "blower:cool1"
  std::vector<std::string> missing, extra;  ///< by name, speeds left out
  bool ok = false;                          ///< the right duties run, and every coil comes in
};

struct SheetCheck {
  std::vector<Finding> findings;   ///< by severity, walking order of the first place, key
  std::vector<CallVerdict> calls;  ///< in the order of the table
};

/// Everything the check of a sheet has to say, from its solved calls.
SheetCheck check(const sheet::Sheet& sheet, const operation::Solution& solution);

/// Units in walking order: control, indoor, outdoor, accessories; by id within a column.
std::vector<sheet::UnitId> walkingOrder(const asbuilt::AsBuilt& circuit);

/// Auxiliary heat is kept out above `auxiliaryAbove`, the compressor below `compressorBelow`, both C: true
/// when neither may run in between. Emergency heat ignores the first.
bool lockOutGap(double auxiliaryAbove, double compressorBelow);

}  // namespace ww::verify
