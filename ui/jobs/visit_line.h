// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "jobs/entry.h"
#include "session/surroundings.h"

namespace ww::jobs {

/// The visits to a site on one line, oldest left; the one in front filled.
class VisitLine : public QWidget {
  Q_OBJECT
 public:
  VisitLine(const paint::Theme& theme, QWidget* parent);
  void setVisits(const std::vector<Visit>& visits);
  QSize sizeHint() const override;
  QSize minimumSizeHint() const override { return {200, sizeHint().height()}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const paint::Theme& theme_;
  std::vector<Visit> visits_;
};

/// One reading over the visits in its band.
class DriftPlot : public QWidget {
  Q_OBJECT
 public:
  DriftPlot(const session::Surroundings& around, QWidget* parent);
  void setDrift(const Drift& drift);
  QSize sizeHint() const override { return {460, 140}; }
  QSize minimumSizeHint() const override { return {200, 120}; }

 protected:
  void paintEvent(QPaintEvent* event) override;

 private:
  const wording::Language& language_;
  const paint::Theme& theme_;
  Drift drift_;
};

}  // namespace ww::jobs
