// SPDX-License-Identifier: GPL-3.0-or-later
// Planted mistakes: the first mend puts everything right and costs no more than taking the mistake back.
#include "verify/mends.h"

#include <gtest/gtest.h>

#include <random>

#include "support/sheet_edits.h"

namespace ww::verify {
namespace {

const equipment::Library& library() { return equipment::standardLibrary(); }

SheetCheck checked(const sheet::Sheet& sheet) {
  return check(sheet, operation::solveSheet(sheet, library()));
}

std::vector<Mend> mendsOf(const sheet::Sheet& sheet) { return searchMends(sheet, library(), checked(sheet)); }

bool faulty(const SheetCheck& check) {
  return std::any_of(check.findings.begin(), check.findings.end(),
                     [](const Finding& finding) { return finding.severity > Severity::note; });
}

const sheet::Conductor& wire(const sheet::Sheet& sheet, const std::string& cable, const std::string& colour) {
  for (const sheet::Conductor* each : conductorsOf(sheet, sheet.cableByName(cable)->id))
    if (sheet::print(each->colour) == colour) return *each;
  throw std::logic_error("no such conductor");
}

sheet::Sheet moved(sheet::Sheet sheet, sheet::ConductorId conductor, char end, const sheet::Landing& to) {
  const sheet::Conductor* found = sheet.conductors.find(conductor);
  return applied(std::move(sheet), MoveEnd{conductor, end, end == 'A' ? found->endA : found->endB, to});
}

void expectFirstMend(const sheet::Sheet& sheet, int atMost) {
  const auto mends = mendsOf(sheet);
  ASSERT_FALSE(mends.empty());
  EXPECT_TRUE(mends.front().complete());
  EXPECT_LE(mends.front().cost, atMost);
  EXPECT_EQ(mends.front().callsRight, mends.front().calls);
  EXPECT_FALSE(faulty(checked(mends.front().after)));
}

TEST(Mends, AHealthySheetNeedsNone) {
  for (const auto& sheet : {testing::rowA(), testing::rowB(), testing::rowG()})
    EXPECT_TRUE(mendsOf(sheet).empty());
}

TEST(Mends, TwoSwappedEndsAreSwappedBack) {
  const auto mends = mendsOf(testing::rowASwapped());
  ASSERT_FALSE(mends.empty());
  EXPECT_TRUE(mends.front().complete());
  EXPECT_EQ(mends.front().cost, 1);
  EXPECT_TRUE(std::holds_alternative<SwapEnds>(mends.front().edits.front()));
}

TEST(Mends, ALooseEndIsLanded) {
  const auto mends = mendsOf(testing::rowGLoose());
  ASSERT_FALSE(mends.empty());
  const auto* move = std::get_if<MoveEnd>(&mends.front().edits.front());
  ASSERT_NE(move, nullptr);
  EXPECT_EQ(std::get<sheet::TerminalRef>(move->to).terminal, "O");
  EXPECT_EQ(mends.front().after, testing::rowG());
}

TEST(Mends, AValveOfTheOtherSenseIsSetRightAtTheControl) {
  sheet::Sheet sheet = testing::rowG();
  const std::string now = sheet.settings.find("T", "rvSense").value_or("O");
  sheet.settings.set("rvSense", now == "O" ? "B" : "O");
  const auto mends = mendsOf(sheet);
  ASSERT_FALSE(mends.empty());
  EXPECT_TRUE(mends.front().complete());
  const auto* set = std::get_if<SetValue>(&mends.front().edits.front());
  ASSERT_NE(set, nullptr);
  EXPECT_EQ(set->key, "rvSense");
  EXPECT_EQ(set->to, now);
}

TEST(Mends, TwoMistakesNeedTwoChanges) {
  sheet::Sheet sheet = testing::rowASwapped();
  const sheet::Conductor& white = wire(sheet, "1", "WH");
  expectFirstMend(moved(sheet, white.id, 'B', sheet::Loose{}), 2);
}

TEST(Mends, TheSameSheetGivesTheSameMends) {
  const auto one = mendsOf(testing::rowASwapped()), two = mendsOf(testing::rowASwapped());
  ASSERT_EQ(one.size(), two.size());
  for (size_t i = 0; i < one.size(); ++i) EXPECT_EQ(one[i].after, two[i].after);
}

TEST(Mends, AStopRequestEndsTheSearch) {
  std::stop_source stop;
  stop.request_stop();
  const auto sheet = testing::rowASwapped();
  EXPECT_TRUE(searchMends(sheet, library(), checked(sheet), {}, {}, stop.get_token()).empty());
}

/// A random end on another terminal of its unit, or two ends of a unit swapped.
sheet::Sheet mistaken(const sheet::Sheet& sheet, std::mt19937& random) {
  const auto& rows = sheet.conductors.rows();
  while (true) {
    const sheet::Conductor& one = rows[random() % rows.size()];
    const char end = random() % 2 ? 'A' : 'B';
    const sheet::Landing& from = end == 'A' ? one.endA : one.endB;
    const auto* at = std::get_if<sheet::TerminalRef>(&from);
    if (!at) continue;
    if (random() % 3 == 0) return moved(sheet, one.id, end, sheet::Loose{});
    const auto& terminals = library().find(sheet.units.find(at->unit)->profile)->terminals;
    const sheet::Landing to = sheet::TerminalRef{at->unit, terminals[random() % terminals.size()].id};
    if (to == from) continue;
    sheet::Sheet result = moved(sheet, one.id, end, to);
    if (random() % 2) return result;
    for (const sheet::Conductor& other : rows)
      for (const char otherEnd : {'A', 'B'})
        if ((otherEnd == 'A' ? other.endA : other.endB) == to) return moved(result, other.id, otherEnd, from);
    return result;
  }
}

void plantAndMend(unsigned first, unsigned last, int mistakes) {
  const sheet::Sheet rows[] = {testing::rowA(), testing::rowB(), testing::rowG()};
  int planted = 0, mended = 0;
  for (unsigned seed = first; seed <= last; ++seed) {
    std::mt19937 random(seed);
    sheet::Sheet sheet = rows[seed % 3];
    for (int i = 0; i < mistakes; ++i) sheet = mistaken(sheet, random);
    const SheetCheck before = checked(sheet);
    if (!faulty(before)) continue;
    ++planted;
    const auto mends = searchMends(sheet, library(), before);
    const bool good = !mends.empty() && mends.front().complete() && mends.front().cost <= mistakes;
    mended += good;
    EXPECT_TRUE(good) << "seed " << seed << ", " << (mends.empty() ? "no mend" : "cost or remaining")
                      << (mends.empty() ? 0 : mends.front().remaining);
  }
  EXPECT_GT(planted, int(last - first) / 2);
  EXPECT_EQ(mended, planted);
}

TEST(Mends, EverySinglePlantedMistakeIsMendedByOneChange) { plantAndMend(1, 9, 1); }

TEST(MendsLong, EverySinglePlantedMistakeIsMendedByOneChange) { plantAndMend(10, 60, 1); }

TEST(MendsLong, TwoPlantedMistakesAreMendedByTwoChanges) { plantAndMend(1, 60, 2); }

}  // namespace
}  // namespace ww::verify
