// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/removal.h"

namespace ww::sheet {

Sheet withoutUnit(Sheet sheet, UnitId unit) {
  const Unit* gone = sheet.units.find(unit);
  if (!gone) return sheet;
  const std::string before = gone->tag + ".";
  const auto values = sheet.settings.all();
  for (const auto& [key, value] : values)
    if (key.starts_with(before)) sheet.settings.unset(key);
  // Copies of the tables share their rows, so they may be walked while the sheet's own change.
  const auto wires = sheet.conductors;
  for (const Conductor& wire : wires) {
    const Cable* cable = wire.cable ? sheet.cables.find(*wire.cable) : nullptr;
    const bool ran = cable ? cable->endA == unit || cable->endB == unit
                           : unitOfEnd(sheet, wire, true) == unit || unitOfEnd(sheet, wire, false) == unit;
    if (ran) sheet.conductors.erase(wire.id);
  }
  const auto cables = sheet.cables;
  for (const Cable& cable : cables)
    if (cable.endA == unit || cable.endB == unit) sheet.cables.erase(cable.id);
  sheet.units.erase(unit);
  return sheet;
}

}  // namespace ww::sheet
