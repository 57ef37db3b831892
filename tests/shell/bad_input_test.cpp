// SPDX-License-Identifier: GPL-3.0-or-later
// What can go wrong around the window: told in one line, nothing lost, and mended without starting again.
#include <gtest/gtest.h>

#include <QClipboard>
#include <QDir>
#include <QFile>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableWidget>

#include "fittings/undo_bar.h"
#include "shell/program.h"
#include "shell/status_line.h"
#include "site/site_place.h"
#include "support/whole_window.h"

namespace ww::shell {
namespace {

using testing::WholeWindow;

const char* const kJob = WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-a-swapped-at-furnace.json";

void write(const QString& path, const QByteArray& bytes) {
  QFile file(path);
  ASSERT_TRUE(file.open(QIODevice::WriteOnly | QIODevice::Truncate));
  file.write(bytes);
}

QByteArray read(const QString& path) {
  QFile file(path);
  return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

std::string said(const WholeWindow& whole) { return whole.window->status().saidText().toStdString(); }

void typeAddress(WholeWindow& whole, const QString& address) {
  whole.bench->startNew();
  ASSERT_TRUE(whole.bench->job());
  whole.window->showStage(std::string("site"));
  whole.type(address);
  whole.press(Qt::Key_Return);
}

// Below a file no folder can be made, whoever asks.
TEST(BadInput, AFolderThatCannotBeWrittenIsToldAndTriedAgain) {
  QTemporaryDir parent;
  const QString blocked = parent.path() + "/file";
  write(blocked, "x");
  WholeWindow whole("en", paint::ThemeName::light, blocked + "/jobs");
  EXPECT_NE(said(whole).find("cannot be written"), std::string::npos) << said(whole);
  typeAddress(whole, QStringLiteral("9 mill road"));
  EXPECT_EQ(whole.bench->saved().kind, SavedState::Kind::failed);
  EXPECT_TRUE(whole.window->status().savedText().contains("cannot be written"))
      << whole.window->status().savedText().toStdString();
  whole.window->close();
  EXPECT_TRUE(whole.window->isVisible()) << "closed without asking, and the job was lost";
  EXPECT_EQ(whole.asked.size(), 1);
  // The way is clear: the store opens by itself and has what was typed meanwhile.
  ASSERT_TRUE(QFile::remove(blocked));
  EXPECT_TRUE(whole.allSaved());
  whole.bench->putAway();
  EXPECT_TRUE(testing::waitFor([&] { return whole.window->jobsPage().countText().contains("1"); }));
}

TEST(BadInput, ADamagedStoreIsToldWithItsBackupAndLeftAsItIs) {
  QTemporaryDir folder;
  QDir(folder.path()).mkpath("backups");
  write(folder.path() + "/backups/jobs-v1-2026-0312T100000Z.db", "older");
  write(folder.path() + "/jobs.db", QByteArray(8192, '\0'));
  WholeWindow whole("en", paint::ThemeName::light, folder.path());
  EXPECT_NE(said(whole).find("damaged"), std::string::npos) << said(whole);
  EXPECT_NE(said(whole).find("jobs-v1-2026"), std::string::npos) << said(whole);
  typeAddress(whole, QStringLiteral("9 mill road"));
  EXPECT_EQ(whole.bench->saved().kind, SavedState::Kind::failed);
  EXPECT_EQ(whole.bench->job()->job().site.address, "9 mill road");
  EXPECT_EQ(read(folder.path() + "/jobs.db"), QByteArray(8192, '\0'));
}

TEST(BadInput, ANewerStoreIsToldAndLeftAsItIs) {
  QTemporaryDir folder;
  {
    WholeWindow whole("en", paint::ThemeName::light, folder.path());
    typeAddress(whole, QStringLiteral("9 mill road"));
    ASSERT_TRUE(whole.allSaved());
  }
  // The version stands at byte 60 of the head, four bytes, the highest first.
  QByteArray bytes = read(folder.path() + "/jobs.db");
  ASSERT_GT(bytes.size(), 100);
  bytes[62] = 1;
  write(folder.path() + "/jobs.db", bytes);
  WholeWindow whole("en", paint::ThemeName::light, folder.path());
  EXPECT_NE(said(whole).find("later version"), std::string::npos) << said(whole);
  EXPECT_FALSE(whole.window->jobsPage().countText().isEmpty());
  EXPECT_EQ(read(folder.path() + "/jobs.db"), bytes);
}

TEST(BadInput, AFullDiskKeepsSayingSoUntilThereIsRoom) {
  WholeWindow whole;
  whole.bound = [](history::OpenOptions& options) { options.mostPages = 60; };
  whole.bench->openStore();
  typeAddress(whole, QStringLiteral("9 mill road"));
  ASSERT_TRUE(whole.allSaved());
  auto* site = static_cast<site::SitePlace*>(whole.window->place());
  auto* notes = qobject_cast<QPlainTextEdit*>(site->field(QStringLiteral("notes"))->editor());
  session::Undoable next = session::undoableOf(whole.bench->job()->job());
  for (int line = 0; line < 400; ++line) next.site.notes += std::string(1000, 'n') + "\n";
  whole.bench->job()->edit(QStringLiteral("notes"), next);
  EXPECT_TRUE(testing::waitFor([&] { return whole.bench->saved().kind == SavedState::Kind::failed; }));
  whole.window->status().refresh();
  EXPECT_TRUE(whole.window->status().savedText().contains("full"));
  EXPECT_EQ(notes->toPlainText().toStdString(), next.site.notes) << "what was typed is still there";
  whole.press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_TRUE(whole.allSaved());
}

TEST(BadInput, TheSameJobInTwoWindowsIsTold) {
  QTemporaryDir folder;
  WholeWindow first("en", paint::ThemeName::light, folder.path());
  first.desk.around.preferences.installer = "M. Ode";
  typeAddress(first, QStringLiteral("9 mill road"));
  ASSERT_TRUE(first.allSaved());
  const std::string id = first.bench->job()->job().id;
  WholeWindow second("en", paint::ThemeName::light, folder.path());
  EXPECT_TRUE(testing::waitFor([&] {
    second.bench->putAway();
    second.bench->open(id);
    return second.window->status().saidText().contains("M. Ode also has this job open");
  })) << said(second);
}

TEST(BadInput, WhatIsHalfTypedIsKeptWhenAKeyLeadsAway) {
  WholeWindow whole;
  whole.bench->startNew();
  whole.window->showStage(std::string("site"));
  whole.type(QStringLiteral("9 mill road"));
  whole.press(Qt::Key_N, Qt::ControlModifier);
  ASSERT_TRUE(whole.bench->job());
  EXPECT_EQ(whole.bench->job()->job().site.address, "");
  whole.window->showStage(std::string("site"));
  whole.type(QStringLiteral("11 mill road"));
  whole.window->close();
  EXPECT_EQ(whole.bench->job()->job().site.address, "11 mill road");
  EXPECT_TRUE(whole.asked.isEmpty());
  whole.bench->putAway();
  EXPECT_TRUE(testing::waitFor([&] { return whole.window->jobsPage().countText().startsWith("2 of 2"); }))
      << whole.window->jobsPage().countText().toStdString();
}

TEST(BadInput, NonsenseInFieldsIsToldOrKeptAndNeverBreaksAJob) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.window->showStage(std::string("site"));
  auto& site = static_cast<site::SitePlace&>(*whole.window->place());
  const QString nonsense = QString::fromUtf8("\u202E\U0001F527 <b>&amp;</b> {n} %1 ' \" \\ \u65E5\u672C") +
                           QChar(0) + QChar(1) + QChar(0xD800);
  for (const char* name : {"visit", "line-volts", "low-line", "high-line"}) {
    auto* edit = qobject_cast<QLineEdit*>(site.field(QLatin1String(name))->editor());
    ASSERT_TRUE(edit) << name;
    edit->setFocus();
    edit->selectAll();
    edit->insert(nonsense);
    whole.press(Qt::Key_Return);
    EXPECT_FALSE(site.field(QLatin1String(name))->complaint().isEmpty()) << name;
    whole.press(Qt::Key_Escape);
  }
  const job::Job before = whole.bench->job()->job();
  auto* address = qobject_cast<QLineEdit*>(site.field(QStringLiteral("address"))->editor());
  address->setFocus();
  address->selectAll();
  address->insert(nonsense);
  whole.press(Qt::Key_Return);
  EXPECT_TRUE(whole.allSaved()) << whole.bench->saved().failure.toStdString();
  const std::string kept = whole.bench->job()->job().site.address;
  const std::string id = before.id;
  whole.bench->putAway();
  whole.bench->open(id);
  ASSERT_TRUE(whole.bench->job()) << said(whole);
  EXPECT_EQ(whole.bench->job()->job().site.address, kept);
  // The list finds it, and the search field takes the same.
  whole.bench->putAway();
  whole.window->jobsPage().searchField()->setText(nonsense);
  EXPECT_TRUE(testing::waitFor([&] { return !whole.window->jobsPage().countText().isEmpty(); }));
}

TEST(BadInput, NotesTakeWhatTheyCanOfAPasteAndNoMore) {
  WholeWindow whole;
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.window->showStage(std::string("site"));
  auto& site = static_cast<site::SitePlace&>(*whole.window->place());
  auto* notes = qobject_cast<QPlainTextEdit*>(site.field(QStringLiteral("notes"))->editor());
  notes->setFocus();
  QGuiApplication::clipboard()->setText(QString(1 << 20, u'x'));
  notes->paste();
  EXPECT_LE(notes->toPlainText().size(), 5000);
  site.field(QStringLiteral("address"))->editor()->setFocus();
  EXPECT_FALSE(site.field(QStringLiteral("notes"))->complaint().isEmpty()) << "cut without a word";
}

class Removal : public ::testing::TestWithParam<const char*> {};

TEST_P(Removal, OfAUnitWithLandedConductorsHasAWayBack) {
  WholeWindow whole(GetParam());
  whole.bench->openFile(QString::fromUtf8(kJob));
  whole.window->showStage(std::string("site"));
  const sheet::Sheet before = whole.bench->job()->sheet();
  auto& site = static_cast<site::SitePlace&>(*whole.window->place());
  const std::string tag = before.units.rows().front().tag;
  for (QPushButton* button : site.cards().front()->findChildren<QPushButton*>())
    if (button->accessibleName().contains(u':')) button->click();
  ASSERT_FALSE(whole.bench->job()->sheet().unitByTag(tag));
  QCoreApplication::processEvents();
  for (const site::UnitCard* card : site.cards())
    for (const QLineEdit* edit : card->findChildren<QLineEdit*>())
      EXPECT_GE(edit->parentWidget()->height(), 32) << edit->accessibleName().toStdString();
  ASSERT_TRUE(whole.window->undoBar().isVisible());
  EXPECT_FALSE(whole.window->undoBar().accessibleName().isEmpty());
  whole.window->undoBar().button()->click();
  EXPECT_EQ(whole.bench->job()->sheet(), before);
  EXPECT_FALSE(whole.window->undoBar().isVisible());
  whole.bench->undo();
  whole.window->undoBar().offer(QStringLiteral("Gone."), {});
  whole.bench->startNew();
  EXPECT_FALSE(whole.window->undoBar().isVisible()) << "offered to another job";
}

INSTANTIATE_TEST_SUITE_P(In, Removal, ::testing::Values("en", "es", "pseudo"),
                         [](const auto& language) { return std::string(language.param); });

TEST(BadInput, DamagedPreferencesArePutAsideAndTold) {
  QTemporaryDir folder;
  const QString path = folder.path() + "/preferences.json";
  const QByteArray damaged = "{\"company\": {\"name\": \"Larkmoor Heating\"}, \"feet\": ";
  write(path, damaged);
  {
    Program program(testing::widgetApplication(), {folder.path(), "en", "light", {}});
    program.start();
    EXPECT_TRUE(program.window()->status().saidText().contains("preferences.json.damaged"))
        << program.window()->status().saidText().toStdString();
    program.window()->close();
  }
  EXPECT_EQ(read(path + ".damaged"), damaged) << "what could not be read was lost";
  {
    Program program(testing::widgetApplication(), {folder.path(), "en", "light", {}});
    program.start();
    EXPECT_TRUE(program.window()->status().saidText().isEmpty());
  }
  write(path, damaged + "1");
  {
    Program program(testing::widgetApplication(), {folder.path(), "en", "light", {}});
    program.start();
  }
  EXPECT_EQ(read(path + ".damaged"), damaged);
  EXPECT_EQ(read(path + ".damaged-2"), damaged + "1");
}

}  // namespace
}  // namespace ww::shell
