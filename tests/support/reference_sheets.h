// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "sheet/sheet.h"

/// Healthy wirings of common systems, 18 AWG, as sheets: furnace with cooling (A), electric air handler with
/// cooling (B), heat pump with electric heat (G).
namespace ww::testing {

/// One conductor: colour code, End A terminal, End B terminal; "*" is a capped spare, "" a loose end.
struct Strand {
  const char* colour;
  const char* endA;
  const char* endB;
};

inline sheet::Landing landingAt(sheet::UnitId unit, const std::string& terminal) {
  if (terminal.empty()) return sheet::Loose{};
  if (terminal == "*") return sheet::Capped{};
  if (terminal.front() == '/') return sheet::Splice{unit, terminal.substr(1)};
  return sheet::TerminalRef{unit, terminal};
}

inline sheet::CableId addCable(sheet::Sheet& sheet, const char* name, double metres, sheet::UnitId a,
                               sheet::UnitId b, const std::vector<Strand>& strands) {
  sheet::Cable cable;
  cable.name = name;
  cable.length = quantity::Metres(metres);
  cable.endA = a;
  cable.endB = b;
  const sheet::CableId id = sheet.addCable(cable);
  for (const Strand& strand : strands) {
    sheet::Conductor wire;
    wire.cable = id;
    wire.colour = sheet::parseColour(strand.colour).value_or(sheet::Colour{});
    wire.endA = landingAt(a, strand.endA);
    wire.endB = landingAt(b, strand.endB);
    sheet.addConductor(wire);
  }
  return id;
}

inline sheet::UnitId addUnit(sheet::Sheet& sheet, const char* tag, const char* profile, const char* place) {
  sheet::Unit unit;
  unit.tag = tag;
  unit.profile = profile;
  unit.place = place;
  return sheet.addUnit(unit);
}

inline sheet::Sheet rowA() {
  sheet::Sheet sheet;
  const auto t = addUnit(sheet, "T", "rc-1h1c-common", "hall");
  const auto f = addUnit(sheet, "F", "furnace-1", "closet, second floor");
  const auto o = addUnit(sheet, "O", "od-cool-1", "north side");
  sheet.settings.set("fanWithHeat", "equipment");
  addCable(sheet, "1", 15, t, f,
           {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W"}});
  addCable(sheet, "2", 12, f, o, {{"YE", "Y", "Y"}, {"BU", "C", "C"}});
  return sheet;
}

inline sheet::Sheet rowB() {
  sheet::Sheet sheet;
  const auto t = addUnit(sheet, "T", "rc-1h1c-common", "hall");
  const auto a = addUnit(sheet, "A", "ah-relay-sequencer", "attic");
  const auto o = addUnit(sheet, "O", "od-cool-1", "east side");
  addCable(sheet, "1", 12, t, a,
           {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W1"}});
  addCable(sheet, "2", 9, a, o, {{"YE", "Y", "Y"}, {"BU", "C", "C"}});
  return sheet;
}

inline sheet::Sheet rowG() {
  sheet::Sheet sheet;
  const auto t = addUnit(sheet, "T", "rc-heatpump-2", "hall");
  const auto a = addUnit(sheet, "A", "ah-board", "attic");
  const auto o = addUnit(sheet, "O", "od-heatpump-1-o", "north side");
  sheet.settings.set("rvSense", "cooling");
  sheet.settings.set("emergencyBy", "W2");
  sheet.settings.set("fanWithHeat", "equipment");
  addCable(sheet, "1", 15, t, a,
           {{"RD", "R", "R"},
            {"BU", "C", "C"},
            {"YE", "Y1", "Y1"},
            {"GN", "G", "G"},
            {"OG", "RV", "O"},
            {"WH", "W2", "W1"},
            {"BN", "*", "*"}});
  addCable(sheet, "2", 12, a, o,
           {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y1", "Y1"}, {"OG", "O", "O"}, {"WH", "W1", "W"}});
  return sheet;
}

/// Row A with the ends of YE and GN exchanged at the furnace.
inline sheet::Sheet rowASwapped() {
  sheet::Sheet sheet = rowA();
  const std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  sheet::Conductor yellow = rows[2], green = rows[3];
  std::swap(yellow.endB, green.endB);
  sheet.conductors.put(yellow);
  sheet.conductors.put(green);
  return sheet;
}

}  // namespace ww::testing
