// SPDX-License-Identifier: GPL-3.0-or-later
// A furnace with cooling landed from two empty cables: by keys in the table, on the diagram, by mouse.
#include <gtest/gtest.h>

#include "wiring_desk.h"

namespace ww {
namespace {

using testing::WiringDesk;
using wiring::EndRef;

/// Every call right, nothing above a note.
void expectHealthy(session::OpenJob& job) {
  for (const verify::CallVerdict& verdict : job.check().calls) EXPECT_TRUE(verdict.ok) << verdict.call;
  for (const verify::Finding& finding : job.check().findings)
    EXPECT_EQ(finding.severity, verify::Severity::note) << finding.rule;
}

TEST(Landing, PlannedSheetTakesOneKeyAnEnd) {
  WiringDesk desk(testing::emptyA());
  testing::KeyCount count;
  for (int end = 0; end < 14; ++end) desk.key(Qt::Key_Return);
  EXPECT_LE(count.keys, 14) << "of 40 for the whole job";
  expectHealthy(desk.job);
  EXPECT_EQ(desk.job.undoStack().count(), 14);
}

TEST(Landing, SheetAsFoundIsTypedAndNothingIsOffered) {
  WiringDesk desk(testing::emptyA(), job::SheetState::asFound);
  testing::KeyCount count;
  const sheet::ConductorId first = desk.wire("1", 0);
  EXPECT_FALSE(desk.place.hand().ghost({first, true}));
  desk.key(Qt::Key_Return);
  EXPECT_TRUE(std::holds_alternative<sheet::Loose>(desk.sheet().conductors.find(first)->endA));
  desk.table().startWork();
  count.keys = 0;
  for (const char* letter : {"r", "r", "c", "c", "y", "y", "g", "g", "w", "w", "y", "y", "c", "c"}) {
    desk.type(QString::fromLatin1(letter));
    desk.key(Qt::Key_Return);
  }
  EXPECT_LE(count.keys, 28) << "of 60 for the whole job";
  expectHealthy(desk.job);
}

TEST(Landing, UndoToEmptyAndRedoToTheSameSheet) {
  WiringDesk desk(testing::emptyA());
  const sheet::Sheet empty = desk.sheet();
  for (int end = 0; end < 14; ++end) desk.key(Qt::Key_Return);
  const sheet::Sheet done = desk.sheet();
  ASSERT_NE(done, empty);
  while (desk.job.undoStack().canUndo()) desk.job.undoStack().undo();
  EXPECT_EQ(desk.sheet(), empty);
  while (desk.job.undoStack().canRedo()) desk.job.undoStack().redo();
  EXPECT_EQ(desk.sheet(), done);
}

TEST(Landing, ProposeLandsEverythingInOneStep) {
  WiringDesk desk(testing::emptyA());
  desk.key(Qt::Key_F5);
  EXPECT_EQ(desk.job.undoStack().count(), 1);
  expectHealthy(desk.job);
  desk.key(Qt::Key_F5);
  EXPECT_EQ(desk.job.undoStack().count(), 1) << "nothing more to propose is no step";
}

TEST(Landing, ByMouseAlone) {
  WiringDesk desk(testing::emptyA());
  const sheet::Sheet wanted = [] {
    WiringDesk other(testing::emptyA());
    other.place.propose();
    return other.sheet();
  }();
  for (const sheet::Conductor& wire : wanted.conductors)
    for (const bool atA : {true, false})
      if (const auto* to = std::get_if<sheet::TerminalRef>(atA ? &wire.endA : &wire.endB))
        desk.drag({wire.id, atA}, *to);
  EXPECT_EQ(testing::landings(desk.sheet()), testing::landings(wanted));
  expectHealthy(desk.job);
}

TEST(Landing, ADragToAnotherUnitIsToldAndChangesNothing) {
  WiringDesk desk(testing::rowA());
  const sheet::Sheet before = desk.sheet();
  const sheet::UnitId outdoor = before.unitByTag("O")->id;
  desk.drag({desk.wire("1", 0), true}, {outdoor, "C"});
  EXPECT_EQ(desk.sheet(), before);
  EXPECT_TRUE(desk.said.contains(u"O")) << desk.said.toStdString();
  EXPECT_FALSE(desk.diagram().picked());
}

TEST(Landing, AReleaseInTheAirLetsGo) {
  WiringDesk desk(testing::rowA());
  const sheet::Sheet before = desk.sheet();
  const QPoint from =
      desk.diagram().onScreen(*desk.diagram().picture().anchorOf({desk.wire("1", 0), true})).toPoint();
  QTest::mousePress(desk.diagram().viewport(), Qt::LeftButton, {}, from);
  desk.moveTo(from + QPoint(0, -60));
  EXPECT_TRUE(desk.diagram().picked());
  QTest::mouseRelease(desk.diagram().viewport(), Qt::LeftButton, {}, from + QPoint(0, -60));
  EXPECT_FALSE(desk.diagram().picked());
  EXPECT_EQ(desk.sheet(), before);
}

TEST(Landing, OnTheDiagramByKeys) {
  WiringDesk desk(testing::rowA());
  const EndRef end{desk.wire("1", 2), true};  // YE on Y at the control
  desk.diagram().setFocus();
  desk.diagram().focusOn(end);
  desk.key(Qt::Key_Return);
  ASSERT_EQ(desk.diagram().picked(), end);
  desk.key(Qt::Key_Down);
  ASSERT_TRUE(desk.diagram().focus()->terminal);
  const sheet::TerminalRef below = *desk.diagram().focus()->terminal;
  EXPECT_NE(below.terminal, "Y");
  desk.key(Qt::Key_Return);
  EXPECT_EQ(wiring::landingOf(desk.sheet(), end), sheet::Landing(below));
  EXPECT_FALSE(desk.diagram().picked());

  desk.key(Qt::Key_Return);
  ASSERT_TRUE(desk.diagram().picked());
  EXPECT_TRUE(desk.place.stepOut()) << "Esc lets go first";
  EXPECT_FALSE(desk.diagram().picked());
}

TEST(Landing, ArrowsReachEveryScrew) {
  WiringDesk desk(testing::rowG());
  desk.diagram().setFocus();
  const auto& picture = desk.diagram().picture();
  std::set<size_t> reached{0};
  std::vector<size_t> open{0};
  while (!open.empty()) {
    const size_t from = open.back();
    open.pop_back();
    for (const auto towards :
         {wiring::Towards::left, wiring::Towards::right, wiring::Towards::up, wiring::Towards::down})
      if (const auto next = picture.next(picture.spots()[from].at, towards);
          next && reached.insert(*next).second)
        open.push_back(*next);
  }
  EXPECT_EQ(reached.size(), picture.spots().size());
}

TEST(Landing, UnitsKeepTheirPlacesThroughEdits) {
  WiringDesk desk(testing::rowG());
  const auto before = drawing::places(desk.diagram().picture().diagram());
  desk.place.hand().land({desk.wire("1", 2), true}, sheet::Loose{});
  EXPECT_EQ(drawing::places(desk.diagram().picture().diagram()), before);
}

}  // namespace
}  // namespace ww
