// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QLabel>

namespace ww::fittings {

/// One line of text that ends in "…" where there is no room for all of it; the tip and the accessible name
/// have the whole.
class ElidedLabel : public QLabel {
  Q_OBJECT
 public:
  explicit ElidedLabel(const char* role = nullptr, QWidget* parent = nullptr);
  void setWhole(const QString& text);
  const QString& whole() const { return whole_; }
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  QString whole_;
};

}  // namespace ww::fittings
