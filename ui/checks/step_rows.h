// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "paint/theme.h"

namespace ww::checks {

/// Steps one below the other: shape and word of the verdict, what was to be measured, what was read. Long
/// titles wrap. A click chooses a step; the keyboard walks with the place's own keys.
class StepRows : public QWidget {
  Q_OBJECT
 public:
  struct Row {
    paint::Severity severity = paint::Severity::notMeasured;
    QString title, reading, verdict;
    bool current = false;
  };
  explicit StepRows(const paint::Theme& theme, QWidget* parent = nullptr);
  void setRows(std::vector<Row> rows);
  const std::vector<Row>& rows() const { return rows_; }
  QRect rowRect(int row) const;

  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return {120, heightForWidth(width())}; }

 Q_SIGNALS:
  void chosen(int row);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;

 private:
  int titleHeight(const Row& row, int width) const;
  int rowHeight(const Row& row, int width) const;

  const paint::Theme& theme_;
  std::vector<Row> rows_;
};

}  // namespace ww::checks
