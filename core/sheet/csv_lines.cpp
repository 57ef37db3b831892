// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/csv_lines.h"

#include <algorithm>

#include "quantity/json.h"
#include "quantity/text.h"

namespace ww::sheet {

namespace {

using quantity::trimmed;

std::string cellOf(const CsvRecord& record, size_t index) {
  return index < record.cells.size() ? record.cells[index] : std::string();
}

std::string trimmedCell(const CsvRecord& record, size_t index) {
  return std::string(trimmed(cellOf(record, index)));
}

/// Cells up to the last one that holds something: spreadsheets fill all rows up to the widest.
size_t filledCells(const CsvRecord& record) {
  size_t count = record.cells.size();
  while (count > 0 && trimmed(record.cells[count - 1]).empty()) --count;
  return record.cellCount > record.cells.size() ? record.cellCount : count;
}

}  // namespace

std::string placeOf(int row, const std::string& column) {
  const std::string place = "row " + std::to_string(row);
  return column.empty() ? place : place + ", " + column;
}

bool CsvLines::isLine(const CsvRecord& record) { return trimmed(record.cells.front()).starts_with('#'); }

void CsvLines::read(const std::vector<CsvRecord>& records, Sheet& sheet) {
  const auto each = [&](std::string_view line, auto&& take) {
    for (const CsvRecord& record : records)
      if (isLine(record) && trimmed(record.cells.front()) == line && !enough(problems_)) take(record);
  };
  for (const CsvRecord& record : records) {
    if (!isLine(record) || enough(problems_)) continue;
    const std::string line = trimmedCell(record, 0);
    if (line != "#unit" && line != "#nameplate" && line != "#set")
      complain(record, "", "unknown-line", {{"line", line}, {"known", "#unit, #nameplate, #set"}});
    for (const std::string& cell : record.cells)
      if (cell.size() > quantity::kMaxJsonText)
        complain(record, "", "text-too-long",
                 {{"bytes", std::to_string(cell.size())}, {"limit", std::to_string(quantity::kMaxJsonText)}});
  }
  each("#unit", [&](const CsvRecord& record) { unit(record); });
  if (units_.size() > kMostUnits)
    problems_.push_back({"",
                         "too-many-units",
                         {{"count", std::to_string(units_.size())}, {"limit", std::to_string(kMostUnits)}}});
  each("#nameplate", [&](const CsvRecord& record) { nameplate(record); });
  sheet.nextId = static_cast<int>(units_.size()) + 1;
  sheet.units = Table<Unit>(std::move(units_));
  each("#set", [&](const CsvRecord& record) { setting(record, sheet); });
  check_.settings(sheet, [&](const std::string& key) { return placeOf(settingRows_[key], ""); });
}

void CsvLines::unit(const CsvRecord& record) {
  if (!hasCells(record, 3, 5, "#unit,TAG,profile,label,place")) return;
  Unit unit;
  unit.id = UnitId{static_cast<int>(units_.size()) + 1};
  unit.tag = trimmedCell(record, 1);
  unit.profile = trimmedCell(record, 2);
  unit.label = cellOf(record, 3);
  unit.place = cellOf(record, 4);
  check_.unit(unit, placeOf(record.row, "tag"), placeOf(record.row, "profile"));
  units_.push_back(std::move(unit));
}

void CsvLines::nameplate(const CsvRecord& record) {
  if (!hasCells(record, 3, 4, "#nameplate,TAG,field,text")) return;
  const std::string tag = trimmedCell(record, 1), field = trimmedCell(record, 2);
  const auto unit = std::ranges::find(units_, tag, &Unit::tag);
  if (unit == units_.end()) {
    std::vector<std::string> known;
    for (const Unit& candidate : units_) known.push_back(candidate.tag);
    return complain(record, "tag", "unit-not-there", {{"unit", tag}, {"known", quantity::joined(known)}});
  }
  check_.name(field, placeOf(record.row, "field"));
  if (!unit->nameplate.emplace(field, cellOf(record, 3)).second)
    complain(record, "field", "nameplate-doubled", {{"field", field}});
}

void CsvLines::setting(const CsvRecord& record, Sheet& sheet) {
  if (!hasCells(record, 3, 3, "#set,key,value")) return;
  const std::string key = trimmedCell(record, 1);
  if (!settingRows_.emplace(key, record.row).second)
    return complain(record, "key", "setting-doubled", {{"setting", key}});
  sheet.settings.set(key, trimmedCell(record, 2));
}

bool CsvLines::hasCells(const CsvRecord& record, size_t least, size_t most, const std::string& wanted) {
  const size_t filled = filledCells(record);
  if (filled >= least && filled <= most) return true;
  complain(record, "", "line-cells", {{"line", trimmedCell(record, 0)}, {"wanted", wanted}});
  return false;
}

void CsvLines::complain(const CsvRecord& record, const std::string& column, std::string key,
                        std::vector<std::pair<std::string, std::string>> args) {
  problems_.push_back({placeOf(record.row, column), std::move(key), std::move(args)});
}

}  // namespace ww::sheet
