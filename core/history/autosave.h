// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <chrono>
#include <condition_variable>
#include <functional>
#include <map>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "history/store.h"

namespace ww::history {

/// Keeps the job on the desk stored, on a thread of its own: it owns the store, and everything that writes
/// goes through it. Edits are saved a moment after the last one, facts at once. A save that fails stays
/// wanted and is tried again.
class Autosave {
 public:
  struct Pace {
    std::chrono::milliseconds quiet{150};   ///< without an edit before it is saved
    std::chrono::milliseconds most{1000};   ///< after the first unsaved edit, however many follow
    std::chrono::milliseconds again{5000};  ///< after a failure
  };
  /// Called on the saving thread.
  struct Told {
    std::function<void(const Saved&)> saved;
    std::function<void(const StoreProblem&)> failed;
  };

  Autosave(Store store, Told told, Pace pace);
  Autosave(Store store, Told told) : Autosave(std::move(store), std::move(told), Pace{}) {}
  /// Saves what is unsaved.
  ~Autosave();
  Autosave(const Autosave&) = delete;
  Autosave& operator=(const Autosave&) = delete;

  /// Says which stored state a job that is taken on the desk came from. A job never held is new.
  void hold(const Version& version);
  /// The job changed. Another job than before: the one before is saved at once.
  void submit(const job::Job& job, bool atOnce = false);
  /// Waits until everything submitted is on the disk; false when it cannot be saved (told before).
  bool flush();
  /// Whether something submitted is not on the disk yet.
  bool unsaved() {
    const std::lock_guard lock(mutex_);
    return saving_ || !wanted_.empty();
  }
  /// The stored state of the job last saved or held under that id.
  Version versionOf(const std::string& id);

  /// Does something else with the store, on the saving thread after what was submitted, and waits for it.
  /// Throws what `act` throws.
  void act(const std::function<void(Store&)>& act);

 private:
  using Time = std::chrono::steady_clock::time_point;
  struct Wanted {
    job::Job job;
    Time first, due;
  };
  void work();
  /// Saves what is due first; false, and it is wanted again later, when that fails. Lets go of the lock.
  bool saveFirst(std::unique_lock<std::mutex>& lock);
  std::vector<Wanted>::iterator first();

  Store store_;
  Told told_;
  Pace pace_;
  std::mutex mutex_;
  std::condition_variable wake_, done_;
  std::map<std::string, Version> versions_;  ///< by the id of the job
  std::vector<Wanted> wanted_;               ///< one for each job that is not saved yet
  std::function<void(Store&)> act_;
  std::function<void()> whenActed_;
  bool saving_ = false, flushing_ = false, stop_ = false;
  std::thread thread_;
};

}  // namespace ww::history
