// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/autosave.h"

#include <algorithm>
#include <exception>
#include <utility>

namespace ww::history {

Autosave::Autosave(Store store, Told told, Pace pace)
    : store_(std::move(store)), told_(std::move(told)), pace_(pace), thread_([this] { work(); }) {}

Autosave::~Autosave() {
  {
    const std::lock_guard lock(mutex_);
    stop_ = true;
  }
  wake_.notify_all();
  thread_.join();
}

void Autosave::hold(const Version& version) {
  const std::lock_guard lock(mutex_);
  versions_[version.ref.id] = version;
}

Version Autosave::versionOf(const std::string& id) {
  const std::lock_guard lock(mutex_);
  const auto found = versions_.find(id);
  return found == versions_.end() ? Version{{id}, 0} : found->second;
}

void Autosave::submit(const job::Job& job, bool atOnce) {
  {
    const std::lock_guard lock(mutex_);
    const Time now = std::chrono::steady_clock::now();
    for (Wanted& other : wanted_)
      if (other.job.id != job.id) other.due = std::min(other.due, now);
    const auto same = std::find_if(wanted_.begin(), wanted_.end(),
                                   [&](const Wanted& wanted) { return wanted.job.id == job.id; });
    if (same == wanted_.end()) {
      wanted_.push_back({job, now, atOnce ? now : now + std::min(pace_.quiet, pace_.most)});
    } else {
      same->job = job;
      const bool wasDue = same->due <= now;
      same->due = atOnce || wasDue ? now : std::min(now + pace_.quiet, same->first + pace_.most);
    }
  }
  wake_.notify_all();
}

bool Autosave::flush() {
  std::unique_lock lock(mutex_);
  flushing_ = true;
  wake_.notify_all();
  done_.wait(lock, [&] { return !flushing_; });
  return wanted_.empty();
}

void Autosave::act(const std::function<void(Store&)>& act) {
  std::exception_ptr thrown;
  bool finished = false;
  std::unique_lock lock(mutex_);
  done_.wait(lock, [&] { return !act_; });
  act_ = [&](Store& store) {
    try {
      act(store);
    } catch (...) {
      thrown = std::current_exception();
    }
  };
  whenActed_ = [&] { finished = true; };
  wake_.notify_all();
  done_.wait(lock, [&] { return finished; });
  if (thrown) std::rethrow_exception(thrown);
}

std::vector<Autosave::Wanted>::iterator Autosave::first() {
  return std::min_element(wanted_.begin(), wanted_.end(),
                          [](const Wanted& a, const Wanted& b) { return a.due < b.due; });
}

bool Autosave::saveFirst(std::unique_lock<std::mutex>& lock) {
  const auto at = first();
  Wanted taken = std::move(*at);
  wanted_.erase(at);
  const auto known = versions_.find(taken.job.id);
  const Version from = known == versions_.end() ? Version{{taken.job.id}, 0} : known->second;
  saving_ = true;
  lock.unlock();
  std::optional<Saved> saved;
  std::optional<StoreProblem> problem;
  try {
    saved = store_.saveDraft(taken.job, from);
  } catch (const StoreFault& fault) {
    problem = fault.problem();
  }
  if (saved) {
    lock.lock();
    versions_[taken.job.id] = saved->version;
    saving_ = false;  // before it is told: whoever hears of it may ask at once
    lock.unlock();
  }
  if (saved && told_.saved) told_.saved(*saved);
  if (problem && told_.failed) told_.failed(*problem);
  lock.lock();
  saving_ = false;
  if (saved) return true;
  // A later state of the same job takes the place of the one that failed.
  const Time again = std::chrono::steady_clock::now() + pace_.again;
  const auto later = std::find_if(wanted_.begin(), wanted_.end(),
                                  [&](const Wanted& wanted) { return wanted.job.id == taken.job.id; });
  if (later == wanted_.end())
    wanted_.push_back({std::move(taken.job), taken.first, again});
  else
    later->due = again;
  return false;
}

void Autosave::work() {
  std::unique_lock lock(mutex_);
  for (;;) {
    const bool pressing = flushing_ || stop_ || act_;
    if (!wanted_.empty() && (pressing || first()->due <= std::chrono::steady_clock::now())) {
      if (saveFirst(lock)) continue;
      // Tried in vain: who waits is let go, what is wanted is tried again later.
      flushing_ = false;
      done_.notify_all();
    }
    if (act_) {
      lock.unlock();
      act_(store_);
      lock.lock();
      act_ = nullptr;
      whenActed_();
      done_.notify_all();
      continue;
    }
    if (flushing_) {
      flushing_ = false;
      done_.notify_all();
    }
    if (stop_) return;
    if (wanted_.empty())
      wake_.wait(lock);
    else
      wake_.wait_until(lock, first()->due);
  }
}

}  // namespace ww::history
