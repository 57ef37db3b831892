// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include <QApplication>
#include <QLabel>
#include <QTextDocumentFragment>
#include <QtTest/QTest>
#include <cstdio>
#include <functional>
#include <string>

#include "equipment/profile.h"
#include "fittings/style.h"
#include "paint/theme.h"
#include "session/open_job.h"
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
               library,
               {},
               [this] { return time; },
               [this] { return nextId(); },
               [this](const session::Preferences& kept) { around.preferences = kept; },
               [this](const QString& sentence) { spoken << sentence; }} {
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
  equipment::Library library = equipment::standardLibrary();
  QStringList spoken;  ///< what a screen reader was given to say at once
  session::Surroundings around;
};

/// A stage with a job on it, shown as large as it is in the window and in front.
template <class Place>
void bringUp(Place& place, session::OpenJob* job) {
  place.setJob(job);
  place.resize(1112, 648);
  place.show();
  place.activateWindow();
  EXPECT_TRUE(QTest::qWaitForWindowActive(&place));
  place.enter();
}

/// No visible label in the widget is wider or higher than its place; wrapped ones have no word that is wider.
inline void expectLabelsWhole(const QWidget& widget, const std::string& language) {
  for (const QLabel* label : widget.findChildren<QLabel*>()) {
    if (!label->isVisible() || label->text().isEmpty()) continue;
    const bool rich = label->textFormat() == Qt::RichText;
    const QString text = rich ? QTextDocumentFragment::fromHtml(label->text()).toPlainText() : label->text();
    const QRect needed =
        label->fontMetrics().boundingRect(QRect(0, 0, label->contentsRect().width(), 10000),
                                          label->wordWrap() ? int(Qt::TextWordWrap) : 0, text);
    EXPECT_LE(needed.width(), label->contentsRect().width() + 1) << language << ": " << text.toStdString();
    EXPECT_LE(needed.height(), label->contentsRect().height() + 1) << language << ": " << text.toStdString();
  }
}

/// Lets the event loop run until something holds; false after five seconds. For what comes from a worker.
inline bool waitFor(const std::function<bool()>& holds) { return QTest::qWaitFor(holds, 5000); }

}  // namespace ww::testing
