// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/edits.h"

#include <algorithm>

#include "sheet/removal.h"

namespace ww::wiring {

namespace {

using sheet::Capped;
using sheet::Conductor;
using sheet::Landing;
using sheet::Loose;
using sheet::Sheet;
using sheet::TerminalRef;
using sheet::UnitId;

Edit refused(std::string why, std::vector<std::pair<std::string, std::string>> args = {}) {
  return {std::nullopt, std::move(why), std::move(args)};
}

std::optional<UnitId> unitOf(const Landing& landing) {
  if (const auto* terminal = std::get_if<TerminalRef>(&landing)) return terminal->unit;
  if (const auto* splice = std::get_if<sheet::Splice>(&landing)) return splice->unit;
  return std::nullopt;
}

std::string tagOf(const Sheet& sheet, UnitId unit) {
  const sheet::Unit* found = sheet.units.find(unit);
  return found ? found->tag : std::string("?");
}

Landing& endOf(Conductor& wire, bool atA) { return atA ? wire.endA : wire.endB; }

}  // namespace

Landing landingOf(const Sheet& sheet, EndRef end) {
  const Conductor* wire = sheet.conductors.find(end.conductor);
  if (!wire) return Loose{};
  return end.atA ? wire->endA : wire->endB;
}

std::optional<UnitId> homeOf(const Sheet& sheet, EndRef end) {
  const Conductor* wire = sheet.conductors.find(end.conductor);
  if (!wire) return std::nullopt;
  if (const sheet::Cable* cable = wire->cable ? sheet.cables.find(*wire->cable) : nullptr)
    return end.atA ? cable->endA : cable->endB;
  const auto own = unitOf(end.atA ? wire->endA : wire->endB);
  return own ? own : unitOf(end.atA ? wire->endB : wire->endA);
}

const equipment::Profile* profileAt(const Sheet& sheet, const equipment::Library& library, UnitId unit) {
  const sheet::Unit* found = sheet.units.find(unit);
  return found ? library.find(found->profile) : nullptr;
}

Edit withLanding(const Sheet& sheet, EndRef end, const Landing& landing) {
  const Conductor* found = sheet.conductors.find(end.conductor);
  if (!found) return refused("nothing-there");
  const auto home = homeOf(sheet, end), wanted = unitOf(landing);
  if (wanted && home && *wanted != *home)
    return refused("other-unit", {{"unit", tagOf(sheet, *wanted)}, {"wanted", tagOf(sheet, *home)}});
  if (found->isJumper() && !wanted) return refused("jumper-free");
  Conductor wire = *found;
  endOf(wire, end.atA) = landing;
  Sheet next = sheet;
  next.conductors.put(std::move(wire));
  return {std::move(next), {}, {}};
}

Edit withEndsSwapped(const Sheet& sheet, EndRef first, EndRef second) {
  if (homeOf(sheet, first) != homeOf(sheet, second)) return refused("swap-units");
  const Landing one = landingOf(sheet, first), other = landingOf(sheet, second);
  Edit half = withLanding(sheet, first, other);
  return half.sheet ? withLanding(*half.sheet, second, one) : half;
}

Edit withEndBAsA(const Sheet& sheet, const equipment::Library& library, sheet::ConductorId conductor) {
  const Landing from = landingOf(sheet, {conductor, true});
  if (std::holds_alternative<Capped>(from)) return withLanding(sheet, {conductor, false}, from);
  const auto* at = std::get_if<TerminalRef>(&from);
  const auto home = homeOf(sheet, {conductor, false});
  if (!at || !home) return refused("end-a-loose");
  const equipment::Profile* mine = profileAt(sheet, library, at->unit);
  const equipment::Profile* theirs = profileAt(sheet, library, *home);
  const equipment::Terminal* terminal = mine ? mine->terminal(at->terminal) : nullptr;
  const equipment::Terminal* same = theirs ? theirs->terminal(at->terminal) : nullptr;
  if (!same && theirs && terminal && !terminal->purpose.empty())
    for (const equipment::Terminal& each : theirs->terminals)
      if (!same && each.purpose == terminal->purpose) same = &each;
  if (!same) return refused("no-same", {{"terminal", at->terminal}, {"unit", tagOf(sheet, *home)}});
  return withLanding(sheet, {conductor, false}, TerminalRef{*home, same->id});
}

Edit withJumper(const Sheet& sheet, const TerminalRef& from, const TerminalRef& to) {
  if (from.unit != to.unit) return refused("jumper-units");
  if (from.terminal == to.terminal) return refused("jumper-same");
  Conductor wire;
  wire.colour = sheet::Colour{sheet::Insulation::rd, std::nullopt};
  wire.endA = from;
  wire.endB = to;
  Sheet next = sheet;
  next.addConductor(wire);
  return {std::move(next), {}, {}};
}

Sheet withUnitFreed(Sheet sheet, UnitId unit) {
  const auto wires = sheet.conductors;  // shares its rows, so it may be walked while the sheet's own change
  for (Conductor wire : wires) {
    const bool atA = unitOf(wire.endA) == unit, atB = unitOf(wire.endB) == unit;
    if (!atA && !atB) continue;
    if (wire.isJumper()) {
      sheet.conductors.erase(wire.id);
      continue;
    }
    if (atA) wire.endA = Loose{};
    if (atB) wire.endB = Loose{};
    sheet.conductors.put(std::move(wire));
  }
  return sheet;
}

bool anythingAt(const Sheet& sheet, UnitId unit) {
  return std::any_of(sheet.conductors.begin(), sheet.conductors.end(), [&](const Conductor& wire) {
    return unitOf(wire.endA) == unit || unitOf(wire.endB) == unit;
  });
}

Sheet withConductorFreed(Sheet sheet, sheet::ConductorId conductor) {
  const Conductor* found = sheet.conductors.find(conductor);
  if (!found || found->isJumper()) return sheet;
  Conductor wire = *found;
  wire.endA = wire.endB = Loose{};
  sheet.conductors.put(std::move(wire));
  return sheet;
}

Sheet withoutConductor(Sheet sheet, sheet::ConductorId conductor) {
  const Conductor* found = sheet.conductors.find(conductor);
  if (!found) return sheet;
  const auto cable = found->cable;
  sheet.conductors.erase(conductor);
  if (cable && sheet::conductorsOf(sheet, *cable).empty()) sheet.cables.erase(*cable);
  return sheet;
}

Sheet withoutCable(Sheet sheet, sheet::CableId cable) {
  const auto wires = sheet.conductors;
  for (const Conductor& wire : wires)
    if (wire.cable == cable) sheet.conductors.erase(wire.id);
  sheet.cables.erase(cable);
  return sheet;
}

std::string purposeOf(const Sheet& sheet, const equipment::Library& library, const Conductor& wire) {
  for (const Landing* end : {&wire.endA, &wire.endB}) {
    const auto* at = std::get_if<TerminalRef>(end);
    const equipment::Profile* profile = at ? profileAt(sheet, library, at->unit) : nullptr;
    const equipment::Terminal* terminal = profile ? profile->terminal(at->terminal) : nullptr;
    if (terminal && !terminal->purpose.empty()) return terminal->purpose;
  }
  const bool capped = std::holds_alternative<Capped>(wire.endA) || std::holds_alternative<Capped>(wire.endB);
  return capped && !unitOf(wire.endA) && !unitOf(wire.endB) ? "spare" : std::string();
}

std::string freeCableName(const Sheet& sheet) {
  int number = 1;
  while (sheet.cableByName(std::to_string(number))) ++number;
  return std::to_string(number);
}

std::optional<std::pair<UnitId, UnitId>> nextPair(const Sheet& sheet, const equipment::Library& library) {
  std::vector<std::pair<int, UnitId>> order;
  for (const sheet::Unit& unit : sheet.units) {
    const equipment::Profile* profile = library.find(unit.profile);
    order.emplace_back(profile ? static_cast<int>(profile->column) : 9, unit.id);
  }
  std::sort(order.begin(), order.end());
  if (order.size() < 2) return std::nullopt;
  const auto joined = [&](UnitId a, UnitId b) {
    return std::any_of(sheet.cables.begin(), sheet.cables.end(), [&](const sheet::Cable& cable) {
      return (cable.endA == a && cable.endB == b) || (cable.endA == b && cable.endB == a);
    });
  };
  for (size_t i = 0; i + 1 < order.size(); ++i)
    if (!joined(order[i].second, order[i + 1].second)) return {{order[i].second, order[i + 1].second}};
  return {{order[0].second, order[1].second}};
}

}  // namespace ww::wiring
