// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <condition_variable>
#include <deque>
#include <functional>
#include <map>
#include <mutex>
#include <thread>

namespace ww::report {

/// One thread beside the window. Work runs there one after the other; what it returns runs on the thread of
/// this object. Work of a kind takes the place of work of the same kind that waits, and drops its result.
class Worker : public QObject {
  Q_OBJECT
 public:
  using Then = std::function<void()>;
  using Work = std::function<Then()>;

  explicit Worker(QObject* parent = nullptr);
  ~Worker() override;

  /// `kind` empty: never replaced.
  void post(const QString& kind, Work work);
  /// Results of this kind that are still under way are dropped.
  void forget(const QString& kind);
  /// True while something waits, runs or has not been handed over.
  bool busy() const;

 private:
  struct Task {
    QString kind;
    unsigned number = 0;
    Work work;
  };
  void run();
  void handOver(const QString& kind, unsigned number, const Then& then);

  std::deque<Task> waiting_;
  std::map<QString, unsigned> newest_;  ///< by kind, of this thread
  unsigned count_ = 0;
  int pending_ = 0;
  bool stop_ = false;
  mutable std::mutex mutex_;
  std::condition_variable wake_;
  std::thread thread_;
};

}  // namespace ww::report
