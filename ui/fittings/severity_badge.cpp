// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/severity_badge.h"

#include <QPainter>

namespace ww::fittings {

namespace {

constexpr int kPadding = 8, kGap = 6, kVertical = 3;

QFont bold(QFont font) {
  font.setWeight(QFont::Bold);
  return font;
}

int shapeSize(const QFontMetrics& metrics) { return qMax(14, metrics.ascent()); }

}  // namespace

QSize badgeSize(const QString& word, const QFont& font) {
  const QFontMetrics metrics(bold(font));
  const int shape = shapeSize(metrics);
  const int height = qMax(metrics.height(), shape) + 2 * kVertical;
  if (word.isEmpty()) return {shape + 2 * kVertical, height};
  return {2 * kPadding + shape + kGap + metrics.horizontalAdvance(word), height};
}

void paintBadge(QPainter& painter, const QRect& box, paint::Severity severity, const QString& word,
                const paint::Theme& theme) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(bold(painter.font()));
  const QFontMetrics metrics = painter.fontMetrics();
  const int shape = shapeSize(metrics);
  const QSize size = badgeSize(word, painter.font());
  const QRect ground(box.left(), box.center().y() - size.height() / 2, qMin(size.width(), box.width()),
                     size.height());
  const paint::SeverityColours& colours = theme.severity(severity);
  int left = ground.left();
  if (!word.isEmpty()) {
    // What was not measured has no ground of its own: there is nothing to weigh.
    if (severity != paint::Severity::notMeasured) {
      painter.setPen(Qt::NoPen);
      painter.setBrush(colours.soft);
      painter.drawRoundedRect(ground, 4, 4);
    }
    left += kPadding;
  }
  paint::paintSeverity(painter, severity,
                       QRectF(left, ground.top() + (ground.height() - shape) / 2.0, shape, shape), theme);
  painter.setPen(colours.text);
  const QRect text = ground.adjusted(left - ground.left() + shape + kGap, 0, -kPadding / 2, 0);
  painter.drawText(text, Qt::AlignVCenter | Qt::AlignLeft | Qt::TextSingleLine,
                   metrics.elidedText(word, Qt::ElideRight, text.width()));
  painter.restore();
}

SeverityBadge::SeverityBadge(const paint::Theme& theme, QWidget* parent) : QWidget(parent), theme_(theme) {
  setSizePolicy(QSizePolicy::Fixed, QSizePolicy::Fixed);
}

void SeverityBadge::setJudgement(paint::Severity severity, const QString& word) {
  severity_ = severity;
  word_ = word;
  if (!word.isEmpty()) setAccessibleName(word);
  updateGeometry();
  update();
}

QSize SeverityBadge::sizeHint() const { return badgeSize(word_, font()); }

void SeverityBadge::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setFont(font());
  paintBadge(painter, rect(), severity_, word_, theme_);
}

}  // namespace ww::fittings
