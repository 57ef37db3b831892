// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <condition_variable>
#include <functional>
#include <mutex>
#include <thread>

namespace ww::shell {

/// One thread that does the latest thing it was given; what waits and is overtaken is dropped.
class LatestWorker {
 public:
  LatestWorker() = default;
  /// Waits for what is under way.
  ~LatestWorker();
  LatestWorker(const LatestWorker&) = delete;
  LatestWorker& operator=(const LatestWorker&) = delete;

  void submit(std::function<void()> task);
  /// Drops what waits, and waits for what is under way.
  void settle();

 private:
  void work();

  std::mutex mutex_;
  std::condition_variable wake_, idle_;
  std::function<void()> task_;
  bool busy_ = false, stop_ = false;
  std::thread thread_;
};

}  // namespace ww::shell
