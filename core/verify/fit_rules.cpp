// SPDX-License-Identifier: GPL-3.0-or-later
// What equipment, control and settings cannot do together: heat that nothing can give, second stages without
// a first, inputs that a jumper holds, dampers that shut the blower in, a boiler ahead of its valves.
#include <algorithm>
#include <set>

#include "equipment/demand.h"
#include "quantity/text.h"
#include "verify/forbidden.h"
#include "verify/rules.h"
#include "verify/why.h"

namespace ww::verify {

namespace {

using equipment::Kind;
using equipment::Role;

bool isHeat(std::string_view purpose) {
  return purpose == "heat1" || purpose == "heat2" || purpose == "emergency";
}

bool isHeating(std::string_view duty) {
  return duty == "burner1" || duty == "electricHeat1" || duty == "boiler" || duty == "reversingValve" ||
         duty == "pump" || duty == "zoneValve1";
}

bool offersAny(const Inspection& in, bool (*wanted)(std::string_view)) {
  return std::any_of(in.circuit.units.begin(), in.circuit.units.end(), [&](const auto& unit) {
    return std::any_of(unit.profile->duties.begin(), unit.profile->duties.end(),
                       [&](const auto& duty) { return wanted(duty.name); });
  });
}

/// The screw of another unit that a conductor joins with this one.
std::optional<sheet::TerminalRef> otherUnitAt(const Inspection& in, const sheet::TerminalRef& screw) {
  const sheet::Landing here = screw;
  for (const auto& wire : in.sheet.conductors) {
    const sheet::Landing* far = wire.endA == here ? &wire.endB : wire.endB == here ? &wire.endA : nullptr;
    if (far == nullptr) continue;
    const auto* other = std::get_if<sheet::TerminalRef>(far);
    if (other != nullptr && other->unit != screw.unit) return *other;
  }
  return std::nullopt;
}

Role roleOf(const Inspection& in, const sheet::TerminalRef& screw) {
  return in.circuit.units[size_t(in.circuit.unitIndex(screw.unit))].profile->terminal(screw.terminal)->role;
}

/// A control that calls heat of equipment that has none: an occupant will ask for it.
void heatImpossible(const Inspection& in) {
  if (in.circuit.units.size() < 2 || offersAny(in, isHeating)) return;
  for (const auto& unit : in.circuit.units) {
    if (unit.profile->kind != Kind::roomControl) continue;
    for (const auto& terminal : unit.profile->terminals) {
      if (terminal.role != Role::callOut || !isHeat(terminal.purpose)) continue;
      const sheet::TerminalRef screw{unit.id, terminal.id};
      if (const auto other = otherUnitAt(in, screw))
        in.add("heat-impossible", {atTerminal(screw), atTerminal(*other)});
    }
  }
}

/// Elements of a unit that hold a second stage and have no part in the first.
std::set<std::string> ownOf(const equipment::Profile& profile, const char* second, const char* first) {
  std::set<std::string> own = driverNames(profile, second);
  for (const std::string& shared : driverNames(profile, first)) own.erase(shared);
  return own;
}

struct Stage {
  const char *second, *first;
};
constexpr Stage kStages[] = {{"compressor2", "compressor1"}, {"burner2", "burner1"}};

bool runs(const operation::SolvedCall& call, std::string_view duty) {
  return std::any_of(call.result.duties.begin(), call.result.duties.end(),
                     [&](const auto& running) { return operation::dutyName(running.duty) == duty; });
}

/// A second stage that is called while its first does not run, or that no call ever reaches.
void stageOrphan(const Inspection& in, const asbuilt::PlacedUnit& unit, const Stage& stage) {
  if (!unit.profile->offers(stage.second)) return;
  const auto own = ownOf(*unit.profile, stage.second, stage.first);
  bool reached = false;
  for (const auto& call : in.solution.calls) {
    reached |= runs(call, stage.second);
    if (runs(call, stage.first)) continue;
    for (const Driver& driver : driversOf(in.solution, call, unit.id, stage.second)) {
      const std::string& part = in.circuit.element(in.circuit.devices[size_t(driver.device)]).id;
      if (!driver.on || !own.contains(part)) continue;
      in.add("stage-orphan", {atPart(unit.id, part, call.result.call)},
             {{"call", CallName{call.result.call}},
              {"volts", quantity::Volts(driver.volts)},
              {"second", DutyList{{stage.second}}},
              {"first", DutyList{{stage.first}}}});
      return;
    }
  }
  // A call that must run it and does not is told as that call's finding.
  const bool demanded = std::any_of(in.solution.table.begin(), in.solution.table.end(), [&](const auto& row) {
    return std::any_of(row.must.begin(), row.must.end(),
                       [&](const auto& duty) { return operation::dutyName(duty) == stage.second; });
  });
  if (!reached && !demanded && in.solution.calls.size() > 1)
    in.add("stage-orphan", {atUnit(unit.id)}, {{"second", DutyList{{stage.second}}}});
}

/// An input that a factory jumper still holds while a conductor was landed to work it.
void inputShorted(const Inspection& in) {
  const std::vector<char>& jumpers = in.standing.jumpers;
  for (size_t i = 0; i < in.circuit.devices.size(); ++i) {
    if (!jumpers[i]) continue;
    const auto& device = in.circuit.devices[i];
    const auto& element = in.circuit.element(device);
    const auto& unit = in.circuit.units[size_t(device.unit)];
    const auto* a = unit.profile->terminal(element.a);
    const auto* b = unit.profile->terminal(element.b);
    if (a == nullptr || b == nullptr) continue;
    const auto* input = a->role == Role::callIn && b->role == Role::hot   ? a
                        : b->role == Role::callIn && a->role == Role::hot ? b
                                                                          : nullptr;
    if (input == nullptr) continue;
    const sheet::TerminalRef screw{unit.id, input->id};
    const auto other = otherUnitAt(in, screw);
    if (other && roleOf(in, *other) != Role::hot)  // a hot that borrows the screw works nothing
      in.add("input-shorted", {atTerminal(screw), atPart(unit.id, element.id), atTerminal(*other)});
  }
}

/// Air with nowhere to go: the blower runs and every damper is shut.
void dampersShut(const Inspection& in) {
  const auto isDamper = [](std::string_view duty) { return duty.substr(0, 6) == "damper"; };
  if (!offersAny(in, isDamper)) return;
  for (const auto& call : in.solution.calls) {
    const bool open = std::any_of(call.result.duties.begin(), call.result.duties.end(),
                                  [&](const auto& running) { return isDamper(running.duty); });
    if (open || !runs(call, "blower")) continue;
    in.add("dampers-shut", {atUnit(in.unitOffering("blower"), call.result.call)},
           {{"call", CallName{call.result.call}}});
  }
}

/// When the first element of these kinds of unit turned on in a call; nothing when none did.
template <class Is>
std::optional<operation::Millis> firstOn(const Inspection& in, const operation::SolvedCall& call, Is&& is) {
  for (const auto& event : call.events)
    if (event.on && is(*in.circuit.units[size_t(event.unit)].profile, event.name)) return event.at;
  return std::nullopt;
}

/// A boiler that starts before any of its zone valves is open pumps and fires against shut pipes.
void boilerEarly(const Inspection& in) {
  const auto boiler = [](const equipment::Profile& profile, const std::string& name) {
    return profile.kind == Kind::boiler && driverNames(profile, "boiler").contains(name);
  };
  const auto endSwitch = [](const equipment::Profile& profile, const std::string& name) {
    const auto* element = profile.kind == Kind::zoneValve ? profile.element(name) : nullptr;
    return element != nullptr && equipment::isContact(element->part);
  };
  const bool valves = std::any_of(in.circuit.units.begin(), in.circuit.units.end(),
                                  [](const auto& unit) { return unit.profile->kind == Kind::zoneValve; });
  if (!valves) return;
  for (const auto& call : in.solution.calls) {
    const auto starts = firstOn(in, call, boiler);
    if (!starts) continue;
    const auto open = firstOn(in, call, endSwitch);
    if (open && *open <= *starts) continue;
    const sheet::UnitId unit = in.unitOffering("boiler");
    std::vector<Argument> arguments{{"call", CallName{call.result.call}}};
    if (open) arguments.push_back({"seconds", quantity::Seconds(double(*open - *starts) / 1000)});
    in.add("duty-early", {atUnit(unit, call.result.call)}, std::move(arguments));
    return;
  }
}

/// The outdoor temperature a setting stands at, C; nothing where it never locks out.
std::optional<double> lockOut(const asbuilt::PlacedUnit& unit, const char* key) {
  const auto found = unit.settings.find(key);
  return found == unit.settings.end() ? std::nullopt : quantity::parseNumber(found->second);
}

/// Weather in which neither the compressor nor the auxiliary heat of a heat pump may run.
void lockOutsApart(const Inspection& in) {
  if (!offersAny(in, [](std::string_view duty) { return duty == "reversingValve"; })) return;
  for (const auto& unit : in.circuit.units) {
    const auto above = lockOut(unit, "auxiliaryAbove"), below = lockOut(unit, "compressorBelow");
    if (above && below && lockOutGap(*above, *below))
      in.add("lock-out-gap", {atUnit(unit.id)},
             {{"above", quantity::Celsius(*above)}, {"below", quantity::Celsius(*below)}});
  }
}

/// What a compressor does with its demand no meter shows.
void demandOnly(const Inspection& in) {
  for (const auto& unit : in.circuit.units)
    if (equipment::takesDemand(*unit.profile)) in.add("demand-only", {atUnit(unit.id)});
}

/// Units that are placed only to say that this is not a circuit for this sheet.
void refused(const Inspection& in) {
  for (const auto& unit : in.circuit.units)
    if (unit.profile->kind == Kind::refused)
      in.add("refused", {atUnit(unit.id)}, {{"refusal", Word{unit.profile->refusal}}});
}

}  // namespace

bool lockOutGap(double auxiliaryAbove, double compressorBelow) { return auxiliaryAbove < compressorBelow; }

void fitRules(const Inspection& in) {
  refused(in);
  heatImpossible(in);
  for (const auto& unit : in.circuit.units)
    for (const Stage& stage : kStages) stageOrphan(in, unit, stage);
  inputShorted(in);
  dampersShut(in);
  boilerEarly(in);
  lockOutsApart(in);
  demandOnly(in);
  condensateRules(in);
  waterRules(in);
}

}  // namespace ww::verify
