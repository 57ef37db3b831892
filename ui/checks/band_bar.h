// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>

#include "checklist/step.h"
#include "paint/theme.h"
#include "wording/language.h"

namespace ww::checks {

/// The scale of a reading: the right band on it, and where the reading lies. What it shows is told in words
/// beside it as well.
class BandBar : public QWidget {
  Q_OBJECT
 public:
  BandBar(const wording::Language& language, const paint::Theme& theme, QWidget* parent = nullptr);
  void setBand(const std::optional<checklist::Band>& band, const QString& unit);
  struct Mark {
    double value = 0;
    bool open = false;  ///< OL: at the far end
    paint::Severity severity = paint::Severity::right;
  };
  void setMark(const std::optional<Mark>& mark);
  const std::optional<Mark>& mark() const { return mark_; }
  /// The reading of the visit before: a grey tick on the same scale.
  void setFormer(const std::optional<double>& value);
  const std::optional<double>& former() const { return former_; }
  /// The figure at the right end of the scale.
  double most() const;

  QSize sizeHint() const override { return {320, 52}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  double x(double value) const;

  const wording::Language& language_;
  const paint::Theme& theme_;
  std::optional<checklist::Band> band_;
  QString unit_;
  std::optional<Mark> mark_;
  std::optional<double> former_;
};

}  // namespace ww::checks
