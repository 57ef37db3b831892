// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "session/open_job.h"
#include "session/surroundings.h"

class QComboBox;
class QHBoxLayout;
class QMenu;
class QPushButton;
class QToolButton;

namespace ww::fittings {
class ElidedLabel;
}

namespace ww::shell {

/// The bar at the top: in a job its address, the sheet in hand and what the place puts there; on the start
/// page its name; always undo, redo and the menu.
class TopBar : public QWidget {
  Q_OBJECT
 public:
  TopBar(const session::Surroundings& around, QMenu* menu, QWidget* parent = nullptr);
  /// Null: a page beside the jobs' stages is in front.
  void setJob(session::OpenJob* job);
  /// Which page: that of the profiles, or that of the jobs.
  void setLibrary(bool library);
  /// What the place in front puts there, which stays the place's; null: nothing.
  void setPlaceBar(QWidget* bar);
  void refresh();

  QToolButton* railButton() const { return rail_; }
  QToolButton* jobsButton() const { return jobs_; }
  QToolButton* jobsTab() const { return jobsTab_; }
  QToolButton* libraryTab() const { return libraryTab_; }
  QPushButton* newButton() const { return new_; }
  QToolButton* undoButton() const { return undo_; }
  QToolButton* redoButton() const { return redo_; }
  QToolButton* menuButton() const { return menu_; }
  QComboBox* sheetChooser() const { return sheet_; }

 private:
  const session::Surroundings& around_;
  session::OpenJob* job_ = nullptr;
  QWidget* placeBar_ = nullptr;
  QToolButton *rail_, *jobs_, *jobsTab_, *libraryTab_, *undo_, *redo_, *menu_;
  QPushButton* new_;
  fittings::ElidedLabel* title_;
  QComboBox* sheet_;
  QHBoxLayout* slot_;
};

}  // namespace ww::shell
