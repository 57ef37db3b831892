// SPDX-License-Identifier: GPL-3.0-or-later
#include <CLI/CLI.hpp>
#include <QApplication>
#include <QIcon>

#include "shell/program.h"

int main(int argc, char** argv) {
  QApplication::setApplicationName(QStringLiteral("wirewright"));
  QApplication::setApplicationDisplayName(QStringLiteral("Wirewright"));
  QApplication::setApplicationVersion(QStringLiteral(WIREWRIGHT_VERSION));
  QApplication::setDesktopFileName(QStringLiteral("wirewright"));
  CLI::App app{"Lands, proves and signs off 24 V AC control wiring.", "wirewright"};
  app.set_version_flag("--version", WIREWRIGHT_VERSION);
  std::string data, language, theme, file;
  app.add_option("--data", data, "Folder of jobs and preferences");
  app.add_option("--lang", language, "Language")->check(CLI::IsMember({"en", "es", "pseudo"}));
  app.add_option("--theme", theme, "Colours")->check(CLI::IsMember({"light", "dark"}));
  app.add_option("FILE", file, "A job or wiring sheet to open");
  QApplication application(argc, argv);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }
  ww::shell::Program program(application, {QString::fromStdString(data), QString::fromStdString(language),
                                           QString::fromStdString(theme), QString::fromStdString(file)});
  program.start();
  return QApplication::exec();
}
