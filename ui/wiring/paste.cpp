// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/paste.h"

#include <QRegularExpression>
#include <algorithm>

#include "sheet/sheet_csv.h"
#include "wording/sentences.h"

namespace ww::wiring {

namespace {

constexpr qsizetype kMostLetters = 1 << 20;

QString bad(const wording::Language& language, const char* key, const wording::Args& args = {}) {
  return language.sentence(QStringLiteral("wiring.bad.") + QLatin1String(key), args);
}

/// The colours of a text that is nothing else; empty otherwise.
std::vector<sheet::Colour> coloursOf(const QString& text) {
  static const QRegularExpression blanks(QStringLiteral("[\\s,;]+"));
  std::vector<sheet::Colour> colours;
  for (const QString& word : text.split(blanks, Qt::SkipEmptyParts)) {
    const auto colour = sheet::parseColour(word.toStdString());
    if (!colour) return {};
    colours.push_back(*colour);
  }
  return colours;
}

/// The '#' lines that name the sheet's own units in front of rows that name none.
std::string withUnitLines(const QString& text, const sheet::Sheet& sheet) {
  std::string lines;
  if (!text.contains(QStringLiteral("#unit")))
    for (const sheet::Unit& unit : sheet.units) lines += "#unit," + unit.tag + "," + unit.profile + "\n";
  return lines + text.toStdString();
}

sheet::Landing moved(const sheet::Landing& landing, const sheet::Sheet& from, const sheet::Sheet& to) {
  const auto unit = [&](sheet::UnitId id) {
    const sheet::Unit* theirs = from.units.find(id);
    const sheet::Unit* ours = theirs ? to.unitByTag(theirs->tag) : nullptr;
    return ours ? ours->id : sheet::UnitId{};
  };
  if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing))
    return sheet::TerminalRef{unit(terminal->unit), terminal->terminal};
  if (const auto* splice = std::get_if<sheet::Splice>(&landing))
    return sheet::Splice{unit(splice->unit), splice->name};
  return landing;
}

/// Lays the rows of one sheet over another: units by tag, cables by name, conductors in order.
sheet::Sheet laidOver(sheet::Sheet onto, const sheet::Sheet& rows) {
  for (sheet::Unit unit : rows.units)
    if (!onto.unitByTag(unit.tag)) onto.addUnit(std::move(unit));
  const auto tag = [&](sheet::UnitId id) { return rows.units.find(id)->tag; };
  for (const sheet::Cable& cable : rows.cables) {
    const sheet::Cable* known = onto.cableByName(cable.name);
    sheet::Cable ours = cable;
    ours.endA = onto.unitByTag(tag(cable.endA))->id;
    ours.endB = onto.unitByTag(tag(cable.endB))->id;
    if (known)
      ours.id = known->id, onto.cables.put(ours);
    else
      ours.id = onto.addCable(ours);
    std::vector<sheet::Conductor> before;
    for (const sheet::Conductor* wire : sheet::conductorsOf(onto, ours.id)) before.push_back(*wire);
    size_t i = 0;
    for (const sheet::Conductor* row : sheet::conductorsOf(rows, cable.id)) {
      sheet::Conductor wire = *row;
      wire.cable = ours.id;
      wire.endA = moved(row->endA, rows, onto);
      wire.endB = moved(row->endB, rows, onto);
      if (i < before.size())
        wire.id = before[i].id, onto.conductors.put(wire);
      else
        onto.addConductor(wire);
      ++i;
    }
    for (; i < before.size(); ++i) onto.conductors.erase(before[i].id);
  }
  for (const sheet::Conductor& row : rows.conductors)
    if (row.isJumper()) {
      sheet::Conductor wire = row;
      wire.endA = moved(row.endA, rows, onto);
      wire.endB = moved(row.endB, rows, onto);
      const bool there = std::any_of(onto.conductors.begin(), onto.conductors.end(), [&](const auto& each) {
        return each.isJumper() && each.endA == wire.endA && each.endB == wire.endB;
      });
      if (!there) onto.addConductor(wire);
    }
  return onto;
}

}  // namespace

Typed<sheet::Sheet> pasted(const QString& text, const sheet::Sheet& sheet, const equipment::Library& library,
                           std::optional<sheet::CableId> cable, std::optional<sheet::ConductorId> from,
                           const wording::Language& language) {
  if (text.trimmed().isEmpty()) return {std::nullopt, bad(language, "paste-empty")};
  if (text.size() > kMostLetters) return {std::nullopt, bad(language, "paste-long")};
  if (const auto colours = coloursOf(text); !colours.empty()) {
    if (!cable) return {std::nullopt, bad(language, "paste-no-cable")};
    sheet::Sheet next = sheet;
    size_t at = 0;
    bool begun = !from;
    for (const sheet::Conductor* wire : sheet::conductorsOf(sheet, *cable)) {
      begun = begun || wire->id == *from;
      if (!begun || at >= colours.size()) continue;
      sheet::Conductor painted = *wire;
      painted.colour = colours[at++];
      next.conductors.put(painted);
    }
    if (at < colours.size())
      return {std::nullopt, bad(language, "paste-colours",
                                {{"colours", language.number(static_cast<double>(colours.size()), 0)},
                                 {"room", language.number(static_cast<double>(at), 0)}})};
    return {std::move(next), {}};
  }
  if (!text.contains(QStringLiteral("end_a"))) return {std::nullopt, bad(language, "paste-nonsense")};
  const auto rows = sheet::readCsv(withUnitLines(text, sheet), library);
  if (!rows)
    return {std::nullopt,
            bad(language, "paste-rows", {{"what", wording::problemText(language, rows.problems.front())}})};
  for (const sheet::Unit& unit : rows.value->units)
    if (const sheet::Unit* ours = sheet.unitByTag(unit.tag); ours && ours->profile != unit.profile)
      return {std::nullopt, bad(language, "paste-unit", {{"unit", QString::fromStdString(unit.tag)}})};
  return {laidOver(sheet, *rows.value), {}};
}

}  // namespace ww::wiring
