// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/sheet.h"

#include <algorithm>

namespace ww::sheet {

namespace {

template <class... Cases>
struct Match : Cases... {
  using Cases::operator()...;
};
template <class... Cases>
Match(Cases...) -> Match<Cases...>;

std::string tagOf(const Sheet& sheet, UnitId id) {
  const Unit* unit = sheet.units.find(id);
  return unit ? unit->tag : "?";
}

std::optional<UnitId> unitOf(const Landing& landing) {
  if (const auto* terminal = std::get_if<TerminalRef>(&landing)) return terminal->unit;
  if (const auto* splice = std::get_if<Splice>(&landing)) return splice->unit;
  return std::nullopt;
}

}  // namespace

const Unit* Sheet::unitByTag(std::string_view tag) const {
  const auto found = std::ranges::find(units.rows(), tag, &Unit::tag);
  return found == units.end() ? nullptr : &*found;
}

const Cable* Sheet::cableByName(std::string_view name) const {
  const auto found = std::ranges::find(cables.rows(), name, &Cable::name);
  return found == cables.end() ? nullptr : &*found;
}

UnitId Sheet::addUnit(Unit unit) {
  const UnitId id{nextId++};
  unit.id = id;
  units.put(std::move(unit));
  return id;
}

CableId Sheet::addCable(Cable cable) {
  const CableId id{nextId++};
  cable.id = id;
  cables.put(std::move(cable));
  return id;
}

ConductorId Sheet::addConductor(Conductor wire) {
  const ConductorId id{nextId++};
  wire.id = id;
  conductors.put(std::move(wire));
  return id;
}

std::optional<UnitId> unitOfEnd(const Sheet& sheet, const Conductor& wire, bool endA) {
  if (const auto unit = unitOf(endA ? wire.endA : wire.endB)) return unit;
  const Cable* cable = wire.cable ? sheet.cables.find(*wire.cable) : nullptr;
  if (!cable) return std::nullopt;
  return endA ? cable->endA : cable->endB;
}

std::string print(const Sheet& sheet, const Landing& landing) {
  return std::visit(
      Match{[](const Loose&) { return std::string(); }, [](const Capped&) { return std::string("*"); },
            [&](const TerminalRef& end) { return tagOf(sheet, end.unit) + "." + end.terminal; },
            [&](const Splice& end) { return tagOf(sheet, end.unit) + "/" + end.name; }},
      landing);
}

std::vector<const Conductor*> conductorsOf(const Sheet& sheet, CableId cable) {
  std::vector<const Conductor*> found;
  for (const Conductor& wire : sheet.conductors)
    if (wire.cable == cable) found.push_back(&wire);
  return found;
}

}  // namespace ww::sheet
