// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

#include "equipment/profile.h"
#include "quantity/loaded.h"
#include "sheet/sheet.h"

namespace ww::sheet {

inline constexpr std::string_view kSheetFormat = "wirewright-sheet";
inline constexpr int kSheetVersion = 1;

/// Reads a sheet from a parsed JSON object that stands at `pointer` in its file:
///
///     { "units":      [{"id": 1, "tag": "T", "profile": "...", "label": "", "place": "", "nameplate": {}}],
///       "cables":     [{"id": 3, "name": "1", "gauge": "18", "metres": 15, "endA": 1, "endB": 2}],
///       "conductors": [{"id": 4, "cable": 3, "colour": "RD", "endA": {"unit": 1, "terminal": "R"},
///                       "endB": {"unit": 2, "splice": "S1"}, "remark": ""},
///                      {"id": 5, "cable": 3, "colour": "WH/RD", "endA": "loose", "endB": "capped"}],
///       "settings": {"fanWithHeat": "equipment"}, "nextId": 6 }
///
/// label, place, nameplate, remark, settings and nextId may be absent; a conductor without `cable` is a
/// jumper. Ids are kept. All problems found, `where` a JSON pointer. Keys: those of quantity::Fields and
/// LandingCheck, "id-doubled" {id}, "next-id-too-low" {next, least}, "cable-doubled" {cable}, "bad-gauge"
/// {gauge}, "unknown-colour" {colour, known}, "cable-not-there" {cable}, "unit-not-there" {unit, known},
/// "landing-off-cable" {cable, unit, wanted}, "bad-landing" {known}.
quantity::Loaded<Sheet> readSheet(const nlohmann::json& value, const std::string& pointer,
                                  const equipment::Library& library);

/// The object that readSheet() reads back equal.
nlohmann::json writeSheet(const Sheet& sheet);

/// A file of its own: the same object with "format" and "version". Further keys: those of
/// quantity::parseJson(), "wrong-format" {found, known}, "newer-version" {version, known}.
quantity::Loaded<Sheet> readSheetFile(std::string_view text, const equipment::Library& library);
/// Canonical bytes of such a file.
std::string writeSheetFile(const Sheet& sheet);

/// Says "wrong-format" or "newer-version" when a file's head is not this one; then nothing else of it is
/// looked at. A version below 1 or none is "out-of-range", "wrong-type" or "missing-member".
quantity::Problems headProblems(const nlohmann::json& file, std::string_view format, int version);

}  // namespace ww::sheet
