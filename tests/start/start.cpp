// SPDX-License-Identifier: GPL-3.0-or-later
// How long from process start until the search field has taken a key, with 100,000 jobs in the store, beside
// an empty Qt window: ww_start FOLDER. The store is made in the folder when it is not there.
#include <sys/resource.h>

#include <QApplication>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QProcess>
#include <QTimer>
#include <QtTest/QTest>
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

#include "history/store.h"
#include "jobs/jobs_page.h"
#include "shell/main_window.h"
#include "shell/program.h"
#include "support/many_jobs.h"

namespace {

constexpr int kRuns = 20;
constexpr size_t kJobs = 100'000;

long long now() {
  return std::chrono::duration_cast<std::chrono::microseconds>(
             std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

/// Types into the field until it takes the key; then says when, and ends.
void typeUntilTaken(QLineEdit& field) {
  QObject::connect(&field, &QLineEdit::textChanged, &field, [] {
    std::printf("%lld\n", now());
    std::fflush(stdout);
    std::_Exit(0);
  });
  auto* timer = new QTimer(&field);
  QObject::connect(timer, &QTimer::timeout, &field, [&field] {
    if (field.hasFocus()) QTest::keyClick(field.window()->windowHandle(), Qt::Key_A);
  });
  timer->start(0);
}

int windowProcess(int argc, char** argv, const QString& folder) {
  QApplication application(argc, argv);
  ww::shell::Program program(application, {folder, QStringLiteral("en"), QStringLiteral("light"), {}});
  program.start();
  typeUntilTaken(*program.window()->jobsPage().searchField());
  return QApplication::exec();
}

int emptyProcess(int argc, char** argv) {
  QApplication application(argc, argv);
  QWidget window;
  QLineEdit field(&window);
  window.resize(1280, 720);
  window.show();
  field.setFocus();
  typeUntilTaken(field);
  return QApplication::exec();
}

/// Milliseconds of work of all processes that were waited for: user and system time.
double workOfChildren() {
  rusage used{};
  ::getrusage(RUSAGE_CHILDREN, &used);
  const auto milliseconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) * 1000 + static_cast<double>(time.tv_usec) / 1000;
  };
  return milliseconds(used.ru_utime) + milliseconds(used.ru_stime);
}

/// What one start took, in milliseconds.
struct Start {
  double taken = 0;  ///< from before the process was started until it said that a key was taken
  double work = 0;   ///< of the processor until then, all threads; others on the machine change it little
};

Start once(const QString& program, const QStringList& arguments) {
  QProcess process;
  const double workBefore = workOfChildren();
  const long long before = now();
  process.start(program, arguments);
  process.waitForFinished(60'000);
  const long long at = process.readAllStandardOutput().trimmed().toLongLong();
  return {static_cast<double>(at - before) / 1000, workOfChildren() - workBefore};
}

double median(const std::vector<Start>& starts, double Start::*figure) {
  std::vector<double> values;
  for (const Start& start : starts) values.push_back(start.*figure);
  std::sort(values.begin(), values.end());
  return (values[(values.size() - 1) / 2] + values[values.size() / 2]) / 2;
}

}  // namespace

int main(int argc, char** argv) {
  qputenv("QT_QPA_PLATFORM", "offscreen");
  const QString mode = argc > 2 ? QString::fromLocal8Bit(argv[1]) : QString();
  if (mode == QLatin1String("--window")) return windowProcess(argc, argv, QString::fromLocal8Bit(argv[2]));
  if (mode == QLatin1String("--empty")) return emptyProcess(argc, argv);
  if (argc != 2) {
    std::fprintf(stderr, "usage: ww_start FOLDER\n");
    return 2;
  }
  const QString folder = QString::fromLocal8Bit(argv[1]);
  if (!ww::testing::fillStore(folder.toStdString(), kJobs)) return 3;
  const QString self = QString::fromLocal8Bit(argv[0]);
  once(self, {"--window", folder});  // warms the page cache
  std::vector<Start> window, empty;
  for (int run = 0; run < kRuns; ++run) {
    window.push_back(once(self, {"--window", folder}));
    empty.push_back(once(self, {"--empty", folder}));
  }
  std::printf("%zu jobs, median of %d\n", kJobs, kRuns);
  const auto line = [&](const char* name, double Start::*figure) {
    const double ours = median(window, figure), bare = median(empty, figure);
    std::printf("%-14s window %.0f ms, empty Qt window %.0f ms, ratio %.2f\n", name, ours, bare, ours / bare);
  };
  line("start to key", &Start::taken);
  line("processor work", &Start::work);
  return 0;
}
