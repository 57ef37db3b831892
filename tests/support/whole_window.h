// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>
#include <QTemporaryDir>
#include <QTimer>
#include <QWindow>
#include <memory>

#include "jobs/jobs_page.h"
#include "shell/main_window.h"
#include "shell/workbench.h"
#include "support/window.h"

namespace ww::testing {

/// The whole window on a data folder of its own; what it would ask a person is answered here.
struct WholeWindow {
  explicit WholeWindow(const std::string& language = "en", paint::ThemeName theme = paint::ThemeName::light,
                       const QString& dataFolder = {}, QSize size = {1280, 720})
      : desk(language, theme), folder(dataFolder.isEmpty() ? own.path() : dataFolder) {
    shell::BenchWorld world;
    world.leaveUnsaved = [this](QWidget*, const QString& why) {
      asked << why;
      return leave;
    };
    world.pdfFile = [this](QWidget*, const QString&) { return pdf; };
    world.openOptions = [this](history::OpenOptions& options) {
      if (bound) bound(options);
    };
    world.ticks = [this] { return ticks; };
    world.pace.again = std::chrono::milliseconds(20);
    bench = std::make_unique<shell::Workbench>(desk.around, folder, world);
    makeWindow(size);
    bench->openStore();
    QCoreApplication::processEvents();
  }
  ~WholeWindow() {
    window.reset();
    bench.reset();
  }

  void makeWindow(QSize size) {
    window = std::make_unique<shell::MainWindow>(desk.around, *bench);
    QObject::connect(window.get(), &shell::MainWindow::largeWanted, window.get(), [this](bool large) {
      fittings::dress(widgetApplication(), desk.around.theme, large ? 1.4 : 1);
    });
    QObject::connect(window.get(), &shell::MainWindow::libraryRead, window.get(),
                     [this](const equipment::Library& library) { desk.library = library; });
    window->resize(size);
    window->show();
    window->activateWindow();
    (void)QTest::qWaitForWindowActive(window.get());
  }

  /// One key as the window system gives it, to whatever has the keyboard.
  void press(int key, Qt::KeyboardModifiers held = Qt::NoModifier) {
    QWindow* to = QGuiApplication::focusWindow();
    QTest::keyClick(to ? to : window->windowHandle(), static_cast<Qt::Key>(key), held);
    ++keys;
    QCoreApplication::processEvents();
  }
  void type(const QString& text) {
    for (const QChar c : text) {
      QWindow* to = QGuiApplication::focusWindow();
      QTest::keyClick(to ? to : window->windowHandle(), c.toLatin1());
      ++keys;
      QCoreApplication::processEvents();
    }
  }
  /// The list has answered the latest question.
  bool settled() {
    return waitFor([this] { return !window->jobsPage().countText().isEmpty(); });
  }
  bool allSaved() {
    return waitFor([this] { return bench->saved().kind == shell::SavedState::Kind::saved; });
  }

  Desk desk;
  QTemporaryDir own;
  QString folder;
  QStringList asked;
  QString pdf;
  bool leave = false;
  std::chrono::steady_clock::time_point ticks{};
  std::function<void(history::OpenOptions&)> bound;
  int keys = 0;
  std::unique_ptr<shell::Workbench> bench;
  std::unique_ptr<shell::MainWindow> window;
};

}  // namespace ww::testing
