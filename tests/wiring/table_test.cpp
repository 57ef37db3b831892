// SPDX-License-Identifier: GPL-3.0-or-later
// The keys of the conductor table, what is typed and pasted, and Delete.
#include <gtest/gtest.h>

#include <QClipboard>
#include <random>

#include "fittings/undo_bar.h"
#include "wiring/paste.h"
#include "wiring/typed.h"
#include "wiring_desk.h"

namespace ww {
namespace {

using testing::WiringDesk;
using wiring::ConductorModel;

bool isLoose(const sheet::Landing& landing) { return std::holds_alternative<sheet::Loose>(landing); }

TEST(Table, LooseCappedAndSpliceByOneKey) {
  WiringDesk desk(testing::rowA(), job::SheetState::asFound);
  const auto wire = desk.wire("1", 0);
  desk.goTo(wire, ConductorModel::endA);
  desk.key(Qt::Key_Minus);
  EXPECT_TRUE(isLoose(desk.sheet().conductors.find(wire)->endA));
  EXPECT_EQ(desk.table().currentIndex().column(), ConductorModel::endB) << "goes on to the next end";
  desk.key(Qt::Key_Asterisk);
  EXPECT_TRUE(std::holds_alternative<sheet::Capped>(desk.sheet().conductors.find(wire)->endB));
  desk.goTo(wire, ConductorModel::endA);
  desk.key(Qt::Key_Slash);
  desk.type(QStringLiteral("S1"));
  desk.key(Qt::Key_Return);
  const auto* splice = std::get_if<sheet::Splice>(&desk.sheet().conductors.find(wire)->endA);
  ASSERT_TRUE(splice);
  EXPECT_EQ(splice->name, "S1");
}

TEST(Table, TypingCompletesAndTheNextLetterDecides) {
  WiringDesk desk(testing::rowG(), job::SheetState::asFound);
  const auto wire = desk.wire("1", 2);
  desk.goTo(wire, ConductorModel::endA);
  desk.type(QStringLiteral("y"));
  ASSERT_TRUE(desk.table().editing());
  EXPECT_EQ(desk.table().editor()->text(), QStringLiteral("Y1"));
  desk.type(QStringLiteral("2"));
  EXPECT_EQ(desk.table().editor()->text(), QStringLiteral("Y2"));
  desk.key(Qt::Key_Return);
  EXPECT_EQ(sheet::print(desk.sheet(), desk.sheet().conductors.find(wire)->endA), "T.Y2");
}

TEST(Table, WhatIsSaidOfAConductorFollowsItsLanding) {
  WiringDesk desk(testing::rowGLoose());
  const auto wire = desk.wire("2", 3);
  desk.goTo(wire, ConductorModel::endA);
  desk.goTo(wire, ConductorModel::endB);
  EXPECT_TRUE(desk.said.contains(QStringLiteral("loose at"))) << desk.said.toStdString();
  desk.place.hand().land({wire, false}, sheet::TerminalRef{desk.sheet().unitByTag("O")->id, "O"});
  ASSERT_TRUE(testing::waitFor([&] { return !desk.job.checking(); }));
  EXPECT_TRUE(desk.said.contains(QStringLiteral("to O at"))) << desk.said.toStdString();
}

TEST(Table, WrongInputIsToldInTheRowAndChangesNothing) {
  WiringDesk desk(testing::rowA());
  const sheet::Sheet before = desk.sheet();
  desk.goTo(desk.wire("1", 0), ConductorModel::endA);
  desk.type(QStringLiteral("q"));
  desk.key(Qt::Key_Return);
  EXPECT_TRUE(desk.table().editing()) << "the cell stays open";
  EXPECT_TRUE(desk.table().complaint().contains(u'q')) << desk.table().complaint().toStdString();
  EXPECT_EQ(desk.sheet(), before);
  desk.key(Qt::Key_Escape);
  EXPECT_FALSE(desk.table().editing());
  EXPECT_TRUE(desk.table().complaint().isEmpty());
}

TEST(Table, TabGoesFromCellToCellAndF2OpensWhatStandsThere) {
  WiringDesk desk(testing::rowA());
  const auto wire = desk.wire("1", 1);
  desk.goTo(wire, ConductorModel::tag);
  desk.key(Qt::Key_Tab);
  EXPECT_EQ(desk.table().currentIndex().column(), ConductorModel::endA);
  desk.key(Qt::Key_F2);
  ASSERT_TRUE(desk.table().editing());
  EXPECT_EQ(desk.table().editor()->text(), QStringLiteral("C"));
  desk.type(QStringLiteral("g"));
  desk.key(Qt::Key_Tab);
  EXPECT_EQ(sheet::print(desk.sheet(), desk.sheet().conductors.find(wire)->endA), "T.G");
  EXPECT_EQ(desk.table().currentIndex().column(), ConductorModel::endB);
  desk.key(Qt::Key_Tab, Qt::ShiftModifier);
  EXPECT_EQ(desk.table().currentIndex().column(), ConductorModel::endA);
}

TEST(Table, ColourAndCableAreTypedInTheirCells) {
  WiringDesk desk(testing::rowA());
  const auto wire = desk.wire("1", 0);
  desk.goTo(wire, ConductorModel::tag);
  desk.type(QStringLiteral("wh/rd"));
  desk.key(Qt::Key_Return);
  EXPECT_EQ(sheet::print(desk.sheet().conductors.find(wire)->colour), "WH/RD");
  const auto cable = desk.sheet().cableByName("1")->id;
  desk.table().setCurrentIndex(desk.table().model().index(desk.table().model().rowOf(cable), 0));
  desk.type(QStringLiteral("40 ft"));
  desk.key(Qt::Key_Return);
  EXPECT_NEAR(desk.sheet().cables.find(cable)->length.si(), 40 * 0.3048, 1e-9);
}

TEST(Table, EndBAsEndASwapAndJumper) {
  WiringDesk desk(testing::emptyA(), job::SheetState::asFound);
  const auto first = desk.wire("1", 0), second = desk.wire("1", 1);
  desk.goTo(first, ConductorModel::endA);
  desk.type(QStringLiteral("r"));
  desk.key(Qt::Key_Return);
  desk.key(Qt::Key_B, Qt::ControlModifier);
  EXPECT_EQ(sheet::print(desk.sheet(), desk.sheet().conductors.find(first)->endB), "F.R");

  desk.goTo(second, ConductorModel::endB);
  desk.type(QStringLiteral("c"));
  desk.key(Qt::Key_Return);
  desk.goTo(first, ConductorModel::endB);
  desk.key(Qt::Key_Down, Qt::ShiftModifier);
  desk.key(Qt::Key_X, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(sheet::print(desk.sheet(), desk.sheet().conductors.find(first)->endB), "F.C");
  EXPECT_EQ(sheet::print(desk.sheet(), desk.sheet().conductors.find(second)->endB), "F.R");

  desk.goTo(first, ConductorModel::endB);
  const size_t before = desk.sheet().conductors.size();
  desk.key(Qt::Key_J, Qt::ControlModifier);
  ASSERT_TRUE(desk.place.entry().open());
  desk.type(QStringLiteral("r w"));
  desk.key(Qt::Key_Return);
  ASSERT_EQ(desk.sheet().conductors.size(), before + 1);
  const sheet::Conductor& jumper = desk.sheet().conductors.rows().back();
  EXPECT_TRUE(jumper.isJumper());
  EXPECT_EQ(sheet::print(desk.sheet(), jumper.endA), "F.R");
  EXPECT_EQ(sheet::print(desk.sheet(), jumper.endB), "F.W");
}

TEST(Table, InsertAddsACableInWallOrderAndAUnit) {
  WiringDesk desk(testing::rowA());
  desk.table().setFocus();
  desk.key(Qt::Key_Insert);
  desk.type(QStringLiteral("T F rd wh gn ye bu 40 ft"));
  desk.key(Qt::Key_Return);
  const sheet::Cable* cable = desk.sheet().cableByName("3");
  ASSERT_TRUE(cable);
  std::string colours;
  for (const auto* wire : sheet::conductorsOf(desk.sheet(), cable->id))
    colours += sheet::print(wire->colour) + " ";
  EXPECT_EQ(colours, "RD WH GN YE BU ");
  EXPECT_NEAR(cable->length.si(), 12.192, 1e-9);
  EXPECT_EQ(desk.job.undoStack().count(), 1);

  desk.key(Qt::Key_Insert);
  desk.type(QStringLiteral("nonsense"));
  desk.key(Qt::Key_Return);
  EXPECT_TRUE(desk.place.entry().open());
  EXPECT_FALSE(desk.place.entry().complaint().isEmpty());
  EXPECT_EQ(desk.job.undoStack().count(), 1);
  desk.place.entry().field()->selectAll();
  desk.type(QStringLiteral("float switch"));
  desk.key(Qt::Key_Return);
  EXPECT_EQ(desk.sheet().units.size(), 4u) << desk.place.entry().complaint().toStdString();
}

struct TypedCase {
  const char *name, *text;
  int count;      ///< 0: refused
  double metres;  ///< 0: none typed
};
class TypedCables : public ::testing::TestWithParam<TypedCase> {};
TEST_P(TypedCables, AreReadOrRefused) {
  const auto typed =
      wiring::cableTyped(QString::fromUtf8(GetParam().text), testing::rowA(), wording::Language::spanish());
  const bool wanted = GetParam().count > 0;
  ASSERT_EQ(typed.value.has_value(), wanted) << typed.complaint.toStdString();
  if (!wanted) {
    EXPECT_FALSE(typed.complaint.isEmpty());
    return;
  }
  EXPECT_EQ(typed.value->count.value_or(int(typed.value->colours.size())), GetParam().count);
  EXPECT_NEAR(typed.value->length.value_or(quantity::Metres(0)).si(), GetParam().metres, 1e-6);
}
INSTANTIATE_TEST_SUITE_P(
    Forms, TypedCables,
    ::testing::Values(TypedCase{"size", "18/5", 5, 0}, TypedCase{"sizeAndFeet", "18/5 40 ft", 5, 12.192},
                      TypedCase{"metresInOneWord", "18/2 12m", 2, 12},
                      TypedCase{"decimalComma", "18/2 12,5 m", 2, 12.5},
                      TypedCase{"bareNumberIsMetres", "18/2 9", 2, 9}, TypedCase{"area", "0.75/4", 4, 0},
                      TypedCase{"colours", "rd, wh, gn", 3, 0},
                      TypedCase{"coloursAndCount", "18/3 rd wh gn", 3, 0},
                      TypedCase{"tags", "T F 18/5", 5, 0}, TypedCase{"contradiction", "18/5 rd wh", 0, 0},
                      TypedCase{"noGauge", "99/5", 0, 0}, TypedCase{"tooMany", "18/99", 0, 0},
                      TypedCase{"tooLong", "18/5 4000 m", 0, 0}, TypedCase{"nothingLong", "18/5 0 m", 0, 0},
                      TypedCase{"word", "18/5 purple", 0, 0}),
    [](const auto& chosen) { return std::string(chosen.param.name); });

TEST(Paste, NonsenseIsToldInOneSentenceAndChangesNothing) {
  WiringDesk desk(testing::rowA());
  const sheet::Sheet before = desk.sheet();
  desk.goTo(desk.wire("1", 0), ConductorModel::endA);
  for (const char* text : {"", "lorem ipsum", "RD\nXX\n", "RD\nWH\nGN\nYE\nBU\nOG\nBN\n",
                           "cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b\n1,18",
                           "cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark\n"
                           "1,18,1,9,m,RD,T,QQ,F,R,\n"}) {
    QGuiApplication::clipboard()->setText(QString::fromLatin1(text));
    desk.table().setFocus();
    desk.key(Qt::Key_V, Qt::ControlModifier);
    EXPECT_EQ(desk.sheet(), before) << text;
    EXPECT_FALSE(desk.table().complaint().isEmpty()) << text;
    EXPECT_EQ(desk.job.undoStack().count(), 0);
  }
}

TEST(Paste, ColoursGoDownFromTheCursorAndRowsLand) {
  WiringDesk desk(testing::emptyA(), job::SheetState::asFound);
  desk.goTo(desk.wire("1", 1), ConductorModel::tag);
  desk.table().paste(QStringLiteral("GN\nYE\n"));
  EXPECT_EQ(sheet::print(desk.sheet().conductors.find(desk.wire("1", 1))->colour), "GN");
  EXPECT_EQ(sheet::print(desk.sheet().conductors.find(desk.wire("1", 2))->colour), "YE");
  desk.table().paste(
      QStringLiteral("cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark\n"
                     "2,18,2,12,m,YE,F,Y,O,Y,\n2,18,2,12,m,BU,F,C,O,C,\n"));
  EXPECT_TRUE(desk.table().complaint().isEmpty()) << desk.table().complaint().toStdString();
  EXPECT_EQ(sheet::print(desk.sheet(), desk.sheet().conductors.find(desk.wire("2", 1))->endB), "O.C");
  EXPECT_EQ(desk.job.undoStack().count(), 2);
}

TEST(Delete, AnEndThenAConductorThenItIsGone) {
  WiringDesk desk(testing::rowA());
  const sheet::Sheet before = desk.sheet();
  const auto wire = desk.wire("1", 0);
  desk.goTo(wire, ConductorModel::endB);
  desk.key(Qt::Key_Delete);
  EXPECT_TRUE(isLoose(desk.sheet().conductors.find(wire)->endB));
  EXPECT_FALSE(isLoose(desk.sheet().conductors.find(wire)->endA));
  EXPECT_TRUE(desk.place.undoBar().isVisible());
  desk.goTo(wire, ConductorModel::tag);
  desk.key(Qt::Key_Delete);
  EXPECT_TRUE(isLoose(desk.sheet().conductors.find(wire)->endA));
  desk.key(Qt::Key_Delete);
  EXPECT_FALSE(desk.sheet().conductors.find(wire));
  desk.place.undoBar().button()->click();
  EXPECT_TRUE(desk.sheet().conductors.find(wire)) << "the bar gives it back";
  desk.job.undoStack().setIndex(0);
  EXPECT_EQ(desk.sheet(), before);
}

TEST(Delete, AUnitWithLandedConductorsThenUndo) {
  WiringDesk desk(testing::rowA());
  const sheet::Sheet before = desk.sheet();
  const sheet::UnitId outdoor = before.unitByTag("O")->id;
  desk.place.hand().select({{}, {}, {}, outdoor});
  desk.diagram().setFocus();
  desk.key(Qt::Key_Delete);
  EXPECT_EQ(desk.sheet().conductors.size(), before.conductors.size()) << "its conductors stay, loose";
  EXPECT_TRUE(isLoose(desk.sheet().conductors.find(desk.wire("2", 0))->endB));
  EXPECT_FALSE(isLoose(desk.sheet().conductors.find(desk.wire("2", 0))->endA));
  desk.key(Qt::Key_Delete);
  EXPECT_FALSE(desk.sheet().units.find(outdoor));
  desk.job.undoStack().undo();
  desk.job.undoStack().undo();
  EXPECT_EQ(desk.sheet(), before);
}

TEST(ReadOnly, AClosedJobTakesNoEdit) {
  WiringDesk desk(testing::rowA());
  desk.job.replaceState(job::State::closed);
  const sheet::Sheet before = desk.sheet();
  desk.goTo(desk.wire("1", 0), ConductorModel::endA);
  desk.type(QStringLiteral("c"));
  EXPECT_FALSE(desk.table().editing());
  desk.key(Qt::Key_Minus);
  desk.key(Qt::Key_Delete);
  desk.key(Qt::Key_F5);
  desk.key(Qt::Key_Insert);
  EXPECT_FALSE(desk.place.entry().open());
  EXPECT_EQ(desk.sheet(), before);
}

class RandomEdits : public ::testing::TestWithParam<unsigned> {};
TEST_P(RandomEdits, UndoAllIsTheStart) {
  WiringDesk desk(testing::rowG());
  std::mt19937 random(GetParam());
  const sheet::Sheet start = desk.sheet();
  std::vector<sheet::Sheet> states{start};
  wiring::InHand& hand = desk.place.hand();
  for (int step = 0; step < 30; ++step) {
    const auto& rows = desk.sheet().conductors.rows();
    if (rows.empty()) break;
    const sheet::ConductorId wire = rows[random() % rows.size()].id;
    const wiring::EndRef end{wire, random() % 2 == 0};
    switch (random() % 6) {
      case 0: hand.land(end, sheet::Loose{}); break;
      case 1: hand.land(end, sheet::Capped{}); break;
      case 2: hand.sameAtB(wire); break;
      case 3:
        hand.selectEnd(end);
        hand.deleteSelected();
        break;
      case 4:
        hand.select({{}, {wire}, {}, {}});
        hand.deleteSelected();
        break;
      default: {
        const auto* profile =
            wiring::profileAt(desk.sheet(), desk.desk.around.library, *wiring::homeOf(desk.sheet(), end));
        hand.land(end, sheet::TerminalRef{*wiring::homeOf(desk.sheet(), end),
                                          profile->terminals[random() % profile->terminals.size()].id});
      }
    }
    if (desk.sheet() != states.back()) states.push_back(desk.sheet());
  }
  EXPECT_GT(states.size(), 10u);
  EXPECT_EQ(desk.job.undoStack().count(), static_cast<int>(states.size()) - 1) << "one edit, one step";
  for (size_t i = states.size() - 1; i-- > 0;) {
    desk.job.undoStack().undo();
    ASSERT_EQ(desk.sheet(), states[i]);
  }
  EXPECT_EQ(desk.sheet(), start);
}
INSTANTIATE_TEST_SUITE_P(Seeds, RandomEdits, ::testing::Range(1u, 6u));

}  // namespace
}  // namespace ww
