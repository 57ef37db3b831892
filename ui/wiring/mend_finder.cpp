// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/mend_finder.h"

#include <QMetaObject>
#include <utility>

namespace ww::wiring {

MendFinder::MendFinder(SearchMends search, QObject* parent) : QObject(parent), search_(std::move(search)) {}

MendFinder::~MendFinder() {
  {
    const std::lock_guard lock(mutex_);
    current_.request_stop();
  }
  thread_.request_stop();
  if (thread_.joinable()) thread_.join();
}

void MendFinder::ask(MendQuestion question) {
  ++asked_;
  const std::lock_guard lock(mutex_);
  current_.request_stop();
  current_ = std::stop_source();
  question_.emplace(asked_, std::move(question));
  if (!thread_.joinable()) thread_ = std::jthread([this](const std::stop_token& quit) { work(quit); });
  wake_.notify_all();
}

void MendFinder::forget() {
  answered_ = ++asked_;
  const std::lock_guard lock(mutex_);
  current_.request_stop();
  question_.reset();
}

void MendFinder::work(const std::stop_token& quit) {
  std::unique_lock lock(mutex_);
  while (wake_.wait(lock, quit, [this] { return question_.has_value(); })) {
    const auto [number, question] = *std::exchange(question_, std::nullopt);
    const std::stop_token stop = current_.get_token();
    lock.unlock();
    std::vector<Mend> mends = search_(question, stop);
    if (!stop.stop_requested())
      QMetaObject::invokeMethod(
          this, [this, number = number, mends = std::move(mends)] { handOver(number, mends); },
          Qt::QueuedConnection);
    lock.lock();
  }
}

void MendFinder::handOver(unsigned number, const std::vector<Mend>& mends) {
  if (number != asked_) return;
  answered_ = number;
  Q_EMIT found(mends);
}

}  // namespace ww::wiring
