// SPDX-License-Identifier: GPL-3.0-or-later
// The frame around the places: stages, panes, layout, preferences, large mode.
#include "shell/main_window.h"

#include <gtest/gtest.h>

#include <QComboBox>
#include <QLineEdit>
#include <QProcess>
#include <QPushButton>
#include <QTableWidget>
#include <QToolButton>

#include "shell/program.h"
#include "shell/settings_dialog.h"
#include "shell/status_line.h"
#include "shell/top_bar.h"
#include "support/whole_window.h"

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
