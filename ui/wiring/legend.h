// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "wiring/in_hand.h"

namespace ww::wiring {

/// What the strokes of the diagram mean, drawn as it draws them. Entries that do not fit are left out from
/// the end; all of them stand in the tip and the accessible description.
class Legend : public QWidget {
 public:
  explicit Legend(InHand& hand, QWidget* parent = nullptr);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  void paintSample(QPainter& painter, int kind, double x, double y) const;
  InHand& hand_;
  QStringList words_;
};

}  // namespace ww::wiring
