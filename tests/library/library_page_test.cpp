// SPDX-License-Identifier: GPL-3.0-or-later
// The page of unit profiles: searched as typed, shown whole, one's own written with what is wrong at once.
#include "library/library_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <QCheckBox>
#include <QComboBox>
#include <QDir>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>

#include "library/inner_view.h"
#include "library/profile_form.h"
#include "library/rows_table.h"
#include "support/own_units.h"
#include "support/window.h"

namespace ww::library {
namespace {

using ::testing::HasSubstr;
using testing::ownProfile;

class Library : public ::testing::Test {
 protected:
  explicit Library(const std::string& language = "en") : desk(language), page(desk.around, folder.path()) {
    page.resize(1280, 640);
    page.setQuestions({[this](QWidget*) { return toRead; },
                       [this](QWidget*, const QString&) { return toWrite; },
                       [this](const QString& path) { opened = path; }});
    QObject::connect(&page, &LibraryPage::said, [this](const QString& sentence) { said << sentence; });
    QObject::connect(&page, &LibraryPage::undoable,
                     [this](const QString& sentence, const std::function<void()>& back) {
                       said << sentence;
                       undo = back;
                     });
    QObject::connect(&page, &LibraryPage::libraryRead,
                     [this](const equipment::Library& library) { desk.library = library; });
    page.show();
    page.activateWindow();
    EXPECT_TRUE(QTest::qWaitForWindowActive(&page));
    page.enter();
  }
  void file(const QString& name, const std::string& text) {
    QDir().mkpath(folder.path() + QStringLiteral("/profiles"));
    QFile out(folder.path() + QStringLiteral("/profiles/") + name);
    ASSERT_TRUE(out.open(QIODevice::WriteOnly));
    out.write(text.data(), static_cast<qint64>(text.size()));
  }
  bool there(const char* name) const {
    return QFile::exists(folder.path() + QStringLiteral("/profiles/") + QLatin1String(name));
  }
  void typeInto(const char* pointer, const QString& text) {
    auto* line = qobject_cast<QLineEdit*>(page.form()->editor(pointer));
    ASSERT_NE(line, nullptr);
    line->setFocus();
    line->selectAll();
    QTest::keyClicks(line, text);
  }
  void key(int key, Qt::KeyboardModifiers held = Qt::NoModifier) {
    QWidget* to = QApplication::focusWidget();
    QTest::keyClick(to ? to : &page, static_cast<Qt::Key>(key), held);
  }
  /// The furnace is copied and kept under "mine".
  void copyFurnace() {
    page.choose("furnace-1");
    page.copyToOwn();
    typeInto("/id", "mine");
    key(Qt::Key_S, Qt::ControlModifier);
  }

  QTemporaryDir folder;
  testing::Desk desk;
  LibraryPage page;
  QStringList said;
  std::function<void()> undo;
  QString toRead, toWrite, opened;
};

TEST_F(Library, ListsEveryUnitAndFindsAsTyped) {
  EXPECT_EQ(page.list()->count(), int(equipment::standardLibrary().profiles.size()));
  ASSERT_TRUE(page.searchField()->hasFocus());
  QTest::keyClicks(page.searchField(), "furn gas");
  EXPECT_GE(page.list()->count(), 1);
  EXPECT_LT(page.list()->count(), int(equipment::standardLibrary().profiles.size()) / 4);
  for (int i = 0; i < page.list()->count(); ++i)
    EXPECT_TRUE(page.list()->item(i)->text().contains("furnace", Qt::CaseInsensitive));
  key(Qt::Key_Down);
  EXPECT_TRUE(page.list()->hasFocus());
  QTest::keyClicks(page.list(), "zzz");
  EXPECT_EQ(page.list()->count(), 0);
  EXPECT_TRUE(page.stepOut());
  EXPECT_EQ(page.searchField()->text(), "");
  EXPECT_FALSE(page.stepOut());
}

TEST_F(Library, ShowsEverythingOfAUnit) {
  page.choose("furnace-1");
  const QString html = page.details();
  for (const char* part : {"Terminals", "HUM", "call in", "GV10", "inrush 14", "Low-voltage fuse",
                           "Temperature rise range", "no source", "door", "burner"})
    EXPECT_TRUE(html.contains(QLatin1String(part), Qt::CaseInsensitive)) << part;
  EXPECT_TRUE(html.contains("latch(want")) << "its logic";
  EXPECT_EQ(page.picture()->picture().elements.size(), 14u);
  EXPECT_TRUE(testing::waitFor([&] { return page.picture()->height() > 100; }));
  EXPECT_TRUE(page.picture()->accessibleDescription().contains("GV"));
}

TEST_F(Library, EveryUnitHasRoomForItsText) {
  for (int i = 0; i < page.list()->count(); ++i) {
    page.list()->setCurrentRow(i);
    QCoreApplication::processEvents();
    const QLabel* text = nullptr;
    for (const QLabel* label : page.findChildren<QLabel*>())
      if (label->text() == page.details()) text = label;
    ASSERT_NE(text, nullptr);
    EXPECT_LE(text->heightForWidth(text->width()), text->height() + 1)
        << page.inFront() << " " << text->width();
  }
}

TEST_F(Library, NoUnitLacksItsWords) {
  for (int i = 0; i < page.list()->count(); ++i) {
    page.list()->setCurrentRow(i);
    EXPECT_FALSE(page.details().contains("not known to this", Qt::CaseInsensitive)) << page.inFront();
    EXPECT_FALSE(page.details().contains("{")) << page.inFront();
  }
}

TEST_F(Library, ACopyIsWrittenCheckedAsTypedAndKept) {
  page.choose("furnace-1");
  page.list()->setFocus();
  key(Qt::Key_D, Qt::ControlModifier);
  ASSERT_TRUE(page.editing());
  EXPECT_TRUE(page.form()->saveButton()->isEnabled()) << "a copy is sound";
  typeInto("/id", "furnace-1");
  EXPECT_FALSE(page.form()->saveButton()->isEnabled());
  EXPECT_TRUE(page.form()->complaint("/id").contains("ships with the program"));
  EXPECT_TRUE(page.form()->complaint("/id").contains("/id"));
  EXPECT_TRUE(page.form()->allProblems().contains("/id"));
  key(Qt::Key_S, Qt::ControlModifier);
  EXPECT_TRUE(page.editing()) << "nothing unsound is kept";
  typeInto("/id", "my-furnace");
  EXPECT_TRUE(page.form()->complaint("/id").isEmpty());
  typeInto("/title/en", "Old furnace");
  key(Qt::Key_S, Qt::ControlModifier);
  EXPECT_FALSE(page.editing());
  EXPECT_EQ(page.inFront(), "my-furnace");
  EXPECT_TRUE(there("my-furnace.json"));
  ASSERT_NE(desk.library.find("my-furnace"), nullptr) << "it can be placed from now on";
  EXPECT_EQ(desk.library.find("my-furnace")->title.at("en"), "Old furnace");
  EXPECT_EQ(desk.library.find("my-furnace")->terminals,
            equipment::standardLibrary().find("furnace-1")->terminals);
}

TEST_F(Library, AsTextItTakesMembersThatHaveNoField) {
  page.choose("furnace-1");
  page.copyToOwn();
  ProfileForm& form = *page.form();
  key(Qt::Key_F8);
  ASSERT_TRUE(form.showsText());
  QString text = form.textEditor()->toPlainText();
  EXPECT_EQ(text.toStdString(), form.draft()->text());
  form.textEditor()->setPlainText(text.chopped(3));
  EXPECT_FALSE(form.saveButton()->isEnabled());
  EXPECT_FALSE(form.textButton()->isEnabled()) << "nothing to put into fields";
  key(Qt::Key_F8);
  EXPECT_TRUE(form.showsText());
  EXPECT_TRUE(form.changed());
  EXPECT_EQ(form.draft()->id(), "furnace-1-own") << "what was read last is kept";
  text.replace(QStringLiteral("furnace-1-own"), QStringLiteral("mine"));
  text.insert(text.indexOf(u'{') + 1, QStringLiteral("\n  \"joined\": {\"R\": [\"HUM\"]},"));
  form.textEditor()->setPlainText(text);
  EXPECT_TRUE(form.saveButton()->isEnabled()) << form.allProblems().toStdString();
  key(Qt::Key_F8);
  EXPECT_FALSE(form.showsText());
  EXPECT_EQ(qobject_cast<QLineEdit*>(form.editor("/id"))->text(), "mine");
  key(Qt::Key_S, Qt::ControlModifier);
  ASSERT_NE(desk.library.find("mine"), nullptr);
  EXPECT_EQ(desk.library.find("mine")->joined.size(), 1u);
}

TEST_F(Library, PhysicsIsToldBesideTheElement) {
  page.choose("od-cool-1");
  page.copyToOwn();
  auto* elements = qobject_cast<RowsTable*>(page.form()->editor("/elements"));
  int row = -1;
  for (int i = 0; i < elements->rowCount(); ++i)
    if (elements->item(i, 0)->text() == "CC") row = i;
  ASSERT_GE(row, 0);
  elements->item(row, 3)->setText(
      R"({"kind":"coil","sealed":{"va":7,"powerFactor":0.35},"inrush":{"va":35,"powerFactor":0.75},)"
      R"("dcOhms":8,"pullInTypicalVolts":17.3,"pullInGuaranteedVolts":20.4,"dropOutVolts":18})");
  EXPECT_FALSE(page.form()->complaint("/elements").isEmpty());
  EXPECT_FALSE(elements->item(row, 3)->toolTip().isEmpty());
  elements->item(row, 3)->setText("C7");
  EXPECT_TRUE(page.form()->complaint("/elements").isEmpty());
  elements->item(row, 2)->setText("NOWHERE");
  EXPECT_TRUE(page.form()->complaint("/elements").contains("NOWHERE"));
  EXPECT_FALSE(page.form()->saveButton()->isEnabled());
}

TEST_F(Library, AllProblemsStandAtTheirFields) {
  page.choose("furnace-1");
  page.copyToOwn();
  typeInto("/title/es", "");
  auto* sources = qobject_cast<QPlainTextEdit*>(page.form()->editor("/sources"));
  sources->setFocus();
  sources->selectAll();
  QTest::keyClick(sources, Qt::Key_Delete);
  auto* logic = qobject_cast<QPlainTextEdit*>(page.form()->editor("/logic"));
  logic->setPlainText(logic->toPlainText() + "\nhere := there | line\nthere := !here");
  auto* terminals = qobject_cast<RowsTable*>(page.form()->editor("/terminals"));
  terminals->item(0, 3)->setText("many");
  for (const char* pointer : {"/sources", "/logic", "/terminals"})
    EXPECT_FALSE(page.form()->complaint(pointer).isEmpty()) << pointer;
  EXPECT_GE(page.form()->allProblems().count(u'\n'), 2);
}

TEST_F(Library, RowsComeAndGoByKey) {
  page.choose("furnace-1");
  page.copyToOwn();
  auto* terminals = qobject_cast<RowsTable*>(page.form()->editor("/terminals"));
  const int before = terminals->rowCount();
  terminals->setFocus();
  key(Qt::Key_Insert);
  ASSERT_EQ(terminals->rowCount(), before + 1);
  EXPECT_FALSE(page.form()->saveButton()->isEnabled()) << "a terminal without id and role";
  terminals->item(before, 0)->setText("X");
  terminals->model()->setItemData(terminals->model()->index(before, 1),
                                  {{Qt::UserRole, "dry"}, {Qt::EditRole, "dry contact"}});
  EXPECT_TRUE(page.form()->saveButton()->isEnabled()) << page.form()->allProblems().toStdString();
  terminals->setCurrentCell(before, 0);
  key(Qt::Key_Delete);
  EXPECT_EQ(terminals->rowCount(), before);
  EXPECT_FALSE(page.form()->changed());
}

TEST_F(Library, WhatIsLeftUnsavedComesBackWithUndo) {
  page.choose("furnace-1");
  page.copyToOwn();
  typeInto("/title/en", "Half done");
  EXPECT_TRUE(page.stepOut());
  EXPECT_FALSE(page.editing());
  ASSERT_TRUE(undo);
  undo();
  ASSERT_TRUE(page.editing());
  EXPECT_EQ(page.form()->draft()->at("/title/en"), "Half done");
}

TEST_F(Library, DeletedComesBackWithUndoAndShippedStays) {
  copyFurnace();
  ASSERT_EQ(page.inFront(), "mine");
  page.list()->setFocus();
  key(Qt::Key_Delete);
  EXPECT_FALSE(there("mine.json"));
  EXPECT_EQ(desk.library.find("mine"), nullptr);
  ASSERT_TRUE(undo);
  undo();
  EXPECT_TRUE(there("mine.json"));
  EXPECT_EQ(page.inFront(), "mine");
  page.choose("furnace-1");
  const int count = page.list()->count();
  page.list()->setFocus();
  key(Qt::Key_Delete);
  EXPECT_EQ(page.list()->count(), count);
  EXPECT_TRUE(said.back().contains("copy it"));
}

TEST_F(Library, AnotherIdMovesIt) {
  copyFurnace();
  page.list()->setFocus();
  key(Qt::Key_Return);
  ASSERT_TRUE(page.editing());
  typeInto("/id", "other");
  key(Qt::Key_S, Qt::ControlModifier);
  EXPECT_FALSE(there("mine.json"));
  EXPECT_TRUE(there("other.json"));
}

TEST_F(Library, ABadFileIsListedWithAllThatIsWrongAndStopsNoOther) {
  file("bad.json", ownProfile("furnace-1", "bad", [](auto& json) {
         json["kind"] = "robot";
         json["bond"] = "glued";
       }));
  file("good.json", ownProfile("od-cool-1", "good"));
  page.enter();
  EXPECT_NE(desk.library.find("good"), nullptr);
  page.choose("bad.json");
  ASSERT_EQ(page.inFront(), "bad.json");
  EXPECT_TRUE(page.details().contains("/kind"));
  EXPECT_TRUE(page.details().contains("/bond"));
  page.edit();
  ASSERT_TRUE(page.editing());
  EXPECT_FALSE(page.form()->complaint("/kind").isEmpty());
  auto* kind = qobject_cast<QComboBox*>(page.form()->editor("/kind"));
  kind->setFocus();
  QTest::keyClick(kind, Qt::Key_Down);
  auto* bond = qobject_cast<QComboBox*>(page.form()->editor("/bond"));
  bond->setFocus();
  QTest::keyClick(bond, Qt::Key_Down);
  EXPECT_TRUE(page.form()->saveButton()->isEnabled()) << page.form()->allProblems().toStdString();
  key(Qt::Key_S, Qt::ControlModifier);
  EXPECT_NE(desk.library.find("bad"), nullptr);
}

TEST_F(Library, FilesComeAndGo) {
  toWrite = folder.path() + QStringLiteral("/out.json");
  page.choose("boiler-tt");
  page.list()->setFocus();
  key(Qt::Key_E, Qt::ControlModifier);
  QFile out(toWrite);
  ASSERT_TRUE(out.open(QIODevice::ReadOnly));
  EXPECT_TRUE(out.readAll().contains("boiler-tt"));
  toRead = folder.path() + QStringLiteral("/in.json");
  QFile in(toRead);
  ASSERT_TRUE(in.open(QIODevice::WriteOnly));
  in.write(ownProfile("boiler-tt", "my-boiler").c_str());
  in.close();
  key(Qt::Key_O, Qt::ControlModifier);
  EXPECT_EQ(page.inFront(), "my-boiler");
  EXPECT_TRUE(there("my-boiler.json"));
  // The same again: another must not be lost.
  key(Qt::Key_O, Qt::ControlModifier);
  EXPECT_TRUE(page.editing());
  EXPECT_TRUE(said.back().contains("my-boiler"));
  page.stepOut();
  page.openFolder();
  EXPECT_EQ(opened, folder.path() + QStringLiteral("/profiles"));
  EXPECT_TRUE(QDir(opened).exists());
}

TEST_F(Library, AFileUnderAShippedIdIsMendedAndNotKeptTwice) {
  file("dup.json", ownProfile("furnace-1", "furnace-1"));
  page.enter();
  page.choose("dup.json");
  ASSERT_EQ(page.inFront(), "dup.json");
  page.edit();
  typeInto("/id", "mended");
  key(Qt::Key_S, Qt::ControlModifier);
  EXPECT_TRUE(there("mended.json"));
  EXPECT_FALSE(there("dup.json"));
  EXPECT_NE(desk.library.find("mended"), nullptr);
}

TEST_F(Library, OddFilesHarmNothing) {
  file("a.json", "[1, 2]");
  file(
      "b.json",
      R"({"format": "wirewright-profile", "title": [], "terminals": {}, "elements": [3, null], "logic": 5})");
  file("c.json", "no json");
  page.enter();
  for (const char* name : {"a.json", "b.json", "c.json"}) {
    page.choose(name);
    ASSERT_EQ(page.inFront(), name);
    EXPECT_FALSE(page.details().isEmpty());
    page.edit();
    ASSERT_TRUE(page.editing());
    typeInto("/title/en", "New");
    EXPECT_EQ(page.form()->draft()->at("/title/en"), "New");
    auto* elements = qobject_cast<RowsTable*>(page.form()->editor("/elements"));
    elements->addRow();
    elements->item(0, 1)->setText("R");
    qobject_cast<RowsTable*>(page.form()->editor("/terminals"))->addRow();
    EXPECT_FALSE(page.form()->complaint("/terminals").isEmpty());
    page.stepOut();
  }
  page.choose("c.json");
  page.list()->setFocus();
  key(Qt::Key_Delete);
  EXPECT_FALSE(there("c.json"));
  undo();
  EXPECT_TRUE(there("c.json"));
  toRead = folder.path() + QStringLiteral("/profiles/c.json");
  page.importFile();
  EXPECT_FALSE(page.editing());
  EXPECT_TRUE(said.back().contains("c.json"));
}

TEST_F(Library, WhatIsMissingIsToldAtItsField) {
  page.choose("furnace-1");
  page.copyToOwn();
  typeInto("/title/es", "x");
  key(Qt::Key_Backspace);
  EXPECT_FALSE(page.form()->complaint("/title/es").isEmpty());
  EXPECT_TRUE(page.form()->complaint("/title/en").isEmpty());
}

TEST_F(Library, WhatWasBeingWrittenWhenTheWindowWentIsTakenUpAgain) {
  {
    LibraryPage first(desk.around, folder.path());
    first.enter();
    first.choose("furnace-1");
    first.copyToOwn();
    auto* title = qobject_cast<QLineEdit*>(first.form()->editor("/title/en"));
    QTest::keyClicks(title, "Half done ");
  }
  page.enter();
  ASSERT_TRUE(page.editing());
  EXPECT_TRUE(page.form()->draft()->at("/title/en").get<std::string>().starts_with("Half done"));
  EXPECT_TRUE(page.form()->changed());
  key(Qt::Key_S, Qt::ControlModifier);
  EXPECT_TRUE(there("furnace-1-own.json"));
  page.enter();
  EXPECT_FALSE(page.editing()) << "once";
}

class LibrarySpanish : public Library {
 protected:
  LibrarySpanish() : Library("es") {}
};
TEST_F(LibrarySpanish, IsWordedToo) {
  page.choose("furnace-1");
  EXPECT_TRUE(page.details().contains("Bornes"));
  EXPECT_TRUE(page.details().contains("entrada de demanda"));
}

}  // namespace
}  // namespace ww::library
