// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/as_built.h"
#include "document/sections.h"

namespace ww::document {

namespace {

const equipment::Profile* profileOf(const Source& source, const sheet::Unit& unit) {
  return source.input.library.find(unit.profile);
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

/// Every transformer with its fuse and the call that draws most from it.
Table supplyTable(const Source& source) {
  Table table{
      {column("report.column.transformer", 3), column("report.column.heaviest", 3),
       column("report.column.rating", 1.5, Align::decimal), column("report.column.fuse", 1.5, Align::decimal),
       column("report.column.load", 1.5, Align::decimal),
       column("report.column.percent", 1.5, Align::decimal)},
      {}};
  if (source.input.results.empty()) return table;
  for (const auto& first : source.input.results.front().sources) {
    const HeaviestCall heaviest = heaviestCall(source.input, first.unit, first.part);
    const auto fuse = fuseOf(source, first.unit);
    table.rows.push_back(
        {{cell(UnitName{first.unit}, Emphasis::strong), cell(Named{"call", heaviest.call->call}),
          cell(Number{first.rating.si(), "VA", 0}),
          fuse ? cell(Number{fuse->si(), "A", 0}) : cell(phrase("report.no-fuse"), Emphasis::quiet),
          cell(Number{heaviest.source->shown.si(), "VA", 1}),
          cell(Number{heaviest.source->loadPercent, "%", 0})},
         false});
  }
  return table;
}

/// What each transformer gives, call by call; the heaviest in bold.
Table loadTable(const Source& source) {
  Table table{{column("report.column.call", 3)}, {}};
  if (source.input.results.empty()) return table;
  const auto& transformers = source.input.results.front().sources;
  for (const auto& transformer : transformers) {
    table.columns.push_back(
        {phrase("report.column.load-of", {{"unit", UnitName{transformer.unit}}}), 3, Align::decimal});
    table.columns.push_back(column("report.column.percent", 2, Align::decimal));
  }
  for (const auto& call : source.input.results) {
    Row row{{cell(Named{"call", call.call})}, false};
    for (const auto& transformer : transformers) {
      const bool most = heaviestCall(source.input, transformer.unit, transformer.part).call == &call;
      for (const auto& load : call.sources)
        if (load.unit == transformer.unit && load.part == transformer.part)
          for (const Number& figure : {Number{load.shown.si(), "VA", 1}, Number{load.loadPercent, "%", 0}})
            row.cells.push_back(cell(figure, most ? Emphasis::strong : Emphasis::plain));
    }
    table.rows.push_back(std::move(row));
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

std::optional<quantity::Amps> fuseOf(const Source& source, sheet::UnitId id) {
  const auto* unit = source.sheet.units.find(id);
  const auto* profile = unit != nullptr ? profileOf(source, *unit) : nullptr;
  if (profile == nullptr) return std::nullopt;
  for (const auto& element : profile->elements) {
    equipment::Part part = element.part;
    if (!element.partSetting.empty())
      if (const auto chosen = source.input.library.parts.find(
              asbuilt::settingOf(source.sheet, *unit, *profile, element.partSetting));
          chosen != source.input.library.parts.end())
        part = chosen->second;
    if (const auto* fuse = std::get_if<equipment::FusePart>(&part)) return fuse->rating;
  }
  return std::nullopt;
}

Section equipmentSection(const Source& source) {
  Section section{"equipment", 0, phrase("report.section.equipment"), {}, Start::page, false, {}, {}};
  section.nodes.push_back(Heading{phrase("report.heading.units")});
  section.nodes.push_back(unitTable(source));
  if (Table supply = supplyTable(source); !supply.rows.empty()) {  // a thermopile feeds without
    section.nodes.push_back(Heading{phrase("report.heading.supply")});
    section.nodes.push_back(std::move(supply));
    section.nodes.push_back(Heading{phrase("report.heading.loads")});
    section.nodes.push_back(loadTable(source));
    section.nodes.push_back(Paragraph{phrase("report.supply-note"), Emphasis::quiet});
  }
  section.nodes.push_back(Heading{phrase("report.heading.cables")});
  section.nodes.push_back(cableTable(source));
  if (!source.input.job.meters.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.meters")});
    section.nodes.push_back(meterTable(source.input.job));
  }
  return section;
}

}  // namespace ww::document
