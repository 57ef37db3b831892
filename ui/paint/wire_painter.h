// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPainterPath>
#include <vector>

#include "paint/diagram_painter.h"

namespace ww::paint {

/// Paints conductors: ground gap, rails, casing, body, stripe; and the chevrons of those with current.
class WirePainter {
 public:
  WirePainter(QPainter& painter, const ww::drawing::Diagram& diagram, const ww::drawing::Overlay* overlay,
              const Theme& theme, const DiagramState& state);
  /// At rest first, what carries current last and uppermost.
  void paintRuns();
  void paintChevrons();
  void paintEndMarks();

 private:
  struct Widths {
    double body = 4, casing = 1.25;
  };
  ww::drawing::WireState stateOf(ww::sheet::ConductorId conductor) const;
  bool dim(ww::sheet::ConductorId conductor) const;
  QPainterPath path(const ww::drawing::Wire& wire, const ww::drawing::Run& run) const;
  void paintRun(const ww::drawing::Wire& wire, const ww::drawing::Run& run);
  void paintStripe(const QPainterPath& path, const ww::sheet::Colour& colour, bool dimmed);
  void paintPreview(const QPainterPath& path, const QColor& body);
  void stroke(const QPainterPath& path, const QColor& colour, double width,
              Qt::PenJoinStyle join = Qt::RoundJoin);
  void chevronsOf(const ww::drawing::Wire& wire, const ww::drawing::Run& run, bool forwards);
  bool clear(const QRectF& box, const ww::drawing::Wire& wire) const;
  void chevron(QPointF tip, QPointF direction);

  QPainter& painter_;
  const ww::drawing::Diagram& diagram_;
  const ww::drawing::Overlay* overlay_;
  const Theme& theme_;
  const DiagramState& state_;
  Widths widths_;
};

}  // namespace ww::paint
