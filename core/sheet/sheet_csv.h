// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>

#include "equipment/profile.h"
#include "quantity/loaded.h"
#include "sheet/sheet.h"

namespace ww::sheet {

/// Reads a sheet from spreadsheet text, one line per conductor:
///
///     #unit,F,furnace-1,Furnace,Closet          tag, profile, then label and place where wanted
///     #nameplate,F,serial,0042                  a field of the unit's label
///     #set,fanWithHeat,equipment
///     cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark
///     1,18,5,15,m,RD,T,R,F,R,
///
/// Columns stand in any order; only `remark` may be missing. An empty `cable` is a jumper: no gauge, count,
/// length or unit, both ends at one unit. An end is a terminal id, empty (loose), `*` (spare, capped) or
/// `/name` (splice). `count` is the number of rows the cable has; 0 stands for a cable no conductor of which
/// is recorded, whose one row has no colour and no ends. Numbers have a decimal point. Quoting and
/// separators: see csvRecords(). At most 4 MiB and 20,000 rows; texts up to 4096 bytes.
///
/// Ids are counted up: units in row order, then each cable with its conductors, then the jumpers.
/// All problems found, `where` as "row 7, end_b". Keys: those of csvRecords() and LandingCheck, "csv-empty",
/// "header-missing" {columns}, "column-missing" {column}, "column-doubled" {column}, "column-unknown"
/// {column, known}, "row-too-short" {cells, columns}, "row-too-long" {cells, columns}, "unknown-line" {line,
/// known}, "line-cells" {line, wanted}, "setting-doubled" {setting}, "nameplate-doubled" {field},
/// "unit-not-there" {unit, known}, "unit-missing" {known}, "bad-gauge" {gauge}, "bad-count" {count, most},
/// "bad-number" {text}, "decimal-comma" {text, wanted}, "bad-length-unit" {unit, known}, "unknown-colour"
/// {colour, known}, "cable-contradicts" {cable, column, first_row, first, found}, "count-mismatch" {cable,
/// count, rows}, "jumper-with-cable-figures" {column}, "empty-cable-with-conductor" {cable}, "text-too-long"
/// {bytes, limit}, "too-many-units" {count, limit}.
quantity::Loaded<Sheet> readCsv(std::string_view text, const equipment::Library& library);

/// The sheet as text that readCsv() reads back: the same sheet but for its ids. Lengths in metres, lines end
/// in LF.
std::string writeCsv(const Sheet& sheet);

}  // namespace ww::sheet
