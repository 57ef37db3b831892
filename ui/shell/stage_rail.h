// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <string>
#include <vector>

#include "fittings/place.h"

class QToolButton;

namespace ww::shell {

/// One stage as the rail and the window know it.
struct Stage {
  std::string id;  ///< as a job names it: site, wiring, dead, live, report
  QString title;   ///< worded
  QString iconName;
  fittings::Place* place = nullptr;  ///< null until a job is on the desk
};

/// The stages down the left side, each with the mark of what stands open there; folded it shows mark over
/// name, 72 px wide.
class StageRail : public QWidget {
  Q_OBJECT
 public:
  StageRail(const session::Surroundings& around, const std::vector<Stage>& stages, QWidget* parent = nullptr);
  void setCurrent(size_t stage);
  void setFolded(bool folded);
  bool folded() const { return folded_; }
  /// The places were made: the marks follow them.
  void followPlaces();
  /// Takes the marks of the places anew.
  void refresh();
  QToolButton* buttonOf(size_t stage) const { return buttons_[stage]; }

 Q_SIGNALS:
  void chosen(size_t stage);

 private:
  void dressButton(size_t stage);

  const session::Surroundings& around_;
  const std::vector<Stage>& stages_;
  std::vector<QToolButton*> buttons_;
  bool folded_ = false;
};

}  // namespace ww::shell
