// SPDX-License-Identifier: GPL-3.0-or-later
#include <nlohmann/json.hpp>

#include "quantity/canonical.h"
#include "sheet/sheet_json.h"

namespace ww::sheet {

namespace {

using nlohmann::json;

json toJson(const Unit& unit) {
  return {{"id", number(unit.id)}, {"tag", unit.tag},     {"profile", unit.profile},
          {"label", unit.label},   {"place", unit.place}, {"nameplate", unit.nameplate}};
}

json toJson(const Cable& cable) {
  return {{"id", number(cable.id)},
          {"name", cable.name},
          {"gauge", quantity::printGauge(cable.gauge)},
          {"metres", cable.length.si()},
          {"endA", number(cable.endA)},
          {"endB", number(cable.endB)}};
}

json toJson(const Landing& landing) {
  if (const auto* terminal = std::get_if<TerminalRef>(&landing))
    return {{"unit", number(terminal->unit)}, {"terminal", terminal->terminal}};
  if (const auto* splice = std::get_if<Splice>(&landing))
    return {{"unit", number(splice->unit)}, {"splice", splice->name}};
  return std::holds_alternative<Capped>(landing) ? "capped" : "loose";
}

json toJson(const Conductor& wire) {
  json object{{"id", number(wire.id)},
              {"colour", print(wire.colour)},
              {"endA", toJson(wire.endA)},
              {"endB", toJson(wire.endB)},
              {"remark", wire.remark}};
  if (wire.cable) object["cable"] = number(*wire.cable);
  return object;
}

template <class Row>
json rowsOf(const Table<Row>& table) {
  json rows = json::array();
  for (const Row& row : table) rows.push_back(toJson(row));
  return rows;
}

}  // namespace

json writeSheet(const Sheet& sheet) {
  return {{"units", rowsOf(sheet.units)},
          {"cables", rowsOf(sheet.cables)},
          {"conductors", rowsOf(sheet.conductors)},
          {"settings", sheet.settings.all()},
          {"nextId", sheet.nextId}};
}

std::string writeSheetFile(const Sheet& sheet) {
  json file = writeSheet(sheet);
  file["format"] = kSheetFormat;
  file["version"] = kSheetVersion;
  return quantity::canonicalText(file);
}

}  // namespace ww::sheet
