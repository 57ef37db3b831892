// SPDX-License-Identifier: GPL-3.0-or-later
// How long from process start until the search field has taken a key, with 100,000 jobs in the store, beside
// an empty Qt window: ww_start FOLDER. The store is made in the folder when it is not there.
#include <QApplication>
#include <QElapsedTimer>
#include <QLineEdit>
#include <QProcess>
#include <QTimer>
#include <QtTest/QTest>
#include <algorithm>
#include <chrono>
#include <cstdio>

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

/// Milliseconds from before the process was started until it said that a key was taken.
double once(const QString& program, const QStringList& arguments) {
  QProcess process;
  const long long before = now();
  process.start(program, arguments);
  process.waitForFinished(60'000);
  return static_cast<double>(process.readAllStandardOutput().trimmed().toLongLong() - before) / 1000;
}

double median(std::vector<double> values) {
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
  std::vector<double> window, empty;
  for (int run = 0; run < kRuns; ++run) {
    window.push_back(once(self, {"--window", folder}));
    empty.push_back(once(self, {"--empty", folder}));
  }
  std::printf("%zu jobs, median of %d: window %.0f ms, empty Qt window %.0f ms, ratio %.2f\n", kJobs, kRuns,
              median(window), median(empty), median(window) / median(empty));
  return 0;
}
