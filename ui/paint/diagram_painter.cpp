// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/diagram_painter.h"

#include <QPainter>
#include <cmath>
#include <map>

#include "paint/text_painter.h"
#include "paint/wire_painter.h"

namespace ww::paint {

using drawing::Box;
using drawing::Diagram;
using drawing::Overlay;

namespace {

QRectF q(const Box& box) { return {box.x, box.y, box.w, box.h}; }

void lozenge(QPainter& painter, QPointF at, double radius, const QColor& fill) {
  QPainterPath path;
  path.addPolygon(QPolygonF({at + QPointF(0, -radius), at + QPointF(radius, 0), at + QPointF(0, radius),
                             at + QPointF(-radius, 0)}));
  path.closeSubpath();
  painter.fillPath(path, fill);
}

void paintPlate(QPainter& painter, const drawing::Plate& plate, const Theme& theme) {
  painter.setBrush(theme.panel);
  painter.setPen(QPen(theme.controlEdge, 2));
  painter.drawRoundedRect(q(plate.box), 4, 4);
  for (const drawing::Text& line : plate.title) paintText(painter, line, theme.ink);
  for (const drawing::Text& line : plate.place) paintText(painter, line, theme.ink2);
  for (const drawing::TerminalMark& mark : plate.terminals) {
    if (!mark.splice) {
      QPen pen(theme.ink, 1);
      if (mark.unknown) pen.setDashPattern({3, 2});
      painter.setBrush(theme.sunk);
      painter.setPen(pen);
      painter.drawRoundedRect(q(mark.square), 2, 2);
    }
    paintText(painter, mark.label, mark.splice ? theme.ink2 : theme.ink);
  }
}

}  // namespace

void paintScrew(QPainter& painter, const drawing::Screw& screw, const Theme& theme) {
  const QPointF at(screw.centre.x, screw.centre.y);
  if (screw.splice) {
    lozenge(painter, at, 9, theme.panel);
    lozenge(painter, at, 7.5, theme.ink);
    return;
  }
  QPen edge(theme.ink, 1.5);
  if (screw.unknown) edge.setDashPattern({2, 1.5});
  painter.setBrush(theme.panel);
  painter.setPen(edge);
  painter.drawEllipse(at, 7, 7);
  if (screw.ends == 0) {
    painter.setPen(QPen(theme.ink2, 1.5, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(at + QPointF(-4, 4), at + QPointF(4, -4));
    return;
  }
  painter.setPen(Qt::NoPen);
  painter.setBrush(theme.ink);
  painter.drawEllipse(at, 4.5, 4.5);
  painter.setPen(QPen(theme.panel, 1.25, Qt::SolidLine, Qt::FlatCap));
  const int bars = std::min(screw.ends, 3);
  for (int bar = 0; bar < bars; ++bar) {
    const double off = 2.1 * (bar - (bars - 1) / 2.0);
    const QPointF shift(off, off);
    const double half = 2.8 - 0.35 * std::abs(off);
    painter.drawLine(at + shift + QPointF(-half, half), at + shift + QPointF(half, -half));
  }
}

namespace {

void paintSheath(QPainter& painter, const drawing::Sheath& sheath, const Theme& theme) {
  const double radius = std::min(sheath.box.w, sheath.box.h) / 2;
  painter.setBrush(theme.sunk);
  painter.setPen(QPen(theme.controlEdge, 1));
  painter.drawRoundedRect(q(sheath.box), radius, radius);
  paintText(painter, sheath.size, theme.ink);
  paintText(painter, sheath.length, theme.ink2);
}

void zigzag(QPainter& painter, const Box& tag, const Theme& theme) {
  QPolygonF line;
  for (int i = 0; i <= 8; ++i)
    line << QPointF(tag.x + 2 + (tag.w - 4) * i / 8, tag.bottom() + (i % 2 ? 5.5 : 2.5));
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(theme.ground, 4.5, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
  painter.drawPolyline(line);
  painter.setPen(QPen(theme.ink, 1.5, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
  painter.drawPolyline(line);
}

void paintTag(QPainter& painter, drawing::Tag tag, const Theme& theme, const DiagramState& state) {
  const double grow = state.zoom < 0.6 ? 1 / state.zoom : 1;
  const drawing::Point c = tag.label.box.centre();
  const double w = tag.label.box.w * grow, h = tag.label.box.h * grow;
  tag.label.box = {c.x - w / 2, c.y - h / 2, w, h};
  painter.setBrush(theme.panel);
  painter.setPen(QPen(theme.casing, grow));
  painter.drawRoundedRect(q(tag.label.box), h / 2, h / 2);
  paintText(painter, tag.label, theme.ink, grow);
  if (state.foundOtherwise.count(tag.conductor)) zigzag(painter, tag.label.box, theme);
}

void paintHandles(QPainter& painter, const Diagram& diagram, const DiagramState& state, const Theme& theme) {
  for (const drawing::Wire& wire : diagram.wires) {
    if (!state.selected.count(wire.conductor)) continue;
    for (const drawing::Run& run : wire.runs) {
      const auto handle = [&](const drawing::Point& p) {
        painter.setPen(QPen(theme.ground, 1));
        painter.setBrush(theme.accent);
        painter.drawRect(QRectF(p.x - 4, p.y - 4, 8, 8));
      };
      if (run.points.empty()) continue;
      if (run.part != drawing::RunPart::endB) handle(run.points.front());
      if (run.part != drawing::RunPart::endA) handle(run.points.back());
    }
  }
}

void paintPill(QPainter& painter, const drawing::Row& row, const Theme& theme) {
  const Severity severity = row.state == drawing::DutyState::runsOtherSpeed ? Severity::warn : Severity::fail;
  drawing::Text value = row.value;
  painter.setPen(Qt::NoPen);
  if (row.kind == drawing::Row::Kind::volts) {
    painter.setPen(QPen(theme.controlEdge, 1));
    painter.setBrush(theme.panel);
    painter.drawRoundedRect(q(row.value.box).adjusted(0.5, 0.5, -0.5, -0.5), 2, 2);
    paintText(painter, value, theme.ink);
  } else if (row.state == drawing::DutyState::runs) {
    painter.setBrush(theme.ink);
    painter.drawRoundedRect(q(row.value.box), row.value.box.h / 2, row.value.box.h / 2);
    paintText(painter, value, theme.ground);
  } else if (row.state == drawing::DutyState::off) {
    paintText(painter, value, theme.ink2);
  } else {
    painter.setBrush(theme.severity(severity).soft);
    painter.drawRoundedRect(q(row.value.box), 4, 4);
    paintSeverity(painter, severity, QRectF(row.value.box.x + 8, row.value.box.y + 3, 12, 12), theme);
    value.box.x += 26;
    paintText(painter, value, theme.severity(severity).text);
  }
}

}  // namespace

void paintDiagram(QPainter& painter, const Diagram& diagram, const Overlay* overlay, const Theme& theme) {
  paintDiagram(painter, diagram, overlay, theme, {});
}

void paintDiagram(QPainter& painter, const Diagram& diagram, const Overlay* overlay, const Theme& theme,
                  const DiagramState& state) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setRenderHint(QPainter::TextAntialiasing);
  WirePainter wires(painter, diagram, overlay, theme, state);
  wires.paintRuns();
  for (const drawing::Plate& plate : diagram.plates) paintPlate(painter, plate, theme);
  for (const drawing::Plate& plate : diagram.plates)
    for (const drawing::Screw& screw : plate.screws) paintScrew(painter, screw, theme);
  for (const drawing::Sheath& sheath : diagram.sheaths) paintSheath(painter, sheath, theme);
  wires.paintChevrons();
  wires.paintEndMarks();
  for (const drawing::Tag& tag : diagram.tags) paintTag(painter, tag, theme, state);
  paintHandles(painter, diagram, state, theme);
  if (overlay)
    for (const drawing::Row& row : overlay->rows) {
      paintText(painter, row.label, theme.ink2);
      paintPill(painter, row, theme);
    }
  painter.restore();
}

QRectF pictureBounds(const Diagram& diagram, const Overlay* overlay) {
  return q(overlay ? drawing::united(diagram.bounds, overlay->bounds) : diagram.bounds);
}

drawing::TextMeasure textMeasure() {
  return [](std::string_view words, drawing::TextStyle style) {
    const QFontMetricsF metrics(font(style.px, style.bold));
    const QString string = QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
    return Box{0, -metrics.ascent(), metrics.horizontalAdvance(string), metrics.ascent() + metrics.descent()};
  };
}

}  // namespace ww::paint
