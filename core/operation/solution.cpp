// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/solution.h"

#include <algorithm>
#include <cmath>

#include "operation/describe.h"
#include "operation/islands.h"
#include "operation/machine.h"
#include "operation/variants.h"

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

/// The machine is left where the call ends.
SolvedCall solveCall(const asbuilt::AsBuilt& circuit, Machine& machine, const std::string& call,
                     const asbuilt::Stamp& low, Work& work) {
  const Work before = machine.work();
  SolvedCall solved;
  solved.start = machine.now();
  const RunEnd end = machine.run(factsOf(call));
  solved.result.call = call;
  solved.positions = machine.positions();
  solved.events = machine.events();
  work += machine.work().since(before);
  work += describe(circuit, machine, end, low, solved.result);
  solved.result.state = stateOf(solved.result, machine, end);
  return solved;
}

std::vector<SolvedCall> carried(const asbuilt::AsBuilt& circuit, const std::vector<std::string>& names,
                                const asbuilt::Conditions& conditions, LineRange lines, Depth depth,
                                Work& work) {
  std::vector<SolvedCall> calls;
  Machine rest(circuit, conditions);
  rest.powerUp(factsOf("rest"));
  rest.forget();
  work += rest.work();
  asbuilt::Conditions atLow = rest.conditions();  // which know the branches of bridges
  atLow.line *= lines.low;
  const asbuilt::Stamp low(circuit, atLow);
  Machine machine = rest;
  std::optional<Machine> trial;
  for (const std::string& name : names) {
    machine = rest;  // keeps the memory it has
    calls.push_back(solveCall(circuit, machine, name, low, work));
    if (depth != Depth::across) continue;
    machine.forget();
    calls.back().variants = variantsOf(circuit, rest, machine, factsOf(name), lines, trial, work);
  }
  return calls;
}

/// One bond alone joins nothing: it takes two for a way through metal.
bool bondingCanMatter(const asbuilt::AsBuilt& circuit) {
  const auto unknown = [](const asbuilt::Bonding& bonding) { return !bonding.known; };
  return circuit.bondings.size() > 1 &&
         std::any_of(circuit.bondings.begin(), circuit.bondings.end(), unknown);
}

}  // namespace

const SolvedCall* Solution::call(std::string_view name) const {
  const auto at =
      std::find_if(calls.begin(), calls.end(), [&](const SolvedCall& c) { return c.result.call == name; });
  return at == calls.end() ? nullptr : &*at;
}

const Variant* SolvedCall::at(double line) const {
  const auto found = std::find_if(variants.begin(), variants.end(),
                                  [&](const Variant& v) { return v.safety < 0 && v.line == line; });
  return found == variants.end() ? nullptr : &*found;
}

const Variant* SolvedCall::without(int safety) const {
  const auto found = std::find_if(variants.begin(), variants.end(),
                                  [&](const Variant& v) { return safety >= 0 && v.safety == safety; });
  return found == variants.end() ? nullptr : &*found;
}

Solution Solution::bonded() const {
  Solution other{circuit, table, ifBonded, lines, conditions, {}, work};
  other.conditions.unknownBonded = true;
  return other;
}

std::vector<std::string> Solution::callsThatBondingChanges() const {
  std::vector<std::string> changed;
  for (size_t i = 0; i < ifBonded.size(); ++i) {
    const CallResult& one = calls[i].result;
    const CallResult& other = ifBonded[i].result;
    if (one.state != other.state || one.duties != other.duties) changed.push_back(one.call);
  }
  return changed;
}

Solution solveCalls(std::shared_ptr<const asbuilt::AsBuilt> circuit, const asbuilt::Conditions& conditions,
                    const std::vector<std::string>& calls, LineRange lines, Depth depth) {
  Solution solution;
  solution.lines = lines;
  solution.conditions = conditions;
  solution.circuit = std::move(circuit);
  solution.calls = carried(*solution.circuit, calls, conditions, lines, depth, solution.work);
  if (!conditions.unknownBonded && bondingCanMatter(*solution.circuit)) {
    asbuilt::Conditions bonded = conditions;
    bonded.unknownBonded = true;
    solution.ifBonded = carried(*solution.circuit, calls, bonded, lines, depth, solution.work);
  }
  return solution;
}

Solution solveCircuit(std::shared_ptr<const asbuilt::AsBuilt> circuit, const asbuilt::Conditions& conditions,
                      LineRange lines, Depth depth) {
  auto table = operationTable(*circuit);
  if (table.empty()) table.push_back({"rest", {}, {}});
  std::vector<std::string> calls;
  calls.reserve(table.size());
  for (const CallDemand& demand : table) calls.push_back(demand.call);
  Solution solution = solveCalls(std::move(circuit), conditions, calls, lines, depth);
  solution.table = std::move(table);
  return solution;
}

Solution solveSheet(const sheet::Sheet& sheet, const equipment::Library& library, LineRange lines,
                    Depth depth) {
  auto circuit = std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(sheet, library));
  const auto islands = islandsOf(sheet, *circuit);
  if (islands.size() > 1) return solveIslands(islands, library, std::move(circuit), lines, depth);
  return solveCircuit(std::move(circuit), {}, lines, depth);
}

}  // namespace ww::operation
