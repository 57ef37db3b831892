// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "equipment/profile.h"
#include "quantity/loaded.h"
#include "sheet/sheet.h"

namespace ww::sheet {

/// What a new sheet of one kind of system starts with: its units and the customary cables between them.
struct SystemKind {
  struct Placed {
    std::string tag, profile;
  };
  struct Run {
    std::string from, to;  ///< tags
    quantity::Gauge gauge;
    int conductors = 0;
    quantity::Metres length;
  };
  std::string id;  ///< a letter: "A"
  equipment::Words title;
  std::vector<Placed> units;
  std::vector<Run> cables;
  /// By tag and key, "T.jumperRcRh": how such a unit is fitted in this kind of system.
  std::map<std::string, std::string> settings;
};

/// Reads kinds of system. All problems found: those of parseJson() and Fields, of LandingCheck::unit(),
/// ::length() and ::cableEnds(), "id-doubled" {id}, "missing-language" {language}, "bad-gauge" {gauge},
/// ::settings(), "unit-not-there" {unit, known}.
quantity::Loaded<std::vector<SystemKind>> readSystems(std::string_view text,
                                                      const equipment::Library& library);

/// The kinds that ship with the program, for the profiles that ship with it.
const std::vector<SystemKind>& standardSystems();

/// The sheet with the kind's units and cables added, each conductor in its customary colour and loose at both
/// ends. Tags and cable names that are taken get a number.
Sheet withSystem(Sheet sheet, const SystemKind& kind);

/// Letter of the kind of system that a sheet is: the one whose units are of the same kinds with the same
/// duties, accessories left out. Empty when it is none, or a unit is of no known profile.
std::string systemOf(const Sheet& sheet, const std::vector<SystemKind>& kinds,
                     const equipment::Library& library);

/// A tag for one more unit of a profile: the customary letter of its kind, numbered where it is taken.
std::string freeTag(const Sheet& sheet, const equipment::Profile& profile);

/// A file of resources/ as it was built into the program.
struct ShippedFile {
  std::string_view name, text;
};
const std::vector<ShippedFile>& shippedSystems();

}  // namespace ww::sheet
