// SPDX-License-Identifier: GPL-3.0-or-later
// What is not asked for: fresh air that no call lets in, a second stage that is called where a board times
// it.
#include <algorithm>

#include "operation/operation_table_air.h"
#include "verify/rules.h"

namespace ww::verify {

namespace {

/// An outdoor-air damper with an occupied input on which nothing lies stays shut for ever.
void freshAirShut(const Inspection& in) {
  const int unit = operation::freshAirUnit(in.circuit);
  if (unit < 0 || in.solution.calls.size() < 2) return;
  const sheet::TerminalRef input = operation::occupiedInput(in.circuit, unit);
  if (operation::isLanded(in.circuit, input)) return;
  const bool opens = std::any_of(in.solution.calls.begin(), in.solution.calls.end(), [](const auto& call) {
    return std::any_of(call.result.duties.begin(), call.result.duties.end(),
                       [](const auto& duty) { return operation::dutyName(duty.duty) == "ventilate"; });
  });
  if (!opens) in.add("fresh-air-shut", {atTerminal(input)});
}

/// A second-stage conductor at a board that brings the stage on by its own timer changes nothing there.
void stageByBoard(const Inspection& in) {
  for (const auto& unit : in.circuit.units) {
    const auto staged = unit.settings.find("stagedBy");
    if (staged == unit.settings.end() || staged->second != "board") continue;
    for (const auto& terminal : unit.profile->terminals) {
      const sheet::TerminalRef screw{unit.id, terminal.id};
      if (terminal.purpose == "heat2" && terminal.role == equipment::Role::callIn &&
          operation::isLanded(in.circuit, screw))
        in.add("stage-by-board", {atTerminal(screw)});
    }
  }
}

}  // namespace

void airRules(const Inspection& in) {
  freshAirShut(in);
  stageByBoard(in);
}

}  // namespace ww::verify
