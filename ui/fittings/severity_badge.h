// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "paint/theme.h"

namespace ww::fittings {

/// Size of a badge: shape, word, soft ground; px in the font given.
QSize badgeSize(const QString& word, const QFont& font);
/// Draws a badge with its left edge and middle in `box`; for item delegates.
void paintBadge(QPainter& painter, const QRect& box, paint::Severity severity, const QString& word,
                const paint::Theme& theme);

/// Shape and word of a judgement on its soft ground. Never colour alone.
class SeverityBadge : public QWidget {
  Q_OBJECT
 public:
  SeverityBadge(const paint::Theme& theme, QWidget* parent = nullptr);
  /// The word is the accessible name as well. An empty word draws the shape alone: give it a name then.
  void setJudgement(paint::Severity severity, const QString& word);
  paint::Severity severity() const { return severity_; }
  const QString& word() const { return word_; }

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return sizeHint(); }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const paint::Theme& theme_;
  paint::Severity severity_ = paint::Severity::notMeasured;
  QString word_;
};

}  // namespace ww::fittings
