// SPDX-License-Identifier: GPL-3.0-or-later
// The diagram on screen: the shared painter, and on top of it what only a screen has.
#include <QPainter>

#include "paint/diagram_painter.h"
#include "wiring/diagram_view.h"

namespace ww::wiring {

namespace {

QRectF q(const drawing::Box& b) { return {b.x, b.y, b.w, b.h}; }

}  // namespace

void DiagramView::paintEvent(QPaintEvent*) {
  const paint::Theme& theme = hand_.around().theme;
  QPainter painter(viewport());
  painter.fillRect(viewport()->rect(), theme.ground);
  if (hand_.sheet().units.empty()) {
    painter.setPen(theme.ink2);
    painter.drawText(viewport()->rect().adjusted(32, 32, -32, -32), Qt::AlignCenter | Qt::TextWordWrap,
                     hand_.words("empty"));
    return;
  }
  const QPointF origin = onScreen({0, 0});
  painter.translate(origin);
  painter.scale(zoom_, zoom_);
  painter.setRenderHint(QPainter::Antialiasing);
  paintUnitFrames(painter);
  paint::DiagramState state;
  state.hovered = hovered_;
  state.selected = hand_.selection().touched();
  if (const auto& cable = hand_.selection().cable)
    for (const auto* wire : sheet::conductorsOf(hand_.sheet(), *cable)) state.selected.insert(wire->id);
  state.preview = picture_.previewed();
  state.zoom = zoom_;
  paint::paintDiagram(painter, picture_.diagram(), picture_.overlay(), theme, state);
  paintMarks(painter);
  paintPicked(painter);
  if (hasFocus()) paintFocus(painter);
}

/// A chosen unit has a halo round its plate.
void DiagramView::paintUnitFrames(QPainter& painter) const {
  const auto& unit = hand_.selection().unit;
  const drawing::Plate* plate = unit ? picture_.diagram().plate(*unit) : nullptr;
  if (!plate) return;
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(hand_.around().theme.accent, 4));
  painter.drawRoundedRect(q(plate->box).adjusted(-4, -4, 4, 4), 7, 7);
}

/// Shapes of findings: beside the tags of a conductor named by one, on the square of a terminal named by one,
/// and at ends in the air.
void DiagramView::paintMarks(QPainter& painter) const {
  if (picture_.previewing()) return;
  const paint::Theme& theme = hand_.around().theme;
  const auto shape = [&](verify::Severity severity, QPointF at) {
    const QRectF box(at.x() - 7, at.y() - 7, 14, 14);
    painter.setPen(QPen(theme.ground, 3, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(theme.ground);
    painter.drawPath(paint::severityOutline(paint::shapeOf(severity), box));
    paint::paintSeverity(painter, paint::shapeOf(severity), box, theme);
  };
  for (const drawing::Plate& plate : picture_.diagram().plates)
    for (const drawing::TerminalMark& mark : plate.terminals)
      if (const auto severity = hand_.mark(sheet::TerminalRef{plate.unit, mark.id}))
        shape(*severity, {mark.square.right(), mark.square.y});
  for (const drawing::Tag& tag : picture_.diagram().tags)
    if (const auto severity = hand_.markOfItself(tag.conductor))
      shape(*severity, {tag.label.box.right() - 1, tag.label.box.y - 1});
}

void DiagramView::paintFocus(QPainter& painter) const {
  if (!focus_) return;
  const paint::Theme& theme = hand_.around().theme;
  painter.setBrush(Qt::NoBrush);
  painter.setPen(QPen(theme.ground, 2));
  painter.drawEllipse(focus_->at, 10, 10);
  painter.setPen(QPen(theme.accent, 2.5));
  painter.drawEllipse(focus_->at, 12.25, 12.25);
}

/// The end in hand: dashed in its own colour from where it lay to where it would go.
void DiagramView::paintPicked(QPainter& painter) const {
  std::optional<QPointF> from;
  QColor colour = paint::body(sheet::Insulation::rd);
  if (picked_) {
    from = picture_.anchorOf(*picked_);
    if (const sheet::Conductor* wire = hand_.sheet().conductors.find(picked_->conductor))
      colour = paint::body(wire->colour.body);
  } else if (jumperFrom_) {
    for (const Spot& spot : picture_.spots())
      if (spot.terminal == *jumperFrom_) from = spot.at;
  }
  const std::optional<QPointF> to = dragging_ ? pointer_ : focus_ ? std::optional(focus_->at) : pointer_;
  if (!from || !to) return;
  const paint::Theme& theme = hand_.around().theme;
  const auto dashes = [&](const QColor& ink, double width) {
    QPen pen(ink, width, Qt::SolidLine, Qt::FlatCap);
    pen.setDashPattern({6 / width, 4 / width});
    painter.setPen(pen);
    painter.drawLine(*from, *to);
  };
  painter.setPen(QPen(theme.ground, 10.5));
  painter.drawLine(*from, *to);
  dashes(theme.casing, 6.5);
  dashes(colour.isValid() ? colour : theme.panel, 4);
  painter.setPen(QPen(theme.accent, 2));
  painter.setBrush(theme.panel);
  painter.drawEllipse(*to, 5, 5);
}

}  // namespace ww::wiring
