// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/elided_label.h"

#include <QEvent>
#include <QPainter>

#include "fittings/style.h"

namespace ww::fittings {

ElidedLabel::ElidedLabel(const char* role, QWidget* parent) : QLabel(parent) {
  if (role) setRole(this, role);
  setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Preferred);
}

void ElidedLabel::setWhole(const QString& text) {
  if (text == whole_) return;
  whole_ = text;
  setToolTip(text);
  setAccessibleName(text);
  updateGeometry();
  update();
}

QSize ElidedLabel::sizeHint() const {
  return {fontMetrics().horizontalAdvance(whole_) + 2, fontMetrics().height()};
}

QSize ElidedLabel::minimumSizeHint() const {
  return {qMin(sizeHint().width(), fontMetrics().averageCharWidth() * 8), fontMetrics().height()};
}

void ElidedLabel::changeEvent(QEvent* event) {
  QLabel::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) updateGeometry();
}

void ElidedLabel::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setPen(palette().color(QPalette::WindowText));
  painter.setFont(font());
  painter.drawText(rect(), Qt::AlignVCenter | Qt::AlignLeft,
                   fontMetrics().elidedText(whole_, Qt::ElideRight, width()));
}

}  // namespace ww::fittings
