// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <random>

#include "equipment/profile.h"
#include "support/reference_sheets.h"

namespace ww::testing {

inline sheet::ConductorId addJumper(sheet::Sheet& sheet, sheet::UnitId unit, const std::string& from,
                                    const std::string& to) {
  sheet::Conductor wire;
  wire.colour = *sheet::parseColour("RD");
  wire.endA = sheet::TerminalRef{unit, from};
  wire.endB = sheet::TerminalRef{unit, to};
  return sheet.addConductor(wire);
}

/// Row G with OG hanging loose at the outdoor unit.
inline sheet::Sheet rowGLoose() {
  sheet::Sheet sheet = rowG();
  const std::vector<sheet::Conductor> rows = sheet.conductors.rows();  // put() replaces the table's own
  for (sheet::Conductor wire : rows)
    if (wire.cable == sheet.cableByName("2")->id && sheet::print(wire.colour) == "OG") {
      wire.endB = sheet::Loose{};
      sheet.conductors.put(wire);
    }
  return sheet;
}

/// Row A with whatever a strip may hold besides: a striped conductor, two ends on a screw, a jumper on either
/// side, a splice, an unknown colour and a capped spare.
inline sheet::Sheet rowACrowded() {
  sheet::Sheet sheet = rowA();
  std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  const sheet::UnitId control = sheet.unitByTag("T")->id, furnace = sheet.unitByTag("F")->id;
  rows[4].colour = *sheet::parseColour("WH/RD");
  rows[3].colour = {};
  rows[2].endB = sheet::TerminalRef{furnace, "G"};
  rows[5].endA = sheet::Splice{furnace, "S1"};
  for (const size_t i : {2u, 3u, 4u, 5u}) sheet.conductors.put(rows[i]);
  sheet::Conductor spare = rows[1];
  spare.colour = *sheet::parseColour("BN");
  spare.endA = spare.endB = sheet::Capped{};
  sheet.addConductor(spare);
  addJumper(sheet, control, "R", "Y");
  addJumper(sheet, furnace, "R", "W");
  return sheet;
}

/// One random edit: a move, a swap, a drop, a cap, or an extra jumper; each inside one unit.
inline void editAtRandom(sheet::Sheet& sheet, const equipment::Library& library, std::mt19937& random) {
  const auto pick = [&](size_t count) { return static_cast<size_t>(random() % count); };
  std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  sheet::Conductor wire = rows[pick(rows.size())];
  const bool atA = pick(2) == 0;
  sheet::Landing& end = atA ? wire.endA : wire.endB;
  const size_t kind = pick(6);
  const auto unit = sheet::unitOfEnd(sheet, wire, atA);
  const sheet::Unit* place = unit ? sheet.units.find(*unit) : nullptr;
  const equipment::Profile* profile = place ? library.find(place->profile) : nullptr;
  if (!profile) return;
  const auto& terminals = profile->terminals;
  if (kind <= 1) {
    end = sheet::TerminalRef{place->id, terminals[pick(terminals.size())].id};
  } else if (kind == 2) {
    sheet::Conductor other = rows[pick(rows.size())];
    sheet::Landing& theirs = sheet::unitOfEnd(sheet, other, true) == unit ? other.endA : other.endB;
    if (other.id == wire.id || other.cable != wire.cable ||
        sheet::unitOfEnd(sheet, other, &theirs == &other.endA) != unit)
      return;
    std::swap(end, theirs);
    sheet.conductors.put(other);
  } else if (kind == 3) {
    end = sheet::Loose{};
  } else if (kind == 4) {
    end = sheet::Capped{};
  } else {
    const size_t from = pick(terminals.size()),
                 to = (from + 1 + pick(terminals.size() - 1)) % terminals.size();
    addJumper(sheet, place->id, terminals[from].id, terminals[to].id);
    return;
  }
  if (wire.cable) sheet.conductors.put(wire);
}

/// Lands a random end on a random terminal of the unit at the cable's other end.
inline void strayAtRandom(sheet::Sheet& sheet, const equipment::Library& library, std::mt19937& random) {
  const std::vector<sheet::Conductor>& rows = sheet.conductors.rows();
  sheet::Conductor wire = rows[random() % rows.size()];
  const sheet::Cable* cable = wire.cable ? sheet.cables.find(*wire.cable) : nullptr;
  if (!cable) return;
  const bool atA = random() % 2 == 0;
  const sheet::Unit* unit = sheet.units.find(atA ? cable->endB : cable->endA);
  const auto& terminals = library.find(unit->profile)->terminals;
  (atA ? wire.endA : wire.endB) = sheet::TerminalRef{unit->id, terminals[random() % terminals.size()].id};
  sheet.conductors.put(wire);
}

}  // namespace ww::testing
