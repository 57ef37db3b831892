// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "drawing/diagram.h"

/// What a laid-out diagram is measured by, from its points and boxes alone.
namespace ww::testing {

/// A visible piece of a polyline.
struct Segment {
  drawing::Point a, b;
  int wire = 0;       ///< index in Diagram::wires
  bool lead = false;  ///< slanted, from a crowded screw
  bool horizontal() const { return a.y == b.y; }
  double low() const { return horizontal() ? std::min(a.x, b.x) : std::min(a.y, b.y); }
  double high() const { return horizontal() ? std::max(a.x, b.x) : std::max(a.y, b.y); }
  double across() const { return horizontal() ? a.y : a.x; }
};

inline std::string name(const drawing::Diagram& diagram, int wire) {
  const drawing::Wire& w = diagram.wires[static_cast<size_t>(wire)];
  return "#" + std::to_string(sheet::number(w.conductor)) + " " +
         (w.jumper ? "jumper" : sheet::print(w.colour));
}

/// The end of a run that lies under its sheath, cut off at the capsule's widest place.
inline void cutAtSheath(const drawing::Diagram& diagram, const drawing::Wire& wire, drawing::Point& a,
                        drawing::Point& b) {
  for (const drawing::Sheath& sheath : diagram.sheaths) {
    if (wire.cable != sheath.cable || a.y != b.y || a.y <= sheath.box.y || a.y >= sheath.box.bottom())
      continue;
    for (drawing::Point* p : {&a, &b})
      if (p->x > sheath.box.x && p->x < sheath.box.right())
        p->x = p->x < sheath.box.centre().x ? sheath.box.x : sheath.box.right();
  }
}

inline std::vector<Segment> visibleSegments(const drawing::Diagram& diagram) {
  std::vector<Segment> segments;
  for (size_t w = 0; w < diagram.wires.size(); ++w)
    for (const drawing::Run& run : diagram.wires[w].runs)
      for (size_t i = 0; i + 1 < run.points.size(); ++i) {
        drawing::Point a = run.points[i], b = run.points[i + 1];
        cutAtSheath(diagram, diagram.wires[w], a, b);
        if (a == b) continue;
        segments.push_back({a, b, static_cast<int>(w), a.x != b.x && a.y != b.y});
      }
  return segments;
}

struct Crossing {
  int first = 0, second = 0;
};

inline std::vector<Crossing> crossings(const std::vector<Segment>& segments) {
  std::vector<Crossing> found;
  for (const Segment& h : segments)
    for (const Segment& v : segments) {
      if (h.lead || v.lead || h.wire == v.wire || !h.horizontal() || v.horizontal()) continue;
      if (v.a.x > h.low() && v.a.x < h.high() && h.a.y > v.low() && h.a.y < v.high())
        found.push_back({h.wire, v.wire});
    }
  return found;
}

/// Height of the screw that an end lands on, if it lands at the cable's unit there.
inline std::optional<double> screwHeight(const drawing::Diagram& diagram, const sheet::Landing& landing,
                                         sheet::UnitId home) {
  const auto* terminal = std::get_if<sheet::TerminalRef>(&landing);
  const auto* splice = std::get_if<sheet::Splice>(&landing);
  if (!terminal && !splice) return std::nullopt;
  const sheet::UnitId unit = terminal ? terminal->unit : splice->unit;
  const drawing::Plate* plate = unit == home ? diagram.plate(unit) : nullptr;
  if (!plate) return std::nullopt;
  for (const drawing::TerminalMark& mark : plate->terminals)
    if (mark.splice == (splice != nullptr) && mark.id == (terminal ? terminal->terminal : splice->name))
      return mark.square.centre().y;
  return std::nullopt;
}

/// Pairs of conductors of one cable whose order at End A and at End B differ, summed over the cables.
inline int inversions(const drawing::Diagram& diagram, const sheet::Sheet& sheet) {
  int sum = 0;
  for (const sheet::Cable& cable : sheet.cables) {
    std::vector<std::pair<double, double>> ends;
    for (const sheet::Conductor* wire : sheet::conductorsOf(sheet, cable.id)) {
      const auto a = screwHeight(diagram, wire->endA, cable.endA),
                 b = screwHeight(diagram, wire->endB, cable.endB);
      if (a && b) ends.emplace_back(*a, *b);
    }
    for (const auto& x : ends)
      for (const auto& y : ends) sum += x.first < y.first && x.second > y.second;
  }
  return sum;
}

inline drawing::Box boxOf(const Segment& segment, double halfWidth) {
  const drawing::Point &a = segment.a, &b = segment.b;
  return drawing::Box{std::min(a.x, b.x), std::min(a.y, b.y), std::abs(a.x - b.x), std::abs(a.y - b.y)}.grown(
      halfWidth);
}

/// Parallel segments of different wires that share a stretch nearer than the least distance.
inline void parallelFaults(const drawing::Diagram& diagram, const std::vector<Segment>& segments,
                           std::vector<std::string>& faults) {
  for (size_t i = 0; i < segments.size(); ++i)
    for (size_t j = i + 1; j < segments.size(); ++j) {
      const Segment &s = segments[i], &t = segments[j];
      if (s.wire == t.wire || s.lead || t.lead || s.horizontal() != t.horizontal()) continue;
      const double shared = std::min(s.high(), t.high()) - std::max(s.low(), t.low());
      const double distance = std::abs(s.across() - t.across());
      if (shared > 0 && distance < 16 - 1e-6)
        faults.push_back(name(diagram, s.wire) + " and " + name(diagram, t.wire) + " run " +
                         std::to_string(distance) + " apart for " + std::to_string(shared));
    }
}

struct NamedBox {
  std::string name;
  drawing::Box box;
  int owner = -1;  ///< wire, of a tag
};

inline std::vector<NamedBox> obstacles(const drawing::Diagram& diagram) {
  std::vector<NamedBox> boxes;
  for (const drawing::Plate& plate : diagram.plates) {
    const std::string unit = "unit " + std::to_string(sheet::number(plate.unit));
    boxes.push_back({unit, plate.box});
    for (const drawing::Text& text : plate.title) boxes.push_back({unit + " title", text.box});
    for (const drawing::Text& text : plate.place) boxes.push_back({unit + " place", text.box});
  }
  for (const drawing::Sheath& sheath : diagram.sheaths)
    boxes.push_back({"sheath " + std::to_string(sheet::number(sheath.cable)), sheath.box});
  for (const drawing::Tag& tag : diagram.tags) {
    int owner = 0;
    while (diagram.wires[static_cast<size_t>(owner)].conductor != tag.conductor) ++owner;
    boxes.push_back({"tag of " + name(diagram, owner), tag.label.box, owner});
  }
  return boxes;
}

inline void boxFaults(const drawing::Diagram& diagram, const std::vector<Segment>& segments,
                      std::vector<std::string>& faults) {
  const std::vector<NamedBox> boxes = obstacles(diagram);
  for (size_t i = 0; i < boxes.size(); ++i)
    for (size_t j = i + 1; j < boxes.size(); ++j)
      if (drawing::overlap(boxes[i].box, boxes[j].box))
        faults.push_back(boxes[i].name + " overlaps " + boxes[j].name);
  for (const Segment& segment : segments)
    for (const NamedBox& box : boxes) {
      if (box.owner == segment.wire || segment.lead) continue;
      const drawing::Box inner = box.box.grown(-0.01);
      if (drawing::overlap(boxOf(segment, 0), inner))
        faults.push_back(name(diagram, segment.wire) + " runs through " + box.name);
    }
}

inline void tagFaults(const drawing::Diagram& diagram, std::vector<std::string>& faults) {
  for (size_t w = 0; w < diagram.wires.size(); ++w) {
    const drawing::Wire& wire = diagram.wires[w];
    const auto near = [&](const drawing::Point& p) {
      return std::any_of(diagram.tags.begin(), diagram.tags.end(), [&](const drawing::Tag& tag) {
        const drawing::Point c = tag.label.box.centre();
        return tag.conductor == wire.conductor && std::hypot(c.x - p.x, c.y - p.y) <= 80;
      });
    };
    for (const drawing::Run& run : wire.runs) {
      if (run.part != drawing::RunPart::endB && !near(run.points.front()))
        faults.push_back(name(diagram, static_cast<int>(w)) + " has no tag near its first end");
      if (run.part != drawing::RunPart::endA && !near(run.points.back()))
        faults.push_back(name(diagram, static_cast<int>(w)) + " has no tag near its last end");
    }
  }
}

/// Texts wider than what holds them, and squares outside their plates.
inline void clippingFaults(const drawing::Diagram& diagram, const drawing::TextMeasure& measure,
                           std::vector<std::string>& faults) {
  const auto check = [&](const drawing::Text& text, double room) {
    if (measure(text.text, text.style).w > room + 0.01) faults.push_back("\"" + text.text + "\" is clipped");
  };
  for (const drawing::Plate& plate : diagram.plates) {
    for (const drawing::Text& text : plate.title) check(text, text.box.w);
    for (const drawing::Text& text : plate.place) check(text, text.box.w);
    for (const drawing::TerminalMark& mark : plate.terminals) {
      check(mark.label, mark.square.w - 4);
      if (mark.square.x < plate.box.x + 8 || mark.square.right() > plate.box.right() - 8)
        faults.push_back("square " + mark.id + " touches a screw");
    }
  }
  for (const drawing::Sheath& sheath : diagram.sheaths) {
    check(sheath.size, sheath.box.w - 12);
    check(sheath.length, sheath.box.w - 12);
    if (drawing::overlap(sheath.size.box.grown(-2), sheath.length.box.grown(-2)))
      faults.push_back("the texts of a sheath overlap");
  }
  for (const drawing::Tag& tag : diagram.tags) check(tag.label, tag.label.box.w - 3);
}

/// Every broken rule in words.
inline std::vector<std::string> faultsOf(const drawing::Diagram& diagram,
                                         const drawing::TextMeasure& measure) {
  std::vector<std::string> faults;
  const std::vector<Segment> segments = visibleSegments(diagram);
  parallelFaults(diagram, segments, faults);
  boxFaults(diagram, segments, faults);
  tagFaults(diagram, faults);
  clippingFaults(diagram, measure, faults);
  return faults;
}

struct WireFigures {
  int bends = 0;  ///< right-angled turns of all runs; the slanted lead of a crowded screw turns less
  double length = 0, manhattan = 0;
};

inline WireFigures figures(const drawing::Wire& wire) {
  WireFigures figures;
  for (const drawing::Run& run : wire.runs) {
    for (size_t i = 0; i + 1 < run.points.size(); ++i)
      figures.length +=
          std::hypot(run.points[i + 1].x - run.points[i].x, run.points[i + 1].y - run.points[i].y);
    for (size_t i = 1; i + 1 < run.points.size(); ++i) {
      const drawing::Point &a = run.points[i - 1], &b = run.points[i], &c = run.points[i + 1];
      figures.bends += (a.x == b.x && b.y == c.y) || (a.y == b.y && b.x == c.x);
    }
  }
  const drawing::Point first = wire.runs.front().points.front(), last = wire.runs.back().points.back();
  figures.manhattan = std::abs(first.x - last.x) + std::abs(first.y - last.y);
  if (wire.runs.size() == 2) {
    const drawing::Point in = wire.runs[0].points.back(), out = wire.runs[1].points.front();
    figures.length += std::abs(in.x - out.x) + std::abs(in.y - out.y);
  }
  return figures;
}

}  // namespace ww::testing
