// SPDX-License-Identifier: GPL-3.0-or-later
#include "control/control_place.h"

#include <gtest/gtest.h>

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>

#include "support/sample_job.h"
#include "support/walk.h"
#include "support/window.h"

namespace ww::control {
namespace {

using recommend::Origin;

/// The place with a heat pump on the desk.
class Settings : public ::testing::Test {
 protected:
  explicit Settings(const std::string& language = "en", sheet::Sheet sheet = testing::rowG())
      : desk(language), place(desk.around) {
    job::Job fresh;
    fresh.visit = "2025-03-12";
    fresh.installer = "J. Tamsin";
    fresh.planned = std::move(sheet);
    open = std::make_unique<session::OpenJob>(fresh, desk.around.library);
    testing::bringUp(place, open.get());
  }
  ~Settings() override { place.setJob(nullptr); }

  const recommend::Setting& setting(const char* key) const {
    static const recommend::Setting none;
    const auto* found = place.settings().find(key);
    EXPECT_NE(found, nullptr) << key;
    return found != nullptr ? *found : none;
  }
  void go(const char* key) {
    place.rows()->setFocus();
    for (int i = 0; i < 40 && place.rows()->key() != key; ++i) QTest::keyClick(place.rows(), Qt::Key_Up);
    for (int i = 0; i < 40 && place.rows()->key() != key; ++i) QTest::keyClick(place.rows(), Qt::Key_Down);
    ASSERT_EQ(place.rows()->key(), key);
  }
  void type(QLineEdit* field, const QString& text) {
    field->setFocus();
    field->selectAll();
    QTest::keyClicks(field, text);
  }
  void override(const QString& value, const QString& note) {
    QTest::keyClick(&place, Qt::Key_F2);
    type(place.value()->lineEdit(), value);
    type(place.note(), note);
    QTest::keyClick(place.note(), Qt::Key_Return);
  }
  const recommend::Control& control() const { return open->job().control; }

  testing::Desk desk;
  std::unique_ptr<session::OpenJob> open;
  ControlPlace place;
};

class SpanishSettings : public Settings {
 protected:
  SpanishSettings() : Settings("es") {}
};

class WrongSense : public Settings {
 protected:
  static sheet::Sheet wrong() {
    sheet::Sheet sheet = testing::rowG();
    sheet.settings.set("rvSense", "heating");
    return sheet;
  }
  WrongSense() : Settings("en", wrong()) {}
};

TEST_F(Settings, StartsAtWhatIsToConfirmAndSpaceConfirmsOneAfterTheOther) {
  const size_t open4 = place.settings().open();
  ASSERT_GE(open4, 3U);
  EXPECT_EQ(place.mark().count, int(open4));
  EXPECT_EQ(setting(place.rows()->key().c_str()).origin, Origin::toConfirm);
  const std::string first = place.rows()->key();
  QSignalSpy said(&place, &fittings::Place::say);
  for (size_t i = 0; i < open4; ++i) QTest::keyClick(place.rows(), Qt::Key_Space);
  EXPECT_EQ(place.settings().open(), 0U);
  EXPECT_EQ(said.count(), 1);
  EXPECT_EQ(setting(first.c_str()).origin, Origin::confirmed);
  EXPECT_EQ(setting(first.c_str()).by, "J. Tamsin");
  EXPECT_EQ(control().choices.size(), open4);
  EXPECT_EQ(control().choices.front().at, desk.time);
  EXPECT_FALSE(place.confirmButton()->isEnabled());
  open->undoStack().undo();
  EXPECT_EQ(place.settings().open(), 1U);
}

TEST_F(Settings, OverridingNeedsANoteAndGoesBack) {
  go("cycles.compressor1");
  override("5", "");
  EXPECT_FALSE(place.complaint().isEmpty());
  EXPECT_TRUE(control().choices.empty());
  override("5", "short rooms");
  EXPECT_EQ(setting("cycles.compressor1").value, "5");
  EXPECT_EQ(setting("cycles.compressor1").origin, Origin::overridden);
  EXPECT_EQ(setting("cycles.compressor1").note, "short rooms");
  EXPECT_TRUE(place.conflictsText().contains("60")) << place.conflictsText().toStdString();
  override("500", "short rooms");
  EXPECT_TRUE(place.complaint().contains("1 to 12")) << place.complaint().toStdString();
  QTest::mouseClick(place.backButton(), Qt::LeftButton);
  EXPECT_EQ(setting("cycles.compressor1").value, "3");
  EXPECT_TRUE(place.conflictsText().isEmpty());
  EXPECT_TRUE(control().choices.empty());
}

TEST_F(Settings, MeasuresOfThePersonAreTypedAndAGapIsTold) {
  go("auxiliaryAbove");
  EXPECT_EQ(place.value()->currentText(), QStringLiteral("40\u202F°F"));
  override("23 °F", "dear power");
  EXPECT_EQ(setting("auxiliaryAbove").value, "-5");
  go("compressorBelow");
  override("35.6", "old compressor");
  EXPECT_TRUE(place.conflictsText().contains("nothing heats")) << place.conflictsText().toStdString();
  EXPECT_EQ(place.mark().severity, paint::Severity::stop);
  go("minimumOff");
  EXPECT_EQ(place.value()->currentText(), QStringLiteral("5\u202Fmin"));
  override("6 min", "as before");
  EXPECT_EQ(setting("minimumOff").value, "360");
}

TEST_F(Settings, NothingTypedChangesNothing) {
  go("deadBand");
  const size_t steps = size_t(open->undoStack().count());
  const std::string before = setting("deadBand").value;
  QTest::keyClick(&place, Qt::Key_F2);
  QTest::mouseClick(place.overrideButton(), Qt::LeftButton);
  EXPECT_EQ(setting("deadBand").value, before) << "what is shown rounded is kept whole";
  EXPECT_EQ(setting("deadBand").origin, Origin::confirmed);
  EXPECT_EQ(size_t(open->undoStack().count()), steps + 1);
}

TEST_F(WrongSense, TheSheetIsSetRightByConfirmingAndUndoneInOneStep) {
  EXPECT_TRUE(place.conflictsText().contains("outdoor unit wants it in cooling"));
  EXPECT_EQ(place.rows()->key(), "rvSense");
  QTest::keyClick(place.rows(), Qt::Key_Space);
  EXPECT_EQ(open->sheet().settings.find("T", "rvSense"), "cooling");
  EXPECT_TRUE(place.conflictsText().isEmpty());
  EXPECT_TRUE(open->openFindings().empty() ||
              open->openFindings().front()->severity < verify::Severity::warn);
  open->undoStack().undo();
  EXPECT_EQ(open->sheet().settings.find("T", "rvSense"), "heating");
  EXPECT_TRUE(control().choices.empty());
}

TEST_F(Settings, AWiredSettingIsOverriddenOnTheSheet) {
  go("fanWithHeat");
  place.value()->setCurrentIndex(place.value()->findData("control"));
  type(place.note(), "owner likes air first");
  QTest::mouseClick(place.overrideButton(), Qt::LeftButton);
  EXPECT_EQ(open->sheet().settings.find("T", "fanWithHeat"), "control");
  EXPECT_EQ(setting("fanWithHeat").origin, Origin::overridden);
}

TEST_F(Settings, WishesAreTakenAndUnsaidAgain) {
  QTest::keyClick(place.rows(), Qt::Key_E, Qt::ControlModifier);
  WishesForm* wishes = place.wishes();
  ASSERT_TRUE(wishes->isVisible());
  ValueEntry* changeover = wishes->field("changeover");
  EXPECT_TRUE(changeover->hasFocus());
  QTest::keyClick(changeover, Qt::Key_End);
  EXPECT_EQ(control().wishes.changeover, "automatic");
  EXPECT_EQ(setting("changeover").value, "automatic");
  QTest::keyClick(changeover, Qt::Key_Home);
  EXPECT_EQ(control().wishes.changeover, "");
  QLineEdit* heat = wishes->field("heatAt")->lineEdit();
  type(heat, "70");
  QTest::keyClick(heat, Qt::Key_Tab);
  ASSERT_TRUE(testing::waitFor([&] { return control().wishes.heatAt.has_value(); }));
  QLineEdit* cool = wishes->field("coolAt")->lineEdit();
  type(cool, "71");
  QTest::keyClick(cool, Qt::Key_Tab);
  ASSERT_TRUE(testing::waitFor([&] { return control().wishes.coolAt.has_value(); }));
  EXPECT_DOUBLE_EQ(control().wishes.heatAt.value_or(0), recommend::fromFahrenheit(70));
  EXPECT_TRUE(place.conflictsText().contains("3\u202F°F apart")) << place.conflictsText().toStdString();
  type(cool, "lots");
  QTest::keyClick(cool, Qt::Key_Tab);
  ASSERT_TRUE(testing::waitFor([&] { return !wishes->complaint().isEmpty(); }));
  EXPECT_TRUE(place.stepOut());
  EXPECT_TRUE(place.rows()->hasFocus());
  EXPECT_FALSE(place.stepOut());
}

TEST_F(Settings, AClosedJobIsOnlyRead) {
  open->replaceState(job::State::closed);
  place.setJob(open.get());
  QTest::keyClick(place.rows(), Qt::Key_Space);
  EXPECT_TRUE(control().choices.empty());
  EXPECT_FALSE(place.overrideButton()->isEnabled());
  EXPECT_FALSE(place.wishes()->field("scale")->isEnabled());
}

TEST_F(Settings, NothingPlacedNothingToSet) {
  session::OpenJob empty(job::Job{}, desk.around.library);
  place.setJob(&empty);
  EXPECT_FALSE(place.rows()->isVisible());
  EXPECT_EQ(place.mark().count, 0);
  place.setJob(open.get());
  EXPECT_TRUE(place.rows()->isVisible());
}

TEST_F(Settings, EveryControlHasANameAndNoTextIsCut) {
  for (const char* key : {"rvSense", "cycles.compressor1", "auxiliaryAbove", "changeover"}) {
    go(key);
    testing::expectLabelsWhole(place, "en");
  }
  EXPECT_TRUE(testing::nameless(place).empty()) << testing::nameless(place).front();
  place.rows()->setFocus();
  QTest::keyClick(place.rows(), Qt::Key_E, Qt::ControlModifier);
  testing::expectLabelsWhole(place, "en");
  EXPECT_TRUE(testing::nameless(place).empty()) << testing::nameless(place).front();
}

TEST_F(SpanishSettings, IsToldInSpanish) {
  go("auxiliaryAbove");
  EXPECT_EQ(place.value()->currentText(), QStringLiteral("4,4\u202F°C")) << "Celsius";
  override("-5", "luz cara");
  EXPECT_EQ(setting("auxiliaryAbove").value, "-5");
  testing::expectLabelsWhole(place, "es");
  QTest::keyClick(place.rows(), Qt::Key_E, Qt::ControlModifier);
  testing::expectLabelsWhole(place, "es");
}

}  // namespace
}  // namespace ww::control
