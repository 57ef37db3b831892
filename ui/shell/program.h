// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFont>
#include <QObject>
#include <QPalette>
#include <QString>
#include <memory>

#include "session/surroundings.h"

class QApplication;

namespace ww::shell {

class MainWindow;
class Workbench;

/// What the command line asks for; empty: the preferences decide, then the system.
struct Options {
  QString dataFolder;  ///< empty: "wirewright" in the user's data folder
  QString language, theme;
  QString file;  ///< a job or sheet to open
};

/// The running program: preferences, surroundings, the workbench, and the window, which is built anew
/// whenever language, colours or units change.
class Program : public QObject {
  Q_OBJECT
 public:
  Program(QApplication& application, Options options);
  ~Program() override;
  /// Opens the window, then the store, then what was asked for.
  void start();
  MainWindow* window() const { return window_.get(); }
  Workbench& bench() const { return *bench_; }
  const session::Surroundings& surroundings() const;
  /// Clock and identities for tests.
  static std::string systemNow();
  static std::string systemId();

 private:
  struct Look;
  void readPreferences();
  void readProfiles();
  void putPreferencesAside(const QString& why);
  void keep(const session::Preferences& preferences);
  std::unique_ptr<Look> makeLook();
  void buildWindow();
  void dress();
  const wording::Language& chosenLanguage() const;

  QApplication& application_;
  Options options_;
  QFont systemFont_;
  QPalette systemPalette_;
  session::Preferences preferences_;
  QString preferencesProblem_, profilesProblem_;
  equipment::Library library_;  ///< with the person's own profiles; changed on this thread only
  std::unique_ptr<Look> look_;
  std::unique_ptr<Workbench> bench_;
  std::unique_ptr<MainWindow> window_;
  bool large_ = false;
};

}  // namespace ww::shell
