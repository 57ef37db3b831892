// SPDX-License-Identifier: GPL-3.0-or-later
// Hot-water coils with a pump and a blower of their own: air before there is heat, a pump that runs on
// without water.
#include <algorithm>

#include "operation/machine.h"
#include "verify/rules.h"
#include "verify/why.h"

namespace ww::verify {

namespace {

bool isWaterCoil(const equipment::Profile& profile) {
  return profile.offers("pump") && profile.offers("blower");
}

/// A heating call in which the unit's pump runs; where it does not, that is the finding.
bool pumps(const operation::SolvedCall& call, sheet::UnitId unit) {
  const auto& duties = call.result.duties;
  return operation::partsOf(call.result.call).call.starts_with("heat") &&
         std::any_of(duties.begin(), duties.end(),
                     [&](const auto& duty) { return duty.unit == unit && duty.duty == "pump"; });
}

/// A contact that closes by what it senses, and lets the blower wait for the water.
bool senses(const equipment::Element& element) {
  const auto* contact = std::get_if<equipment::ContactPart>(&element.part);
  return contact != nullptr && !contact->safety && contact->operating.si() > 0;
}

/// When the first of these elements of a unit turned on in a call.
template <class Is>
std::optional<operation::Millis> firstOn(const operation::SolvedCall& call, int unit, Is&& is) {
  for (const auto& event : call.events)
    if (event.on && event.unit == unit && is(event.name)) return event.at;
  return std::nullopt;
}

/// The blower starts before the coil is hot.
void coldAir(const Inspection& in, int unit) {
  const auto& placed = in.circuit.units[size_t(unit)];
  const auto& elements = placed.profile->elements;
  if (std::none_of(elements.begin(), elements.end(), senses)) return;
  const auto blowers = driverNames(*placed.profile, "blower");
  for (const auto& call : in.solution.calls) {
    if (!pumps(call, placed.id)) continue;
    const auto starts = firstOn(call, unit, [&](const std::string& name) { return blowers.contains(name); });
    const auto hot = firstOn(call, unit, [&](const std::string& name) {
      const auto* element = placed.profile->element(name);
      return element != nullptr && senses(*element);
    });
    if (!starts || (hot && *hot <= *starts)) continue;
    std::vector<Argument> arguments{{"call", CallName{call.result.call}}, {"runs", DutyList{{"blower"}}}};
    if (hot) arguments.push_back({"seconds", quantity::Seconds(double(*hot - *starts) / 1000)});
    in.add("duty-early", {atUnit(placed.id, call.result.call)}, std::move(arguments));
    return;
  }
}

/// What of a unit runs at the end of a call while one of its facts holds.
std::vector<std::string> runsWith(const asbuilt::AsBuilt& circuit, int unit, const std::string& fact,
                                  const std::string& call) {
  const auto& placed = circuit.units[size_t(unit)];
  operation::Facts facts;
  facts.world[{placed.id, fact}] = true;
  operation::Machine machine(circuit);
  machine.powerUp(facts);
  facts.call = call;
  machine.run(facts);
  std::vector<std::string> names;
  for (const auto& [where, duty] : machine.runningDuties())
    if (where == unit) names.push_back(placed.profile->duties[size_t(duty)].name);
  return names;
}

bool has(const std::vector<std::string>& names, const char* name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// A cut-off of the unit that stops its blower and leaves its pump running.
void dryPump(const Inspection& in, int unit) {
  const auto& placed = in.circuit.units[size_t(unit)];
  const auto call = std::find_if(in.solution.calls.begin(), in.solution.calls.end(),
                                 [&](const auto& each) { return pumps(each, placed.id); });
  if (call == in.solution.calls.end()) return;
  for (const auto& [fact, standard] : placed.profile->world) {
    if (standard || !fact.ends_with("Open")) continue;
    const std::string part = fact.substr(0, fact.size() - 4);
    const auto* element = placed.profile->element(part);
    const auto* contact = element == nullptr ? nullptr : std::get_if<equipment::ContactPart>(&element->part);
    if (contact == nullptr || !contact->safety) continue;
    const auto runs = runsWith(in.circuit, unit, fact, call->result.call);
    if (has(runs, "pump") && !has(runs, "blower"))
      in.add("safety-misplaced", {atPart(placed.id, part)}, {{"runs", DutyList{{"pump"}}}});
  }
}

}  // namespace

void waterRules(const Inspection& in) {
  for (size_t unit = 0; unit < in.circuit.units.size(); ++unit) {
    if (!isWaterCoil(*in.circuit.units[unit].profile)) continue;
    coldAir(in, int(unit));
    dryPump(in, int(unit));
  }
}

}  // namespace ww::verify
