// SPDX-License-Identifier: GPL-3.0-or-later
// Room history: the jobs of this computer in one SQLite file - drafts, closed revisions, what is derived from
// them for finding and comparing - saved at once, searched as typed, never lost. Bodies are the canonical
// bytes of room job. Must not know screens, languages or reports.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "equipment/profile.h"
#include "history/data_folder.h"
#include "history/store_problem.h"
#include "job/identity.h"
#include "job/job.h"

namespace ww::history {

/// Names a stored job. Two people who wrote the same job at once have siblings: the same id, another number.
struct JobRef {
  std::string id;  ///< UUID of the job
  int sibling = 0;
  friend auto operator<=>(const JobRef&, const JobRef&) = default;
};

/// The stored state that a job in hand came from. Number 0: it is not stored yet.
struct Version {
  JobRef ref;
  std::int64_t number = 0;
  friend bool operator==(const Version&, const Version&) = default;
};

/// What a save came to.
struct Saved {
  Version version;             ///< now in hand
  bool becameSibling = false;  ///< another had saved meanwhile: both are kept, this one as a sibling
  std::string at;              ///< ISO 8601, UTC
};

enum class StoreKind { own, demo };  ///< jobs.db, or demo.db with the jobs that ship with the program

using Clock = std::function<std::chrono::system_clock::time_point()>;

struct OpenOptions {
  std::string folder;  ///< of dataFolder(); made when it is not there
  StoreKind kind = StoreKind::own;
  std::string program;  ///< version of the program, kept with closed revisions
  Clock clock = [] { return std::chrono::system_clock::now(); };
  FileSystemKind fileSystem = fileSystemKind;
  int busyMilliseconds = 5000;  ///< how long another writer is waited for
  std::string vfs;              ///< SQLite's file layer; empty: the system's
  int mostPages = 0;            ///< bounds the file as a full disk does; 0: no bound
};

/// The writing side. One thread at a time; any number of processes may have the same store open. Every call
/// that returns has its effect on the disk. Calls throw StoreFault and then changed nothing.
class Store {
 public:
  /// Opens or makes the store, and brings an older one up to date after a backup. `library` must outlive it;
  /// it is what sheets are checked with for the open findings.
  static std::variant<Store, StoreProblem> open(const OpenOptions& options,
                                                const equipment::Library& library);
  Store(Store&&) noexcept;
  Store& operator=(Store&&) noexcept;
  ~Store();

  const std::string& path() const;  ///< the file
  /// The backup made because the store was older; empty when it was up to date.
  const std::string& migrationBackup() const;

  /// Keeps the job as it is in hand. `from`: what Saved or load() gave last, a default Version for a new job.
  /// Of a closed job only signatures may have been added (else "frozen").
  Saved saveDraft(const job::Job& job, const Version& from);
  /// Freezes the job as a revision: canonical bytes without signatures, and their SHA-256, which is
  /// job::hashOf(). A draft becomes closed; an amendment stays amended.
  Saved closeRevision(const job::Job& job, const Version& from);
  /// Takes in jobs from elsewhere, all or none; each is stored as it stands. The same content again changes
  /// nothing; another content under an id that is there becomes a sibling.
  std::vector<Saved> import(const std::vector<job::Job>& jobs);
  /// The bin keeps everything; find() leaves it out unless asked.
  void removeToBin(const JobRef& ref);
  void restore(const JobRef& ref);

  /// The next job number of a day (ISO date): "2026-0312-03".
  std::string freeNumber(const std::string& day);

  /// Says that a person works on the job; for others to see. Advisory: nothing is locked. Repeat within
  /// kEditorAway seconds.
  void enter(const JobRef& ref, const std::string& who);
  void leave(const JobRef& ref);

  /// A copy of the whole store, complete in itself, flushed to the disk.
  void backUp(const std::string& path);
  /// What is wrong with the file: integrity of the tables, references and the search index. Empty: nothing.
  std::vector<std::string> faults();

 private:
  friend class Reader;
  struct State;
  explicit Store(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

inline constexpr int kEditorAway = 30;  ///< seconds without a sign after which an editor counts as gone

/// Where a damaged store and its journal were put, beside it and unchanged, so that a new one can be opened.
/// Throws StoreFault.
std::string setAside(const OpenOptions& options);
/// Puts a backup in the place of a store that is not there. Throws StoreFault.
void restoreBackup(const OpenOptions& options, const std::string& backup);

}  // namespace ww::history
