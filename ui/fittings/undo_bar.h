// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QTimer>
#include <functional>

#include "session/surroundings.h"

class QLabel;
class QPushButton;

namespace ww::fittings {

/// Says for six seconds what was just done, with a button that undoes it. Hidden otherwise; takes no focus of
/// itself.
class UndoBar : public QFrame {
  Q_OBJECT
 public:
  explicit UndoBar(const session::Surroundings& around, QWidget* parent = nullptr);
  /// `undo` is called at most once; with none the bar only tells.
  void offer(const QString& sentence, std::function<void()> undo);
  /// The six seconds are over.
  void lapse();
  QPushButton* button() const { return button_; }

 private:
  const session::Surroundings& around_;
  QLabel* text_;
  QPushButton* button_;
  QTimer timer_;
  std::function<void()> undo_;
};

}  // namespace ww::fittings
