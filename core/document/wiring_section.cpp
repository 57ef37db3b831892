// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "document/sections.h"

namespace ww::document {

namespace {

constexpr job::SheetState kOthers[] = {job::SheetState::asFound, job::SheetState::planned};

/// A sheet of the job that the report does not speak of, to compare with; null without one, or when nothing
/// had been landed on it.
const sheet::Sheet* otherSheet(const Source& source, job::SheetState state) {
  const job::Job& job = source.input.job;
  const auto& other = state == job::SheetState::asFound ? job.asFound : job.planned;
  return state == source.sheetState || !other || other->conductors.empty() ? nullptr : &*other;
}

Named sheetName(job::SheetState state) {
  constexpr const char* kWords[] = {"asFound", "planned", "asLeft"};
  return {"sheet", kWords[static_cast<size_t>(state)]};
}

/// What the conductor is for: what the terminal of the equipment says, else the control's.
std::string purposeOf(const Source& source, const sheet::Conductor& wire) {
  for (const auto* landing : {&wire.endB, &wire.endA})
    if (const auto* ref = std::get_if<sheet::TerminalRef>(landing))
      if (const auto* unit = source.sheet.units.find(ref->unit))
        if (const auto* profile = source.input.library.find(unit->profile))
          if (const auto* terminal = profile->terminal(ref->terminal);
              terminal != nullptr && !terminal->purpose.empty())
            return terminal->purpose;
  const auto unused = [](const sheet::Landing& end) {
    return std::holds_alternative<sheet::Capped>(end) || std::holds_alternative<sheet::Loose>(end);
  };
  return unused(wire.endA) && unused(wire.endB) ? "spare" : std::string();
}

/// Below a conductor, how another sheet of the job has it.
void addDifferences(const Source& source, const sheet::Conductor& wire, std::vector<Row>& rows) {
  for (const auto state : kOthers) {
    const sheet::Sheet* other = otherSheet(source, state);
    if (other == nullptr) continue;
    const auto* then = other->conductors.find(wire.id);
    if (then == nullptr)
      rows.push_back(
          {{blank(),
            {Value(phrase("report.wire.absent", {{"sheet", sheetName(state)}})), Emphasis::quiet, 4},
            blank(),
            blank(),
            blank()},
           true});
    else if (then->endA != wire.endA || then->endB != wire.endB)
      rows.push_back(
          {{blank(), cell(LandingName{then->endA}, Emphasis::quiet),
            cell(LandingName{then->endB}, Emphasis::quiet), cell(sheetName(state), Emphasis::quiet), blank()},
           true});
  }
}

Row conductorRow(const Source& source, const sheet::Conductor& wire) {
  const std::string purpose = purposeOf(source, wire);
  return {{{Tag{wire.colour}},
           cell(LandingName{wire.endA}, Emphasis::strong),
           cell(LandingName{wire.endB}, Emphasis::strong),
           purpose.empty() ? blank() : cell(Named{"purpose", purpose}),
           typed(wire.remark)},
          false};
}

/// A conductor that is no longer there.
Row goneRow(const sheet::Conductor& wire, job::SheetState state) {
  return {{{Tag{wire.colour}},
           cell(LandingName{wire.endA}, Emphasis::struck),
           cell(LandingName{wire.endB}, Emphasis::struck),
           {Value(phrase("report.wire.gone", {{"sheet", sheetName(state)}})), Emphasis::quiet, 2},
           blank()},
          false};
}

std::vector<Column> conductorColumns() {
  return {column("report.column.tag", 1), column("report.column.end-a", 2), column("report.column.end-b", 2),
          column("report.column.purpose", 3), column("report.column.remark", 4)};
}

/// The conductors of a cable, or the jumpers; below them those that are gone.
Table conductorTable(const Source& source, const std::optional<sheet::CableId>& cable) {
  Table table{conductorColumns(), {}};
  for (const auto& wire : source.sheet.conductors) {
    if (wire.cable != cable) continue;
    table.rows.push_back(conductorRow(source, wire));
    addDifferences(source, wire, table.rows);
  }
  for (const auto state : kOthers)
    for (const auto* wire : differencesFrom(source, state).gone)
      if (wire->cable == cable) table.rows.push_back(goneRow(*wire, state));
  return table;
}

/// Conductors of cables that are no longer there.
Table removedCables(const Source& source) {
  Table table{conductorColumns(), {}};
  for (const auto state : kOthers)
    for (const auto* wire : differencesFrom(source, state).gone)
      if (wire->cable && source.sheet.cables.find(*wire->cable) == nullptr)
        table.rows.push_back(goneRow(*wire, state));
  return table;
}

}  // namespace

Differences differencesFrom(const Source& source, job::SheetState state) {
  Differences found;
  const sheet::Sheet* other = otherSheet(source, state);
  if (other == nullptr) return found;
  for (const auto& wire : source.sheet.conductors) {
    const auto* then = other->conductors.find(wire.id);
    if (then == nullptr)
      found.added.push_back(&wire);
    else if (then->endA != wire.endA || then->endB != wire.endB)
      found.moved.push_back(then);
  }
  for (const auto& wire : other->conductors)
    if (source.sheet.conductors.find(wire.id) == nullptr) found.gone.push_back(&wire);
  return found;
}

Section wiringSection(const Source& source) {
  Section section{
      "wiring", 0, phrase("report.section.wiring"), {sheetName(source.sheetState)}, Start::whole, false,
      {},       {}};
  for (const auto& cable : source.sheet.cables) {
    section.nodes.push_back(Heading{
        phrase("report.heading.cable",
               {{"cable", Literal{cable.name}}, {"a", UnitName{cable.endA}}, {"b", UnitName{cable.endB}}})});
    section.nodes.push_back(conductorTable(source, cable.id));
  }
  if (Table jumpers = conductorTable(source, std::nullopt); !jumpers.rows.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.jumpers")});
    section.nodes.push_back(std::move(jumpers));
  }
  Table removed = removedCables(source);
  if (!removed.rows.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.removed-cables")});
    section.nodes.push_back(std::move(removed));
  }
  return section;
}

Section diagramSection(const Source& source) {
  Section section{
      "diagram", 0, phrase("report.section.diagram"), {sheetName(source.sheetState)}, Start::page, true,
      {},        {}};
  DiagramPage page;
  std::set<std::string> colours;
  for (const auto& wire : source.sheet.conductors) colours.insert(std::string(code(wire.colour.body)));
  if (const HeaviestCall heaviest = heaviestCall(source.input); heaviest.source != nullptr)
    page.legend.push_back(
        phrase("report.legend.supply", {{"va", Number{heaviest.source->rating.si(), "VA", 0}},
                                        {"unit", UnitName{heaviest.source->unit}},
                                        {"call", Named{"call", heaviest.call->call}},
                                        {"load", Number{heaviest.source->shown.si(), "VA", 1}}}));
  page.legend.push_back(phrase("report.legend.shapes"));
  page.legend.push_back(
      phrase("report.legend.colours", {{"list", NamedList{"colour", {colours.begin(), colours.end()}}}}));
  for (const auto* wire : differencesFrom(source, job::SheetState::asFound).moved)
    page.foundOtherwise.push_back(wire->id);
  if (!page.foundOtherwise.empty()) page.legend.push_back(phrase("report.legend.found-otherwise"));
  section.nodes.push_back(std::move(page));
  return section;
}

}  // namespace ww::document
