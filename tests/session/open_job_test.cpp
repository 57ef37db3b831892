// SPDX-License-Identifier: GPL-3.0-or-later
// The job on the desk: undo covers what was drawn and never what was measured.
#include "session/open_job.h"

#include <gtest/gtest.h>

#include <QSignalSpy>

#include "support/own_units.h"
#include "support/painted_sheets.h"

namespace ww::session {
namespace {

job::Job jobWith(sheet::Sheet sheet) {
  job::Job job;
  job.id = "0190c1d0-0000-7000-8000-000000000001";
  job.planned = std::move(sheet);
  return job;
}

sheet::Sheet withoutFirst(sheet::Sheet sheet) {
  sheet.conductors.erase(sheet.conductors.rows().front().id);
  return sheet;
}

job::Reading reading(std::string id, std::string step, double volts) {
  job::Reading result;
  result.id = std::move(id);
  result.step = std::move(step);
  result.entered = std::to_string(volts);
  result.value = volts;
  result.unit = "V";
  return result;
}

class OpenJobTest : public ::testing::Test {
 protected:
  OpenJobTest() { testing::application(); }
  const equipment::Library& library = equipment::standardLibrary();
};

TEST_F(OpenJobTest, UndoAndRedoGiveTheSameSheets) {
  const sheet::Sheet before = testing::rowA();
  OpenJob open(jobWith(before), library);
  const sheet::Sheet after = withoutFirst(before);
  EXPECT_TRUE(open.edit("drop", after));
  EXPECT_EQ(open.sheet(), after);
  open.undoStack().undo();
  EXPECT_EQ(open.sheet(), before);
  open.undoStack().redo();
  EXPECT_EQ(open.sheet(), after);
}

TEST_F(OpenJobTest, AProfileOfOnesOwnTravelsInTheJobAsItWasWhenItWasPlaced) {
  const auto own = testing::libraryWith(testing::ownProfile("od-cool-1", "my-outdoor"));
  OpenJob open(jobWith(testing::rowA()), own);
  sheet::Sheet with = testing::rowA();
  sheet::Unit outdoor = *std::find_if(with.units.begin(), with.units.end(),
                                      [](const sheet::Unit& unit) { return unit.profile == "od-cool-1"; });
  outdoor.profile = "my-outdoor";
  with.units.put(outdoor);
  open.edit("place", with);
  ASSERT_EQ(open.job().profiles.size(), 1u);
  EXPECT_TRUE(open.check().findings.empty() ||
              open.check().findings.front().severity == verify::Severity::note);
  open.undoStack().undo();
  EXPECT_TRUE(open.job().profiles.empty());
  open.undoStack().redo();
  EXPECT_EQ(open.job().profiles, own.own);

  const auto changed = testing::libraryWith(
      testing::ownProfile("od-cool-1", "my-outdoor", [](auto& json) { json["title"]["en"] = "Changed"; }));
  const OpenJob again(open.job(), changed);
  EXPECT_NE(again.library().find("my-outdoor")->title.at("en"), "Changed");
  EXPECT_EQ(again.job(), open.job());
}

TEST_F(OpenJobTest, AChangeThatChangesNothingIsNoStep) {
  OpenJob open(jobWith(testing::rowA()), library);
  EXPECT_FALSE(open.edit("nothing", testing::rowA()));
  EXPECT_FALSE(open.edit("nothing", undoableOf(open.job())));
  EXPECT_EQ(open.undoStack().count(), 0);
}

TEST_F(OpenJobTest, UndoNeverTakesAReadingBack) {
  OpenJob open(jobWith(testing::rowA()), library);
  open.edit("drop", withoutFirst(testing::rowA()));
  const std::string step = open.steps().back().key;
  EXPECT_TRUE(open.record(reading("0190c1d0-0000-7000-8000-0000000000a1", step, 24)));
  open.undoStack().undo();
  ASSERT_EQ(open.job().readings.size(), 1U);
  EXPECT_EQ(open.sheet(), testing::rowA());
}

TEST_F(OpenJobTest, EveryEditIsCheckedAtOnceOnASmallSheetAndBesideOnALargeOne) {
  OpenJob small(jobWith(testing::rowA()), library);
  EXPECT_TRUE(small.openFindings().empty());
  small.edit("drop", withoutFirst(testing::rowA()));
  EXPECT_FALSE(small.checking());
  EXPECT_FALSE(small.openFindings().empty());

  OpenJob large(jobWith(testing::rowA()), library, nullptr, 0);
  EXPECT_TRUE(large.checking());
  EXPECT_TRUE(large.steps().empty());
  large.finishCheck();
  EXPECT_FALSE(large.steps().empty());
  QSignalSpy checked(&large, &OpenJob::checked);
  large.edit("drop", withoutFirst(testing::rowA()));
  EXPECT_TRUE(large.checking());
  large.undoStack().undo();
  large.undoStack().redo();  // the latest wins
  large.finishCheck();
  EXPECT_FALSE(large.checking());
  EXPECT_EQ(checked.count(), 1);
  EXPECT_EQ(large.check().findings.size(), small.check().findings.size());
}

TEST_F(OpenJobTest, AClosedJobTakesNoEditAndNoReading) {
  job::Job closed = jobWith(testing::rowA());
  closed.state = job::State::closed;
  OpenJob open(closed, library);
  EXPECT_FALSE(open.edit("drop", withoutFirst(testing::rowA())));
  EXPECT_FALSE(open.record(reading("0190c1d0-0000-7000-8000-0000000000a1", "x", 24)));
  EXPECT_TRUE(open.sign({"0190c1d0-0000-7000-8000-0000000000b1", "owner", "", "", "on paper"}));
}

TEST_F(OpenJobTest, AFactIsSavedAtOnceAndAnEditInAMoment) {
  OpenJob open(jobWith(testing::rowA()), library);
  QSignalSpy saves(&open, &OpenJob::toSave);
  open.edit("drop", withoutFirst(testing::rowA()));
  open.acknowledge({"0190c1d0-0000-7000-8000-0000000000c1", "dead", "", ""});
  ASSERT_EQ(saves.count(), 2);
  EXPECT_FALSE(saves[0][0].toBool());
  EXPECT_TRUE(saves[1][0].toBool());
}

TEST_F(OpenJobTest, ASheetTakenInHandIsTheOneEdited) {
  job::Job both = jobWith(testing::rowA());
  both.asFound = withoutFirst(testing::rowA());
  OpenJob open(both, library);
  EXPECT_EQ(open.sheetInHand(), job::SheetState::planned);
  open.takeInHand(job::SheetState::asLeft);
  EXPECT_TRUE(open.edit("drop", withoutFirst(open.sheet())));
  ASSERT_TRUE(open.job().asLeft.has_value());
  EXPECT_EQ(*open.job().planned, testing::rowA());
}

}  // namespace
}  // namespace ww::session
