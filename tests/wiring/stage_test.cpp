// SPDX-License-Identifier: GPL-3.0-or-later
// Calls, findings and their mends, the listing, what screen readers hear, and that no text is cut.
#include <gtest/gtest.h>

#include <QContextMenuEvent>
#include <QHeaderView>
#include <QLabel>
#include <QMenu>
#include <set>

#include "sheet/removal.h"
#include "wiring_desk.h"
#include "wording/sentences.h"

namespace ww {
namespace {

using testing::WiringDesk;

TEST(Calls, ByKeyChipAndStep) {
  WiringDesk desk(testing::rowA());
  const auto calls = desk.place.calls().calls();
  ASSERT_GE(calls.size(), 4u);
  EXPECT_EQ(calls.front(), "rest");
  desk.table().setFocus();
  desk.key(Qt::Key_2, Qt::ControlModifier);
  EXPECT_EQ(desk.job.call(), calls[2]);
  desk.key(Qt::Key_PageUp, Qt::ControlModifier);
  EXPECT_EQ(desk.job.call(), calls[1]);
  desk.key(Qt::Key_PageDown, Qt::ControlModifier);
  desk.key(Qt::Key_PageDown, Qt::ControlModifier);
  EXPECT_EQ(desk.job.call(), calls[3]);
  desk.key(Qt::Key_0, Qt::ControlModifier);
  EXPECT_EQ(desk.job.call(), "rest");
  QTest::mouseClick(desk.place.calls().chip("fan"), Qt::LeftButton);
  EXPECT_EQ(desk.job.call(), "fan");
  EXPECT_TRUE(desk.place.calls().chip("fan")->isChecked());
  EXPECT_FALSE(desk.place.calls().chip("rest")->isChecked());
}

TEST(Calls, LoadIsThatOfTheCallLookedAt) {
  WiringDesk desk(testing::rowA());
  const QString rest = desk.place.calls().load();
  desk.job.setCall("cool1");
  EXPECT_NE(desk.place.calls().load(), rest);
  const auto& source = desk.job.solution().call("cool1")->result.sources.front();
  EXPECT_TRUE(desk.place.calls().load().contains(QString::number(source.shown.si(), 'f', 1)))
      << desk.place.calls().load().toStdString();
}

TEST(Calls, ABrokenCallIsMarkedInWordsToo) {
  WiringDesk desk(testing::rowASwapped(), job::SheetState::asFound);
  EXPECT_TRUE(desk.place.calls().chip("fan")->accessibleName().contains(QStringLiteral("stops the job")));
  EXPECT_FALSE(desk.place.calls().chip("heat1")->accessibleName().contains(QStringLiteral("stops")));
}

TEST(Calls, AListTakesThePlaceOfChipsThatDoNotFit) {
  WiringDesk desk(testing::rowG());
  EXPECT_FALSE(desk.place.calls().list()->isVisible());
  desk.place.calls().resize(420, 40);
  EXPECT_TRUE(desk.place.calls().list()->isVisible());
  EXPECT_EQ(desk.place.calls().list()->count(), static_cast<int>(desk.place.calls().calls().size()));
}

TEST(Findings, F3GoesThroughThemAndShowsTheirPlaces) {
  WiringDesk desk(testing::rowGLoose());
  auto& strip = desk.place.findings();
  EXPECT_FALSE(strip.open());
  desk.table().setFocus();
  desk.key(Qt::Key_F3);
  EXPECT_TRUE(strip.open());
  EXPECT_EQ(strip.list()->currentRow(), 0);
  ASSERT_GE(strip.list()->count(), 2);
  desk.key(Qt::Key_F3);
  EXPECT_EQ(strip.list()->currentRow(), 1);
  desk.key(Qt::Key_F3, Qt::ShiftModifier);
  EXPECT_EQ(strip.list()->currentRow(), 0);
  for (int row = 0; row < strip.list()->count(); ++row) {
    strip.list()->setCurrentRow(row);
    if (strip.list()->currentItem()->text().contains(QStringLiteral("OG"))) break;
  }
  desk.key(Qt::Key_F3, Qt::ShiftModifier);
  desk.key(Qt::Key_F3);
  EXPECT_TRUE(desk.place.hand().selection().touched().count(desk.wire("2", 3)));
  EXPECT_FALSE(strip.shownText().isEmpty());
  EXPECT_TRUE(desk.place.stepOut());
  EXPECT_FALSE(strip.open());
}

TEST(Findings, ANewStopIsSpokenByItselfAndOnce) {
  WiringDesk desk(testing::rowA(), job::SheetState::asFound);
  QStringList& spoken = desk.desk.spoken;
  EXPECT_TRUE(spoken.isEmpty());
  desk.place.hand().apply(QStringLiteral("swap"), testing::rowASwapped());
  ASSERT_EQ(spoken.size(), 1);
  const verify::Finding* first = desk.job.openFindings().front();
  ASSERT_EQ(first->severity, verify::Severity::stop);
  EXPECT_TRUE(spoken.front().contains(
      wording::findingTitle(desk.desk.around.language, *first, desk.place.hand().context())))
      << spoken.front().toStdString();
  // Another edit that leaves it there, and one that brings a finding which stops nothing.
  desk.place.hand().land({desk.wire("1", 4), true}, sheet::Loose{});
  EXPECT_EQ(spoken.size(), 1);
  desk.job.undoStack().undo();
  EXPECT_EQ(spoken.size(), 1);
  // Gone and come back it is new again.
  desk.job.undoStack().undo();
  EXPECT_EQ(spoken.size(), 1);
  desk.job.undoStack().redo();
  EXPECT_EQ(spoken.size(), 2);
}

TEST(Findings, WhatAJobWasOpenedWithIsNotSpoken) {
  WiringDesk desk(testing::rowASwapped(), job::SheetState::asFound);
  EXPECT_TRUE(desk.desk.spoken.isEmpty());
  desk.place.hand().apply(QStringLiteral("right"), testing::rowA());
  desk.place.hand().apply(QStringLiteral("wrong"), testing::rowASwapped());
  EXPECT_EQ(desk.desk.spoken.size(), 1);
  desk.place.setJob(nullptr);
  desk.place.setJob(&desk.job);
  EXPECT_EQ(desk.desk.spoken.size(), 1);
}

TEST(Diagram, OpensTheUnitInFocusByKeyAndByMenu) {
  WiringDesk desk(testing::rowA());
  QStringList wanted;
  QObject::connect(&desk.place, &fittings::Place::goTo,
                   [&](const QString& stage, const QString& what) { wanted << stage + u' ' + what; });
  const auto yellow = desk.wire("1", 2);
  desk.diagram().setFocus();
  desk.diagram().focusOn(wiring::EndRef{yellow, false});
  desk.key(Qt::Key_O);
  EXPECT_EQ(wanted, QStringList{"site F"});
  const QPoint at = desk.diagram().onScreen(*desk.diagram().picture().anchorOf({yellow, true})).toPoint();
  QContextMenuEvent asked(QContextMenuEvent::Mouse, at, desk.diagram().viewport()->mapToGlobal(at));
  QApplication::sendEvent(desk.diagram().viewport(), &asked);
  auto* menu = desk.diagram().findChild<QMenu*>();
  ASSERT_TRUE(menu);
  EXPECT_TRUE(
      menu->actions().front()->text().contains(desk.place.hand().unitName(desk.sheet().unitByTag("T")->id)));
  menu->actions().front()->trigger();
  menu->close();
  EXPECT_EQ(wanted, (QStringList{"site F", "site T"}));
  // An end in the air belongs to the unit it is at.
  desk.place.hand().land({yellow, false}, sheet::Loose{});
  desk.diagram().focusOn(wiring::EndRef{yellow, false});
  desk.key(Qt::Key_O);
  EXPECT_EQ(wanted.back(), "site F");
  EXPECT_EQ(wanted.size(), 3);
}

TEST(Mends, PreviewIsDashedAndApplyIsOneStep) {
  WiringDesk desk(testing::rowGLoose());
  auto& strip = desk.place.findings();
  const sheet::Sheet before = desk.sheet();
  desk.table().setFocus();
  desk.key(Qt::Key_F3);
  ASSERT_TRUE(testing::waitFor([&] { return !strip.searching(); }));
  ASSERT_FALSE(strip.found().empty());
  ASSERT_TRUE(strip.found().front().after);
  desk.key(Qt::Key_F4);
  desk.key(Qt::Key_Space);
  const std::set<sheet::ConductorId> dashed{desk.wire("2", 3)};
  EXPECT_EQ(desk.diagram().picture().previewed(), dashed);
  EXPECT_EQ(desk.sheet(), before) << "a preview is no edit";
  desk.key(Qt::Key_Space);
  EXPECT_FALSE(desk.diagram().picture().previewing());
  desk.key(Qt::Key_Return);
  EXPECT_EQ(sheet::print(desk.sheet(), desk.sheet().conductors.find(desk.wire("2", 3))->endB), "O.O");
  EXPECT_EQ(desk.job.undoStack().count(), 1);
  EXPECT_EQ(desk.place.mark().severity, paint::Severity::right);
  desk.job.undoStack().undo();
  EXPECT_EQ(desk.sheet(), before);
}

TEST(Mends, AreShownAndDoneByMouse) {
  WiringDesk desk(testing::rowGLoose());
  auto& strip = desk.place.findings();
  EXPECT_FALSE(strip.applyButton()->isVisible());
  desk.key(Qt::Key_F3);
  ASSERT_TRUE(testing::waitFor([&] { return !strip.searching(); }));
  ASSERT_TRUE(strip.applyButton()->isVisible());
  QTest::mouseClick(strip.previewButton(), Qt::LeftButton);
  EXPECT_TRUE(desk.diagram().picture().previewing());
  QTest::mouseClick(strip.applyButton(), Qt::LeftButton);
  EXPECT_EQ(desk.sheet(), testing::rowG());
}

TEST(Mends, WaysToAMissingCommonAreShownWithWhatIsLost) {
  sheet::Sheet sheet = testing::rowA();
  sheet.conductors.erase(conductorsOf(testing::rowA(), sheet.cableByName("1")->id)[1]->id);
  WiringDesk desk(sheet);
  auto& strip = desk.place.findings();
  strip.choose("no-common/u1.C");
  ASSERT_TRUE(testing::waitFor([&] { return !strip.searching(); }));
  const auto way = [&](const QString& words) -> const wiring::Mend* {
    for (const auto& mend : strip.found())
      if (mend.act.contains(words)) return &mend;
    return nullptr;
  };
  const auto* fan = way(QStringLiteral("lost: Fan"));
  ASSERT_NE(fan, nullptr);
  ASSERT_TRUE(fan->after);
  const auto* green = fan->after->conductors.find(desk.wire("1", 2));
  EXPECT_EQ(sheet::print(*fan->after, green->endA), "T.C");
  EXPECT_EQ(sheet::print(*fan->after, green->endB), "F.C");
  const auto* transformer = way(QStringLiteral("plug-in transformer"));
  ASSERT_NE(transformer, nullptr);
  EXPECT_FALSE(transformer->after) << "hardware is told, not done";
  for (const auto& mend : strip.found()) EXPECT_FALSE(mend.effect.isEmpty()) << mend.act.toStdString();
}

TEST(Findings, WhereNothingMakesACallNothingIsRight) {
  const sheet::Sheet sheet = testing::rowA();
  WiringDesk desk(sheet::withoutUnit(sheet, sheet.unitByTag("T")->id));
  EXPECT_FALSE(desk.place.mark().severity);
  EXPECT_TRUE(desk.place.findings().sentence().contains(QStringLiteral("add the room control")));
  WiringDesk whole(sheet);
  EXPECT_EQ(whole.place.mark().severity, paint::Severity::right);
}

TEST(Mends, AnEditDropsTheSearchAndThePreview) {
  WiringDesk desk(testing::rowGLoose());
  auto& strip = desk.place.findings();
  strip.step(0);
  ASSERT_TRUE(testing::waitFor([&] { return !strip.searching(); }));
  strip.toMends();
  strip.previewMend();
  ASSERT_TRUE(desk.diagram().picture().previewing());
  desk.place.hand().land({desk.wire("2", 3), false}, sheet::Capped{});
  EXPECT_FALSE(desk.diagram().picture().previewing());
  ASSERT_TRUE(testing::waitFor([&] { return !strip.searching(); }));
  for (const auto& mend : strip.found()) EXPECT_FALSE(mend.act.isEmpty());
}

TEST(Findings, AMarginalOrANoteIsAcceptedWithANote) {
  WiringDesk desk(testing::rowACrowded(), job::SheetState::asFound);
  auto& strip = desk.place.findings();
  strip.step(0);
  const int before = strip.list()->count();
  EXPECT_FALSE(strip.acceptButton()->isVisible()) << "the first will not work";
  strip.list()->setFocus();
  strip.list()->setCurrentRow(before - 1);
  ASSERT_TRUE(strip.acceptButton()->isVisible());
  desk.key(Qt::Key_Return, Qt::ControlModifier);
  ASSERT_TRUE(strip.entry()->open());
  desk.key(Qt::Key_Return);
  EXPECT_TRUE(strip.entry()->open()) << "a note is wanted";
  desk.type(QStringLiteral("agreed"));
  desk.key(Qt::Key_Return);
  ASSERT_EQ(desk.job.job().acceptances.size(), 1u);
  EXPECT_EQ(desk.job.job().acceptances[0].note, "agreed");
  EXPECT_EQ(desk.job.job().acceptances[0].by, "M. Ode");
  EXPECT_EQ(strip.list()->count(), before - 1);
  EXPECT_EQ(desk.job.undoStack().count(), 0) << "a fact is not undone";
}

TEST(Listing, F8SaysTheSameAsTheScreenReaderTree) {
  WiringDesk desk(testing::rowGLoose());
  desk.table().setFocus();
  desk.key(Qt::Key_F8);
  ASSERT_TRUE(desk.place.showsListing());
  const QString text = desk.place.listing().toPlainText();
  QAccessibleInterface* tree = QAccessible::queryAccessibleInterface(&desk.diagram());
  ASSERT_TRUE(tree);
  EXPECT_EQ(tree->childCount(), 3);
  int landings = 0;
  for (int u = 0; u < tree->childCount(); ++u) {
    QAccessibleInterface* unit = tree->child(u);
    EXPECT_EQ(unit->parent(), tree);
    EXPECT_TRUE(text.contains(unit->text(QAccessible::Name)));
    for (int t = 0; t < unit->childCount(); ++t) {
      EXPECT_TRUE(text.contains(unit->child(t)->text(QAccessible::Name)));
      for (int l = 0; l < unit->child(t)->childCount(); ++l, ++landings) {
        QAccessibleInterface* landing = unit->child(t)->child(l);
        EXPECT_TRUE(text.contains(landing->text(QAccessible::Name)));
        EXPECT_EQ(unit->child(t)->indexOfChild(landing), l);
      }
    }
  }
  EXPECT_EQ(landings, static_cast<int>(2 * desk.sheet().conductors.size())) << "every end is heard once";
  EXPECT_TRUE(text.contains(QStringLiteral("will not work")));
  desk.key(Qt::Key_F8);
  EXPECT_FALSE(desk.place.showsListing());
}

TEST(Status, WhatThePointerShowsIsSaidAndOnFocusToo) {
  WiringDesk desk(testing::rowASwapped(), job::SheetState::asFound);
  const wiring::EndRef end{desk.wire("1", 2), false};
  const QPoint at = desk.diagram().onScreen(*desk.diagram().picture().anchorOf(end)).toPoint();
  QMouseEvent move(QEvent::MouseMove, at, desk.diagram().viewport()->mapToGlobal(at), Qt::NoButton,
                   Qt::NoButton, Qt::NoModifier);
  QApplication::sendEvent(desk.diagram().viewport(), &move);
  const QString hovered = desk.said;
  desk.said.clear();
  QApplication::sendEvent(desk.diagram().viewport(), &move);
  EXPECT_TRUE(desk.said.isEmpty()) << "said again at every step of the pointer";
  EXPECT_TRUE(hovered.contains(QStringLiteral("YE"))) << hovered.toStdString();
  desk.said.clear();
  desk.diagram().setFocus(Qt::TabFocusReason);
  desk.diagram().focusOn(end);
  EXPECT_EQ(desk.said, hovered);
}

TEST(Keys, AreUniqueInEachContext) {
  WiringDesk desk(testing::rowA());
  for (const fittings::KeyMap* map :
       {&desk.place.keyMap(), &desk.table().keyMap(), &desk.diagram().keyMap()}) {
    std::set<QString> seen;
    for (const QKeySequence& keys : map->all())
      EXPECT_TRUE(seen.insert(keys.toString()).second) << keys.toString().toStdString();
  }
  EXPECT_GT(desk.place.keys().size(), 25u);
}

TEST(Zoom, FitsAndKeepsThePointUnderTheWheel) {
  WiringDesk desk(testing::rowG());
  EXPECT_TRUE(desk.diagram().fitting());
  const QPointF middle = QRectF(desk.diagram().viewport()->rect()).center();
  const double fitted = desk.diagram().zoom();
  desk.diagram().setFocus();
  desk.key(Qt::Key_Plus);
  desk.key(Qt::Key_Plus);
  desk.key(Qt::Key_Plus);
  EXPECT_NEAR(desk.diagram().zoom(), fitted * 1.25 * 1.25 * 1.25, 1e-9);
  const QPointF held = desk.diagram().inDiagram(middle);
  desk.diagram().zoomTo(desk.diagram().zoom() * 1.25);
  EXPECT_LE(QLineF(desk.diagram().onScreen(held), middle).length(), 1.5);
  desk.key(Qt::Key_Home);
  EXPECT_TRUE(desk.diagram().fitting());
}

TEST(Beside, AnOldResultStaysWhileTheSheetIsChecked) {
  testing::Desk desk;
  session::OpenJob job(testing::jobWith(testing::rowA(), job::SheetState::planned), desk.around.library,
                       nullptr, 0);
  job.finishCheck();
  wiring::WiringPlace place(desk.around);
  place.setJob(&job);
  place.resize(1112, 648);
  place.show();
  const auto wire = job.sheet().conductors.rows().front().id;
  place.hand().land({wire, true}, sheet::Loose{});
  EXPECT_TRUE(job.checking());
  const auto& model = place.table().model();
  EXPECT_EQ(model.index(model.rowOf(wire), wiring::ConductorModel::finding).data().toString(),
            place.hand().words("checking"));
  EXPECT_FALSE(place.grab().isNull());
  job.finishCheck();
  EXPECT_NE(model.index(model.rowOf(wire), wiring::ConductorModel::finding).data().toString(),
            place.hand().words("checking"));
}

class Languages : public ::testing::TestWithParam<const char*> {};
TEST_P(Languages, NoTextIsCut) {
  WiringDesk desk(testing::rowGLoose(), job::SheetState::planned, GetParam());
  desk.place.findings().step(1);
  QApplication::processEvents();
  for (const QWidget* widget : desk.place.findChildren<QWidget*>()) {
    if (!widget->isVisibleTo(&desk.place)) continue;
    if (const auto* button = qobject_cast<const QAbstractButton*>(widget);
        button && !button->text().isEmpty()) {
      EXPECT_GE(button->width(), button->sizeHint().width()) << button->text().toStdString();
    }
    const auto* label = qobject_cast<const QLabel*>(widget);
    if (!label || label->text().isEmpty() || label->sizePolicy().horizontalPolicy() == QSizePolicy::Ignored)
      continue;
    if (label->wordWrap()) {
      EXPECT_GE(label->height(), label->heightForWidth(label->width())) << label->text().toStdString();
    } else {
      EXPECT_GE(label->width(), label->sizeHint().width()) << label->text().toStdString();
    }
  }
  const auto* header = desk.table().horizontalHeader();
  for (int column = 0; column < header->count(); ++column) {
    QFont font = header->font();
    const QString title = desk.table().model().headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
    EXPECT_GE(header->sectionSize(column), QFontMetrics(font).horizontalAdvance(title) * 8.25 / 9.75 + 8)
        << title.toStdString();
  }
}
INSTANTIATE_TEST_SUITE_P(All, Languages, ::testing::Values("en", "es", "pseudo"),
                         [](const auto& chosen) { return std::string(chosen.param); });

}  // namespace
}  // namespace ww
