// SPDX-License-Identifier: GPL-3.0-or-later
// Every place of the window as a picture, in both themes, both languages and two screens: ww_pictures FOLDER
#include <QDir>
#include <QProcess>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <cstdio>

#include "checks/checks_place.h"
#include "control/control_place.h"
#include "fittings/undo_bar.h"
#include "job/document_file.h"
#include "library/inner_view.h"
#include "library/library_page.h"
#include "library/profile_form.h"
#include "report/report_place.h"
#include "shell/keys_dialog.h"
#include "shell/settings_dialog.h"
#include "support/whole_window.h"

namespace {

using ww::testing::WholeWindow;

struct Shot {
  QString folder, suffix;
  void keep(QWidget& widget, const QString& name) const {
    QCoreApplication::processEvents();
    const QString path = QStringLiteral("%1/%2-%3.png").arg(folder, name, suffix);
    if (!widget.grab().save(path)) std::fprintf(stderr, "%s cannot be written\n", qPrintable(path));
  }
};

QString demo(const char* name) { return QStringLiteral(WIREWRIGHT_DEMO_DATA_DIR "/") + QLatin1String(name); }

void shootStages(WholeWindow& whole, const Shot& shot, const QString& job) {
  for (size_t i = 0; i < whole.window->stages().size(); ++i) {
    whole.window->showStage(i);
    if (i + 1 == whole.window->stages().size()) QTest::qWait(1000);  // pages are made beside
    shot.keep(*whole.window,
              QStringLiteral("%1-%2").arg(QString::fromStdString(whole.window->stages()[i].id), job));
  }
}

/// A rate that is held back, lock-outs with a gap, and the wishes.
void shootSettings(WholeWindow& whole, const Shot& shot) {
  whole.bench->openFile(demo("larkmoor-g-wrong-valve-sense.json"));
  auto next = ww::session::undoableOf(whole.bench->job()->job());
  next.control.put({"cycles.compressor1", "5", "short rooms", "M. Ode", whole.desk.time});
  next.control.put({"auxiliaryAbove", "-5", "dear power", "M. Ode", whole.desk.time});
  next.control.put({"compressorBelow", "2", "old compressor", "M. Ode", whole.desk.time});
  whole.bench->job()->edit(QStringLiteral("settings"), next);
  whole.window->showStage("settings");
  whole.window->place()->bring(QStringLiteral("cycles.compressor1"));
  shot.keep(*whole.window, QStringLiteral("settings-held"));
  dynamic_cast<ww::control::ControlPlace&>(*whole.window->place()).wishesButton()->click();
  shot.keep(*whole.window, QStringLiteral("settings-wishes"));
  whole.bench->job()->undoStack().undo();
}

/// Cautions acknowledged, so that the steps behind them show.
void acknowledge(WholeWindow& whole) {
  for (const char* cautions : {"dead", "live"})
    whole.bench->job()->acknowledge({whole.desk.nextId(), cautions, "M. Ode", whole.desk.time});
}

/// The first step of that kind at the stage, with something typed, and Enter where that is asked about.
void measure(WholeWindow& whole, const std::string& stage, ww::checklist::Measure kind,
             const QString& typed) {
  whole.window->showStage(stage);
  for (const auto& step : whole.bench->job()->steps())
    if (step.measure == kind && (step.phase == ww::checklist::Phase::dead) == (stage == "dead")) {
      whole.window->place()->bring(QString::fromStdString(step.key));
      break;
    }
  whole.type(typed);
  if (stage == "dead") whole.press(Qt::Key_Return);
}

/// The sheet that is signed on, once the pages are made.
void sign(WholeWindow& whole) {
  whole.window->showStage("report");
  auto& place = static_cast<ww::report::ReportPlace&>(*whole.window->place());
  whole.press(Qt::Key_Return, Qt::ControlModifier);
  (void)ww::testing::waitFor([&] { return place.closeSheet()->isVisible(); });
}

/// The page of unit profiles: one shown, one of one's own in the form with something wrong.
void shootLibrary(WholeWindow& whole, const Shot& shot) {
  whole.window->showLibrary();
  auto& page = whole.window->libraryPage();
  for (const char* id : {"furnace-1", "od-heatpump-1-o", "rc-1h1c-common", "zonepanel-3"}) {
    page.choose(id);
    QTest::qWait(50);
    shot.keep(*whole.window, QStringLiteral("library-") + QLatin1String(id));
  }
  page.choose("furnace-1");
  QTest::qWait(50);
  if (auto* pane = qobject_cast<QScrollArea*>(page.panes().back()))
    pane->verticalScrollBar()->setValue(page.picture()->height());
  shot.keep(*whole.window, QStringLiteral("library-figures"));
  page.copyToOwn();
  QTest::qWait(50);
  shot.keep(*whole.window, QStringLiteral("library-form"));
  page.form()->editor("/elements")->setFocus();
  if (auto* pane = page.form()->findChild<QScrollArea*>())
    pane->ensureWidgetVisible(page.form()->editor("/duties"));
  shot.keep(*whole.window, QStringLiteral("library-form-rows"));
  page.form()->focusFirst();
  whole.type(QStringLiteral(" x"));
  QTest::qWait(50);
  shot.keep(*whole.window, QStringLiteral("library-form-wrong"));
  page.form()->showText(true);
  shot.keep(*whole.window, QStringLiteral("library-form-text"));
  page.stepOut();
  whole.window->undoBar().lapse();
  whole.window->showJobs();
}

void shootAll(const QString& language, ww::paint::ThemeName theme, const Shot& shot, QSize size) {
  ww::fittings::dress(ww::testing::widgetApplication(), ww::paint::theme(theme));
  WholeWindow whole(language.toStdString(), theme, {}, size);
  shot.keep(*whole.window, QStringLiteral("jobs-empty"));
  whole.bench->useDemo(true);
  whole.settled();
  QTest::qWait(200);  // the preview is worked out beside
  shot.keep(*whole.window, QStringLiteral("jobs-demo"));
  whole.bench->useDemo(false);
  shootLibrary(whole, shot);
  whole.bench->openFile(demo("larkmoor-g-heat-pump.json"));
  shootStages(whole, shot, QStringLiteral("g"));
  const std::string closed = whole.bench->job()->job().id;
  sign(whole);
  shot.keep(*whole.window, QStringLiteral("report-sign"));
  whole.desk.time = "2027-03-12T10:42:00-05:00";
  whole.bench->callBack(closed);
  whole.window->showStage("dead");
  shot.keep(*whole.window, QStringLiteral("dead-cautions"));
  acknowledge(whole);
  measure(whole, "dead", ww::checklist::Measure::ohms, QStringLiteral("500"));
  shot.keep(*whole.window, QStringLiteral("dead-step"));
  measure(whole, "live", ww::checklist::Measure::acVolts, QStringLiteral("2.4"));
  shot.keep(*whole.window, QStringLiteral("live-step"));
  whole.window->setLarge(true);
  shot.keep(*whole.window, QStringLiteral("live-large"));
  whole.window->setLarge(false);
  whole.press(Qt::Key_Escape);
  measure(whole, "live", ww::checklist::Measure::look, {});
  shot.keep(*whole.window, QStringLiteral("live-look"));
  whole.bench->putAway();
  whole.settled();
  QTest::qWait(300);
  shot.keep(*whole.window, QStringLiteral("jobs-visits"));
  shootSettings(whole, shot);
  whole.bench->openFile(demo("larkmoor-a-swapped-at-furnace.json"));
  whole.window->showStage("wiring");
  whole.bench->job()->setCall("fan");
  shot.keep(*whole.window, QStringLiteral("wiring-swapped"));
  whole.press(Qt::Key_F3);
  QTest::qWait(1000);  // mends are searched beside
  shot.keep(*whole.window, QStringLiteral("wiring-findings"));
  whole.press(Qt::Key_Escape);
  whole.press(Qt::Key_F8);
  shot.keep(*whole.window, QStringLiteral("wiring-listing"));
  whole.press(Qt::Key_F8);
  whole.press(Qt::Key_Insert);
  shot.keep(*whole.window, QStringLiteral("wiring-insert"));
  whole.press(Qt::Key_Escape);
  sign(whole);
  shot.keep(*whole.window, QStringLiteral("report-close"));
  whole.window->showStage("site");
  for (QPushButton* button : whole.window->place()->findChildren<QPushButton*>())
    if (button->accessibleName().contains(u':') && button->isVisible()) {
      button->click();
      break;
    }
  QTest::qWait(500);
  shot.keep(*whole.window, QStringLiteral("site-removed"));
  whole.bench->startNew();
  shot.keep(*whole.window, QStringLiteral("site-new"));
  whole.bench->job()->takeSurvey(
      {whole.desk.nextId(), ww::survey::refusedWith("lineVoltage"), "M. Ode", whole.desk.time});
  shot.keep(*whole.window, QStringLiteral("site-refused"));
  ww::shell::SettingsDialog settings(whole.desk.around, whole.window.get());
  settings.show();
  shot.keep(settings, QStringLiteral("preferences"));
  const ww::shell::KeysDialog keys(whole.desk.around, whole.window->stages()[1].title,
                                   whole.window->stages()[1].place->keys(),
                                   whole.window->everywhere().lines(), whole.window.get());
  shot.keep(const_cast<ww::shell::KeysDialog&>(keys), QStringLiteral("keys"));
}

int shootScreen(const QString& folder, bool fine) {
  const QSize size =
      fine ? QSize(1920, 1080) : QSize(1280, 720);  // px at 96 dpi; the fine screen has twice as many
  for (const char* language : {"en", "es"})
    for (const auto theme : {ww::paint::ThemeName::light, ww::paint::ThemeName::dark}) {
      const QString name =
          theme == ww::paint::ThemeName::light ? QStringLiteral("light") : QStringLiteral("dark");
      const QString code = QLatin1String(language);
      shootAll(
          code, theme,
          {folder,
           QStringLiteral("%1-%2-%3").arg(name, code, fine ? QStringLiteral("2160") : QStringLiteral("720"))},
          size);
    }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) {
    std::fprintf(stderr, "usage: ww_pictures FOLDER\n");
    return 2;
  }
  const QString folder = QString::fromLocal8Bit(argv[1]);
  QDir().mkpath(folder);
  if (argc > 2) return shootScreen(folder, QLatin1String(argv[2]) == QLatin1String("fine"));
  // The scale of a screen is settled before the application starts, so each screen has a process.
  for (const char* screen : {"plain", "fine"}) {
    QProcess process;
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    if (QLatin1String(screen) == QLatin1String("fine")) environment.insert("QT_SCALE_FACTOR", "2");
    process.setProcessEnvironment(environment);
    process.setProcessChannelMode(QProcess::ForwardedChannels);
    process.start(QString::fromLocal8Bit(argv[0]), {folder, QLatin1String(screen)});
    if (!process.waitForFinished(600'000) || process.exitCode() != 0) return 1;
  }
  return 0;
}
