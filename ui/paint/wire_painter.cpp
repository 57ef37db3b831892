// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/wire_painter.h"

#include <QPainter>
#include <cmath>

namespace ww::paint {

using drawing::Point;
using drawing::Run;
using drawing::Wire;
using drawing::WireState;

namespace {

constexpr double kGap = 2;  ///< ground outside the casing, and between casing and rail
constexpr double kRail = 2;
constexpr double kChevronEvery = 96;
constexpr double kJumperRadius = 16;
constexpr double kSheathCover = 16;  ///< px of a run that the capsule hides

QPointF q(const Point& p) { return {p.x, p.y}; }

/// A corner between two segments, rounded where both are long enough.
void roundCorner(QPainterPath& path, QPointF before, QPointF at, QPointF after, double radius) {
  const auto towards = [&](QPointF end) {
    const QPointF d = end - at;
    const double length = std::hypot(d.x(), d.y());
    return length > 0 ? at + d * (std::min(radius, length / 2) / length) : at;
  };
  path.lineTo(towards(before));
  path.quadTo(at, towards(after));
}

QPolygonF shifted(const QPolygonF& polygon, QPointF by) { return polygon.translated(by); }

}  // namespace

WirePainter::WirePainter(QPainter& painter, const drawing::Diagram& diagram, const drawing::Overlay* overlay,
                         const Theme& theme, const DiagramState& state)
    : painter_(painter), diagram_(diagram), overlay_(overlay), theme_(theme), state_(state) {
  widths_ = {theme.bodyWidth, theme.casingWidth};
  if (state.zoom < 0.6) widths_.body = 2 / state.zoom;
}

WireState WirePainter::stateOf(sheet::ConductorId conductor) const {
  const drawing::WireLook* look = overlay_ ? overlay_->look(conductor) : nullptr;
  return look ? look->state : WireState::atRest;
}

bool WirePainter::dim(sheet::ConductorId conductor) const {
  return overlay_ && stateOf(conductor) == WireState::atRest && !state_.selected.count(conductor) &&
         state_.hovered != conductor && state_.focused != conductor;
}

void WirePainter::paintRuns() {
  const auto rank = [&](const Wire& wire) {
    return (overlay_ ? static_cast<int>(stateOf(wire.conductor)) : 0) +
           (state_.preview.count(wire.conductor) ? 4 : 0);
  };
  for (int level = 0; level < 8; ++level)
    for (const Wire& wire : diagram_.wires)
      if (rank(wire) == level)
        for (const Run& run : wire.runs) paintRun(wire, run);
}

QPainterPath WirePainter::path(const Wire& wire, const Run& run) const {
  QPainterPath path;
  if (run.points.empty()) return path;
  path.moveTo(q(run.points.front()));
  for (size_t i = 1; i < run.points.size(); ++i) {
    if (wire.jumper && i + 1 < run.points.size())
      roundCorner(path, q(run.points[i - 1]), q(run.points[i]), q(run.points[i + 1]), kJumperRadius);
    else
      path.lineTo(q(run.points[i]));
  }
  return path;
}

void WirePainter::stroke(const QPainterPath& path, const QColor& colour, double width,
                         Qt::PenJoinStyle join) {
  painter_.strokePath(path, QPen(colour, width, Qt::SolidLine, Qt::FlatCap, join));
}

void WirePainter::paintRun(const Wire& wire, const Run& run) {
  const QPainterPath line = path(wire, run);
  const bool dimmed = dim(wire.conductor);
  const WireState state = stateOf(wire.conductor);
  const double cased = widths_.body + 2 * widths_.casing;
  const QColor insulation = body(wire.colour.body).isValid() ? body(wire.colour.body) : theme_.panel;
  const QColor inside = dimmed ? theme_.dimmed(insulation) : insulation;
  if (state_.preview.count(wire.conductor)) {
    paintPreview(line, inside);
    return;
  }
  const bool live = overlay_ && state != WireState::atRest;
  const bool selected = state_.selected.count(wire.conductor) > 0;
  const bool pointed = state_.hovered == wire.conductor || state_.focused == wire.conductor;
  const double rails = cased + 2 * kGap + 2 * kRail;
  // Around a live conductor halo and outline lie outside its rails.
  const double inner = live ? rails + kGap : cased;
  if (selected)
    stroke(line, theme_.accent, inner + 8);
  else if (pointed)
    stroke(line, theme_.accent, inner + (live ? 4 : 2 * kGap + 4));
  if (live) {
    stroke(line, theme_.ground, rails + kGap);
    stroke(line, theme_.ink, rails);
  }
  stroke(line, theme_.ground, cased + 2 * kGap);
  stroke(line, dimmed ? theme_.dimmed(theme_.casing) : theme_.casing, cased);
  stroke(line, inside, widths_.body);
  if (wire.colour.tracer) paintStripe(line, wire.colour, dimmed);
}

void WirePainter::paintStripe(const QPainterPath& line, const sheet::Colour& colour, bool dimmed) {
  const QColor tracer = body(*colour.tracer).isValid() ? body(*colour.tracer) : theme_.panel;
  const QColor base = body(colour.body).isValid() ? body(colour.body) : theme_.panel;
  const auto dashes = [&](const QColor& fill, double width) {
    QPen pen(dimmed ? theme_.dimmed(fill) : fill, width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin);
    pen.setDashPattern({8 / width, 6 / width});
    painter_.strokePath(line, pen);
  };
  if (contrast(tracer, base) < 1.5) dashes(theme_.casing, 3);
  dashes(tracer, 2);
}

void WirePainter::paintPreview(const QPainterPath& line, const QColor& inside) {
  const double cased = widths_.body + 2 * widths_.casing;
  const auto dashes = [&](const QColor& colour, double width) {
    QPen pen(colour, width, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin);
    pen.setDashPattern({6 / width, 4 / width});
    painter_.strokePath(line, pen);
  };
  stroke(line, theme_.ground, cased + 2 * kGap);
  dashes(theme_.casing, cased);
  dashes(inside, widths_.body);
}

void WirePainter::paintEndMarks() {
  for (const drawing::EndMark& end : diagram_.ends) {
    const QPointF at = q(end.at);
    if (end.kind == drawing::EndKind::capped) {
      painter_.fillRect(QRectF(at.x() - 2.5, at.y() - 7, 5, 14), theme_.ink);
      continue;
    }
    painter_.setPen(QPen(theme_.ink, 1.5));
    painter_.setBrush(theme_.ground);
    painter_.drawEllipse(at, 4.5, 4.5);
  }
}

void WirePainter::paintChevrons() {
  if (!overlay_) return;
  for (const Wire& wire : diagram_.wires) {
    const drawing::WireLook* look = overlay_->look(wire.conductor);
    if (!look || look->state != WireState::carriesCurrent) continue;
    for (const Run& run : wire.runs) chevronsOf(wire, run, look->aToB);
  }
}

bool WirePainter::clear(const QRectF& box, const Wire& wire) const {
  const auto meets = [&](const drawing::Box& b) {
    return box.intersects(QRectF(b.x, b.y, b.w, b.h).adjusted(-2, -2, 2, 2));
  };
  for (const drawing::Tag& tag : diagram_.tags)
    if (meets(tag.label.box)) return false;
  for (const drawing::Sheath& sheath : diagram_.sheaths)
    if (meets(sheath.box)) return false;
  const double around = widths_.body / 2 + widths_.casing;
  for (const Wire& other : diagram_.wires) {
    if (other.conductor == wire.conductor) continue;
    for (const Run& run : other.runs)
      for (size_t i = 0; i + 1 < run.points.size(); ++i) {
        const QRectF segment = QRectF(q(run.points[i]), q(run.points[i + 1])).normalized();
        if (box.intersects(segment.adjusted(-around, -around, around, around))) return false;
      }
  }
  return true;
}

/// At about 71 px from the outer end and every 96 px from there, moved to where nothing is in the way.
void WirePainter::chevronsOf(const Wire& wire, const Run& run, bool forwards) {
  std::vector<Point> points = run.points;
  if (run.part == drawing::RunPart::endB) std::reverse(points.begin(), points.end());
  const bool outwards = run.part == drawing::RunPart::endB ? !forwards : forwards;
  double start = 0, next = 71;
  int count = 0;
  const auto walk = [&](double margin) {
    start = 0;
    for (size_t i = 0; i + 1 < points.size(); ++i) {
      const QPointF a = q(points[i]), d = q(points[i + 1]) - a;
      const double length = std::hypot(d.x(), d.y());
      const bool covered = i + 2 == points.size() && run.part != drawing::RunPart::whole;
      if (length > 0) {
        const QPointF unit = d / length;
        for (double s = margin; s <= length - margin - (covered ? kSheathCover - 4 : 0); s += 4) {
          if (start + s < next) continue;
          const QPointF at = a + unit * s;
          if (!clear(QRectF(at.x() - 8, at.y() - 8, 16, 16), wire)) continue;
          chevron(at, outwards ? unit : -unit);
          ++count;
          next = start + s + kChevronEvery;
        }
      }
      start += length;
    }
  };
  walk(14);
  if (count == 0) {
    next = 0;
    walk(11);
  }
}

void WirePainter::chevron(QPointF at, QPointF direction) {
  const QPointF across(-direction.y(), direction.x());
  const QPolygonF arms({-direction * 4 - across * 7, direction * 4, -direction * 4 + across * 7});
  painter_.setBrush(Qt::NoBrush);
  painter_.setPen(QPen(theme_.ground, 6, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
  painter_.drawPolyline(shifted(arms, at));
  painter_.setPen(QPen(theme_.ink, 2.5, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
  painter_.drawPolyline(shifted(arms, at));
}

}  // namespace ww::paint
