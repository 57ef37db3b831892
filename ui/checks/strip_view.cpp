// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/strip_view.h"

#include <QEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>

#include "fittings/style.h"

namespace ww::checks {

namespace {

constexpr int kName = 20, kBetween = 4;

}  // namespace

StripView::StripView(const paint::Theme& theme, QWidget* parent) : QWidget(parent), theme_(theme) {}

void StripView::setStrips(std::vector<Strip> strips, const QString& inWords) {
  strips_ = std::move(strips);
  setAccessibleName(inWords);
  fit();
}

/// One strip is as large as the other texts; of two there is no room for more.
double StripView::scale() const { return strips_.size() == 1 ? fittings::enlargement(font()) : 1; }

void StripView::fit() {
  double wide = 0, high = 0;
  for (const Strip& strip : strips_) {
    const QSizeF size = paint::stripSize(strip.picture);
    wide = std::max(wide, size.width());
    high += size.height() + (strips_.size() > 1 ? kName + kBetween : 0);
  }
  setFixedSize(int(std::ceil(wide * scale())), int(std::ceil(high * scale())));
  update();
}

void StripView::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) fit();
}

void StripView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.scale(scale(), scale());
  double y = 0;
  for (const Strip& strip : strips_) {
    if (strips_.size() > 1) {
      painter.setFont(paint::font(13, true));
      painter.setPen(theme_.ink);
      painter.drawText(QRectF(0, y, width(), kName), Qt::AlignLeft | Qt::AlignTop, strip.unit);
      y += kName;
    }
    paint::paintStrip(painter, {0, y}, strip.picture, theme_);
    y += paint::stripSize(strip.picture).height() + kBetween;
  }
}

ProbeMark::ProbeMark(int probe, const paint::Theme& theme, QWidget* parent)
    : QWidget(parent), probe_(probe), theme_(theme) {
  setFixedSize(26, 26);
}

void ProbeMark::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  paint::paintProbe(painter, {13, 13}, probe_, theme_);
}

}  // namespace ww::checks
