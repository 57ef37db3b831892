// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/step_line.h"

#include <QEvent>
#include <QFontMetricsF>
#include <QMouseEvent>
#include <QPainter>
#include <algorithm>

#include "fittings/style.h"

namespace ww::checks {

namespace {

constexpr double kPad = 14, kGap = 10, kMark = 12, kPitch = 18;

}  // namespace

StepLine::StepLine(const paint::Theme& theme, QWidget* parent) : QWidget(parent), theme_(theme) {
  setMinimumWidth(200);
  fit();
}

/// As large as the other texts.
double StepLine::scale() const { return fittings::enlargement(font()); }

void StepLine::fit() {
  setFixedHeight(int(40 * scale()));
  arrange();
  update();
}

void StepLine::changeEvent(QEvent* event) {
  QWidget::changeEvent(event);
  if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange) fit();
}

void StepLine::setWalk(std::vector<Stand> stands, size_t current, size_t number, const QString& left) {
  stands_ = std::move(stands);
  current_ = current;
  number_ = number;
  left_ = left;
  setAccessibleDescription(left);
  arrange();
  update();
}

bool StepLine::holds(const Stand& stand) const {
  return current_ >= stand.first && current_ < stand.first + stand.marks.size();
}

QFont StepLine::nameFont(bool current) const { return paint::font(11 * scale(), current); }

QString StepLine::countOf(const Stand& stand) const {
  const auto open = std::count(stand.marks.begin(), stand.marks.end(), paint::Severity::notMeasured);
  return QStringLiteral("%1/%2").arg(qsizetype(stand.marks.size()) - open).arg(stand.marks.size());
}

double StepLine::widthOf(const Stand& stand, bool counted) const {
  const double name = QFontMetricsF(nameFont(true)).horizontalAdvance(stand.name);
  const double tail = counted ? QFontMetricsF(nameFont(false)).horizontalAdvance(countOf(stand))
                              : (kPitch * double(stand.marks.size()) + (holds(stand) ? 10 : 0)) * scale();
  return (2 * kPad + kGap) * scale() + name + tail;
}

void StepLine::arrange() {
  boxes_.clear();
  if (stands_.empty()) return;
  const QFontMetricsF bold(nameFont(true));
  const double room = width() - bold.horizontalAdvance(left_) - 2 * kPad * scale();
  size_t at = 0;
  for (size_t i = 0; i < stands_.size(); ++i)
    if (holds(stands_[i])) at = i;
  // Every width is measured once: the line is set anew at every reading.
  std::vector<double> inFull, counted;
  double total = 0;
  for (const Stand& stand : stands_) {
    inFull.push_back(widthOf(stand, false));
    counted.push_back(widthOf(stand, true));
    total += counted.back();
  }
  std::vector<char> full(stands_.size(), 0);
  const auto open = [&](size_t stand) {
    full[stand] = 1;
    total += inFull[stand] - counted[stand];
  };
  // In full: the stand in hand, then its neighbours outwards as long as there is room.
  open(at);
  for (size_t reach = 1; reach < stands_.size(); ++reach)
    for (const auto next : {at + reach, at - reach})
      if (next < stands_.size() && total + inFull[next] - counted[next] <= room) open(next);  // wraps below 0
  const auto widthAt = [&](size_t stand) { return full[stand] ? inFull[stand] : counted[stand]; };
  // Still too wide: the line begins so far left that the stand in hand is seen.
  double x = 0;
  double before = 0;
  for (size_t i = 0; i <= at; ++i) before += widthAt(i);
  if (total > room) x = std::min(0.0, room - before - (at + 1 < stands_.size() ? 60 : 0));
  for (size_t i = 0; i < stands_.size(); ++i) {
    const double wide = widthAt(i);
    Box box{QRectF(x, 0, wide, height()), i, full[i] == 0, {}};
    double mark = x + (kPad + kGap) * scale() + bold.horizontalAdvance(stands_[i].name);
    for (size_t n = 0; n < stands_[i].marks.size() && full[i]; ++n) {
      const bool here = stands_[i].first + n == current_;
      const double w = (here ? kPitch + 10 : kPitch) * scale();
      box.marks.push_back({mark, 0, w, double(height())});
      mark += w;
    }
    if (box.place.right() <= room + 1) boxes_.push_back(std::move(box));
    x += wide;
  }
}

void StepLine::resizeEvent(QResizeEvent*) { arrange(); }

void StepLine::paintEvent(QPaintEvent*) {
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.fillRect(rect(), theme_.panel);
  painter.setPen(theme_.hairline);
  painter.drawLine(0, 0, width(), 0);
  for (const Box& box : boxes_) {
    const Stand& stand = stands_[box.stand];
    const bool here = holds(stand);
    painter.setFont(nameFont(here));
    painter.setPen(here ? theme_.ink : theme_.ink2);
    painter.drawText(box.place.adjusted(kPad * scale(), 0, 0, 0), Qt::AlignLeft | Qt::AlignVCenter,
                     stand.name);
    if (box.counted) {
      painter.setFont(nameFont(false));
      painter.drawText(box.place.adjusted(0, 0, -kPad * scale(), 0), Qt::AlignRight | Qt::AlignVCenter,
                       countOf(stand));
    }
    for (size_t n = 0; n < box.marks.size(); ++n) {
      const QPointF centre = box.marks[n].center();
      const double size = kMark * scale();
      const QRectF square(centre.x() - size / 2, centre.y() - size / 2, size, size);
      if (stand.first + n == current_) {
        const QSizeF wide = QSizeF(24, 22) * scale();
        const QRectF frame(centre - QPointF(wide.width() / 2, wide.height() / 2), wide);
        painter.setPen(QPen(theme_.accent, 2));
        painter.setBrush(theme_.accentSoft);
        painter.drawRoundedRect(frame, 3, 3);
        painter.setPen(theme_.ink);
        painter.setFont(nameFont(true));
        painter.drawText(frame, Qt::AlignCenter, QString::number(number_));
      } else {
        paint::paintSeverity(painter, stand.marks[n], square, theme_);
      }
    }
    painter.setPen(theme_.hairline);
    painter.drawLine(QPointF(box.place.right(), 1), QPointF(box.place.right(), height()));
  }
  painter.setFont(nameFont(false));
  painter.setPen(theme_.ink2);
  painter.drawText(rect().adjusted(0, 0, -int(kPad * scale()), 0), Qt::AlignRight | Qt::AlignVCenter, left_);
}

void StepLine::mousePressEvent(QMouseEvent* event) {
  for (const Box& box : boxes_) {
    for (size_t n = 0; n < box.marks.size(); ++n)
      if (box.marks[n].contains(event->position())) {
        Q_EMIT chosen(int(stands_[box.stand].first + n));
        return;
      }
    if (box.place.contains(event->position())) {
      Q_EMIT chosen(int(stands_[box.stand].first));
      return;
    }
  }
}

}  // namespace ww::checks
