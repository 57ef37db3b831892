// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "document/sections.h"
#include "quantity/text.h"

namespace ww::document {

namespace {

const equipment::Profile* profileOf(const Source& source, const sheet::Unit& unit) {
  return source.input.library.find(unit.profile);
}

std::string sheetWord(job::SheetState state) {
  constexpr const char* kWords[] = {"asFound", "planned", "asLeft"};
  return kWords[static_cast<size_t>(state)];
}

Table unitTable(const Source& source) {
  Table table{{column("report.column.unit", 2), column("report.column.kind-of-unit", 4),
               column("report.column.place", 2), column("report.column.label", 3)},
              {}};
  for (const auto& unit : source.sheet.units) {
    std::string label;
    for (const auto& [field, text] : unit.nameplate)
      label.append(label.empty() ? "" : "; ").append(field).append(" ").append(text);
    table.rows.push_back(
        {{cell(UnitName{unit.id}, Emphasis::strong), cell(UnitKind{unit.id}), typed(unit.place),
          label.empty() ? cell(phrase("report.not-recorded"), Emphasis::quiet) : typed(label)},
         false});
  }
  return table;
}

Table supplyTable(const Source& source) {
  Table table{{column("report.column.transformer", 3), column("report.column.rating", 1.5, Align::decimal),
               column("report.column.heaviest", 3), column("report.column.load", 1.5, Align::decimal),
               column("report.column.percent", 1.5, Align::decimal)},
              {}};
  if (source.input.results.empty()) return table;
  for (const auto& first : source.input.results.front().sources) {
    const HeaviestCall heaviest = heaviestCall(source.input, first.unit, first.part);
    if (heaviest.source == nullptr) continue;
    table.rows.push_back(
        {{cell(UnitName{first.unit}, Emphasis::strong), cell(Number{first.rating.si(), "VA", 0}),
          cell(Named{"call", heaviest.call->call}), cell(Number{heaviest.source->shown.si(), "VA", 1}),
          cell(Number{heaviest.source->loadPercent, "%", 0})},
         false});
  }
  return table;
}

Table cableTable(const Source& source) {
  Table table{
      {column("report.column.cable", 1), column("report.column.from", 3), column("report.column.to", 3),
       column("report.column.gauge", 2), column("report.column.conductors", 2, Align::right),
       column("report.column.length", 2, Align::decimal)},
      {}};
  for (const auto& cable : source.sheet.cables)
    table.rows.push_back({{typed(cable.name, Emphasis::strong), cell(UnitName{cable.endA}),
                           cell(UnitName{cable.endB}), cell(GaugeText{cable.gauge}),
                           cell(Number{double(conductorsOf(source.sheet, cable.id).size()), "", 0}),
                           cell(Number{cable.length.si(), "m", 1})},
                          false});
  return table;
}

Table meterTable(const job::Job& job) {
  Table table{{column("report.column.meter", 3), column("report.column.serial", 2),
               column("report.column.calibration", 3), column("report.column.accuracy", 2)},
              {}};
  for (const auto& meter : job.meters)
    table.rows.push_back({{typed(meter.name, Emphasis::strong), typed(meter.serial),
                           meter.calibrationDue.empty() ? blank() : cell(Day{meter.calibrationDue}),
                           cell(Number{meter.accuracyPercent, "%", 1})},
                          false});
  return table;
}

/// What the conductor is for: what the terminal of the equipment says, else the control's.
std::string purposeOf(const Source& source, const sheet::Conductor& wire) {
  for (const auto* landing : {&wire.endB, &wire.endA})
    if (const auto* ref = std::get_if<sheet::TerminalRef>(landing))
      if (const auto* unit = source.sheet.units.find(ref->unit))
        if (const auto* profile = profileOf(source, *unit))
          if (const auto* terminal = profile->terminal(ref->terminal);
              terminal != nullptr && !terminal->purpose.empty())
            return terminal->purpose;
  const auto unused = [](const sheet::Landing& end) {
    return std::holds_alternative<sheet::Capped>(end) || std::holds_alternative<sheet::Loose>(end);
  };
  return unused(wire.endA) && unused(wire.endB) ? "spare" : std::string();
}

Cell remark(const Source& source, const sheet::Conductor& wire) {
  const sheet::Landing* a = foundOtherwise(source, wire, true);
  const sheet::Landing* b = foundOtherwise(source, wire, false);
  std::vector<Argument> args;
  if (!wire.remark.empty()) args.push_back({"remark", Literal{wire.remark}});
  if (a != nullptr) args.push_back({"a", LandingName{*a}});
  if (b != nullptr) args.push_back({"b", LandingName{*b}});
  return args.empty() ? blank() : cell(phrase("report.wire-remark", std::move(args)));
}

Row conductorRow(const Source& source, const sheet::Conductor& wire) {
  const std::string purpose = purposeOf(source, wire);
  return {{{Tag{wire.colour}, Emphasis::plain},
           cell(LandingName{wire.endA}, Emphasis::strong),
           cell(LandingName{wire.endB}, Emphasis::strong),
           purpose.empty() ? blank() : cell(Named{"purpose", purpose}),
           remark(source, wire)},
          false};
}

Table conductorTable(const Source& source, const std::vector<const sheet::Conductor*>& wires) {
  Table table{
      {column("report.column.tag", 1), column("report.column.end-a", 2), column("report.column.end-b", 2),
       column("report.column.purpose", 3), column("report.column.remark", 4)},
      {}};
  for (const auto* wire : wires) table.rows.push_back(conductorRow(source, *wire));
  return table;
}

}  // namespace

HeaviestCall heaviestCall(const ReportInput& input, sheet::UnitId unit, const std::string& part) {
  HeaviestCall heaviest;
  for (const auto& call : input.results)
    for (const auto& source : call.sources)
      if (source.unit == unit && source.part == part &&
          (heaviest.source == nullptr || source.loadPercent > heaviest.source->loadPercent))
        heaviest = {&call, &source};
  return heaviest;
}

HeaviestCall heaviestCall(const ReportInput& input) {
  HeaviestCall heaviest;
  for (const auto& call : input.results)
    for (const auto& source : call.sources)
      if (heaviest.source == nullptr || source.loadPercent > heaviest.source->loadPercent)
        heaviest = {&call, &source};
  return heaviest;
}

const sheet::Landing* foundOtherwise(const Source& source, const sheet::Conductor& wire, bool endA) {
  if (!source.input.job.asFound || source.sheetState == job::SheetState::asFound) return nullptr;
  const auto* found = source.input.job.asFound->conductors.find(wire.id);
  if (found == nullptr) return nullptr;
  const auto& then = endA ? found->endA : found->endB;
  return then == (endA ? wire.endA : wire.endB) ? nullptr : &then;
}

int changedConductors(const Source& source) {
  int changed = 0;
  for (const auto& wire : source.sheet.conductors)
    changed +=
        foundOtherwise(source, wire, true) != nullptr || foundOtherwise(source, wire, false) != nullptr;
  return changed;
}

Section equipmentSection(const Source& source) {
  Section section{"equipment", 0, phrase("report.section.equipment"), {}, true, false, {}};
  section.nodes.push_back(Heading{phrase("report.heading.units")});
  section.nodes.push_back(unitTable(source));
  section.nodes.push_back(Heading{phrase("report.heading.supply")});
  section.nodes.push_back(supplyTable(source));
  section.nodes.push_back(Paragraph{phrase("report.supply-note"), Emphasis::quiet});
  section.nodes.push_back(Heading{phrase("report.heading.cables")});
  section.nodes.push_back(cableTable(source));
  if (!source.input.job.meters.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.meters")});
    section.nodes.push_back(meterTable(source.input.job));
  }
  return section;
}

Section wiringSection(const Source& source) {
  Section section{
      "wiring", 0, phrase("report.section.wiring"), {Named{"sheet", sheetWord(source.sheetState)}}, true,
      false,    {}};
  for (const auto& cable : source.sheet.cables) {
    section.nodes.push_back(Heading{
        phrase("report.heading.cable",
               {{"cable", Literal{cable.name}}, {"a", UnitName{cable.endA}}, {"b", UnitName{cable.endB}}})});
    section.nodes.push_back(conductorTable(source, conductorsOf(source.sheet, cable.id)));
  }
  std::vector<const sheet::Conductor*> jumpers;
  for (const auto& wire : source.sheet.conductors)
    if (wire.isJumper()) jumpers.push_back(&wire);
  if (!jumpers.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.jumpers")});
    section.nodes.push_back(conductorTable(source, jumpers));
  }
  return section;
}

Section diagramSection(const Source& source) {
  Section section{
      "diagram", 0, phrase("report.section.diagram"), {Named{"sheet", sheetWord(source.sheetState)}}, true,
      true,      {}};
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
  for (const auto& wire : source.sheet.conductors)
    if (foundOtherwise(source, wire, true) != nullptr || foundOtherwise(source, wire, false) != nullptr)
      page.foundOtherwise.push_back(wire.id);
  if (!page.foundOtherwise.empty()) page.legend.push_back(phrase("report.legend.found-otherwise"));
  section.nodes.push_back(std::move(page));
  return section;
}

Section settingsSection(const Source& source) {
  Section section{"settings", 0, phrase("report.section.settings"), {}, false, false, {}};
  Table table{{column("report.column.unit", 2.5), column("report.column.setting", 5),
               column("report.column.value", 2.5), column("report.column.origin", 2.5)},
              {}};
  for (const auto& unit : source.sheet.units) {
    const auto* profile = profileOf(source, unit);
    if (profile == nullptr) continue;
    for (const auto& setting : profile->settings) {
      const auto set = source.sheet.settings.find(unit.tag, setting.key);
      table.rows.push_back(
          {{cell(UnitName{unit.id}), cell(Named{"setting", setting.key}),
            cell(Named{"value", set.value_or(setting.standard)}, Emphasis::strong),
            cell(phrase(set ? "report.origin.set" : "report.origin.standard"), Emphasis::quiet)},
           false});
    }
  }
  section.nodes.push_back(std::move(table));
  return section;
}

}  // namespace ww::document
