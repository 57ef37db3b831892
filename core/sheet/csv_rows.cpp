// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/csv_rows.h"

#include <algorithm>
#include <cctype>

#include "quantity/json.h"
#include "quantity/text.h"
#include "sheet/csv_lines.h"

namespace ww::sheet {

namespace {

using quantity::joined;
using quantity::trimmed;

const std::vector<std::string> kColumns{"cable",      "gauge", "count",      "length", "unit",  "colour",
                                        "end_a_unit", "end_a", "end_b_unit", "end_b",  "remark"};
std::string columnName(std::string_view cell) {
  std::string name(trimmed(cell));
  std::ranges::transform(name, name.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return name;
}

bool isColumn(const std::string& name) { return std::ranges::find(kColumns, name) != kColumns.end(); }

}  // namespace

CsvRows::CsvRows(const Sheet& sheet, LandingCheck& check, quantity::Problems& problems)
    : check_(check), problems_(problems) {
  for (const Unit& unit : sheet.units) units_.emplace(unit.tag, &unit);
}

std::vector<CsvRow> CsvRows::read(const std::vector<CsvRecord>& records) {
  std::vector<CsvRow> rows;
  bool headerSeen = false;
  for (const CsvRecord& record : records) {
    if (CsvLines::isLine(record)) continue;
    if (enough(problems_)) return rows;
    if (headerSeen) {
      if (auto row = this->row(record)) rows.push_back(std::move(*row));
    } else if (header(record)) {
      headerSeen = true;
    } else {
      return rows;
    }
  }
  if (!headerSeen) problems_.push_back({"", "header-missing", {{"columns", joined(kColumns)}}});
  return rows;
}

bool CsvRows::header(const CsvRecord& record) {
  const size_t before = problems_.size();
  for (const std::string& cell : record.cells) columns_.push_back(columnName(cell));
  while (!columns_.empty() && columns_.back().empty()) columns_.pop_back();
  if (std::ranges::none_of(columns_, isColumn)) {
    complain(record.row, "", "header-missing", {{"columns", joined(kColumns)}});
    return false;
  }
  for (const std::string& name : columns_)
    if (!isColumn(name))
      complain(record.row, "", "column-unknown", {{"column", name}, {"known", joined(kColumns)}});
  for (const std::string& name : kColumns) {
    const auto times = std::ranges::count(columns_, name);
    if (times > 1) complain(record.row, "", "column-doubled", {{"column", name}});
    if (times == 0 && name != "remark") complain(record.row, "", "column-missing", {{"column", name}});
  }
  return problems_.size() == before;
}

std::optional<CsvRow> CsvRows::row(const CsvRecord& record) {
  const auto cellProblem = [&](std::string key) {
    complain(record.row, "", std::move(key),
             {{"cells", std::to_string(record.cellCount)}, {"columns", std::to_string(columns_.size())}});
    return std::nullopt;
  };
  if (record.cellCount < columns_.size()) return cellProblem("row-too-short");
  for (size_t i = columns_.size(); i < record.cells.size(); ++i)
    if (!trimmed(record.cells[i]).empty()) return cellProblem("row-too-long");

  CsvRow row;
  row.row = record.row;
  for (size_t i = 0; i < columns_.size(); ++i) {
    const std::string& cell = record.cells[i];
    if (cell.size() > quantity::kMaxJsonText)
      complain(row.row, columns_[i], "text-too-long",
               {{"bytes", std::to_string(cell.size())}, {"limit", std::to_string(quantity::kMaxJsonText)}});
    row.cells[columns_[i]] = columns_[i] == "remark" ? cell : std::string(trimmed(cell));
  }
  row.cable = row.cells["cable"];
  if (row.cable.empty())
    jumper(row);
  else
    cable(row);
  return row;
}

void CsvRows::cable(CsvRow& row) {
  check_.name(row.cable, placeOf(row.row, "cable"));
  row.gauge = quantity::parseGauge(row.cells["gauge"]);
  if (!row.gauge) complain(row.row, "gauge", "bad-gauge", {{"gauge", row.cells["gauge"]}});
  row.count = count(row);
  row.length = length(row);
  row.unitA = unit(row, "end_a_unit", true);
  row.unitB = unit(row, "end_b_unit", true);
  if (row.unitA && row.unitB)
    check_.cableEnds(row.cable, *row.unitA, *row.unitB, placeOf(row.row, "end_b_unit"));
  if (row.count != 0) return conductor(row);
  for (const auto* column : {"colour", "end_a", "end_b", "remark"})
    if (!row.cells[column].empty())
      complain(row.row, column, "empty-cable-with-conductor", {{"cable", row.cable}});
}

void CsvRows::jumper(CsvRow& row) {
  for (const auto* column : {"gauge", "count", "length", "unit"})
    if (!row.cells[column].empty())
      complain(row.row, column, "jumper-with-cable-figures", {{"column", column}});
  const auto lands = [&](const char* column) {
    return !row.cells[column].empty() && row.cells[column] != "*";
  };
  row.unitA = unit(row, "end_a_unit", lands("end_a"));
  row.unitB = unit(row, "end_b_unit", lands("end_b"));
  if (row.unitA && row.unitB) check_.jumper(*row.unitA, *row.unitB, placeOf(row.row, "end_b_unit"));
  conductor(row);
}

void CsvRows::conductor(CsvRow& row) {
  const std::string& text = row.cells["colour"];
  if (!text.empty()) {
    const auto colour = parseColour(text);
    if (!colour)
      complain(row.row, "colour", "unknown-colour", {{"colour", text}, {"known", std::string(kColourCodes)}});
    row.conductor.colour = colour.value_or(Colour{});
  }
  row.conductor.endA = landing(row, "end_a", row.unitA);
  row.conductor.endB = landing(row, "end_b", row.unitB);
  row.conductor.remark = row.cells["remark"];
}

std::optional<int> CsvRows::count(const CsvRow& row) {
  const auto value = number(row, "count");
  if (!value) return std::nullopt;
  if (*value >= 0 && *value <= static_cast<double>(kMostRows) && *value == static_cast<int>(*value))
    return static_cast<int>(*value);
  complain(row.row, "count", "bad-count",
           {{"count", row.cells.at("count")}, {"most", std::to_string(kMostRows)}});
  return std::nullopt;
}

std::optional<quantity::Metres> CsvRows::length(const CsvRow& row) {
  const auto value = number(row, "length");
  const std::string& unit = row.cells.at("unit");
  const auto metres = quantity::lengthOf(value.value_or(1), unit);
  if (!metres) complain(row.row, "unit", "bad-length-unit", {{"unit", unit}, {"known", "m, ft"}});
  if (!value || !metres) return std::nullopt;
  check_.length(*metres, placeOf(row.row, "length"));
  return metres;
}

std::optional<double> CsvRows::number(const CsvRow& row, const std::string& column) {
  const std::string& text = row.cells.at(column);
  if (const auto value = quantity::parseNumber(text)) return value;
  std::string point = text;
  std::ranges::replace(point, ',', '.');
  if (point != text && quantity::parseNumber(point))
    complain(row.row, column, "decimal-comma", {{"text", text}, {"wanted", point}});
  else
    complain(row.row, column, "bad-number", {{"text", text}});
  return std::nullopt;
}

const Unit* CsvRows::unit(const CsvRow& row, const std::string& column, bool required) {
  const std::string& tag = row.cells.at(column);
  const auto found = units_.find(tag);
  if (found != units_.end()) return found->second;
  if (!tag.empty())
    complain(row.row, column, "unit-not-there", {{"unit", tag}, {"known", knownUnits()}});
  else if (required)
    complain(row.row, column, "unit-missing", {{"known", knownUnits()}});
  return nullptr;
}

Landing CsvRows::landing(const CsvRow& row, const std::string& column, const Unit* unit) {
  const std::string& text = row.cells.at(column);
  if (text.empty()) return Loose{};
  if (text == "*") return Capped{};
  if (!unit) return Loose{};  // complained about already
  if (text.front() == '/') {
    check_.name(text.substr(1), placeOf(row.row, column));
    return Splice{unit->id, text.substr(1)};
  }
  check_.terminal(*unit, text, placeOf(row.row, column));
  return TerminalRef{unit->id, text};
}

std::string CsvRows::knownUnits() const {
  std::vector<std::string> known;
  for (const auto& [tag, unit] : units_) known.push_back(tag);
  return joined(known);
}

void CsvRows::complain(int row, const std::string& column, std::string key,
                       std::vector<std::pair<std::string, std::string>> args) {
  problems_.push_back({placeOf(row, column), std::move(key), std::move(args)});
}

}  // namespace ww::sheet
