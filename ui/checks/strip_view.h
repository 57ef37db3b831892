// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "paint/strip_painter.h"

namespace ww::checks {

/// The strips that the probes of a step are put on, one below the other, each under its unit's name.
class StripView : public QWidget {
  Q_OBJECT
 public:
  struct Strip {
    QString unit;
    paint::StripPicture picture;
  };
  explicit StripView(const paint::Theme& theme, QWidget* parent = nullptr);
  void setStrips(std::vector<Strip> strips, const QString& inWords);
  const std::vector<Strip>& strips() const { return strips_; }

 protected:
  void paintEvent(QPaintEvent* event) override;
  void changeEvent(QEvent* event) override;

 private:
  void fit();
  double scale() const;

  const paint::Theme& theme_;
  std::vector<Strip> strips_;
};

/// One of the meter's probes, as it is drawn on the strip.
class ProbeMark : public QWidget {
 public:
  ProbeMark(int probe, const paint::Theme& theme, QWidget* parent = nullptr);

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  int probe_;
  const paint::Theme& theme_;
};

}  // namespace ww::checks
