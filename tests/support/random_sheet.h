// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <random>
#include <string>
#include <vector>

#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::testing {

/// Draws whole sheets that a reader must accept: any units of a library, cables of any kind between them,
/// ends on terminals, splices, capped and loose, jumpers, and texts as awkward as a reader allows. The ids
/// run as reading a spreadsheet counts them: units, then each cable with its conductors, then jumpers. The
/// same generator state gives the same sheet everywhere.
class RandomSheets {
 public:
  RandomSheets(const equipment::Library& library, unsigned seed) : library_(library), random_(seed) {}

  sheet::Sheet next() {
    sheet::Sheet sheet;
    units(sheet);
    for (size_t count = below(5); count > 0 && sheet.units.size() > 1; --count) cable(sheet);
    for (size_t count = below(4); count > 0; --count) jumper(sheet);
    settings(sheet);
    return sheet;
  }

 private:
  size_t below(size_t limit) { return random_() % limit; }
  bool oneIn(size_t times) { return below(times) == 0; }

  /// Free text as people and spreadsheets write it, line breaks and quotes included.
  std::string words() {
    static const std::vector<std::string> kPieces{
        "hall",  " ", ",", ";",        "\"",           "\n", "\r\n", "=1+1", "-",
        "#unit", "*", "/", "\xC3\xB1", "\xE2\x82\xAC", "'",  "0x",   ".",    "\t"};
    std::string text;
    for (size_t count = below(6); count > 0; --count) text += kPieces[below(kPieces.size())];
    return text;
  }

  std::string name() {
    static const std::vector<std::string> kPieces{"S", "1", " ",        "/", "\"", ",",
                                                  ";", "=", "\xC3\xB3", "*", "#"};
    std::string text = "n";
    for (size_t count = below(5); count > 0; --count) text += kPieces[below(kPieces.size())];
    return text + std::to_string(below(100));
  }

  void units(sheet::Sheet& sheet) {
    std::vector<std::string> profiles;
    for (const auto& [id, profile] : library_.profiles) profiles.push_back(id);
    for (size_t i = 0, count = 1 + below(4); i < count; ++i) {
      sheet::Unit unit;
      unit.tag = std::string(1, static_cast<char>('A' + i)) + (oneIn(3) ? "\xC3\xA9=1" : "");
      unit.profile = profiles[below(profiles.size())];
      unit.label = words();
      unit.place = words();
      for (size_t fields = below(3); fields > 0; --fields) unit.nameplate[name()] = words();
      sheet.addUnit(unit);
    }
  }

  const sheet::Unit& anyUnit(const sheet::Sheet& sheet) {
    return sheet.units.rows()[below(sheet.units.size())];
  }

  sheet::Landing landing(const sheet::Unit& unit) {
    const auto& terminals = library_.find(unit.profile)->terminals;
    switch (below(6)) {
      case 0: return sheet::Loose{};
      case 1: return sheet::Capped{};
      case 2: return sheet::Splice{unit.id, name()};
      default: return sheet::TerminalRef{unit.id, terminals[below(terminals.size())].id};
    }
  }

  sheet::Conductor conductor(const sheet::Unit& a, const sheet::Unit& b) {
    sheet::Conductor wire;
    wire.colour.body = static_cast<sheet::Insulation>(below(13));
    if (oneIn(3)) wire.colour.tracer = static_cast<sheet::Insulation>(below(13));
    wire.endA = landing(a);
    wire.endB = landing(b);
    wire.remark = words();
    return wire;
  }

  void cable(sheet::Sheet& sheet) {
    const sheet::Unit a = anyUnit(sheet), b = anyUnit(sheet);
    if (a.id == b.id) return;
    sheet::Cable cable;
    cable.name = name();
    if (sheet.cableByName(cable.name)) return;
    const bool metric = oneIn(3);
    cable.gauge = {metric ? quantity::Gauge::System::squareMillimetres : quantity::Gauge::System::awg,
                   metric ? 0.1 + static_cast<double>(below(90)) / 10 : 10 + static_cast<double>(below(21))};
    cable.length =
        quantity::Metres((1 + static_cast<double>(below(1'000'000))) / (oneIn(2) ? 1000.0 : 1999.0));
    cable.endA = a.id;
    cable.endB = b.id;
    const sheet::CableId id = sheet.addCable(cable);
    for (size_t count = below(6); count > 0; --count) {
      sheet::Conductor wire = conductor(a, b);
      wire.cable = id;
      sheet.addConductor(wire);
    }
  }

  void jumper(sheet::Sheet& sheet) {
    const sheet::Unit& unit = anyUnit(sheet);
    sheet.addConductor(conductor(unit, unit));
  }

  void settings(sheet::Sheet& sheet) {
    if (oneIn(2)) sheet.settings.set("lineVolts", std::to_string(50 + below(551)));
    if (oneIn(2)) sheet.settings.set("lineFrequency", oneIn(2) ? "50" : "60");
    for (const sheet::Unit& unit : sheet.units)
      for (const auto& setting : library_.find(unit.profile)->settings)
        if (oneIn(2))
          sheet.settings.set(
              unit.tag + "." + setting.key,
              setting.choices.empty() ? setting.standard : setting.choices[below(setting.choices.size())]);
  }

  const equipment::Library& library_;
  std::mt19937 random_;
};

}  // namespace ww::testing
