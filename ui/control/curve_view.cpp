// SPDX-License-Identifier: GPL-3.0-or-later
#include "control/curve_view.h"

#include <QPainter>

namespace ww::control {

namespace {

constexpr int kHigh = 168;

}  // namespace

CurveView::CurveView(const paint::Theme& theme, QWidget* parent) : QWidget(parent), theme_(theme) {
  setFixedHeight(kHigh);
}

void CurveView::show(const paint::CyclePicture& picture) {
  picture_ = picture;
  setAccessibleDescription(picture.held.isEmpty() ? picture.atHalf : picture.atHalf + u' ' + picture.held);
  update();
}

void CurveView::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  paint::paintCycles(painter, QRectF(rect()), picture_, theme_);
}

}  // namespace ww::control
