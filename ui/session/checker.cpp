// SPDX-License-Identifier: GPL-3.0-or-later
#include "session/checker.h"

#include <QMetaObject>
#include <utility>

#include "job/survey_facts.h"

namespace ww::session {

Checked checkSheet(const sheet::Sheet& sheet, const equipment::Library& library, operation::LineRange lines) {
  Checked result;
  result.solution = operation::solveSheet(sheet, library, lines);
  result.check = verify::check(sheet, result.solution);
  return result;
}

Checked checkJob(const job::Job& job, const sheet::Sheet& sheet, const equipment::Library& library) {
  const operation::LineRange lines{job.lowLine, job.highLine};
  auto refusals = job::refusalFindings(job);
  if (refusals.empty()) return checkSheet(sheet, library, lines);
  Checked result = checkSheet({}, library, lines);
  result.check.findings = std::move(refusals);
  return result;
}

std::vector<checklist::Step> stepsOf(const job::Job& job, const sheet::Sheet& sheet, const Checked& checked) {
  if (!job::refusalsOf(job).empty()) return {};
  return checklist::checklistFor(sheet, checked.solution, job::meterFiguresOf(job), job::observationsOf(job));
}

Checker::Checker(const equipment::Library& library, QObject* receiver, std::function<void(Checked)> done)
    : library_(library), receiver_(receiver), done_(std::move(done)) {}

Checker::~Checker() {
  {
    const std::lock_guard lock(mutex_);
    stop_ = true;
  }
  wake_.notify_all();
  if (thread_.joinable()) thread_.join();
}

void Checker::start(const sheet::Sheet& sheet, operation::LineRange lines) {
  const std::lock_guard lock(mutex_);
  ++asked_;
  task_ = Task{sheet, lines};
  ready_.reset();
  if (!thread_.joinable()) thread_ = std::thread([this] { work(); });
  wake_.notify_all();
}

void Checker::forget() {
  const std::lock_guard lock(mutex_);
  answered_ = ++asked_;
  task_.reset();
  ready_.reset();
}

std::optional<Checked> Checker::wait() {
  std::unique_lock lock(mutex_);
  wake_.wait(lock, [this] { return answered_ == asked_; });
  return std::exchange(ready_, std::nullopt);
}

void Checker::work() {
  std::unique_lock lock(mutex_);
  while (true) {
    wake_.wait(lock, [this] { return stop_ || task_; });
    if (stop_) return;
    const Task task = *std::exchange(task_, std::nullopt);
    const unsigned number = asked_;
    lock.unlock();
    Checked result = checkSheet(task.sheet, library_, task.lines);
    lock.lock();
    if (number != asked_) continue;
    ready_ = std::move(result);
    answered_ = number;
    wake_.notify_all();
    QMetaObject::invokeMethod(
        receiver_, [this] { handOver(); }, Qt::QueuedConnection);
  }
}

void Checker::handOver() {
  std::unique_lock lock(mutex_);
  std::optional<Checked> result = std::exchange(ready_, std::nullopt);
  lock.unlock();
  if (result) done_(std::move(*result));
}

}  // namespace ww::session
