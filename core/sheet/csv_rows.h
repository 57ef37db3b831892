// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sheet/csv_records.h"
#include "sheet/landing_check.h"

namespace ww::sheet {

/// One conductor's row of a CSV sheet; a cell that was wrong is empty here.
struct CsvRow {
  int row = 0;
  std::string cable;  ///< empty: a jumper
  std::optional<quantity::Gauge> gauge;
  std::optional<quantity::Metres> length;
  std::optional<int> count;
  const Unit* unitA = nullptr;
  const Unit* unitB = nullptr;
  Conductor conductor;
  std::map<std::string, std::string> cells;  ///< what the cable's columns hold, for complaints
};

/// Reads the header and the rows below it of a CSV sheet whose units are known.
class CsvRows {
 public:
  CsvRows(const Sheet& sheet, LandingCheck& check, quantity::Problems& problems);

  /// One entry per row in file order; rows that lack cells are left out with a complaint.
  std::vector<CsvRow> read(const std::vector<CsvRecord>& records);

 private:
  bool header(const CsvRecord& record);
  std::optional<CsvRow> row(const CsvRecord& record);
  void cable(CsvRow& row);
  void jumper(CsvRow& row);
  void conductor(CsvRow& row);
  std::optional<quantity::Metres> length(const CsvRow& row);
  std::optional<int> count(const CsvRow& row);
  std::optional<double> number(const CsvRow& row, const std::string& column);
  const Unit* unit(const CsvRow& row, const std::string& column, bool required);
  Landing landing(const CsvRow& row, const std::string& column, const Unit* unit);
  std::string knownUnits() const;
  void complain(int row, const std::string& column, std::string key,
                std::vector<std::pair<std::string, std::string>> args);

  LandingCheck& check_;
  quantity::Problems& problems_;
  std::map<std::string, const Unit*, std::less<>> units_;
  std::vector<std::string> columns_;
};

}  // namespace ww::sheet
