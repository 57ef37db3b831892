// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/latest_worker.h"

#include <utility>

namespace ww::shell {

LatestWorker::~LatestWorker() {
  {
    const std::lock_guard lock(mutex_);
    stop_ = true;
    task_ = nullptr;
  }
  wake_.notify_all();
  if (thread_.joinable()) thread_.join();
}

void LatestWorker::submit(std::function<void()> task) {
  const std::lock_guard lock(mutex_);
  task_ = std::move(task);
  if (!thread_.joinable()) thread_ = std::thread([this] { work(); });
  wake_.notify_all();
}

void LatestWorker::settle() {
  std::unique_lock lock(mutex_);
  task_ = nullptr;
  idle_.wait(lock, [this] { return !busy_; });
}

void LatestWorker::work() {
  std::unique_lock lock(mutex_);
  while (true) {
    wake_.wait(lock, [this] { return stop_ || task_; });
    if (stop_) return;
    const auto task = std::exchange(task_, nullptr);
    busy_ = true;
    lock.unlock();
    task();
    lock.lock();
    busy_ = false;
    idle_.notify_all();
  }
}

}  // namespace ww::shell
