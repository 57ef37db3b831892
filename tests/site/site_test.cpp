// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSignalSpy>

#include "fittings/number_entry.h"
#include "site/open_item_list.h"
#include "site/site_place.h"
#include "site/system_field.h"
#include "support/sample_job.h"
#include "support/window.h"

namespace ww::site {
namespace {

/// The place with a new job on it.
class Site : public ::testing::Test {
 protected:
  explicit Site(const std::string& language = "en") : desk(language), place(desk.around) {
    job::Job fresh;
    fresh.visit = "2025-03-12";
    open = std::make_unique<session::OpenJob>(fresh, desk.around.library);
    testing::bringUp(place, open.get());
  }
  ~Site() override { place.setJob(nullptr); }

  void type(const char* field, const QString& text) {
    auto* edit = qobject_cast<QLineEdit*>(place.field(field)->editor());
    edit->setFocus();
    edit->selectAll();
    QTest::keyClicks(edit, text);
    QTest::keyClick(edit, Qt::Key_Return);
  }
  QString shown(const char* field) const { return place.field(field)->text(); }
  QString complaint(const char* field) const { return place.field(field)->complaint(); }

  testing::Desk desk;
  std::unique_ptr<session::OpenJob> open;
  SitePlace place;
};

TEST_F(Site, FocusIsInTheAddressAndEachFieldIsOneStepOfUndo) {
  ASSERT_TRUE(place.field("address")->editor()->hasFocus());
  type("address", "7 Larkmoor Terrace");
  EXPECT_TRUE(place.field("unit")->editor()->hasFocus());
  type("unit", "Flat 1");
  type("customer", "A. Pennick");
  type("phone", "555-0142");
  EXPECT_EQ(open->job().site.address, "7 Larkmoor Terrace");
  EXPECT_EQ(open->job().site.phone, "555-0142");
  EXPECT_EQ(open->undoStack().count(), 4);
  open->undoStack().undo();
  EXPECT_EQ(open->job().site.phone, "");
  EXPECT_EQ(shown("phone"), "");
  open->undoStack().redo();
  EXPECT_EQ(shown("phone"), "555-0142");
}

TEST_F(Site, AFieldIsKeptWhenItIsLeftAndEscapePutsBack) {
  auto* edit = qobject_cast<QLineEdit*>(place.field("city")->editor());
  edit->setFocus();
  QTest::keyClicks(edit, "Larkmoor");
  QTest::keyClick(edit, Qt::Key_Escape);
  EXPECT_EQ(edit->text(), "");
  QTest::keyClicks(edit, "Larkmoor");
  QTest::mouseClick(place.field("phone")->editor(), Qt::LeftButton);
  EXPECT_EQ(open->job().site.city, "Larkmoor");
  EXPECT_EQ(open->undoStack().count(), 1);
  edit->setFocus();
  place.field("phone")->editor()->setFocus();
  EXPECT_EQ(open->undoStack().count(), 1) << "left unchanged";
}

TEST_F(Site, BadEntriesStayAndAreToldInOneSentence) {
  type("visit", "soon");
  EXPECT_FALSE(complaint("visit").isEmpty());
  EXPECT_EQ(complaint("visit").count('.'), 1);
  EXPECT_EQ(shown("visit"), "soon");
  EXPECT_EQ(open->job().visit, "2025-03-12");
  type("visit", "2025-02-30");
  EXPECT_FALSE(complaint("visit").isEmpty());
  QTest::keyClick(place.field("visit")->editor(), Qt::Key_Escape);
  EXPECT_TRUE(complaint("visit").isEmpty());
  type("visit", "3/14/2025");
  EXPECT_EQ(open->job().visit, "2025-03-14");
  for (const char* bad : {"none", "0", "-120", "1e3", "700", "1,2,3"}) {
    type("line-volts", bad);
    EXPECT_FALSE(complaint("line-volts").isEmpty()) << bad;
  }
  EXPECT_FALSE(open->sheet().settings.find("", "lineVolts"));
  type("line-volts", "230,5 V");
  EXPECT_EQ(open->sheet().settings.find("", "lineVolts"), "230.5");
  type("low-line", "101");
  EXPECT_FALSE(complaint("low-line").isEmpty());
  type("low-line", "90 %");
  EXPECT_DOUBLE_EQ(open->job().lowLine, 0.9);
  type("high-line", "1000");
  EXPECT_FALSE(complaint("high-line").isEmpty());
  EXPECT_DOUBLE_EQ(open->job().highLine, 1.1);
}

TEST_F(Site, ALetterAndEnterPlaceUnitsAndCablesAndNothingElse) {
  QSignalSpy gone(&place, &fittings::Place::goTo);
  place.system()->line()->setFocus();
  QTest::keyClicks(place.system()->line(), "a");
  QTest::keyClick(place.system()->line(), Qt::Key_Return);
  ASSERT_EQ(gone.count(), 1);
  EXPECT_EQ(gone[0][0].toString(), "wiring");
  EXPECT_EQ(open->undoStack().count(), 1);
  const sheet::Sheet& sheet = open->sheet();
  EXPECT_EQ(sheet.units.size(), 3u);
  EXPECT_EQ(sheet.cables.size(), 2u);
  EXPECT_EQ(sheet.conductors.size(), 7u);
  EXPECT_TRUE(sheet.settings.all().empty());
  for (const auto& wire : sheet.conductors) EXPECT_TRUE(std::holds_alternative<sheet::Loose>(wire.endA));
  EXPECT_EQ(place.cards().size(), 3u);
  open->undoStack().undo();
  EXPECT_TRUE(open->sheet().units.empty());
  EXPECT_TRUE(place.cards().empty());
}

TEST_F(Site, WordsFindTheKindAndAClickPlacesIt) {
  const auto first = [&](const QString& typed) {
    const auto kinds = kindsFor(typed, sheet::standardSystems(), desk.around.language);
    return kinds.empty() ? std::string() : kinds.front()->id;
  };
  EXPECT_EQ(first("a"), "A");
  EXPECT_EQ(first("furn"), "A");
  EXPECT_EQ(first("heat pump"), "G");
  EXPECT_EQ(first("G"), "G");
  EXPECT_EQ(first("air h"), "B");
  EXPECT_EQ(first("windmill"), "");
  EXPECT_EQ(kindsFor("bomba", sheet::standardSystems(), wording::Language::spanish()).front()->id, "G");
  QListWidget* rows = place.system()->rows();
  QTest::keyClicks(place.system()->line(), "pump");
  const QPoint at = rows->visualItemRect(rows->item(0)).center();
  QTest::mouseClick(rows->viewport(), Qt::LeftButton, {}, at);
  EXPECT_NE(open->sheet().unitByTag("O"), nullptr);
  EXPECT_EQ(open->sheet().unitByTag("O")->profile, "od-heatpump-1-o");
}

TEST_F(Site, LandedConductorsAreNotThrownAway) {
  open->edit("start", testing::rowA());
  EXPECT_TRUE(place.system()->isHidden());
  const sheet::Sheet before = open->sheet();
  Q_EMIT place.system()->chosen(sheet::standardSystems().back());
  EXPECT_EQ(open->sheet(), before);
}

TEST_F(Site, NameplateAndSettingsGoToTheirUnit) {
  open->edit("start", testing::rowA());
  ASSERT_EQ(place.cards().size(), 3u);
  UnitCard* furnace = place.cards()[1];
  Field* serial = nullptr;
  for (Field* field : furnace->fields())
    if (field->accessibleName() == "Serial number") serial = field;
  ASSERT_NE(serial, nullptr);
  serial->editor()->setFocus();
  QTest::keyClicks(serial->editor(), "QM-114");
  QTest::keyClick(serial->editor(), Qt::Key_Return);
  EXPECT_EQ(open->sheet().unitByTag("F")->nameplate.at("serial"), "QM-114");
  QComboBox* fuse = nullptr;
  for (QComboBox* combo : furnace->findChildren<QComboBox*>())
    if (combo->accessibleName() == "Low-voltage fuse") fuse = combo;
  ASSERT_NE(fuse, nullptr);
  fuse->setFocus();
  QTest::keyClick(fuse, Qt::Key_Down);
  EXPECT_EQ(open->sheet().settings.find("F", "fuse"), "fuse5");
  EXPECT_EQ(open->undoStack().count(), 3);
  open->undoStack().undo();
  EXPECT_EQ(fuse->currentData().toString(), "fuse3");
}

TEST_F(Site, SharedSettingsBelongToOneUnit) {
  sheet::Sheet sheet = testing::rowA();
  const equipment::Library& library = desk.around.library;
  EXPECT_EQ(settingKey(sheet, library, *sheet.unitByTag("F"), "fuse"), "fuse");
  testing::addUnit(sheet, "F2", "furnace-1", "attic");
  EXPECT_EQ(settingKey(sheet, library, *sheet.unitByTag("F"), "fuse"), "F.fuse");
  EXPECT_EQ(settingKey(sheet, library, *sheet.unitByTag("F2"), "fuse"), "F2.fuse");
}

TEST_F(Site, UnitsAreAddedAndRemovedWithUndo) {
  place.addUnit("furnace-1");
  place.addUnit("furnace-1");
  ASSERT_EQ(open->sheet().units.size(), 2u);
  EXPECT_NE(open->sheet().unitByTag("F2"), nullptr);
  EXPECT_TRUE(place.cards().back()->fields().front()->editor()->hasFocus());
  QPushButton* remove = nullptr;
  for (QPushButton* button : place.cards().front()->findChildren<QPushButton*>()) remove = button;
  ASSERT_NE(remove, nullptr);
  QTest::mouseClick(remove, Qt::LeftButton);
  EXPECT_EQ(open->sheet().units.size(), 1u);
  open->undoStack().undo();
  EXPECT_EQ(open->sheet().units.size(), 2u);
}

TEST_F(Site, OpenItemsAreToldWithTheirDay) {
  QTest::mouseClick(place.openItems()->addButton(), Qt::LeftButton);
  ASSERT_EQ(place.openItems()->lines().size(), 1u);
  const auto& line = place.openItems()->lines()[0];
  QTest::keyClicks(line.text->editor(), "Label the strip");
  QTest::keyClick(line.text->editor(), Qt::Key_Return);
  EXPECT_EQ(open->job().openItems[0].text, "Label the strip");
  line.due->editor()->setFocus();
  QTest::keyClicks(line.due->editor(), "later");
  QTest::keyClick(line.due->editor(), Qt::Key_Return);
  EXPECT_FALSE(line.due->complaint().isEmpty());
  EXPECT_EQ(open->job().openItems[0].due, "");
  line.due->setText("2025-04-01");
  EXPECT_TRUE(line.due->leave());
  EXPECT_EQ(open->job().openItems[0].due, "2025-04-01");
  QTest::mouseClick(line.remove, Qt::LeftButton);
  EXPECT_TRUE(open->job().openItems.empty());
  open->undoStack().undo();
  EXPECT_EQ(open->job().openItems.size(), 1u);
}

TEST_F(Site, AClosedJobIsReadOnly) {
  open->replaceState(job::State::closed);
  auto* edit = qobject_cast<QLineEdit*>(place.field("address")->editor());
  QTest::keyClicks(edit, "x");
  EXPECT_EQ(edit->text(), "");
  EXPECT_TRUE(place.system()->isHidden());
  EXPECT_FALSE(place.openItems()->addButton()->isEnabled());
}

TEST(DayEntry, IsReadInTheWaysADayIsWritten) {
  const auto& english = wording::Language::english();
  const auto& spanish = wording::Language::spanish();
  for (const char* text : {"2025-03-12", "3/12/2025", "12 March 2025", "March 12, 2025", " 2025-03-12 "})
    EXPECT_EQ(dayOf(text, english), "2025-03-12") << text;
  for (const char* text : {"", "12", "2025-13-01", "31 February 2025", "3/12/25", "tomorrow", "99999-01-01"})
    EXPECT_EQ(dayOf(text, english), std::nullopt) << text;
  EXPECT_EQ(dayOf(spanish.day("2025-03-12"), spanish), "2025-03-12");
}

TEST(NumberEntry, TakesCommaAndPointAndNothingInDoubt) {
  using fittings::decimalOf;
  EXPECT_EQ(decimalOf("24.1"), 24.1);
  EXPECT_EQ(decimalOf(" 24,1 "), 24.1);
  EXPECT_EQ(decimalOf(".5"), 0.5);
  EXPECT_EQ(decimalOf("-3"), -3.0);
  for (const char* text : {"", "-", ".", "1,234.5", "1e3", "12x", "1 2", "nan", "inf"})
    EXPECT_EQ(decimalOf(text), std::nullopt) << text;
}

/// No label of a form is narrower than its longest word, in any language.
TEST(SiteTexts, AreNotCutInAnyLanguage) {
  for (const char* code : {"en", "es", "pseudo"}) {
    testing::Desk desk(code);
    SitePlace place(desk.around);
    session::OpenJob open(testing::sampleJob(), desk.around.library);
    place.setJob(&open);
    place.resize(1112, 648);
    place.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&place));
    testing::expectLabelsWhole(place, code);
    for (const QWidget* widget : place.findChildren<QWidget*>())
      if (widget->focusPolicy() != Qt::NoFocus && widget->isVisible() && !widget->inherits("QScrollArea") &&
          !widget->inherits("QLabel")) {
        EXPECT_FALSE(widget->accessibleName().isEmpty()) << widget->metaObject()->className() << " in "
                                                         << widget->parentWidget()->metaObject()->className();
      }
    place.setJob(nullptr);
  }
}

}  // namespace
}  // namespace ww::site
