// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/legend.h"

#include <QPainter>

namespace ww::wiring {

namespace {

constexpr int kSample = 40, kGap = 8, kBetween = 28;

QFont smallFont(QFont font) {
  font.setPointSizeF(font.pointSizeF() * 11 / 13);
  return font;
}

}  // namespace

Legend::Legend(InHand& hand, QWidget* parent) : QWidget(parent), hand_(hand) {
  for (const char* key : {"legend.current", "legend.live", "legend.rest", "legend.preview"})
    words_ << hand_.words(key);
  setToolTip(words_.join(u'\n'));
  setAccessibleName(hand_.words("legend.name"));
  setAccessibleDescription(words_.join(QStringLiteral(", ")));
  setFont(smallFont(font()));
}

QSize Legend::sizeHint() const {
  int width = 0;
  for (const QString& word : words_)
    width += kSample + kGap + fontMetrics().horizontalAdvance(word) + kBetween;
  return {width, 32};
}

QSize Legend::minimumSizeHint() const { return {kSample, 32}; }

void Legend::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  double x = 0;
  for (int i = 0; i < words_.size(); ++i) {
    const int text = fontMetrics().horizontalAdvance(words_[i]);
    if (x + kSample + kGap + text > width()) return;
    paintSample(painter, i, x, height() / 2.0);
    painter.setPen(hand_.around().theme.ink2);
    painter.drawText(QRectF(x + kSample + kGap, 0, text + 2, height()), Qt::AlignVCenter, words_[i]);
    x += kSample + kGap + text + kBetween;
  }
}

void Legend::paintSample(QPainter& painter, int kind, double x, double y) const {
  const paint::Theme& theme = hand_.around().theme;
  const auto line = [&](const QColor& colour, double width, bool dashed = false) {
    QPen pen(colour, width, Qt::SolidLine, Qt::FlatCap);
    if (dashed) pen.setDashPattern({6 / width, 4 / width});
    painter.setPen(pen);
    painter.drawLine(QPointF(x, y), QPointF(x + kSample, y));
  };
  const QColor green = paint::body(sheet::Insulation::gn), orange = paint::body(sheet::Insulation::og);
  if (kind < 2) {
    line(theme.ink, 14.5);
    line(theme.ground, 10.5);
  }
  const QColor body = kind == 0 ? green : orange;
  line(kind == 2 ? theme.dimmed(theme.casing) : theme.casing, 6.5, kind == 3);
  line(kind == 2 ? theme.dimmed(paint::body(sheet::Insulation::wh)) : body, 4, kind == 3);
  if (kind != 0) return;
  painter.setBrush(Qt::NoBrush);
  const QPolygonF arms({{x + 16, y - 7}, {x + 24, y}, {x + 16, y + 7}});
  painter.setPen(QPen(theme.ground, 6, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
  painter.drawPolyline(arms);
  painter.setPen(QPen(theme.ink, 2.5, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
  painter.drawPolyline(arms);
}

}  // namespace ww::wiring
