// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/checks_place.h"

#include <gtest/gtest.h>

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>

#include "checklist/sighting.h"
#include "support/sample_job.h"
#include "support/window.h"

namespace ww::checks {
namespace {

using checklist::Measure;

/// The place with a job of which nothing is read yet.
class Checks : public ::testing::Test {
 protected:
  explicit Checks(bool live = false, bool started = true) : place(desk.around, live), live_(live) {
    job::Job fresh;
    fresh.visit = "2025-03-12";
    fresh.installer = "J. Tamsin";
    fresh.planned = testing::rowA();
    open = std::make_unique<session::OpenJob>(fresh, desk.around.library);
    testing::bringUp(place, open.get());
    if (started) read("JT");
  }
  ~Checks() override { place.setJob(nullptr); }

  void read(const QString& initials) {
    QLineEdit* field = place.cautions()->initials();
    field->setFocus();
    QTest::keyClicks(field, initials);
    QTest::keyClick(field, Qt::Key_Return);
  }
  QLineEdit* field() { return place.panel()->reading(); }
  void enter(const QString& text) {
    QTest::keyClicks(field(), text);
    QTest::keyClick(field(), Qt::Key_Return);
  }
  void press(int key, Qt::KeyboardModifiers held = {}) { QTest::keyClick(field(), Qt::Key(key), held); }
  const job::Job& job() const { return open->job(); }
  const checklist::Step& here() const {
    for (const auto& step : open->steps())
      if (QString::fromStdString(step.key) == place.step()) return step;
    static const checklist::Step none;
    return none;
  }
  /// Walks with PgDn to the first step of that kind.
  void walkTo(Measure measure, bool openBand = false) {
    for (int i = 0; i < 200; ++i) {
      if (here().measure == measure && (!openBand || (here().band && here().band->open))) return;
      press(Qt::Key_PageDown);
    }
    FAIL() << "no such step";
  }
  void walkTo(const std::string& key) {
    for (int i = 0; i < 200 && here().key != key; ++i) press(Qt::Key_PageDown);
    ASSERT_EQ(here().key, key);
  }
  QString inBand() const { return QString::number(here().band->mean, 'f', 2); }

  testing::Desk desk;
  std::unique_ptr<session::OpenJob> open;
  ChecksPlace place;
  bool live_;
};

class LiveChecks : public Checks {
 protected:
  LiveChecks() : Checks(true) {}
};

class Gate : public Checks {
 protected:
  Gate() : Checks(false, false) {}
};

TEST_F(Gate, CautionsComeFirstAndWantInitials) {
  EXPECT_TRUE(place.cautionsDue());
  EXPECT_TRUE(place.cautions()->initials()->hasFocus());
  EXPECT_EQ(place.step(), "");
  read("");
  EXPECT_FALSE(place.cautions()->complaint().isEmpty());
  read("12");
  EXPECT_TRUE(job().acknowledgements.empty());
  place.cautions()->initials()->clear();
  read("jt");
  ASSERT_EQ(job().acknowledgements.size(), 1u);
  EXPECT_EQ(job().acknowledgements[0].cautions, "dead");
  EXPECT_EQ(job().acknowledgements[0].by, "jt");
  EXPECT_FALSE(place.cautionsDue());
  EXPECT_TRUE(field()->hasFocus());
}

TEST_F(Gate, TheButtonDoesTheSame) {
  QTest::keyClicks(place.cautions()->initials(), "JT");
  QTest::mouseClick(place.cautions()->button(), Qt::LeftButton);
  EXPECT_EQ(job().acknowledgements.size(), 1u);
}

TEST_F(Gate, SwitchingThePowerAsksAgainAndAStepDoesNot) {
  read("JT");
  press(Qt::Key_PageDown);
  EXPECT_FALSE(place.cautionsDue());
  ChecksPlace live(desk.around, true);
  live.setJob(open.get());
  EXPECT_TRUE(live.cautionsDue());
  desk.time = "2025-03-12T11:00:00-05:00";
  open->acknowledge({desk.nextId(), "live", "JT", desk.time});
  EXPECT_FALSE(live.cautionsDue());
  EXPECT_TRUE(place.cautionsDue()) << "power was on since";
  desk.time = "2025-03-12T11:30:00-05:00";
  open->acknowledge({desk.nextId(), "dead", "JT", desk.time});
  EXPECT_FALSE(place.cautionsDue());
  EXPECT_TRUE(live.cautionsDue());
  live.setJob(nullptr);
}

TEST_F(LiveChecks, APowerCutAsksForTheCautionsAgain) {
  EXPECT_FALSE(place.cautionsDue());
  press(Qt::Key_P, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_TRUE(place.cautionsDue());
  EXPECT_TRUE(place.cautions()->initials()->hasFocus());
  read("JT");
  EXPECT_FALSE(place.cautionsDue());
  EXPECT_EQ(job().acknowledgements.size(), 2u);
}

TEST_F(Checks, NumberEnterGoesOnAndTheVerdictStaysInLast) {
  walkTo(Measure::ohms);
  const checklist::Step step = here();
  EXPECT_TRUE(field()->text().isEmpty()) << "nothing is prefilled";
  EXPECT_FALSE(place.panel()->band().isEmpty());
  enter(inBand());
  const job::Reading* reading = job::standing(job(), step.key);
  ASSERT_NE(reading, nullptr);
  EXPECT_EQ(reading->unit, "ohm");
  EXPECT_EQ(reading->by, "J. Tamsin");
  EXPECT_EQ(reading->at, desk.time);
  EXPECT_EQ(reading->band, step.band);
  EXPECT_NE(here().key, step.key);
  EXPECT_TRUE(field()->text().isEmpty());
  EXPECT_TRUE(field()->hasFocus());
  EXPECT_FALSE(place.panel()->last().isEmpty());
}

TEST_F(Checks, PrecautionsAreDoneWithEnter) {
  ASSERT_EQ(here().measure, Measure::act);
  const std::string first = here().key;
  enter("5");
  EXPECT_FALSE(place.panel()->complaint().isEmpty());
  EXPECT_TRUE(job().readings.empty());
  field()->clear();
  enter("");
  ASSERT_NE(job::standing(job(), first), nullptr);
  EXPECT_EQ(job::standing(job(), first)->value, std::nullopt);
}

TEST_F(Checks, WhatLooksWrongIsAskedOnceThenKept) {
  walkTo(Measure::ohms);
  const checklist::Step step = here();
  enter("500");
  EXPECT_TRUE(job().readings.empty());
  EXPECT_FALSE(place.panel()->asked().isEmpty());
  EXPECT_EQ(field()->text(), "500");
  press(Qt::Key_Return);
  ASSERT_EQ(job().readings.size(), 1u);
  EXPECT_EQ(job().readings[0].value, 500);
  walkTo(Measure::ohms);
  EXPECT_TRUE(place.panel()->asked().isEmpty());
}

TEST_F(Checks, ControlRTakesItAgainBeforeAnythingIsKept) {
  walkTo(Measure::ohms);
  enter("500");
  press(Qt::Key_R, Qt::ControlModifier);
  EXPECT_TRUE(field()->text().isEmpty());
  EXPECT_TRUE(place.panel()->asked().isEmpty());
  EXPECT_TRUE(field()->hasFocus());
  enter("501");
  EXPECT_TRUE(job().readings.empty()) << "another figure is asked about again";
}

TEST_F(Checks, OneLetterIsAnOpenLine) {
  walkTo(Measure::ohms);
  const std::string key = here().key;
  QTest::keyClicks(field(), "o");
  EXPECT_EQ(field()->text(), "OL");
  press(Qt::Key_Return);
  press(Qt::Key_Return);
  ASSERT_NE(job::standing(job(), key), nullptr);
  EXPECT_TRUE(job::standing(job(), key)->openLine);
  EXPECT_EQ(job::standing(job(), key)->value, std::nullopt);
}

TEST(Entry, IsReadAsItIsTyped) {
  const auto value = [](const char* text) {
    const Entry entry = parseEntry(text);
    return entry.kind == Entry::Kind::value ? std::optional(entry.value) : std::nullopt;
  };
  EXPECT_EQ(value("26.4"), 26.4);
  EXPECT_EQ(value("26,4"), 26.4);
  EXPECT_EQ(value("1.2k"), 1200.0);
  EXPECT_EQ(value("1,2 k"), 1200.0);
  EXPECT_EQ(value("3M"), 3e6);
  EXPECT_EQ(value("24 V"), 24.0);
  EXPECT_EQ(value("24vac"), 24.0);
  EXPECT_EQ(value("0.4 ohm"), 0.4);
  EXPECT_EQ(value("500m"), 0.5);
  EXPECT_EQ(value("0"), 0.0);
  for (const char* text : {"o", "O", "ol", "OL", " Ol "})
    EXPECT_EQ(parseEntry(text).kind, Entry::Kind::openLine) << text;
  for (const char* text : {"abc", "1.2.3", "1e3", "k", "--4", "24 A", "12 34", "∞"})
    EXPECT_EQ(parseEntry(text).kind, Entry::Kind::noNumber) << text;
  EXPECT_EQ(parseEntry("  ").kind, Entry::Kind::nothing);
  EXPECT_EQ(parseEntry("-4").kind, Entry::Kind::negative);
  EXPECT_EQ(parseEntry("99999999999").kind, Entry::Kind::tooLarge);
}

TEST_F(Checks, NonsenseIsToldInOneSentenceAndNotKept) {
  walkTo(Measure::ohms);
  for (const char* text : {"abc", "-4", "99999999999", ""}) {
    field()->clear();
    enter(text);
    EXPECT_FALSE(place.panel()->complaint().isEmpty()) << text;
    EXPECT_LE(place.panel()->complaint().count(". "), 0) << text;
  }
  EXPECT_TRUE(job().readings.empty());
}

TEST_F(LiveChecks, ASlipOfThePointIsOfferedAndDownTakesIt) {
  for (int i = 0; i < 100 && !(here().band && here().band->mean > 20); ++i) press(Qt::Key_PageDown);
  ASSERT_GT(here().band->mean, 20);
  const std::string key = here().key;
  const double meant = std::round(here().band->mean * 10) / 10;
  QTest::keyClicks(field(), QString::number(meant / 10, 'f', 2));
  EXPECT_FALSE(place.panel()->complaint().isEmpty());
  press(Qt::Key_Down);
  EXPECT_EQ(field()->text(), QString::number(meant, 'f', 1));
  press(Qt::Key_Return);
  ASSERT_NE(job::standing(job(), key), nullptr);
  EXPECT_NEAR(*job::standing(job(), key)->value, meant, 1e-9);
  EXPECT_EQ(job::standing(job(), key)->unit, "V");
}

TEST_F(Checks, ARetakeSupersedesAndBothStay) {
  walkTo(Measure::ohms);
  const std::string key = here().key;
  enter("500");
  press(Qt::Key_Return);
  press(Qt::Key_PageUp);
  walkTo(key);
  EXPECT_TRUE(place.panel()->earlier().contains("500"));
  enter(inBand());
  ASSERT_EQ(job().readings.size(), 2u);
  EXPECT_EQ(job().readings[1].supersedes, job().readings[0].id);
  EXPECT_EQ(job::standing(job(), key), &job().readings[1]);
  for (int i = 0; i < 100 && here().key != key; ++i) press(Qt::Key_PageUp);
  EXPECT_TRUE(place.panel()->earlier().contains("500"));
}

TEST_F(Checks, TheVisitBeforeStandsBesideAndIsNeverFilledIn) {
  walkTo(Measure::ohms);
  const checklist::Step step = here();
  EXPECT_FALSE(place.panel()->bar()->former());
  job::Job former;
  former.visit = "2023-10-04";
  job::Reading then;
  then.id = desk.nextId();
  then.step = step.key;
  then.entered = "1.7";
  then.value = 1.7;
  then.unit = "ohm";
  former.readings = {then};
  open->setFormer(former);
  place.setJob(open.get());
  walkTo(step.key);
  EXPECT_EQ(place.panel()->bar()->former(), 1.7);
  EXPECT_TRUE(place.panel()->former().contains(desk.around.language.day("2023-10-04")));
  EXPECT_TRUE(place.panel()->former().contains("1.7")) << place.panel()->former().toStdString();
  EXPECT_TRUE(field()->text().isEmpty());
  // The old reading stays beside the new one and is no part of the job.
  enter(inBand());
  ASSERT_EQ(job().readings.size(), 1u);
  place.bring(QString::fromStdString(step.key));
  EXPECT_TRUE(place.panel()->earlier().contains("Here:")) << place.panel()->earlier().toStdString();
  EXPECT_TRUE(place.panel()->former().contains("1.7"));
  press(Qt::Key_PageDown);
  EXPECT_EQ(place.panel()->former(), "") << "of another step";
  EXPECT_FALSE(place.panel()->bar()->former());
}

TEST_F(Checks, StrikingOutWantsAReasonAndUndoNeverTakesAReading) {
  walkTo(Measure::ohms);
  const std::string key = here().key;
  press(Qt::Key_R, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_FALSE(place.panel()->complaint().isEmpty()) << "nothing to strike out";
  enter(inBand());
  for (int i = 0; i < 100 && here().key != key; ++i) press(Qt::Key_PageUp);
  press(Qt::Key_R, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_TRUE(field()->hasFocus());
  enter("");
  EXPECT_FALSE(place.panel()->complaint().isEmpty());
  enter("wrong screw");
  EXPECT_EQ(job::standing(job(), key), nullptr);
  ASSERT_EQ(job().readings.size(), 2u);
  EXPECT_EQ(job().readings[1].struckBecause, "wrong screw");
  EXPECT_TRUE(place.panel()->earlier().contains("wrong screw"));
  EXPECT_FALSE(open->undoStack().canUndo());
  open->undoStack().undo();
  EXPECT_EQ(job().readings.size(), 2u);
}

TEST_F(Checks, ASkippedStepHasItsReasonAndIsNotMeasured) {
  walkTo(Measure::ohms);
  const std::string key = here().key;
  const int before = leftOf(job(), stepsOf(*open, false), 0).readings;
  press(Qt::Key_K, Qt::ControlModifier);
  press(Qt::Key_Escape);
  EXPECT_EQ(here().key, key);
  press(Qt::Key_K, Qt::ControlModifier);
  enter("cover rusted shut");
  ASSERT_NE(job::standing(job(), key), nullptr);
  EXPECT_EQ(job::standing(job(), key)->skippedBecause, "cover rusted shut");
  EXPECT_NE(here().key, key);
  EXPECT_EQ(leftOf(job(), stepsOf(*open, false), 0).readings, before - 1);
  EXPECT_EQ(place.mark().severity, paint::Severity::notMeasured);
}

TEST_F(LiveChecks, WhatIsSeenIsMarkedByKeyAndByMouse) {
  std::string key;
  for (const auto& step : open->steps())
    if (step.measure == Measure::look && step.call == "cool1") key = step.key;
  walkTo(key);
  enter("");
  EXPECT_FALSE(place.panel()->complaint().isEmpty());
  const size_t must = here().mustRun.size();
  ASSERT_GE(must, 2u);
  QTest::keyClicks(field(), "1");
  EXPECT_TRUE(place.panel()->chips()[0]->isChecked());
  EXPECT_TRUE(field()->text().isEmpty());
  press(Qt::Key_Return);
  EXPECT_FALSE(place.panel()->asked().isEmpty()) << "only one of several runs";
  EXPECT_EQ(job::standing(job(), key), nullptr);
  for (size_t i = 1; i < must; ++i) QTest::mouseClick(place.panel()->chips()[i], Qt::LeftButton);
  EXPECT_TRUE(field()->hasFocus());
  press(Qt::Key_Return);
  ASSERT_NE(job::standing(job(), key), nullptr);
  const auto seen = checklist::parseSighting(job::standing(job(), key)->entered);
  ASSERT_TRUE(seen);
  EXPECT_EQ(seen->runs.size(), must);
}

TEST_F(LiveChecks, NothingRunsExcludesTheRest) {
  walkTo(Measure::look);
  QTest::keyClicks(field(), "1h0");
  const auto& chips = place.panel()->chips();
  EXPECT_FALSE(chips.front()->isChecked());
  EXPECT_TRUE(chips.back()->isChecked());
  QTest::keyClicks(field(), "1");
  EXPECT_FALSE(chips.back()->isChecked());
}

TEST_F(Checks, StepsAreChosenInTheListAndTheLineWithoutLosingTheField) {
  walkTo(Measure::ohms);
  ASSERT_GE(place.rows()->rows().size(), 2u);
  const QString before = place.step();
  const size_t at = place.rows()->rows()[0].current ? 1 : 0;
  QTest::mouseClick(place.rows(), Qt::LeftButton, {}, place.rows()->rowRect(int(at)).center());
  EXPECT_NE(place.step(), before);
  EXPECT_TRUE(field()->hasFocus());
  Q_EMIT place.line()->chosen(0);
  EXPECT_EQ(here().measure, Measure::act);
  EXPECT_FALSE(place.line()->left().isEmpty());
}

TEST_F(Checks, FindingsOfTheSheetCheckStandBesideTheirPlace) {
  EXPECT_TRUE(place.findings()->isHidden());
  open->edit("swap", testing::rowASwapped());
  ASSERT_FALSE(open->openFindings().empty());
  QSignalSpy gone(&place, &fittings::Place::goTo);
  for (int i = 0; i < 60 && place.findings()->isHidden(); ++i) press(Qt::Key_PageDown);
  ASSERT_FALSE(place.findings()->isHidden());
  QTest::qWait(0);
  QTest::mouseClick(place.findings(), Qt::LeftButton, {}, place.findings()->rowRect(0).center());
  ASSERT_EQ(gone.count(), 1);
  EXPECT_EQ(gone[0][0].toString(), "wiring");
  EXPECT_FALSE(gone[0][1].toString().isEmpty());
}

TEST_F(Checks, TheMeterInHandStandsOnTheReading) {
  QSignalSpy said(&place, &fittings::Place::say);
  press(Qt::Key_M, Qt::ControlModifier);
  EXPECT_EQ(said.count(), 1) << "there is none yet";
  desk.around.preferences.meters = {
      {testing::sampleId(1), "Bench meter 2", "QM-0207", "2026-09-30", 0.8, 0.2},
      {testing::sampleId(2), "Belt meter", "", "", 1.5, 0.3}};
  press(Qt::Key_M, Qt::ControlModifier);
  press(Qt::Key_M, Qt::ControlModifier);
  EXPECT_EQ(desk.around.preferences.meterInHand, testing::sampleId(2));
  walkTo(Measure::ohms);
  const std::string key = here().key;
  enter(inBand());
  EXPECT_EQ(job::standing(job(), key)->meter, testing::sampleId(2));
}

TEST_F(Checks, AClosedJobIsOnlyLookedAt) {
  open->replaceState(job::State::closed);
  EXPECT_FALSE(place.cautionsDue());
  walkTo(Measure::ohms);
  enter("0.4");
  press(Qt::Key_K, Qt::ControlModifier);
  EXPECT_TRUE(job().readings.empty());
}

TEST_F(Checks, AllReadingsByKeyboardLeaveNothing) {
  for (int i = 0; i < 300 && leftOf(job(), stepsOf(*open, false), 0).readings > 0; ++i)
    enter(isMeasured(here()) ? here().band->open ? "o" : inBand() : "");
  EXPECT_EQ(leftOf(job(), stepsOf(*open, false), 0).readings, 0);
  EXPECT_EQ(place.mark().severity, paint::Severity::right);
}

TEST(Walk, CountsReadingsAndPlacesAhead) {
  session::OpenJob open(
      [] {
        job::Job job;
        job.planned = testing::rowA();
        return job;
      }(),
      equipment::standardLibrary());
  const auto steps = stepsOf(open, false);
  const auto stands = standsOf(steps);
  size_t count = 0;
  for (const Stand& stand : stands) count += stand.count;
  EXPECT_EQ(count, steps.size());
  const Left left = leftOf(open.job(), steps, 0);
  EXPECT_EQ(left.readings, std::count_if(steps.begin(), steps.end(), checklist::isMeasured));
  EXPECT_EQ(left.walks, int(stands.size()) - 1);
}

TEST(CheckTexts, AreNotCutInAnyLanguage) {
  for (const char* code : {"en", "es", "pseudo"}) {
    testing::Desk desk(code);
    job::Job job = testing::sampleJob();
    job.state = job::State::draft;
    job.acknowledgements.push_back({testing::sampleId(90), "live", "JT", "2026-03-12T10:00:00-05:00"});
    session::OpenJob open(job, desk.around.library);
    ChecksPlace place(desk.around, true);
    place.setJob(&open);
    place.resize(1112, 648);
    place.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&place));
    for (int i = 0; i < 40; ++i) {
      QTest::keyClick(place.panel()->reading(), Qt::Key_PageDown);
      if (i % 4) continue;
      QTest::qWait(0);
      testing::expectLabelsWhole(place, code);
    }
    place.setJob(nullptr);
  }
}

}  // namespace
}  // namespace ww::checks
