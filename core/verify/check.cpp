// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/check.h"

#include <algorithm>
#include <set>

#include "operation/duty_numbers.h"
#include "verify/rules.h"

namespace ww::verify {

namespace {

/// Where the first place of a finding lies on the walk; conductors go with the unit of their End A.
size_t walkIndex(const Inspection& in, const Finding& finding) {
  if (finding.places.empty()) return 0;
  const Place& place = finding.places.front();
  auto unit = place.unit;
  if (unit == sheet::UnitId{})
    if (const auto* wire = in.sheet.conductors.find(place.conductor))
      unit = unitOfEnd(in.sheet, *wire, place.end != 'B').value_or(unit);
  return size_t(std::find(in.order.begin(), in.order.end(), unit) - in.order.begin());
}

/// What the calls show.
void callRules(const Inspection& in, const std::vector<CallVerdict>& verdicts) {
  dutyRules(in, verdicts);
  supplyRules(in);
  coilRules(in);
  endRules(in);
}

std::vector<CallVerdict> verdictsOf(const operation::Solution& solution) {
  std::vector<CallVerdict> verdicts;
  for (size_t i = 0; i < solution.table.size(); ++i)
    verdicts.push_back(verdictOf(solution.table[i], solution.calls[i].result));
  return verdicts;
}

/// Where nobody knows whether a common is bonded to metal, the worse of both is told: what the calls show
/// with the bonds besides what they show without.
void addIfBonded(const Inspection& in) {
  const operation::Solution bonded = in.solution.bonded();
  if (bonded.calls.empty()) return;
  std::vector<Finding> findings;
  callRules({in.sheet, bonded, in.circuit, in.standing, in.order, findings}, verdictsOf(bonded));
  std::set<std::string> told;
  for (const Finding& finding : in.findings) told.insert(keyOf(finding));
  for (Finding& finding : findings) {
    if (told.contains(keyOf(finding))) continue;
    finding.arguments.push_back({"bond", Word{"unknown"}});
    in.findings.push_back(std::move(finding));
  }
}

}  // namespace

Place atUnit(sheet::UnitId unit, std::string call) {
  Place place;
  place.unit = unit;
  place.call = std::move(call);
  return place;
}

Place atTerminal(const sheet::TerminalRef& terminal, std::string call) {
  Place place = atUnit(terminal.unit, std::move(call));
  place.terminal = terminal.terminal;
  return place;
}

Place atPart(sheet::UnitId unit, std::string part, std::string call) {
  Place place = atUnit(unit, std::move(call));
  place.part = std::move(part);
  return place;
}

Place atConductor(sheet::ConductorId conductor, char end) {
  Place place;
  place.conductor = conductor;
  place.end = end;
  return place;
}

void Inspection::add(std::string rule, std::vector<Place> places, std::vector<Argument> arguments) const {
  const Severity severity = severityOf(rule);
  findings.push_back({std::move(rule), severity, std::move(places), std::move(arguments)});
}

sheet::UnitId Inspection::unitOffering(std::string_view duty) const {
  for (const auto id : order) {
    const int unit = circuit.unitIndex(id);
    for (const auto& entry : circuit.units[size_t(unit)].profile->duties)
      if (operation::numberedDuty(circuit, unit, entry.name) == duty) return id;
  }
  return {};
}

std::vector<sheet::UnitId> walkingOrder(const asbuilt::AsBuilt& circuit) {
  std::vector<std::pair<equipment::Column, sheet::UnitId>> sorted;
  for (const auto& unit : circuit.units) sorted.emplace_back(unit.profile->column, unit.id);
  std::sort(sorted.begin(), sorted.end());
  std::vector<sheet::UnitId> order;
  order.reserve(sorted.size());
  for (const auto& [column, id] : sorted) order.push_back(id);
  return order;
}

SheetCheck check(const sheet::Sheet& sheet, const operation::Solution& solution) {
  SheetCheck result{{}, verdictsOf(solution)};
  const asbuilt::AsBuilt& circuit = *solution.circuit;
  const Standing standing = standingOf(circuit);
  const Inspection in{sheet, solution, circuit, standing, walkingOrder(circuit), result.findings};
  callRules(in, result.calls);
  commonRules(in);
  fitRules(in);
  airRules(in);
  shareRules(in);
  landingRules(in);
  safetyRules(in);
  addIfBonded(in);
  std::stable_sort(result.findings.begin(), result.findings.end(), [&](const Finding& a, const Finding& b) {
    if (a.severity != b.severity) return a.severity > b.severity;
    const size_t walkA = walkIndex(in, a);
    const size_t walkB = walkIndex(in, b);
    return walkA != walkB ? walkA < walkB : keyOf(a) < keyOf(b);
  });
  return result;
}

}  // namespace ww::verify
