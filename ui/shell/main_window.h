// SPDX-License-Identifier: GPL-3.0-or-later
// Room shell: the window - top bar, rail of stages, status bar, keys that work everywhere, settings - and the
// workbench that joins the job on the desk to the store. The one room that knows all places.
#pragma once

#include <QPointer>
#include <QWidget>
#include <memory>
#include <vector>

#include "fittings/key_map.h"
#include "shell/stage_rail.h"
#include "shell/workbench.h"

class QMenu;
class QStackedWidget;

namespace ww::fittings {
class UndoBar;
}
namespace ww::jobs {
class JobsPage;
}
namespace ww::library {
class LibraryPage;
}

namespace ww::shell {

class StatusLine;
class TopBar;

/// The one window, built for one language and theme.
class MainWindow : public QWidget {
  Q_OBJECT
 public:
  /// `bench` outlives the window.
  MainWindow(const session::Surroundings& around, Workbench& bench);
  ~MainWindow() override;

  /// With their places, which are made when they are first wanted: starting is quicker without them.
  const std::vector<Stage>& stages();
  jobs::JobsPage& jobsPage() const { return *jobs_; }
  /// Made when it is first wanted.
  library::LibraryPage& libraryPage();
  TopBar& topBar() const { return *top_; }
  StageRail& rail() const { return *rail_; }
  StatusLine& status() const { return *status_; }
  fittings::UndoBar& undoBar() const { return *undoBar_; }
  QWidget* demoBanner() const { return banner_; }
  fittings::KeyMap& everywhere() const { return *everywhere_; }

  /// The place in front; null on the start page.
  fittings::Place* place() const;
  void showStage(size_t stage);
  void showStage(const std::string& id);
  void showJobs();
  /// The unit profiles; the job on the desk is put away first.
  void showLibrary();
  bool inLibrary() const;
  /// Large mode: everything larger, the rail folded, to be read from two metres.
  void setLarge(bool large);
  bool large() const { return large_; }
  /// The panes that F6 goes round.
  std::vector<QWidget*> panes() const;
  /// Puts geometry and folds into the preferences.
  void keepLayout();

 Q_SIGNALS:
  void rebuildWanted();  ///< language, theme or units are others now
  void largeWanted(bool large);
  /// The profiles of one's own may be others: units are placed from these from now on.
  void libraryRead(const ww::equipment::Library& library);

 protected:
  void closeEvent(QCloseEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void makePlaces();
  void buildFrame();
  void buildBanner();
  void buildMenu();
  void bindKeys();
  void connectJobs();
  void takeJob();
  void offerUndo(const QString& said);
  void nextPane(int step);
  void stepOut();
  void showKeys();
  void showSettings();
  void showAbout();
  void refreshStatus();
  void restoreLayout();
  QString sentence(const char* key, const wording::Args& args = {}) const;

  const session::Surroundings& around_;
  Workbench& bench_;
  std::vector<Stage> stages_;
  size_t current_ = 0;
  bool large_ = false, foldedByHand_ = false;
  QMenu* menu_ = nullptr;
  TopBar* top_ = nullptr;
  QWidget* banner_ = nullptr;
  QWidget* jobFrame_ = nullptr;
  StageRail* rail_ = nullptr;
  QStackedWidget *pages_ = nullptr, *places_ = nullptr;
  jobs::JobsPage* jobs_ = nullptr;
  library::LibraryPage* library_ = nullptr;
  fittings::UndoBar* undoBar_ = nullptr;
  StatusLine* status_ = nullptr;
  fittings::KeyMap* everywhere_ = nullptr;
};

}  // namespace ww::shell
