// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paint/page_flow.h"

namespace ww::paint {

/// Paints a table over as many pages as it needs; the head row stands again on each.
class TablePainter {
 public:
  /// `tight`: with less air in the rows.
  TablePainter(PageFlow& flow, const wording::Context& context, bool tight)
      : flow_(flow), context_(context), tight_(tight) {}
  void paint(const document::Table& table);
  /// Height of the head row and the first rows that belong together: what a heading above must keep with it.
  double openingHeight(const document::Table& table) const;
  /// Height of the whole table on a page that holds it.
  double height(const document::Table& table) const;

 private:
  struct Drawn {
    QString text;
    QFont font;
    QColor colour;
    double indent = 0;  ///< room for a mark before the text
  };
  std::vector<double> widths(const document::Table& table) const;
  double padding(const document::Row& row) const;
  Drawn drawn(const document::Cell& cell, bool small) const;
  double rowHeight(const document::Row& row, const std::vector<double>& widths) const;
  double headHeight(const document::Table& table, const std::vector<double>& widths) const;
  void paintHead(const document::Table& table, const std::vector<double>& widths);
  void paintRow(const document::Table& table, const document::Row& row, const std::vector<double>& widths);
  void paintMark(const document::Cell& cell, const QPointF& at);
  void line(const QColor& colour, double width);

  PageFlow& flow_;
  const wording::Context& context_;
  bool tight_;
};

}  // namespace ww::paint
