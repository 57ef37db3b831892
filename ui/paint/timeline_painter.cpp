// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/timeline_painter.h"

#include <QPainter>

#include "paint/text_painter.h"

namespace ww::paint {

namespace {

QRectF q(const drawing::Box& box) { return {box.x, box.y, box.w, box.h}; }

/// Filled, with an edge at each end that is an event; what was on before or goes on is open there.
void paintBar(QPainter& painter, const drawing::TimelineTrack::Bar& bar, const Theme& theme) {
  const QRectF box = q(bar.box);
  painter.fillRect(box, theme.accent);
  painter.setPen(QPen(theme.ink, 2, Qt::SolidLine, Qt::FlatCap));
  if (!bar.fromBefore) painter.drawLine(box.topLeft(), box.bottomLeft());
  if (!bar.goesOn) painter.drawLine(box.topRight(), box.bottomRight());
}

void paintCall(QPainter& painter, const drawing::TimelineOfCall& call, const Theme& theme) {
  paintText(painter, call.title, theme.ink);
  paintText(painter, call.nothing, theme.ink2);
  paintText(painter, call.more, theme.ink2);
  painter.fillRect(q(call.chart), theme.panel);
  painter.setPen(QPen(theme.hairline, 1));
  for (const auto& moment : call.moments)
    painter.drawLine(QPointF(moment.x, call.chart.y), QPointF(moment.x, call.chart.bottom()));
  for (const auto& moment : call.moments) paintText(painter, moment.label, theme.ink2);
  for (const auto& track : call.tracks) {
    paintText(painter, track.name, theme.ink);
    paintText(painter, track.unitName, theme.ink2);
    for (const auto& bar : track.bars) paintBar(painter, bar, theme);
  }
}

}  // namespace

void paintTimeline(QPainter& painter, const drawing::Timeline& timeline, const Theme& theme) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  for (const auto& call : timeline.calls) paintCall(painter, call, theme);
  paintText(painter, timeline.scale, theme.ink2);
  painter.restore();
}

}  // namespace ww::paint
