// SPDX-License-Identifier: GPL-3.0-or-later
// Types addresses 1, 2, 3 ... into a job of the whole window and writes each number once the status bar calls
// it saved, until it is killed: ww_typing FOLDER
#include <cstdio>

#include "shell/status_line.h"
#include "support/whole_window.h"

int main(int argc, char** argv) {
  if (argc != 2) return 2;
  ww::testing::WholeWindow whole("en", ww::paint::ThemeName::light, QString::fromLocal8Bit(argv[1]));
  whole.desk.ids = static_cast<unsigned>(QCoreApplication::applicationPid() * 1000);  // another job each time
  whole.bench->startNew();
  for (int n = 1;; ++n) {
    ww::session::Undoable next = ww::session::undoableOf(whole.bench->job()->job());
    next.site.address = std::to_string(n) + " Mill Road";
    whole.bench->job()->edit(QStringLiteral("address"), next);
    const bool saved = ww::testing::waitFor(
        [&] { return whole.window->status().savedText().startsWith(QStringLiteral("Saved ")); });
    if (!saved) return 3;
    std::printf("%d\n", n);
    std::fflush(stdout);
  }
}
