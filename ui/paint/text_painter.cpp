// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/text_painter.h"

#include <QFontMetricsF>
#include <QHash>
#include <QPainter>
#include <map>

#include "paint/theme.h"

namespace ww::paint {

namespace {

/// The width of words in a font. The same few stand on the diagram again and again, and measuring one takes
/// as long as painting it; so each is measured once on a thread.
double widthOf(const QString& words, double px, bool bold, const QFontMetricsF& metrics) {
  static thread_local std::map<std::pair<double, bool>, QHash<QString, double>> widths;
  if (widths.size() > 64) widths.clear();
  QHash<QString, double>& known = widths[{px, bold}];
  if (known.size() > 4096) known.clear();
  const auto at = known.constFind(words);
  return at != known.constEnd() ? *at : *known.insert(words, metrics.horizontalAdvance(words));
}

}  // namespace

void paintText(QPainter& painter, const drawing::Text& text, const QColor& colour, double grow) {
  if (text.text.empty()) return;
  const double px = text.style.px * grow;
  const QFont face = font(px, text.style.bold);
  const QString words = QString::fromStdString(text.text);
  const QFontMetricsF metrics(face);
  const double width = text.align == drawing::Align::left ? 0 : widthOf(words, px, text.style.bold, metrics);
  const double x = text.align == drawing::Align::left    ? text.box.x
                   : text.align == drawing::Align::right ? text.box.right() - width
                                                         : text.box.x + (text.box.w - width) / 2;
  // Centred on the capital letters, which is where the eye puts the middle of a short word in a box.
  const double baseline = text.box.y + text.box.h / 2 + metrics.capHeight() / 2;
  painter.setFont(face);
  painter.setPen(colour);
  painter.drawText(QPointF(x, baseline), words);
}

}  // namespace ww::paint
