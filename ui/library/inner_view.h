// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <memory>

#include "drawing/inner.h"
#include "equipment/profile.h"
#include "session/surroundings.h"

namespace ww::library {

/// A unit's inner circuit, as large as its place is wide and no larger than drawn. What it shows is told to a
/// screen reader element by element.
class InnerView : public QWidget {
  Q_OBJECT
 public:
  explicit InnerView(const session::Surroundings& around, QWidget* parent = nullptr);
  void setProfile(std::shared_ptr<const equipment::Profile> profile);
  const drawing::Inner& picture() const { return inner_; }

  bool hasHeightForWidth() const override { return true; }
  int heightForWidth(int width) const override;
  QSize sizeHint() const override;

 protected:
  void paintEvent(QPaintEvent* event) override;
  bool event(QEvent* event) override;

 private:
  double scaleFor(int width) const;
  QString spoken() const;

  const session::Surroundings& around_;
  std::shared_ptr<const equipment::Profile> profile_;
  drawing::Inner inner_;
};

}  // namespace ww::library
