// SPDX-License-Identifier: GPL-3.0-or-later
// The frame around the places: stages, panes, layout, preferences, large mode.
#include "shell/main_window.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QProcess>
#include <QPushButton>
#include <QTableWidget>
#include <QToolButton>

#include "checks/checks_place.h"
#include "fittings/announce.h"
#include "fittings/pieces.h"
#include "shell/program.h"
#include "shell/settings_dialog.h"
#include "shell/status_line.h"
#include "shell/top_bar.h"
#include "site/site_place.h"
#include "support/whole_window.h"
#include "wiring/wiring_place.h"

namespace ww::shell {
namespace {

using testing::WholeWindow;

const char* const kJob = WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-a-furnace-cooling.json";

TEST(Window, StartsInTheSearchField) {
  WholeWindow whole;
  EXPECT_EQ(QApplication::focusWidget(), whole.window->jobsPage().searchField());
  EXPECT_FALSE(whole.window->place());
}

TEST(Window, AltAndANumberGoesToAStage) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  for (int i = 0; i < 6; ++i) {
    whole.press(Qt::Key_1 + i, Qt::AltModifier);
    EXPECT_EQ(whole.window->place(), whole.window->stages()[static_cast<size_t>(i)].place);
    EXPECT_TRUE(whole.window->rail().buttonOf(static_cast<size_t>(i))->isChecked());
  }
}

TEST(Window, WhatOneStageSaidIsNotReadInAnother) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.press(Qt::Key_2, Qt::AltModifier);
  whole.press(Qt::Key_Down);
  EXPECT_FALSE(whole.window->status().saidText().isEmpty());
  whole.press(Qt::Key_1, Qt::AltModifier);
  EXPECT_TRUE(whole.window->status().saidText().isEmpty()) << whole.window->status().saidText().toStdString();
}

TEST(Window, F6GoesRoundThePanesAndBack) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.press(Qt::Key_2, Qt::AltModifier);
  const QWidget* start = QApplication::focusWidget();
  ASSERT_TRUE(start);
  std::vector<QWidget*> met;
  for (size_t i = 0; i < whole.window->panes().size(); ++i) {
    whole.press(Qt::Key_F6);
    ASSERT_TRUE(QApplication::focusWidget());
    met.push_back(QApplication::focusWidget());
  }
  EXPECT_GE(whole.window->panes().size(), 3u);
  whole.press(Qt::Key_F6, Qt::ShiftModifier);
  EXPECT_NE(QApplication::focusWidget(), met.back());
}

TEST(Window, OpenUnitLeadsToItsCardAtSite) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.window->resize(1280, 560);
  for (const char* tag : {"O", "F"}) {
    whole.press(Qt::Key_2, Qt::AltModifier);
    auto& wiring = static_cast<wiring::WiringPlace&>(*whole.window->place());
    const auto unit = wiring.hand().sheet().unitByTag(tag)->id;
    const auto& spots = wiring.diagram().picture().spots();
    const auto spot = std::find_if(spots.begin(), spots.end(), [&](const wiring::Spot& one) {
      return one.terminal && one.terminal->unit == unit;
    });
    ASSERT_NE(spot, spots.end());
    wiring.diagram().setFocus();
    wiring.diagram().focusOn(*spot);
    whole.press(Qt::Key_O);
    auto* site = dynamic_cast<site::SitePlace*>(whole.window->place());
    ASSERT_TRUE(site) << tag;
    const auto& cards = site->cards();
    const auto card = std::find_if(cards.begin(), cards.end(),
                                   [&](const site::UnitCard* one) { return one->unit() == unit; });
    ASSERT_NE(card, cards.end());
    QWidget* field = (*card)->fields().front()->editor();
    EXPECT_EQ(QApplication::focusWidget(), field) << tag;
    EXPECT_FALSE(field->visibleRegion().isEmpty()) << tag << ": the card is not scrolled to";
  }
}

TEST(Window, WhatIsAnnouncedIsTheNameOfSomethingAndTakesNoFocus) {
  WholeWindow whole;
  for (const char* sentence : {"One.", "Two."}) {
    fittings::announce(*whole.window, QLatin1String(sentence));
    auto* speaker = whole.window->findChild<QWidget*>(QStringLiteral("announcer"));
    ASSERT_TRUE(speaker);
    QAccessibleInterface* heard = QAccessible::queryAccessibleInterface(speaker);
    EXPECT_EQ(heard->text(QAccessible::Name), QLatin1String(sentence));
    EXPECT_EQ(heard->role(), QAccessible::AlertMessage);
    EXPECT_FALSE(heard->state().invisible);
  }
  EXPECT_EQ(QApplication::focusWidget(), whole.window->jobsPage().searchField());
}

TEST(Window, WhatTheStatusLineSaysIsAnnounced) {
  WholeWindow whole;
  whole.window->status().say(QStringLiteral("Three."));
  EXPECT_EQ(whole.desk.spoken, QStringList{"Three."});
}

TEST(Window, TheJobOneComesFromIsInFrontInTheList) {
  WholeWindow whole;
  for (const char* job : {kJob, WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-g-heat-pump.json",
                          WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-b-electric-air-handler.json"}) {
    whole.bench->openFile(QString::fromUtf8(job));
    const std::string address = whole.bench->job()->job().site.unit;
    whole.bench->putAway();
    EXPECT_TRUE(testing::waitFor([&] {
      for (const QLabel* label : whole.window->jobsPage().findChildren<QLabel*>())
        if (label->isVisible() && label->text().endsWith(QString::fromStdString(address))) return true;
      return false;
    })) << job;
  }
}

TEST(Window, EscGoesOneLevelOutToTheJobs) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.press(Qt::Key_1, Qt::AltModifier);
  for (int i = 0; i < 3 && whole.bench->job(); ++i) whole.press(Qt::Key_Escape);
  EXPECT_FALSE(whole.bench->job());
  EXPECT_EQ(QApplication::focusWidget(), whole.window->jobsPage().searchField());
}

TEST(Window, SaysHowLongAgoItSaved) {
  WholeWindow whole;
  whole.bench->startNew();
  session::Undoable next = session::undoableOf(whole.bench->job()->job());
  next.site.address = "7 Mill Road";
  whole.bench->job()->edit(QStringLiteral("address"), next);
  ASSERT_TRUE(whole.allSaved());
  EXPECT_EQ(whole.window->status().savedText(), "Saved 0 s ago");
  whole.ticks += std::chrono::seconds(5);
  whole.window->status().refresh();
  EXPECT_EQ(whole.window->status().savedText(), "Saved 5 s ago");
  whole.ticks += std::chrono::minutes(3);
  whole.window->status().refresh();
  EXPECT_EQ(whole.window->status().savedText(), "Saved 3 min ago");
}

TEST(Window, RemembersItsLayout) {
  WholeWindow whole;
  whole.window->resize(1500, 800);
  QTest::mouseClick(whole.window->topBar().railButton(), Qt::LeftButton);
  whole.window->keepLayout();
  EXPECT_FALSE(whole.desk.around.preferences.layout.empty());
  whole.makeWindow({1280, 720});
  EXPECT_EQ(whole.desk.around.preferences.layout.count("window"), 1u);
}

TEST(Window, LargeModeEnlargesWhatIsRead) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  const int before = whole.window->topBar().undoButton()->height();
  whole.press(Qt::Key_F11);
  QCoreApplication::processEvents();
  EXPECT_TRUE(whole.window->large());
  EXPECT_GT(whole.window->topBar().undoButton()->height(), before);
  EXPECT_TRUE(whole.window->rail().folded());
  whole.press(Qt::Key_F11);
  EXPECT_FALSE(whole.window->large());
}

/// The live checks of a call back, past their cautions, at the first reading.
checks::ChecksPlace& firstLiveReading(WholeWindow& whole) {
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.bench->callBack(whole.bench->job()->job().id);
  whole.bench->job()->acknowledge({whole.desk.nextId(), "live", "M. Ode", whole.desk.time});
  whole.window->showStage(std::string("live"));
  for (const auto& step : whole.bench->job()->steps())
    if (step.measure == checklist::Measure::acVolts) {
      whole.window->place()->bring(QString::fromStdString(step.key));
      break;
    }
  QCoreApplication::processEvents();
  return static_cast<checks::ChecksPlace&>(*whole.window->place());
}

TEST(Window, TheReadingHasRoomForItsFiguresAndLargeModeEnlargesTheStep) {
  WholeWindow whole;
  checks::ChecksPlace& place = firstLiveReading(whole);
  ASSERT_TRUE(QApplication::focusWidget() == place.panel()->reading());
  const auto figures = [&] {
    return place.panel()->reading()->fontMetrics().tightBoundingRect("8").height();
  };
  const auto stand = [&] {
    int high = 0;
    for (const QLabel* label : place.panel()->findChildren<QLabel*>())
      if (label->text() == place.panel()->stand()) high = label->fontMetrics().height();
    return high;
  };
  const auto strip = [&] { return place.panel()->findChild<checks::StripView*>()->width(); };
  const int before = figures(), standBefore = stand(), stripBefore = strip();
  EXPECT_GE(place.panel()->reading()->height(), fittings::kReadingField);
  EXPECT_GE(before, 28) << "40 px of type";
  whole.press(Qt::Key_F11);
  QCoreApplication::processEvents();
  EXPECT_GE(figures(), before * 9 / 5) << "72 px of type";
  EXPECT_GE(place.panel()->reading()->height(), figures() + 20);
  EXPECT_GT(stand(), standBefore * 13 / 10);
  EXPECT_GT(strip(), stripBefore * 13 / 10);
  whole.press(Qt::Key_F11);
  QCoreApplication::processEvents();
  EXPECT_EQ(figures(), before);
  EXPECT_EQ(strip(), stripBefore);
}

TEST(Window, AStageThatIsNotSeenIsRightWhenItIs) {
  WholeWindow whole;
  whole.bench->openFile(QStringLiteral(WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-a-swapped-at-furnace.json"));
  for (const char* cautions : {"dead", "live"})
    whole.bench->job()->acknowledge({whole.desk.nextId(), cautions, "M. Ode", whole.desk.time});
  whole.window->showStage(std::string("live"));
  auto& live = static_cast<checks::ChecksPlace&>(*whole.window->place());
  const auto liveSteps = [&] {
    const auto& steps = whole.bench->job()->steps();
    return std::count_if(steps.begin(), steps.end(), [](const checklist::Step& step) {
      return step.phase != checklist::Phase::dead &&
             (step.measure == checklist::Measure::ohms || step.measure == checklist::Measure::acVolts);
    });
  };
  const auto before = liveSteps();
  EXPECT_EQ(live.mark().count, before);
  whole.window->showStage(std::string("wiring"));
  auto& wiring = static_cast<wiring::WiringPlace&>(*whole.window->place());
  const sheet::Sheet& sheet = wiring.hand().sheet();
  wiring.hand().select({{}, {}, {}, sheet.unitByTag("O")->id});
  for (int times = 0; times < 2; ++times) wiring.hand().deleteSelected();
  ASSERT_LT(liveSteps(), before);
  EXPECT_EQ(live.mark().count, liveSteps());
  QCoreApplication::processEvents();
  EXPECT_TRUE(whole.window->rail().buttonOf(3)->text().endsWith(QString::number(liveSteps())))
      << whole.window->rail().buttonOf(3)->text().toStdString();
  whole.window->showStage(std::string("live"));
  EXPECT_FALSE(live.step().isEmpty());
  int seen = 0;
  for (const auto& step : whole.bench->job()->steps())
    seen += QString::fromStdString(step.key) == live.step();
  EXPECT_EQ(seen, 1) << "a step of the sheet as it was";
}

TEST(Window, KeysAreNamedInItsLanguage) {
  {
    WholeWindow whole("es");
    EXPECT_EQ(fittings::keyText(Qt::CTRL | Qt::Key_PageDown), QStringLiteral("Ctrl+AvPág"));
    EXPECT_EQ(fittings::keyText(Qt::SHIFT | Qt::Key_Delete), QStringLiteral("Mayús+Supr"));
  }
  WholeWindow whole("en");
  EXPECT_EQ(fittings::keyText(Qt::CTRL | Qt::Key_PageDown), "Ctrl+PgDn");
  EXPECT_EQ(fittings::keyText(Qt::Key_Return), "Enter");
}

TEST(Preferences, OfTheDialogAreKept) {
  WholeWindow whole;
  SettingsDialog dialog(whole.desk.around, whole.window.get());
  dialog.show();
  for (QComboBox* box : dialog.findChildren<QComboBox*>())
    if (box->accessibleName() == "Lengths") box->setCurrentIndex(1);
  QPushButton* add = nullptr;
  for (QPushButton* button : dialog.findChildren<QPushButton*>())
    if (button->text() == "Add a meter") add = button;
  ASSERT_TRUE(add);
  add->click();
  auto* table = dialog.findChild<QTableWidget*>();
  table->item(0, 0)->setText(QStringLiteral("Bench meter"));
  table->item(0, 2)->setText(QStringLiteral("next year"));
  dialog.accept();
  EXPECT_TRUE(dialog.isVisible()) << "a date that is none is told, and the dialog stays";
  table->item(0, 2)->setText(QStringLiteral("2026-03-12"));
  dialog.accept();
  EXPECT_FALSE(dialog.isVisible());
  const session::Preferences next = dialog.preferences();
  EXPECT_FALSE(next.feet);
  ASSERT_EQ(next.meters.size(), 1u);
  EXPECT_EQ(next.meters[0].name, "Bench meter");
  EXPECT_EQ(next.meters[0].calibrationDue, "2026-03-12");
}

TEST(Saving, SurvivesAKillBetweenTwoEdits) {
  QTemporaryDir folder;
  QProcess typing;
  typing.setProcessEnvironment([] {
    QProcessEnvironment environment = QProcessEnvironment::systemEnvironment();
    environment.insert(QStringLiteral("QT_QPA_PLATFORM"), QStringLiteral("offscreen"));
    return environment;
  }());
  int told = 0;
  for (int round = 1; round <= 3; ++round) {
    typing.start(QStringLiteral(WIREWRIGHT_TYPING), {folder.path()});
    ASSERT_TRUE(typing.waitForStarted());
    // Killed somewhere between two edits, after the status bar called a few saved.
    for (int lines = 0; lines < 3 * round;) {
      ASSERT_TRUE(typing.waitForReadyRead(20000));
      while (typing.canReadLine()) {
        told = typing.readLine().trimmed().toInt();
        ++lines;
      }
    }
    typing.kill();
    typing.waitForFinished();
    for (const QByteArray& line : typing.readAllStandardOutput().split('\n'))
      if (!line.isEmpty()) told = std::max(told, line.toInt());
    history::OpenOptions options;
    options.folder = folder.path().toStdString();
    auto opened = history::Store::open(options, equipment::standardLibrary());
    ASSERT_TRUE(std::holds_alternative<history::Store>(opened));
    auto& store = std::get<history::Store>(opened);
    EXPECT_TRUE(store.faults().empty());
    history::Reader reader(store);
    int kept = 0;
    const auto found = reader.find("state:draft", 0, 10);
    ASSERT_TRUE(found);
    for (const history::Row& row : found->rows) kept = std::max(kept, std::atoi(row.site.address.c_str()));
    EXPECT_GE(kept, told) << "round " << round;
    EXPECT_GT(told, 0);
  }
}

}  // namespace
}  // namespace ww::shell
