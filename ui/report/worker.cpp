// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/worker.h"

#include <algorithm>

namespace ww::report {

Worker::Worker(QObject* parent) : QObject(parent), thread_([this] { run(); }) {}

Worker::~Worker() {
  {
    const std::lock_guard lock(mutex_);
    stop_ = true;
    waiting_.clear();
  }
  wake_.notify_all();
  thread_.join();
}

void Worker::post(const QString& kind, Work work) {
  const unsigned number = ++count_;
  if (!kind.isEmpty()) newest_[kind] = number;
  {
    const std::lock_guard lock(mutex_);
    if (!kind.isEmpty())
      pending_ -= int(std::erase_if(waiting_, [&](const Task& task) { return task.kind == kind; }));
    waiting_.push_back({kind, number, std::move(work)});
    ++pending_;
  }
  wake_.notify_all();
}

void Worker::forget(const QString& kind) {
  newest_[kind] = ++count_;
  const std::lock_guard lock(mutex_);
  pending_ -= int(std::erase_if(waiting_, [&](const Task& task) { return task.kind == kind; }));
}

bool Worker::busy() const {
  const std::lock_guard lock(mutex_);
  return pending_ > 0;
}

void Worker::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    wake_.wait(lock, [this] { return stop_ || !waiting_.empty(); });
    if (stop_) return;
    const Task task = std::move(waiting_.front());
    waiting_.pop_front();
    lock.unlock();
    Then then = task.work();
    QMetaObject::invokeMethod(
        this,
        [this, kind = task.kind, number = task.number, then = std::move(then)] {
          handOver(kind, number, then);
        },
        Qt::QueuedConnection);
    lock.lock();
  }
}

void Worker::handOver(const QString& kind, unsigned number, const Then& then) {
  {
    const std::lock_guard lock(mutex_);
    --pending_;
  }
  if (!kind.isEmpty() && newest_[kind] != number) return;
  if (then) then();
}

}  // namespace ww::report
