// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QStringList>
#include <QTimer>
#include <functional>
#include <memory>

#include "history/autosave.h"
#include "session/open_job.h"
#include "session/surroundings.h"
#include "shell/latest_worker.h"
#include "shell/status_line.h"
#include "shell/store_shelf.h"

class QWidget;

namespace ww::shell {

/// What the workbench asks of the world; all injected, with the real ones as defaults.
struct BenchWorld {
  /// Whether to leave a job that cannot be saved; the sentence says why it cannot.
  std::function<bool(QWidget*, const QString& why)> leaveUnsaved;
  /// Where a PDF goes that was asked for from the list. Empty: nowhere.
  std::function<QString(QWidget*, const QString& suggested)> pdfFile;
  std::function<std::chrono::steady_clock::time_point()> ticks = [] {
    return std::chrono::steady_clock::now();
  };
  /// Last word on how the store is opened: bounds, file layer, clock.
  std::function<void(history::OpenOptions&)> openOptions;
  history::Autosave::Pace pace;
};

/// The store and the job on the desk: every change is saved as it is made, on a thread of its own.
class Workbench : public QObject {
  Q_OBJECT
 public:
  Workbench(const session::Surroundings& around, QString folder, BenchWorld world = {});
  ~Workbench() override;
  void setSurroundings(const session::Surroundings& around);

  void openStore();
  bool demo() const { return demo_; }
  void useDemo(bool demo);
  const QString& folder() const { return folder_; }  ///< of the data
  jobs::Shelf& shelf() { return shelf_; }

  session::OpenJob* job() const { return open_.get(); }
  SavedState saved() const;
  void undo();
  void redo();

  void startNew();
  void startOwn();  ///< out of the demo jobs, and a first job of one's own
  void open(const std::string& entry);
  void openFile(const QString& file);
  /// A new visit to the same site: the sheet as it was left is as found now; opens at the live checks.
  void callBack(const std::string& entry);
  /// The same equipment elsewhere: sheets without the site, the readings and the signatures.
  void duplicate(const std::string& entry);
  void print(const std::string& entry);
  void bin(const std::vector<std::string>& entries);
  void restore(const std::vector<std::string>& entries);
  void importFiles(const QStringList& files);
  void exportJobs(const std::vector<std::string>& entries, const QString& target);
  void closeRevision();
  /// The job off the desk, saved.
  void putAway();
  /// Whether everything is on the disk; asks the person when it cannot be.
  bool flushed(QWidget* parent);
  /// Installer, company and meters of the preferences go into the job where it still has the former ones.
  void takePreferences(const session::Preferences& before);

 Q_SIGNALS:
  void jobChanged();  ///< another job is on the desk, or none
  void savedChanged();
  void storeChanged();  ///< another store, or other jobs in it
  void told(const QString& sentence);
  void undoable(const QString& sentence, const std::function<void()>& undo);

 private:
  /// `before`: the job a new visit was made of; a stored job finds its own.
  /// A field keeps what was typed when it is left; a key that leads away does not leave it.
  void takeTyped();
  void put(job::Job job, const history::Version& version, const std::optional<history::JobRef>& before = {});
  /// The newest visit with readings among those to the site of `ref` but for `without`.
  std::optional<job::Job> formerVisit(const history::JobRef& ref, const std::string& without) const;
  void takeSaved(const history::Saved& saved);
  void takeFailure(const history::StoreProblem& problem);
  void changed(bool atOnce);
  void heartbeat();
  void tellEditors(const history::JobRef& ref);
  /// Opens the store, or tells what is in its way where that is something else than before. `wait`: for
  /// another program's lock.
  bool openedStore(std::optional<int> wait = {});
  void takeStore(history::Store store);
  /// A store that could not be opened for want of room or leave may open now.
  void tryStoreAgain();
  /// Does something with the store on its thread; tells what went wrong. False when it did.
  bool act(const std::function<void(history::Store&)>& act);
  std::optional<history::StoredJob> load(const std::string& entry);
  job::Job begun();
  bool isOpen(const history::Version& version) const;
  QString sentence(const char* key, const wording::Args& args = {}, std::optional<int> count = {}) const;

  const session::Surroundings* around_;
  QString folder_;
  BenchWorld world_;
  bool demo_ = false;
  bool present_ = false;  ///< others can see that the job is open here
  StoreShelf shelf_;
  std::unique_ptr<history::Autosave> autosave_;
  std::unique_ptr<history::Reader> reader_;
  QString problem_;  ///< why there is no store; empty when there is one
  std::unique_ptr<session::OpenJob> open_;
  std::chrono::steady_clock::time_point savedAt_;
  SavedState::Kind savedKind_ = SavedState::Kind::none;
  QString failure_;
  QTimer heartbeat_, again_;
  std::unique_ptr<LatestWorker> presence_, printing_;
};

}  // namespace ww::shell
