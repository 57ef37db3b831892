// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "paint/cycle_painter.h"

namespace ww::control {

/// The cycling curve on the screen; its accessible description tells it in words.
class CurveView : public QWidget {
  Q_OBJECT
 public:
  explicit CurveView(const paint::Theme& theme, QWidget* parent = nullptr);
  void show(const paint::CyclePicture& picture);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const paint::Theme& theme_;
  paint::CyclePicture picture_;
};

}  // namespace ww::control
