// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/band_bar.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

namespace ww::checks {

namespace {

constexpr double kEdge = 12, kAxis = 20, kBandHalf = 11;

/// A step of 1, 2 or 5 times a power of ten that divides the range into about six.
double niceStep(double range) {
  const double raw = range / 6;
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  for (const double nice : {1.0, 2.0, 5.0})
    if (nice * power >= raw * 0.999) return nice * power;
  return 10 * power;
}

}  // namespace

BandBar::BandBar(const wording::Language& language, const paint::Theme& theme, QWidget* parent)
    : QWidget(parent), language_(language), theme_(theme) {
  setFixedHeight(52);
}

void BandBar::setBand(const std::optional<checklist::Band>& band, const QString& unit) {
  band_ = band;
  unit_ = unit;
  mark_.reset();
  former_.reset();
  update();
}

void BandBar::setMark(const std::optional<Mark>& mark) {
  mark_ = mark;
  update();
}

void BandBar::setFormer(const std::optional<double>& value) {
  former_ = value;
  update();
}

double BandBar::most() const {
  double top = 1;
  if (band_) top = band_->open ? 2 * band_->low : std::max(band_->high * 1.03, band_->low + 1e-3);
  if (mark_ && !mark_->open) top = std::max(top, mark_->value * 1.05);
  if (former_) top = std::max(top, *former_ * 1.05);
  const double step = niceStep(top);
  return std::ceil(top / step - 1e-9) * step;
}

double BandBar::x(double value) const {
  return kEdge + std::clamp(value / most(), 0.0, 1.0) * (width() - 2 * kEdge);
}

void BandBar::paintEvent(QPaintEvent*) {
  if (!band_) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const double end = most(), step = niceStep(end);
  const auto& right = theme_.severity(paint::Severity::right);
  const double low = x(band_->low), high = band_->open ? x(end) : x(band_->high);
  painter.setPen(QPen(right.text, 1.5));
  painter.setBrush(right.soft);
  painter.drawRect(QRectF(low, kAxis - kBandHalf, std::max(3.0, high - low), 2 * kBandHalf));
  painter.setPen(QPen(theme_.controlEdge, 1.5));
  painter.drawLine(QPointF(x(0), kAxis), QPointF(x(end), kAxis));
  painter.setFont(paint::font(11));
  const bool kilo = unit_ == u"ohm" && end >= 1000;
  const double scale = kilo ? 1000 : 1;
  const int decimals = step / scale >= 1 ? 0 : step / scale >= 0.1 ? 1 : 2;
  for (int n = 0; double(n) * step <= end * 1.0001; ++n) {
    const double value = double(n) * step;
    const bool last = double(n + 1) * step > end * 1.0001;
    painter.setPen(QPen(theme_.controlEdge, 1));
    painter.drawLine(QPointF(x(value), kAxis), QPointF(x(value), kAxis + 5));
    QString text = language_.number(value / scale, decimals);
    if (last)
      text = band_->open ? QStringLiteral("OL")
             : kilo      ? text + QChar(0x202F) + QStringLiteral("kΩ")
                         : language_.quantity(value, unit_.toStdString(), decimals);
    painter.setPen(theme_.ink2);
    const double wide = painter.fontMetrics().horizontalAdvance(text);
    const double left = std::clamp(x(value) - wide / 2, 0.0, width() - wide - 1);
    painter.drawText(QPointF(left, kAxis + 26), text);
  }
  if (former_) {
    painter.setPen(QPen(theme_.ink3, 3, Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(QPointF(x(*former_), kAxis - kBandHalf - 4), QPointF(x(*former_), kAxis + 3));
  }
  if (!mark_) return;
  const double at = mark_->open ? x(end) : x(mark_->value);
  paint::paintSeverity(painter, mark_->severity, QRectF(at - 9, kAxis - 9, 18, 18), theme_);
}

}  // namespace ww::checks
