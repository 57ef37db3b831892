// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/cycle_painter.h"

#include <QPainter>
#include <cmath>

#include "quantity/text.h"
#include "wording/settings_text.h"

namespace ww::paint {

namespace {

constexpr int kSteps = 80;
constexpr double kLeft = 24, kBottom = 20, kTop = 20, kRight = 8, kText = 11;
constexpr double kWords = 220, kAbove = 56;  // beneath the curve, where it is wide

/// The plot's field and its scale.
struct Field {
  QRectF box;
  double most;
  QPointF at(double share, double perHour) const {
    return {box.left() + share * box.width(), box.bottom() - perHour / most * box.height()};
  }
};

QPainterPath pathOf(const std::vector<recommend::Cycle>& points, const Field& field) {
  QPainterPath path;
  for (const auto& cycle : points) {
    const QPointF at = field.at(cycle.share, cycle.perHour);
    if (path.elementCount() == 0)
      path.moveTo(at);
    else
      path.lineTo(at);
  }
  return path;
}

void paintGrid(QPainter& painter, const Field& field, const CyclePicture& picture, const Theme& theme) {
  painter.setFont(font(kText));
  const int step = field.most > 6 ? 3 : 1;
  for (int n = 0; n <= int(std::ceil(field.most - 1e-9)); n += step) {
    const double y = field.at(0, n).y();
    painter.setPen(QPen(n == 0 ? theme.controlEdge : theme.hairline, 1));
    painter.drawLine(QPointF(field.box.left(), y), QPointF(field.box.right(), y));
    painter.setPen(theme.ink2);
    painter.drawText(QRectF(field.box.left() - kLeft, y - 8, kLeft - 6, 16),
                     Qt::AlignRight | Qt::AlignVCenter, QString::number(n));
  }
  const double below = field.box.bottom() + 3;
  painter.drawText(QRectF(field.box.left(), below, 40, kBottom), Qt::AlignLeft, QStringLiteral("0"));
  painter.drawText(QRectF(field.box.center().x() - 80, below, 160, kBottom), Qt::AlignHCenter,
                   picture.halfLoad);
  painter.drawText(QRectF(field.box.right() - 80, below, 80, kBottom), Qt::AlignRight, picture.fullLoad);
}

}  // namespace

CyclePicture cyclePicture(const wording::Language& language, double most, quantity::Seconds least) {
  const auto told = [&](const char* key, double value) {
    return wording::settingValue(language, key, quantity::printNumber(value));
  };
  const auto half = recommend::delivered(most, 0.5, least);
  CyclePicture picture{most, least, {}, {}, {}, {}};
  picture.atHalf = language.sentence(QStringLiteral("control.view.curve-what"),
                                     {{"starts", told("starts", half.perHour)},
                                      {"on", told("minimumOff", half.on.si())},
                                      {"off", told("minimumOff", half.off.si())}});
  if (const auto held = recommend::heldAbove(most, least))
    picture.held =
        language.sentence(QStringLiteral("control.view.curve-held"), {{"share", told("share", *held)}});
  picture.halfLoad = language.sentence(QStringLiteral("control.view.half-load"));
  picture.fullLoad = language.sentence(QStringLiteral("control.view.full-load"));
  return picture;
}

void paintCycles(QPainter& painter, const QRectF& box, const CyclePicture& picture, const Theme& theme) {
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  const Field field{box.adjusted(kLeft, kTop, -kRight, -kBottom), std::max(picture.most, 1.0)};
  paintGrid(painter, field, picture, theme);
  if (!picture.held.isEmpty()) {
    painter.setPen(QPen(theme.ink2, 1.5, Qt::DashLine));
    painter.drawPath(pathOf(recommend::curve(picture.most, quantity::Seconds(0), kSteps), field));
    painter.drawText(QRectF(box.left(), box.top(), box.width() - kRight, kTop - 4), Qt::AlignRight,
                     picture.held);
  }
  painter.setPen(QPen(theme.ink, 2));
  painter.drawPath(pathOf(recommend::curve(picture.most, picture.least, kSteps), field));
  const auto half = recommend::delivered(picture.most, 0.5, picture.least);
  const QPointF at = field.at(0.5, half.perHour);
  painter.setBrush(theme.ink);
  painter.drawEllipse(at, 4, 4);
  painter.setFont(font(kText, true));
  painter.setPen(theme.ink);
  painter.drawText(
      QRectF(field.box.center().x() - kWords / 2, field.box.bottom() - kAbove, kWords, kAbove - 4),
      Qt::AlignHCenter | Qt::AlignBottom | Qt::TextWordWrap,  // where the curve is widest
      picture.atHalf);
  painter.restore();
}

}  // namespace ww::paint
