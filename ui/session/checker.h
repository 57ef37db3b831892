// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <condition_variable>
#include <functional>
#include <mutex>
#include <optional>
#include <thread>

#include "job/job.h"
#include "operation/solution.h"
#include "verify/check.h"

namespace ww::session {

/// A sheet solved and checked.
struct Checked {
  operation::Solution solution;
  verify::SheetCheck check;
};

Checked checkSheet(const sheet::Sheet& sheet, const equipment::Library& library, operation::LineRange lines);
/// A sheet of the job; of a refused one nothing is solved, and why it is refused stands in place of findings.
Checked checkJob(const job::Job& job, const sheet::Sheet& sheet, const equipment::Library& library);
/// The checklist of what was checked with checkJob(): none of a refused job.
std::vector<checklist::Step> stepsOf(const job::Job& job, const sheet::Sheet& sheet, const Checked& checked);

/// Checks sheets on one thread beside: the latest wins, a result that was overtaken is dropped.
class Checker {
 public:
  /// `done` is called on the thread of `receiver`.
  Checker(const equipment::Library& library, QObject* receiver, std::function<void(Checked)> done);
  ~Checker();
  Checker(const Checker&) = delete;
  Checker& operator=(const Checker&) = delete;

  void start(const sheet::Sheet& sheet, operation::LineRange lines);
  /// Drops what was started and not yet handed over.
  void forget();
  /// Waits for the latest result and takes it; nothing when none is under way.
  std::optional<Checked> wait();

 private:
  struct Task {
    sheet::Sheet sheet;
    operation::LineRange lines;
  };
  void work();
  void handOver();

  const equipment::Library& library_;
  QObject* receiver_;
  std::function<void(Checked)> done_;
  std::mutex mutex_;
  std::condition_variable wake_;
  std::optional<Task> task_;      ///< the latest not yet begun
  std::optional<Checked> ready_;  ///< finished and not yet handed over
  unsigned asked_ = 0;            ///< number of the latest task
  unsigned answered_ = 0;
  bool stop_ = false;
  std::thread thread_;
};

}  // namespace ww::session
