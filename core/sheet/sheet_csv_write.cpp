// SPDX-License-Identifier: GPL-3.0-or-later
#include <map>

#include "quantity/text.h"
#include "sheet/csv_records.h"
#include "sheet/sheet_csv.h"

namespace ww::sheet {

namespace {

using Cells = std::vector<std::string>;

void line(std::string& text, const Cells& cells) {
  for (size_t i = 0; i < cells.size(); ++i) text += (i == 0 ? "" : ",") + csvCell(cells[i]);
  text += '\n';
}

/// A '#' line; the mark itself is not quoted, and empty cells at its end are left out.
void markedLine(std::string& text, const std::string& mark, Cells cells) {
  while (!cells.empty() && cells.back().empty()) cells.pop_back();
  text += mark + ',';
  line(text, cells);
}

std::string tagOf(const Sheet& sheet, std::optional<UnitId> id) {
  const Unit* unit = id ? sheet.units.find(*id) : nullptr;
  return unit ? unit->tag : std::string();
}

/// What stands in an end's cell; the unit has a column of its own.
std::string endCell(const Landing& landing) {
  if (const auto* terminal = std::get_if<TerminalRef>(&landing)) return terminal->terminal;
  if (const auto* splice = std::get_if<Splice>(&landing)) return "/" + splice->name;
  return std::holds_alternative<Capped>(landing) ? "*" : "";
}

Cells cableCells(const Cable& cable, size_t count) {
  return {cable.name, quantity::printGauge(cable.gauge), std::to_string(count),
          quantity::printNumber(cable.length.si()), "m"};
}

void conductorLine(std::string& text, const Sheet& sheet, Cells cells, const Conductor& wire) {
  std::string unitA = tagOf(sheet, unitOfEnd(sheet, wire, true));
  std::string unitB = tagOf(sheet, unitOfEnd(sheet, wire, false));
  if (wire.isJumper() && unitA.empty()) unitA = unitB;
  if (wire.isJumper() && unitB.empty()) unitB = unitA;
  for (std::string cell :
       {print(wire.colour), unitA, endCell(wire.endA), unitB, endCell(wire.endB), wire.remark})
    cells.push_back(std::move(cell));
  line(text, cells);
}

}  // namespace

std::string writeCsv(const Sheet& sheet) {
  std::string text;
  for (const Unit& unit : sheet.units)
    markedLine(text, "#unit", {unit.tag, unit.profile, unit.label, unit.place});
  for (const Unit& unit : sheet.units)
    for (const auto& [field, words] : unit.nameplate)
      markedLine(text, "#nameplate", {unit.tag, field, words});
  for (const auto& [key, value] : sheet.settings.all()) markedLine(text, "#set", {key, value});
  text += "cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark\n";

  std::map<CableId, std::vector<const Conductor*>> byCable;
  for (const Conductor& wire : sheet.conductors)
    if (wire.cable) byCable[*wire.cable].push_back(&wire);
  for (const Cable& cable : sheet.cables) {
    const auto& wires = byCable[cable.id];
    Cells cells = cableCells(cable, wires.size());
    for (const Conductor* wire : wires) conductorLine(text, sheet, cells, *wire);
    if (!wires.empty()) continue;
    for (std::string cell : {std::string(), tagOf(sheet, cable.endA), std::string(), tagOf(sheet, cable.endB),
                             std::string(), std::string()})
      cells.push_back(std::move(cell));
    line(text, cells);
  }
  for (const Conductor& wire : sheet.conductors)
    if (wire.isJumper()) conductorLine(text, sheet, {"", "", "", "", ""}, wire);
  return text;
}

}  // namespace ww::sheet
