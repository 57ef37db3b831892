// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <vector>

#include "sheet/csv_records.h"
#include "sheet/landing_check.h"

namespace ww::sheet {

/// Reads the '#' lines of a CSV sheet into its units and settings.
class CsvLines {
 public:
  CsvLines(LandingCheck& check, quantity::Problems& problems) : check_(check), problems_(problems) {}

  static bool isLine(const CsvRecord& record);

  /// All '#' lines of the file, in any order; gives `sheet` its units (ids counted up) and settings.
  void read(const std::vector<CsvRecord>& records, Sheet& sheet);

 private:
  void unit(const CsvRecord& record);
  void nameplate(const CsvRecord& record);
  void setting(const CsvRecord& record, Sheet& sheet);
  bool hasCells(const CsvRecord& record, size_t least, size_t most, const std::string& wanted);
  void complain(const CsvRecord& record, const std::string& column, std::string key,
                std::vector<std::pair<std::string, std::string>> args);

  LandingCheck& check_;
  quantity::Problems& problems_;
  std::vector<Unit> units_;
  std::map<std::string, int> settingRows_;
};

/// "row 7, end_b"; the row alone without a column.
std::string placeOf(int row, const std::string& column);

}  // namespace ww::sheet
