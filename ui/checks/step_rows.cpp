// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/step_rows.h"

#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

namespace ww::checks {

namespace {

constexpr int kLeft = 16, kShape = 14, kText = 40, kRight = 12, kPad = 6, kLine = 16;

}  // namespace

StepRows::StepRows(const paint::Theme& theme, QWidget* parent) : QWidget(parent), theme_(theme) {
  QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
  policy.setHeightForWidth(true);
  setSizePolicy(policy);
}

void StepRows::setRows(std::vector<Row> rows) {
  rows_ = std::move(rows);
  updateGeometry();
  update();
}

int StepRows::titleHeight(const Row& row, int width) const {
  const QFontMetrics metrics(paint::font(13, row.current));
  return metrics.boundingRect(0, 0, std::max(40, width - kText - kRight), 10000, Qt::TextWordWrap, row.title)
      .height();
}

int StepRows::rowHeight(const Row& row, int width) const {
  const bool second = !row.reading.isEmpty() || row.severity != paint::Severity::notMeasured;
  return std::max(28, titleHeight(row, width) + 2 * kPad + (second ? kLine : 0));
}

int StepRows::heightForWidth(int width) const {
  int height = 0;
  for (const Row& row : rows_) height += rowHeight(row, width);
  return height;
}

QSize StepRows::sizeHint() const { return {240, heightForWidth(std::max(width(), 240))}; }

QRect StepRows::rowRect(int row) const {
  int y = 0;
  for (int i = 0; i < row; ++i) y += rowHeight(rows_[size_t(i)], width());
  return {0, y, width(), rowHeight(rows_[size_t(row)], width())};
}

void StepRows::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  int y = 0;
  for (const Row& row : rows_) {
    const int high = rowHeight(row, width());
    if (row.current) {
      painter.fillRect(0, y, width(), high, theme_.accentSoft);
      painter.fillRect(0, y, 4, high, theme_.accent);
    }
    paint::paintSeverity(painter, row.severity, QRectF(kLeft, y + kPad + 2, kShape, kShape), theme_);
    painter.setFont(paint::font(13, row.current));
    painter.setPen(theme_.ink);
    const int text = titleHeight(row, width());
    painter.drawText(QRect(kText, y + kPad, width() - kText - kRight, text), Qt::TextWordWrap, row.title);
    const QRect line(kText, y + kPad + text, width() - kText - kRight, kLine);
    painter.setFont(paint::font(11));
    painter.setPen(theme_.severity(row.severity).text);
    if (!row.verdict.isEmpty() && row.severity != paint::Severity::notMeasured)
      painter.drawText(line, Qt::AlignRight | Qt::AlignVCenter, row.verdict);
    painter.setPen(theme_.ink2);
    painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter, row.reading);
    y += high;
  }
}

void StepRows::mousePressEvent(QMouseEvent* event) {
  int y = 0;
  for (size_t i = 0; i < rows_.size(); ++i) {
    const int high = rowHeight(rows_[i], width());
    if (event->position().y() >= y && event->position().y() < y + high) {
      Q_EMIT chosen(int(i));
      return;
    }
    y += high;
  }
}

}  // namespace ww::checks
