// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>

#include "drawing/emit.h"

namespace ww::drawing {

namespace {

std::string wholeOrTenth(double value) {
  char text[32];
  const double tenth = std::round(value * 10) / 10;
  const bool whole = value >= 10 || tenth == std::round(tenth);
  std::snprintf(text, sizeof text, whole ? "%.0f" : "%.1f", whole ? std::round(value) : tenth);
  return text;
}

std::string lengthText(quantity::Metres length, LengthUnit unit) {
  constexpr double kFeetPerMetre = 1 / 0.3048;
  return unit == LengthUnit::feet ? wholeOrTenth(std::round(length.si() * kFeetPerMetre)) + " ft"
                                  : wholeOrTenth(length.si()) + " m";
}

std::string sizeText(const CableLine& line) {
  return quantity::printGauge(line.cable->gauge) + "/" + std::to_string(line.wires.size());
}

constexpr TextStyle kSheathSize{13, true}, kSheathLength{11, false};

/// 56, or 72 where a low capsule's round ends leave too little for two lines; wider for long texts.
double sheathWidth(const CableLine& line, LengthUnit unit, const TextMeasure& measure) {
  const double text = std::ceil(std::max(measure(sizeText(line), kSheathSize).w,
                                         measure(lengthText(line.cable->length, unit), kSheathLength).w));
  return line.wires.size() < 3 ? std::max(72.0, text + 32) : std::max(56.0, text + 16);
}

Text centred(std::string text, TextStyle style, double x, double y, const TextMeasure& measure) {
  const Box size = measure(text, style);
  return {std::move(text),
          style,
          {x - std::ceil(size.w) / 2, y - size.h / 2, std::ceil(size.w), size.h},
          Align::centre};
}

void emitSheaths(const Wiring& wiring, const Routing& routing, LengthUnit unit, const TextMeasure& measure,
                 Diagram& diagram) {
  for (size_t i = 0; i < wiring.cables.size(); ++i) {
    const CableLine& line = wiring.cables[i];
    const Box& box = routing.sheaths[i];
    const Point middle = box.centre();
    // A capsule for one conductor is one line high: its texts stand side by side.
    if (box.h < 40) {
      const double half = measure(sizeText(line), kSheathSize).w / 2;
      const double other = measure(lengthText(line.cable->length, unit), kSheathLength).w / 2;
      diagram.sheaths.push_back(
          {line.cable->id, box, centred(sizeText(line), kSheathSize, middle.x - other - 2, middle.y, measure),
           centred(lengthText(line.cable->length, unit), kSheathLength, middle.x + half + 2, middle.y,
                   measure)});
      continue;
    }
    diagram.sheaths.push_back(
        {line.cable->id, box, centred(sizeText(line), kSheathSize, middle.x, middle.y - 8, measure),
         centred(lengthText(line.cable->length, unit), kSheathLength, middle.x, middle.y + 9, measure)});
  }
}

Box boundsOf(const Diagram& diagram) {
  Box bounds;
  for (const Plate& plate : diagram.plates) {
    bounds = united(bounds, plate.box.grown(7));
    for (const Text& text : plate.title) bounds = united(bounds, text.box);
    for (const Text& text : plate.place) bounds = united(bounds, text.box);
  }
  for (const Sheath& sheath : diagram.sheaths) bounds = united(bounds, sheath.box);
  for (const Tag& tag : diagram.tags) bounds = united(bounds, tag.label.box);
  for (const Wire& wire : diagram.wires)
    for (const Run& run : wire.runs)
      for (const Point& p : run.points) bounds = united(bounds, Box{p.x - 8, p.y - 8, 16, 16});
  for (const EndMark& end : diagram.ends) bounds = united(bounds, Box{end.at.x - 6, end.at.y - 6, 12, 12});
  return bounds.grown(kMargin - 7);
}

/// The width of a single-conductor capsule holds both its texts in one line.
double widthOf(const CableLine& line, LengthUnit unit, const TextMeasure& measure) {
  if (line.wires.size() > 1) return sheathWidth(line, unit, measure);
  return std::ceil(measure(sizeText(line), kSheathSize).w +
                   measure(lengthText(line.cable->length, unit), kSheathLength).w) +
         32;
}

}  // namespace

Diagram layout(const sheet::Sheet& sheet, const equipment::Library& library, const TextMeasure& measure,
               const LayoutOptions& options) {
  Diagram diagram;
  const std::vector<Strip> all = strips(sheet, library, measure, options.language);
  const Placement placement = place(all, sheet, options.kept);
  Wiring wiring = resolve(sheet, all, placement);
  sideJumpers(wiring);
  const ZoneRules rules = zoneRules(wiring, measure);
  spreadEnds(wiring);
  diagram.work = placement.work + placeSheaths(wiring, rules, options.keptSlots);
  spreadEnds(wiring);
  std::vector<double> widths;
  for (const CableLine& line : wiring.cables) widths.push_back(widthOf(line, options.lengths, measure));
  const Routing routing = route(wiring, rules, widths);
  diagram.work += routing.work;
  emitPlates(wiring, routing, measure, diagram);
  emitSheaths(wiring, routing, options.lengths, measure, diagram);
  emitWires(wiring, routing, rules, diagram);
  diagram.bounds = boundsOf(diagram);
  return diagram;
}

const Plate* Diagram::plate(sheet::UnitId unit) const {
  for (const Plate& plate : plates)
    if (plate.unit == unit) return &plate;
  return nullptr;
}

const Wire* Diagram::wire(sheet::ConductorId conductor) const {
  for (const Wire& wire : wires)
    if (wire.conductor == conductor) return &wire;
  return nullptr;
}

std::map<sheet::UnitId, Kept> places(const Diagram& diagram) {
  std::map<sheet::UnitId, Kept> kept;
  for (const Plate& plate : diagram.plates) kept[plate.unit] = {plate.column, plate.box.y};
  return kept;
}

std::map<sheet::ConductorId, double> slots(const Diagram& diagram) {
  std::map<sheet::ConductorId, double> heights;
  for (const Wire& wire : diagram.wires)
    for (const Run& run : wire.runs)
      if (run.part == RunPart::endA && !run.points.empty()) heights[wire.conductor] = run.points.back().y;
  return heights;
}

}  // namespace ww::drawing
