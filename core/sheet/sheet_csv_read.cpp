// SPDX-License-Identifier: GPL-3.0-or-later
#include "quantity/text.h"
#include "sheet/csv_lines.h"
#include "sheet/csv_rows.h"
#include "sheet/sheet_csv.h"

namespace ww::sheet {

namespace {

/// Rows of one cable, first row first.
using Run = std::vector<CsvRow*>;

/// Cables in the order of their first rows.
std::vector<Run> runsOf(std::vector<CsvRow>& rows) {
  std::vector<Run> runs;
  std::map<std::string, size_t> runOf;
  for (CsvRow& row : rows) {
    if (row.cable.empty()) continue;
    const auto [at, isNew] = runOf.emplace(row.cable, runs.size());
    if (isNew) runs.emplace_back();
    runs[at->second].push_back(&row);
  }
  return runs;
}

void contradict(const CsvRow& first, const CsvRow& row, const std::string& column,
                quantity::Problems& problems) {
  const auto shown = [&](const CsvRow& from) {
    const std::string& text = from.cells.at(column);
    return column == "length" ? text + " " + from.cells.at("unit") : text;
  };
  problems.push_back({placeOf(row.row, column),
                      "cable-contradicts",
                      {{"cable", row.cable},
                       {"column", column},
                       {"first_row", std::to_string(first.row)},
                       {"first", shown(first)},
                       {"found", shown(row)}}});
}

/// Every row of a cable says the same of it, and there are as many as it has conductors.
void checkRun(const Run& run, quantity::Problems& problems) {
  const CsvRow& first = *run.front();
  const auto differ = [](const auto& a, const auto& b) { return a && b && *a != *b; };
  for (const CsvRow* row : run) {
    if (enough(problems)) return;
    if (differ(first.gauge, row->gauge)) contradict(first, *row, "gauge", problems);
    if (differ(first.count, row->count)) contradict(first, *row, "count", problems);
    if (differ(first.length, row->length)) contradict(first, *row, "length", problems);
    if (first.unitA && row->unitA && first.unitA != row->unitA)
      contradict(first, *row, "end_a_unit", problems);
    if (first.unitB && row->unitB && first.unitB != row->unitB)
      contradict(first, *row, "end_b_unit", problems);
  }
  const int rows = first.count == 0 && run.size() == 1 ? 0 : static_cast<int>(run.size());
  if (first.count && *first.count != rows)
    problems.push_back(
        {placeOf(first.row, "count"),
         "count-mismatch",
         {{"cable", first.cable}, {"count", std::to_string(*first.count)}, {"rows", std::to_string(rows)}}});
}

/// The tables of a sheet from rows that were found good.
void fill(Sheet& sheet, std::vector<CsvRow>& rows, const std::vector<Run>& runs) {
  std::vector<Cable> cables;
  std::vector<Conductor> conductors;
  const auto add = [&](CsvRow& row, std::optional<CableId> cable) {
    row.conductor.id = ConductorId{sheet.nextId++};
    row.conductor.cable = cable;
    conductors.push_back(std::move(row.conductor));
  };
  for (const Run& run : runs) {
    const CsvRow& first = *run.front();
    const CableId id{sheet.nextId++};
    cables.push_back({id, first.cable, *first.gauge, *first.length, first.unitA->id, first.unitB->id});
    if (*first.count == 0) continue;
    for (CsvRow* row : run) add(*row, id);
  }
  for (CsvRow& row : rows)
    if (row.cable.empty()) add(row, std::nullopt);
  sheet.cables = Table<Cable>(std::move(cables));
  sheet.conductors = Table<Conductor>(std::move(conductors));
}

}  // namespace

quantity::Loaded<Sheet> readCsv(std::string_view text, const equipment::Library& library) {
  auto records = csvRecords(text, kMostSheetBytes, kMostRows);
  if (!records) return quantity::Loaded<Sheet>::failed(std::move(records.problems));
  if (records.value->empty()) return quantity::Loaded<Sheet>::failed({{"", "csv-empty", {}}});

  quantity::Problems problems;
  LandingCheck check(library, problems);
  Sheet sheet;
  CsvLines(check, problems).read(*records.value, sheet);
  auto rows = CsvRows(sheet, check, problems).read(*records.value);
  const auto runs = runsOf(rows);
  for (const Run& run : runs) checkRun(run, problems);
  if (!problems.empty()) return quantity::Loaded<Sheet>::failed(std::move(problems));
  fill(sheet, rows, runs);
  return quantity::Loaded<Sheet>::ok(std::move(sheet));
}

}  // namespace ww::sheet
