// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "quantity/loaded.h"

namespace ww::sheet {

/// One row of a spreadsheet as text; `row` counts as the spreadsheet does, from 1, blank rows included.
struct CsvRecord {
  int row = 0;
  std::vector<std::string> cells;
  size_t cellCount = 0;  ///< as in the file; cells beyond the 64th are counted, not kept
};

/// The cells of CSV text after RFC 4180: quoted cells may hold separators, doubled quotes and line ends;
/// lines end with LF, CRLF or CR. A byte-order mark is skipped. Blank rows are left out. The separator is ';'
/// when the first row that is no '#' line has one and no ',', else ','. Problems: "csv-too-large" {bytes,
/// limit}, "not-utf8" {byte}, "zero-byte" {byte}, "too-many-rows" {limit}, "quote-not-closed" and
/// "stray-quote" {cell} (cells counted from 1) at "row N".
quantity::Loaded<std::vector<CsvRecord>> csvRecords(std::string_view text, size_t maxBytes, size_t maxRows);

/// The text as a cell: quoted where a reader or a spreadsheet would otherwise take it for something else.
std::string csvCell(std::string_view text);

}  // namespace ww::sheet
