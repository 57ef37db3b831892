// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/solution.h"

#include <algorithm>
#include <cmath>

#include "operation/describe.h"

namespace ww::operation {

namespace {

/// The facts of a call. Outdoor states are calls too: the control answers them as its logic says.
Facts factsOf(const std::string& call) {
  Facts facts;
  facts.call = call;
  return facts;
}

CallState worst(CallState a, CallState b) { return std::max(a, b); }

CallState stateOf(const CallResult& result, const Machine& machine, RunEnd end) {
  CallState state = CallState::ok;
  for (const CoilResult& coil : result.coils) {
    if (coil.state == CoilState::late) state = worst(state, CallState::late);
    if (coil.state == CoilState::hum) state = worst(state, CallState::hum);
  }
  if (end == RunEnd::race) state = worst(state, CallState::race);
  if (end == RunEnd::chatter) state = worst(state, CallState::chatter);
  if (machine.collapsed()) state = worst(state, CallState::collapse);
  if (!result.melted.empty()) state = worst(state, CallState::fuseOpen);
  return state;
}

SolvedCall solveCall(const asbuilt::AsBuilt& circuit, Machine machine, const std::string& call,
                     LineRange lines) {
  SolvedCall solved;
  solved.start = machine.now();
  const RunEnd end = machine.run(factsOf(call));
  solved.result.call = call;
  solved.positions = machine.positions();
  solved.events = machine.events();
  describe(circuit, machine, end, lines, solved.result);
  solved.result.state = stateOf(solved.result, machine, end);
  return solved;
}

}  // namespace

const SolvedCall* Solution::call(std::string_view name) const {
  const auto at =
      std::find_if(calls.begin(), calls.end(), [&](const SolvedCall& c) { return c.result.call == name; });
  return at == calls.end() ? nullptr : &*at;
}

Solution solveSheet(const sheet::Sheet& sheet, const equipment::Library& library, LineRange lines) {
  Solution solution;
  solution.lines = lines;
  solution.circuit = std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(sheet, library));
  solution.table = operationTable(*solution.circuit);
  if (solution.table.empty()) solution.table.push_back({"rest", {}, {}});
  Machine rest(*solution.circuit);
  rest.powerUp(factsOf("rest"));
  for (const CallDemand& demand : solution.table)
    solution.calls.push_back(solveCall(*solution.circuit, rest, demand.call, lines));
  return solution;
}

}  // namespace ww::operation
