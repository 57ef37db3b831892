// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "drawing/diagram.h"
#include "operation/call_result.h"
#include "operation/operation_table.h"

namespace ww::drawing {

/// atRest: drawn dimmed; liveNoCurrent: rails without chevrons; carriesCurrent: rails and chevrons.
enum class WireState { atRest, liveNoCurrent, carriesCurrent };

struct WireLook {
  sheet::ConductorId conductor{};
  WireState state = WireState::atRest;
  bool aToB = true;  ///< from hot towards common along End A -> End B; meaningful with current
  friend bool operator==(const WireLook&, const WireLook&) = default;
};

enum class DutyState { off, runs, offMustRun, runsMustNot, runsOtherSpeed };

/// One row below a unit: volts between two of its terminals, or a duty. Ids and figures; the words come from
/// the caller.
struct Row {
  enum class Kind { volts, duty } kind = Kind::volts;
  sheet::UnitId unit{};
  std::string from, to;                  ///< volts: printed terminals
  std::optional<quantity::Volts> volts;  ///< volts: nothing where the place floats
  std::string duty, speed;               ///< duty: "blower", and the speed that runs, else the speed demanded
  DutyState state = DutyState::off;
  Text label, value;  ///< placed; value.box is the pill or panel box
  friend bool operator==(const Row&, const Row&) = default;
};

/// What a solved call adds to a diagram.
struct Overlay {
  std::string call;
  std::vector<WireLook> wires;  ///< by conductor id
  std::vector<Row> rows;
  Box bounds;  ///< of the rows; united with the diagram's bounds it is the whole picture
  friend bool operator==(const Overlay&, const Overlay&) = default;

  const WireLook* look(sheet::ConductorId conductor) const;
};

/// The two texts of a row, in the caller's language.
struct RowWords {
  std::string label, value;
};
using SayRow = std::function<RowWords(const Row&)>;

/// Combines a solved call with what it must do, and places the rows under the columns. The demand may be null
/// (no operation table): then a duty is only off or runs.
Overlay overlay(const Diagram& diagram, const sheet::Sheet& sheet, const equipment::Library& library,
                const operation::CallResult& result, const operation::CallDemand* demand,
                const TextMeasure& measure, const SayRow& say);

}  // namespace ww::drawing
