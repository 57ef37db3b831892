// SPDX-License-Identifier: GPL-3.0-or-later
// What the control is to be set to, and what the units and their boards are set to.
#include "document/sections.h"
#include "quantity/text.h"
#include "recommend/recommend.h"

namespace ww::document {

namespace {

using Part = SettingWords::Part;

Table conflictTable(const recommend::Sheet& sheet) {
  Table table{{column("report.column.kind", 2), column("report.column.point", 10)}, {}};
  for (const auto& conflict : sheet.conflicts)
    table.rows.push_back(
        {{{SeverityMark{conflict.severity}, Emphasis::plain}, cell(ConflictText{conflict})}, false});
  return table;
}

Table controlTable(const recommend::Sheet& sheet) {
  Table table{{column("report.column.setting", 4.4), column("report.column.why", 4),
               column("report.column.source", 2.2), column("report.column.origin", 1.9)},
              {}};
  for (const auto& setting : sheet.settings) {
    const auto words = [&](Part part, Emphasis emphasis) {
      return cell(SettingWords{setting, part}, emphasis);
    };
    table.rows.push_back({{words(Part::sentence, Emphasis::strong), words(Part::why, Emphasis::plain),
                           words(Part::source, Emphasis::quiet), words(Part::origin, Emphasis::quiet)},
                          false});
    if (setting.note.empty()) continue;
    Cell note = cell(phrase("report.setting-note", {{"note", Literal{setting.note}}}), Emphasis::quiet);
    note.span = 4;
    table.rows.push_back({{std::move(note), blank(), blank(), blank()}, true});
  }
  return table;
}

Table unitTable(const Source& source) {
  Table table{{column("report.column.unit", 2.5), column("report.column.setting", 5),
               column("report.column.value", 2.5), column("report.column.origin", 2.5)},
              {}};
  for (const auto& unit : source.sheet.units) {
    const auto* profile = source.input.library.find(unit.profile);
    if (profile == nullptr) continue;
    for (const auto& setting : profile->settings) {
      if (!setting.unit.empty()) continue;  // stands with the control's own
      const auto set = source.sheet.settings.find(unit.tag, setting.key);
      table.rows.push_back(
          {{cell(UnitName{unit.id}), cell(Named{"setting", setting.key}),
            cell(Named{"value", set.value_or(setting.standard)}, Emphasis::strong),
            cell(phrase(set ? "report.origin.set" : "report.origin.standard"), Emphasis::quiet)},
           false});
    }
  }
  return table;
}

/// One for each stage with a rate of its own.
CycleCurves curvesOf(const recommend::Sheet& sheet) {
  CycleCurves found;
  for (const auto& setting : sheet.settings) {
    if (!setting.key.starts_with("cycles.")) continue;
    const auto most = quantity::parseNumber(setting.value);
    if (most) found.curves.push_back({setting.key.substr(7), *most, recommend::offTimeOf(sheet, setting)});
  }
  return found;
}

}  // namespace

Section settingsSection(const Source& source) {
  Section section{"settings", 0, phrase("report.section.settings"), {}, Start::below, false, {}, {}};
  const auto control = recommend::recommend(source.sheet, source.input.library, source.input.job.control);
  if (!control.settings.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.control")});
    if (!control.conflicts.empty()) section.nodes.push_back(conflictTable(control));
    section.nodes.push_back(controlTable(control));
    if (CycleCurves curves = curvesOf(control); !curves.curves.empty()) {
      section.nodes.push_back(Heading{phrase("report.heading.cycles")});
      section.nodes.push_back(std::move(curves));
    }
  }
  if (Table boards = unitTable(source); !boards.rows.empty()) {
    if (!control.settings.empty()) section.nodes.push_back(Heading{phrase("report.heading.boards")});
    section.nodes.push_back(std::move(boards));
  }
  return section;
}

}  // namespace ww::document
