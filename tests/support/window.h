// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QApplication>
#include <QtTest/QTest>
#include <cstdio>
#include <functional>
#include <string>

#include "equipment/profile.h"
#include "fittings/style.h"
#include "paint/theme.h"
#include "session/surroundings.h"
#include "wording/language.h"

namespace ww::testing {

/// The one application of a program that opens windows. Call it before application() of painted_sheets.h,
/// which then finds this one.
inline QApplication& widgetApplication() {
  static QApplication* made = [] {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "offscreen");
    static int count = 1;
    static char name[] = "window_test";
    static char* arguments[] = {name, nullptr};
    auto* application = new QApplication(count, arguments);
    fittings::dress(*application, paint::theme(paint::ThemeName::light));
    return application;
  }();
  return *made;
}

/// Surroundings with a clock that stands still until it is moved and identities that count up.
struct Desk {
  explicit Desk(const std::string& language = "en", paint::ThemeName theme = paint::ThemeName::light)
      : around{*wording::Language::byCode(language),
               paint::theme(theme),
               equipment::standardLibrary(),
               {},
               [this] { return time; },
               [this] { return nextId(); },
               [this](const session::Preferences& kept) { around.preferences = kept; }} {
    widgetApplication();
  }
  Desk(const Desk&) = delete;

  std::string nextId() {
    char text[40];
    std::snprintf(text, sizeof text, "0190c1d0-0000-7000-8000-%012x", ++ids);
    return text;
  }

  std::string time = "2025-03-12T10:42:00-05:00";
  unsigned ids = 0x1000;
  session::Surroundings around;
};

/// Lets the event loop run until something holds; false after five seconds. For what comes from a worker.
inline bool waitFor(const std::function<bool()>& holds) { return QTest::qWaitFor(holds, 5000); }

}  // namespace ww::testing
