// SPDX-License-Identifier: GPL-3.0-or-later
// The figures that every diagram must reach, over the reference sheets in both languages and over random
// edits of them.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>

#include "sheet/sheet_csv.h"
#include "support/diagram_measure.h"
#include "support/font_advances.h"
#include "support/reference_rows_water.h"
#include "support/sheet_edits.h"

namespace {

namespace drawing = ww::drawing;
namespace sheet = ww::sheet;
namespace sheets = ww::testing;
using ::testing::IsEmpty;

drawing::Diagram layout(const sheet::Sheet& wiring, const std::string& language = "en") {
  drawing::LayoutOptions options;
  options.language = language;
  return drawing::layout(wiring, ww::equipment::standardLibrary(), sheets::tableMeasure, options);
}

sheet::Sheet read(const std::string& csv) {
  return sheet::readCsv(csv, ww::equipment::standardLibrary()).value.value();
}

std::vector<sheet::Sheet> referenceSheets() {
  return {sheets::rowA(), sheets::rowB(), sheets::rowG(), sheets::rowASwapped(), sheets::rowGLoose()};
}

/// The same sheet with its rows entered in another order.
sheet::Sheet shuffled(const sheet::Sheet& wiring, unsigned seed) {
  std::mt19937 random(seed);
  sheet::Sheet other = wiring;
  std::vector<sheet::Conductor> rows = wiring.conductors.rows();
  std::shuffle(rows.begin(), rows.end(), random);
  other.conductors = {};
  for (const sheet::Conductor& row : rows) other.conductors.put(row);
  std::vector<sheet::Unit> units = wiring.units.rows();
  std::shuffle(units.begin(), units.end(), random);
  other.units = {};
  for (const sheet::Unit& row : units) other.units.put(row);
  return other;
}

bool strays(const sheet::Sheet& wiring) {
  for (const sheet::Conductor& wire : wiring.conductors)
    for (const bool atA : {true, false}) {
      const auto unit = sheet::unitOfEnd(wiring, wire, atA);
      const sheet::Cable* cable = wire.cable ? wiring.cables.find(*wire.cable) : nullptr;
      if (cable && unit != (atA ? cable->endA : cable->endB)) return true;
    }
  return false;
}

/// Crossings between conductors of cables; a jumper's own are counted apart.
int cableCrossings(const drawing::Diagram& diagram) {
  int count = 0;
  for (const sheets::Crossing& crossing : sheets::crossings(sheets::visibleSegments(diagram)))
    count += !diagram.wires[static_cast<size_t>(crossing.first)].jumper &&
             !diagram.wires[static_cast<size_t>(crossing.second)].jumper;
  return count;
}

void expectFigures(const drawing::Diagram& diagram, double meanBends, double meanRatio) {
  double bends = 0, ratio = 0;
  int count = 0;
  for (const drawing::Wire& wire : diagram.wires) {
    if (!wire.cable) continue;
    const bool free = std::any_of(diagram.ends.begin(), diagram.ends.end(), [&](const drawing::EndMark& end) {
      return end.conductor == wire.conductor;
    });
    const sheets::WireFigures figures = sheets::figures(wire);
    EXPECT_LE(figures.bends, 4) << sheet::number(wire.conductor);
    if (free) continue;
    EXPECT_LE(figures.length / figures.manhattan, 2.5) << sheet::number(wire.conductor);
    bends += figures.bends;
    ratio += figures.length / figures.manhattan;
    ++count;
  }
  ASSERT_GT(count, 0);
  EXPECT_LE(bends / count, meanBends);
  EXPECT_LE(ratio / count, meanRatio);
}

TEST(Layout, ReferenceSheetsBreakNoRuleInEitherLanguage) {
  for (const sheet::Sheet& wiring : referenceSheets())
    for (const std::string language : {"en", "es"}) {
      const drawing::Diagram diagram = layout(wiring, language);
      EXPECT_THAT(sheets::faultsOf(diagram, sheets::tableMeasure), IsEmpty());
    }
  EXPECT_THAT(sheets::faultsOf(layout(sheets::rowACrowded()), sheets::tableMeasure), IsEmpty());
}

TEST(Layout, CrossingsEqualInversions) {
  EXPECT_EQ(sheets::inversions(layout(sheets::rowA()), sheets::rowA()), 3);
  for (const sheet::Sheet& wiring : referenceSheets()) {
    const drawing::Diagram diagram = layout(wiring);
    EXPECT_EQ(cableCrossings(diagram), sheets::inversions(diagram, wiring));
  }
}

TEST(Layout, BendsAndLengthsStayShort) {
  for (const sheet::Sheet& wiring : referenceSheets()) expectFigures(layout(wiring), 3.7, 1.4);
}

TEST(Layout, AFurnaceBehindAZonePanelHasAColumnOfItsOwn) {
  const sheet::Sheet wiring = read(sheets::kRowN);
  const drawing::Diagram diagram = layout(wiring);
  const auto column = [&](const char* tag) { return diagram.plate(wiring.unitByTag(tag)->id)->column; };
  EXPECT_EQ(column("P"), column("T1") + 1);
  EXPECT_EQ(column("F"), column("P") + 1);
  EXPECT_EQ(column("O"), column("F") + 1);
  // Boiler and tie strip stay together: apart, the valves' four cables would run over the top instead of one.
  const sheet::Sheet water = read(sheets::kRowE);
  const drawing::Diagram wet = layout(water);
  EXPECT_EQ(wet.plate(water.unitByTag("B")->id)->column, wet.plate(water.unitByTag("S")->id)->column);
}

TEST(Layout, FitsBesideTheTableAtSeventyPercent) {
  constexpr double kWidth = 776, kHeight = 600;
  for (const sheet::Sheet& wiring : referenceSheets()) {
    const drawing::Diagram diagram = layout(wiring);
    EXPECT_GE(std::min(kWidth / diagram.bounds.w, kHeight / diagram.bounds.h), 0.70);
  }
}

TEST(Layout, IsTheSameWhateverTheOrderOfRows) {
  for (const sheet::Sheet& wiring : referenceSheets())
    for (unsigned seed = 1; seed <= 5; ++seed) EXPECT_EQ(layout(wiring), layout(shuffled(wiring, seed)));
}

TEST(Layout, RandomEditsBreakNoRule) {
  const std::vector<sheet::Sheet> bases = referenceSheets();
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    sheet::Sheet wiring = bases[seed % bases.size()];
    const unsigned edits = 1 + seed % 4;
    for (unsigned i = 0; i < edits; ++i)
      sheets::editAtRandom(wiring, ww::equipment::standardLibrary(), random);
    const drawing::Diagram diagram = layout(wiring);
    EXPECT_THAT(sheets::faultsOf(diagram, sheets::tableMeasure), IsEmpty());
    EXPECT_EQ(cableCrossings(diagram), sheets::inversions(diagram, wiring));
    expectFigures(diagram, 4, 1.6);
    EXPECT_GE(776 / diagram.bounds.w, 0.70);
  }
}

TEST(Layout, LandingsAtTheOtherUnitBreakNoRule) {
  const std::vector<sheet::Sheet> bases = referenceSheets();
  for (unsigned seed = 1; seed <= 100; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    sheet::Sheet wiring = bases[seed % bases.size()];
    sheets::editAtRandom(wiring, ww::equipment::standardLibrary(), random);
    sheets::strayAtRandom(wiring, ww::equipment::standardLibrary(), random);
    const drawing::Diagram diagram = layout(wiring);
    EXPECT_THAT(sheets::faultsOf(diagram, sheets::tableMeasure), IsEmpty());
    for (const drawing::Wire& wire : diagram.wires) EXPECT_LE(sheets::figures(wire).bends, 6);
  }
}

TEST(Layout, OneEditLeavesTheRestInPlace) {
  const std::vector<sheet::Sheet> bases = referenceSheets();
  for (unsigned seed = 1; seed <= 200; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937 random(seed);
    const sheet::Sheet before = bases[seed % bases.size()];
    sheet::Sheet after = before;
    sheets::editAtRandom(after, ww::equipment::standardLibrary(), random);
    const drawing::Diagram a = layout(before);
    drawing::LayoutOptions options;
    options.kept = drawing::places(a);
    options.keptSlots = drawing::slots(a);
    const drawing::Diagram b =
        drawing::layout(after, ww::equipment::standardLibrary(), sheets::tableMeasure, options);
    std::vector<double> moved;
    const auto note = [&](drawing::Point p, drawing::Point q) {
      moved.push_back(std::hypot(p.x - q.x, p.y - q.y));
    };
    for (const drawing::Plate& plate : a.plates)
      for (size_t i = 0; i < plate.terminals.size(); ++i)
        note(plate.terminals[i].square.centre(), b.plate(plate.unit)->terminals[i].square.centre());
    for (size_t i = 0; i < a.sheaths.size(); ++i) note(a.sheaths[i].box.centre(), b.sheaths[i].box.centre());
    for (const drawing::Tag& tag : a.tags) {
      const sheet::Conductor *was = before.conductors.find(tag.conductor),
                             *is = after.conductors.find(tag.conductor);
      if (!(*was == *is)) continue;
      for (const drawing::Tag& other : b.tags)
        if (other.conductor == tag.conductor && other.part == tag.part)
          note(tag.label.box.centre(), other.label.box.centre());
    }
    std::sort(moved.begin(), moved.end());
    EXPECT_EQ(moved[moved.size() / 2], 0);
    EXPECT_LE(moved.back(), 32);
  }
}

TEST(Layout, KeptPlacesAreKept) {
  const sheet::Sheet wiring = sheets::rowG();
  drawing::LayoutOptions options;
  options.kept = drawing::places(layout(wiring));
  for (auto& [unit, kept] : options.kept) kept.top += 32 * sheet::number(unit);
  const drawing::Diagram diagram =
      drawing::layout(wiring, ww::equipment::standardLibrary(), sheets::tableMeasure, options);
  EXPECT_EQ(drawing::places(diagram), options.kept);
  EXPECT_THAT(sheets::faultsOf(diagram, sheets::tableMeasure), IsEmpty());
}

TEST(Layout, PrintsReversingValveBySense) {
  sheet::Sheet wiring = sheets::rowG();
  const auto printed = [&] {
    const drawing::Diagram diagram = layout(wiring);
    for (const drawing::TerminalMark& mark : diagram.plate(wiring.unitByTag("T")->id)->terminals)
      if (mark.id == "RV") return mark.label.text;
    return std::string();
  };
  EXPECT_EQ(printed(), "O");
  wiring.settings.set("rvSense", "heating");
  EXPECT_EQ(printed(), "B");
}

TEST(Layout, ShowsLengthsInTheChosenUnit) {
  drawing::LayoutOptions options;
  options.lengths = drawing::LengthUnit::feet;
  const auto& library = ww::equipment::standardLibrary();
  EXPECT_EQ(drawing::layout(sheets::rowA(), library, sheets::tableMeasure, options).sheaths[0].length.text,
            "49 ft");
  EXPECT_EQ(drawing::layout(sheets::rowA(), library, sheets::tableMeasure).sheaths[0].length.text, "15 m");
  EXPECT_EQ(drawing::layout(sheets::rowA(), library, sheets::tableMeasure).sheaths[0].size.text, "18/5");
}

TEST(Layout, CountsEndsOnScrews) {
  sheet::Sheet wiring = sheets::rowA();
  sheet::Conductor yellow = wiring.conductors.rows()[2];
  const sheet::UnitId furnace = wiring.unitByTag("F")->id;
  yellow.endB = sheet::TerminalRef{furnace, "G"};
  wiring.conductors.put(yellow);
  const drawing::Diagram diagram = layout(wiring);
  const auto held = [&](const std::string& terminal, drawing::Side side) {
    for (const drawing::Screw& screw : diagram.plate(furnace)->screws)
      if (screw.terminal == terminal && screw.side == side) return screw.ends;
    return -1;
  };
  EXPECT_EQ(held("G", drawing::Side::left), 2);
  EXPECT_EQ(held("Y", drawing::Side::right), 1);
  EXPECT_EQ(held("Y", drawing::Side::left), -1);
  EXPECT_EQ(held("HUM", drawing::Side::left), 0);
}

/// Many houses on one sheet, their rows mixed.
sheet::Sheet street(int houses) {
  sheet::Sheet wiring;
  for (int i = 0; i < houses; ++i) {
    const std::string n = std::to_string(i);
    const auto t = sheets::addUnit(wiring, ("T" + n).c_str(), "rc-1h1c-common", "hall");
    const auto f = sheets::addUnit(wiring, ("F" + n).c_str(), "furnace-1", "closet");
    const auto o = sheets::addUnit(wiring, ("O" + n).c_str(), "od-cool-1", "yard");
    sheets::addCable(
        wiring, n.c_str(), 15, t, f,
        {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W"}});
    sheets::addCable(wiring, (n + "b").c_str(), 12, f, o, {{"YE", "Y", "Y"}, {"BU", "C", "C"}});
  }
  return wiring;
}

TEST(Layout, WorkGrowsNearlyLinearly) {
  const sheet::Sheet half = street(33), whole = street(66);
  const drawing::Diagram small = layout(half), large = layout(whole);
  EXPECT_LE(static_cast<double>(large.work), 2.4 * static_cast<double>(small.work));
  EXPECT_EQ(cableCrossings(small), sheets::inversions(small, half));
  EXPECT_THAT(sheets::faultsOf(small, sheets::tableMeasure), IsEmpty());
}

TEST(Layout, CablesPastAColumnHangInTheHeader) {
  sheet::Sheet wiring = sheets::rowA();
  sheets::addCable(wiring, "3", 20, wiring.unitByTag("T")->id, wiring.unitByTag("O")->id,
                   {{"RD", "Y", "Y"}, {"WH", "C", "C"}, {"BK", "", "*"}});
  const drawing::Diagram diagram = layout(wiring);
  EXPECT_THAT(sheets::faultsOf(diagram, sheets::tableMeasure), IsEmpty());
  double top = 1e9;
  for (const drawing::Plate& plate : diagram.plates) top = std::min(top, plate.box.y);
  EXPECT_LT(diagram.sheaths[2].box.bottom(), top);
  for (const drawing::Wire& wire : diagram.wires) EXPECT_LE(sheets::figures(wire).bends, 6);
}

TEST(Layout, LandingsAtTheWrongUnitAreStillDrawn) {
  sheet::Sheet wiring = sheets::rowA();
  sheet::Conductor red = wiring.conductors.rows()[0];
  red.endA = sheet::TerminalRef{wiring.unitByTag("F")->id, "HUM"};
  wiring.conductors.put(red);
  sheet::Conductor unknown = wiring.conductors.rows()[1];
  unknown.endB = sheet::TerminalRef{wiring.unitByTag("F")->id, "QQ"};
  wiring.conductors.put(unknown);
  ASSERT_TRUE(strays(wiring));
  const drawing::Diagram diagram = layout(wiring);
  EXPECT_THAT(sheets::faultsOf(diagram, sheets::tableMeasure), IsEmpty());
  EXPECT_TRUE(diagram.plate(wiring.unitByTag("F")->id)->terminals.back().unknown);
}

TEST(Layout, OddSheetsDoNotFall) {
  EXPECT_TRUE(layout({}).plates.empty());
  sheet::Sheet lone;
  const auto unit = sheets::addUnit(lone, "X", "no-such-profile", "");
  sheets::addCable(lone, "1", 3, unit, unit, {{"RD", "R", ""}, {"WH", "*", "C"}});
  sheets::addJumper(lone, unit, "R", "R");
  sheet::Conductor loose;
  lone.addConductor(loose);
  loose.endA = sheet::TerminalRef{unit, "R"};
  lone.addConductor(loose);
  const drawing::Diagram diagram = layout(lone);
  EXPECT_EQ(diagram.plates.size(), 1u);
  EXPECT_GT(diagram.bounds.w, 48);
}

}  // namespace
