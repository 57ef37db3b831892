// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "paint/theme.h"

namespace ww::checks {

/// The whole walk in one line: place by place, a mark for each step, a box around the one in hand. Where not
/// all fit, the places around the one in hand are drawn in full and the others count.
class StepLine : public QWidget {
  Q_OBJECT
 public:
  struct Stand {
    QString name;
    size_t first = 0;
    std::vector<paint::Severity> marks;
  };
  explicit StepLine(const paint::Theme& theme, QWidget* parent = nullptr);
  /// `number`: what the step in hand is called.
  void setWalk(std::vector<Stand> stands, size_t current, size_t number, const QString& left);
  const QString& left() const { return left_; }
  QSize sizeHint() const override { return {400, 40}; }

 Q_SIGNALS:
  void chosen(int step);

 protected:
  void paintEvent(QPaintEvent* event) override;
  void mousePressEvent(QMouseEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  struct Box {
    QRectF place;
    size_t stand = 0;
    bool counted = false;
    std::vector<QRectF> marks;
  };
  void arrange();
  void fit();
  double scale() const;
  double widthOf(const Stand& stand, bool counted) const;
  QString countOf(const Stand& stand) const;
  bool holds(const Stand& stand) const;
  QFont nameFont(bool current) const;

  const paint::Theme& theme_;
  std::vector<Stand> stands_;
  size_t current_ = 0, number_ = 0;
  QString left_;
  std::vector<Box> boxes_;
};

}  // namespace ww::checks
