// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFontMetrics>
#include <QStyledItemDelegate>

#include "paint/theme.h"

namespace ww::jobs {

/// Where the words of a query begin in a text: (start, length) pairs in order. A word matches by its
/// beginning, whatever the case and the accents; words with a colon are filters and match nothing.
std::vector<std::pair<qsizetype, qsizetype>> matchesIn(const QString& text, const QString& query);

/// A text set in one line where it fits, else in two between words, the second ending in "…" where it must.
QString inTwoLines(const QString& text, const QFontMetrics& metrics, int width);

/// Draws a job in two lines, with the words that match and the badge of its state.
class RowDelegate : public QStyledItemDelegate {
  Q_OBJECT
 public:
  RowDelegate(const paint::Theme& theme, QObject* parent);
  void setQuery(const QString& query) { query_ = query; }
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;

 private:
  void paintMatches(QPainter& painter, const QRect& box, const QString& text, const QColor& ink) const;

  const paint::Theme& theme_;
  QString query_;
};

}  // namespace ww::jobs
