// SPDX-License-Identifier: GPL-3.0-or-later
#include "jobs/visit_line.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

namespace ww::jobs {

namespace {

constexpr size_t kMostVisits = 4;  // newer ones, so that their days stay legible
constexpr int kAxis = 40, kRight = 8;

QFont smaller(QFont font) {
  font.setPointSizeF(font.pointSizeF() * 11 / 13);
  return font;
}

double xOf(size_t i, size_t count, double left, double width) {
  return left + width * (static_cast<double>(i) + 0.5) / static_cast<double>(count);
}

}  // namespace

VisitLine::VisitLine(const paint::Theme& theme, QWidget* parent) : QWidget(parent), theme_(theme) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void VisitLine::setVisits(const std::vector<Visit>& visits) {
  const size_t skip = visits.size() > kMostVisits ? visits.size() - kMostVisits : 0;
  visits_.assign(visits.begin() + static_cast<std::ptrdiff_t>(skip), visits.end());
  QStringList said;
  for (const Visit& visit : visits_) said << visit.day + u' ' + visit.state;
  setAccessibleName(said.join(QStringLiteral(", ")));
  update();
}

QSize VisitLine::sizeHint() const { return {460, 26 + 2 * QFontMetrics(smaller(font())).height()}; }

void VisitLine::paintEvent(QPaintEvent*) {
  if (visits_.empty()) return;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  const QFont small = smaller(font());
  const int line = QFontMetrics(small).height();
  const double y = 12, width = this->width() - kRight;
  painter.setPen(QPen(theme_.ink2, 2));
  painter.drawLine(QPointF(4, y), QPointF(width, y));
  const double slot = width / static_cast<double>(visits_.size());
  for (size_t i = 0; i < visits_.size(); ++i) {
    const Visit& visit = visits_[i];
    const double x = xOf(i, visits_.size(), 0, width);
    painter.setPen(QPen(theme_.ink, 2));
    painter.setBrush(visit.inFront ? theme_.ink : theme_.panel);
    const double radius = visit.inFront ? 7 : 5;
    painter.drawEllipse(QPointF(x, y), radius, radius);
    QFont bold = small;
    bold.setBold(visit.inFront);
    painter.setFont(bold);
    painter.setPen(theme_.ink);
    const QRectF upper(x - slot / 2, 22, slot, line);
    const auto fit = [&](const QString& text) {
      return painter.fontMetrics().elidedText(text, Qt::ElideRight, static_cast<int>(slot) - 4);
    };
    painter.drawText(upper, Qt::AlignCenter, fit(visit.day));
    painter.setFont(small);
    painter.setPen(theme_.ink2);
    painter.drawText(upper.translated(0, line), Qt::AlignCenter, fit(visit.state));
  }
}

DriftPlot::DriftPlot(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent), language_(around.language), theme_(around.theme) {
  setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
}

void DriftPlot::setDrift(const Drift& drift) {
  drift_ = drift;
  QStringList said{drift.title};
  for (const QString& one : drift.worded)
    if (!one.isEmpty()) said << one;
  said << drift.bandText << drift.verdict;
  setAccessibleName(said.join(QStringLiteral(", ")));
  update();
}

void DriftPlot::paintEvent(QPaintEvent*) {
  std::vector<double> all;
  for (const double value : drift_.values)
    if (std::isfinite(value)) all.push_back(value);
  if (all.empty()) return;
  if (drift_.low) all.push_back(*drift_.low);
  if (drift_.high) all.push_back(*drift_.high);
  auto [lowest, highest] = std::minmax_element(all.begin(), all.end());
  const double room = std::max((*highest - *lowest) * 0.35, 0.05 * std::abs(*highest) + 1e-6);
  const double from = *lowest - room, to = *highest + room;
  QPainter painter(this);
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setFont(smaller(font()));
  const QRectF field(kAxis, 4, width() - kAxis - kRight, height() - 8);
  const auto y = [&](double value) { return field.bottom() - (value - from) / (to - from) * field.height(); };
  const paint::SeverityColours& right = theme_.severity(paint::Severity::right);
  if (drift_.low && drift_.high) {
    const QRectF band(QPointF(field.left(), y(*drift_.high)), QPointF(field.right(), y(*drift_.low)));
    painter.fillRect(band, right.soft);
    painter.setPen(QPen(right.text, 1));
    painter.drawLine(band.topLeft(), band.topRight());
    painter.drawLine(band.bottomLeft(), band.bottomRight());
    painter.drawText(band.adjusted(0, 2, -6, -2), Qt::AlignRight | Qt::AlignTop, drift_.bandText);
  }
  painter.setPen(theme_.ink2);
  for (const double value : {from + (to - from) * 0.15, from + (to - from) * 0.85})
    painter.drawText(QRectF(0, y(value) - 8, kAxis - 8, 16), Qt::AlignRight | Qt::AlignVCenter,
                     language_.number(value, to - from < 1    ? 2
                                             : to - from < 20 ? 1
                                                              : 0));
  std::optional<QPointF> before;
  for (size_t i = 0; i < drift_.values.size(); ++i) {
    if (!std::isfinite(drift_.values[i])) continue;
    const QPointF at(xOf(i, drift_.values.size(), field.left(), field.width()), y(drift_.values[i]));
    const bool last = i + 1 == drift_.values.size();
    if (before) {
      painter.setPen(QPen(theme_.ink2, 1));
      painter.drawLine(*before, at);
    }
    if (last && drift_.outside) {
      paint::paintSeverity(painter, paint::Severity::warn, {at.x() - 7, at.y() - 7, 14, 14}, theme_);
      painter.setPen(theme_.severity(paint::Severity::warn).text);
    } else {
      painter.setPen(Qt::NoPen);
      painter.setBrush(theme_.ink);
      painter.drawEllipse(at, 4, 4);
      painter.setPen(theme_.ink);
    }
    const QString text = last && !drift_.verdict.isEmpty()
                             ? drift_.worded[i] + QStringLiteral(", ") + drift_.verdict
                             : drift_.worded[i];
    const bool below = at.y() < field.top() + 24 || (last && drift_.low && drift_.values[i] < *drift_.low);
    QRectF label(at.x() - 80, below ? at.y() + 8 : at.y() - 24, 160, 16);
    if (label.right() > width()) label.moveRight(width());
    painter.drawText(label, Qt::AlignCenter, text);
    before = at;
  }
}

}  // namespace ww::jobs
