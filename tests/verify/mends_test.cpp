// SPDX-License-Identifier: GPL-3.0-or-later
// What is proposed must mend: planted mistakes are cured for no more than undoing them costs, nothing that
// protects is ever proposed away, and the same question has the same answer on any number of threads.
#include "verify/mends.h"

#include <gtest/gtest.h>

#include <random>

#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/sheet_edits.h"
#include "verify/forbidden.h"
#include "verify/mend_candidates.h"

namespace ww::verify {
namespace {

using testing::kRowA;
using testing::kRowB;
using testing::kRowG;

const equipment::Library& library() { return equipment::standardLibrary(); }

SheetCheck checked(const sheet::Sheet& sheet) {
  return check(sheet, operation::solveSheet(sheet, library()));
}

sheet::Sheet read(const std::string& csv) {
  const auto sheet = sheet::readCsv(csv, library());
  EXPECT_TRUE(sheet) << (sheet.problems.empty() ? "" : sheet.problems[0].where + " " + sheet.problems[0].key);
  return sheet ? *sheet.value : sheet::Sheet{};
}

bool clean(const SheetCheck& check) {
  return check.findings.empty() || check.findings.front().severity == Severity::note;
}

std::string inWords(const sheet::Sheet& sheet, const Mend& mend) {
  std::string text = std::to_string(mend.cost) + ":";
  for (const Edit& edit : mend.edits)
    text += " " + std::to_string(int(edit.kind)) + " " + std::to_string(number(edit.end.conductor)) +
            edit.end.end + " " + print(sheet, edit.from) + ">" + print(sheet, edit.to) + " " + edit.key +
            "=" + edit.value;
  return text;
}

struct Mistake {
  const char* name;
  const std::string* row;
  std::vector<std::pair<const char*, const char*>> edits;
  int cost;  ///< of undoing it
};
std::ostream& operator<<(std::ostream& out, const Mistake& mistake) { return out << mistake.name; }

class Classic : public ::testing::TestWithParam<Mistake> {};

TEST_P(Classic, FirstMendLeavesNothingAboveANote) {
  std::string csv = *GetParam().row;
  for (const auto& [piece, by] : GetParam().edits) csv = testing::edited(csv, piece, by);
  const sheet::Sheet sheet = read(csv);
  const SheetCheck before = checked(sheet);
  ASSERT_FALSE(clean(before));
  const auto mends = searchMends(sheet, library(), before);
  ASSERT_FALSE(mends.empty());
  EXPECT_LE(mends.front().cost, GetParam().cost) << inWords(sheet, mends.front());
  EXPECT_TRUE(clean(checked(edited(sheet, mends.front().edits)))) << inWords(sheet, mends.front());
  EXPECT_EQ(mends.front().clears.size(), mends.front().of);
  EXPECT_TRUE(mends.front().allCallsRight);
}

INSTANTIATE_TEST_SUITE_P(
    Mistakes, Classic,
    ::testing::Values(
        Mistake{"YAndGSwapped", &kRowA, {{"YE,T,Y,F,Y", "YE,T,Y,F,G"}, {"GN,T,G,F,G", "GN,T,G,F,Y"}}, 1},
        Mistake{"YAndWSwapped", &kRowA, {{"YE,T,Y,F,Y", "YE,T,Y,F,W"}, {"WH,T,W,F,W", "WH,T,W,F,Y"}}, 1},
        Mistake{"ValveSense", &kRowG, {{"rvSense,cooling", "rvSense,heating"}}, 1},
        Mistake{"NoHeatInSomeWeather",
                &kRowG,
                {{"rvSense,cooling", "rvSense,cooling\n#set,auxiliaryAbove,-5\n#set,compressorBelow,2"}},
                1},
        Mistake{"FanWireOff", &kRowB, {{"GN,T,G,A,G", "GN,T,G,A,"}}, 1},
        Mistake{"HeatWireOff", &kRowA, {{"WH,T,W,F,W", "WH,T,W,F,"}}, 1},
        Mistake{"BothCoilEndsOnY", &kRowA, {{"BU,F,C,O,C", "BU,F,Y,O,C"}}, 1},
        Mistake{"NoCommon", &kRowA, {{"BU,T,C,F,C", "BU,T,,F,C"}}, 1},
        Mistake{"CommonMissing", &kRowA, {{"BU,F,C,O,C", "BU,F,C,O,"}}, 1},
        Mistake{"HotToCommon", &kRowA, {{"2,18,2,12,m,YE", ",,,,,RD,F,R,F,C,\n2,18,2,12,m,YE"}}, 1},
        Mistake{"YToCommon", &kRowA, {{"2,18,2,12,m,YE", ",,,,,RD,F,Y,F,C,\n2,18,2,12,m,YE"}}, 1},
        Mistake{"FanJumpered", &kRowB, {{"2,18,2,9,m,YE", ",,,,,RD,A,R,A,G,\n2,18,2,9,m,YE"}}, 1},
        Mistake{
            "WrongTap", &kRowA, {{"#set,fanWithHeat,equipment", "#set,lineVolts,240\n#set,F.tap,208"}}, 1},
        Mistake{"LongThinCable",
                &kRowA,
                {{"2,18,2,12,m,YE", "2,20,2,75,m,YE"}, {"2,18,2,12,m,BU", "2,20,2,75,m,BU"}},
                10},
        Mistake{"NoInterlock", &kRowB, {{"interlock,on", "interlock,off"}}, 1},
        Mistake{
            "YNotAtTheBoard", &kRowA, {{"YE,T,Y,F,Y", "YE,T,Y,F,/S1"}, {"YE,F,Y,O,Y", "YE,F,/S1,O,Y"}}, 2},
        Mistake{"DefrostHeatOff", &kRowG, {{"WH,A,W1,O,W", "WH,A,*,O,*"}}, 2},
        Mistake{"Loose", &kRowG, {{"OG,A,O,O,O", "OG,A,O,O,"}}, 1}),
    [](const auto& mistake) { return mistake.param.name; });

/// Moves, swaps or drops one end; false when the draw changes nothing.
bool plant(sheet::Sheet& sheet, std::mt19937& random) {
  const auto pick = [&](size_t count) { return size_t(random() % count); };
  const std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  sheet::Conductor wire = rows[pick(rows.size())];
  const bool atA = pick(2) == 0;
  sheet::Landing& end = atA ? wire.endA : wire.endB;
  const auto* cable = sheet.cables.find(*wire.cable);
  const auto unit = atA ? cable->endA : cable->endB;
  const sheet::Landing before = end;
  switch (pick(3)) {
    case 0: {
      const auto& terminals = library().find(sheet.units.find(unit)->profile)->terminals;
      end = sheet::TerminalRef{unit, terminals[pick(terminals.size())].id};
      break;
    }
    case 1: {
      sheet::Conductor other = rows[pick(rows.size())];
      if (other.cable != wire.cable || other.id == wire.id) return false;
      std::swap(end, atA ? other.endA : other.endB);
      sheet.conductors.put(other);
      break;
    }
    default: end = sheet::Loose{};
  }
  if (end == before) return false;
  sheet.conductors.put(wire);
  return true;
}

TEST(Mends, PlantedMistakesAreCuredForNoMoreThanUndoingThem) {
  const std::array<sheet::Sheet, 3> rows{testing::rowA(), testing::rowB(), testing::rowG()};
  int faulty = 0;
  for (unsigned seed = 1; seed <= 200; ++seed) {
    std::mt19937 random(seed);
    sheet::Sheet sheet = rows[seed % 3];
    int planted = 0;
    for (int edits = 1 + int(seed % 2); edits > 0; --edits) planted += plant(sheet, random);
    const SheetCheck before = checked(sheet);
    if (clean(before)) continue;
    ++faulty;
    const auto mends = searchMends(sheet, library(), before);
    ASSERT_FALSE(mends.empty()) << seed;
    EXPECT_LE(mends.front().cost, planted) << seed << " " << inWords(sheet, mends.front());
    EXPECT_TRUE(clean(checked(edited(sheet, mends.front().edits))))
        << seed << " " << inWords(sheet, mends.front());
  }
  EXPECT_GT(faulty, 120);
}

const std::string kFloatInYellow =
    testing::edited(testing::edited(kRowA, "#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,S,float-switch"),
                    "YE,T,Y,F,Y,", "YE,T,Y,F,/S1,\n3,18,2,1,m,RD,F,/S1,S,A,\n3,18,2,1,m,WH,F,Y,S,B,");

TEST(Mends, AFloatInTheCallIsHealthyAndStaysThere) {
  const sheet::Sheet sheet = read(kFloatInYellow);
  ASSERT_TRUE(clean(checked(sheet)));
  const Protected guard(asbuilt::compile(sheet, library()));
  const auto changed = [&](const char* piece, const char* by) {
    return guard.broken(asbuilt::compile(read(testing::edited(kFloatInYellow, piece, by)), library()));
  };
  EXPECT_FALSE(guard.broken(asbuilt::compile(sheet, library())));
  const auto around = changed("YE,T,Y,F,/S1", "YE,T,Y,F,Y");
  ASSERT_TRUE(around);
  EXPECT_EQ(around->why, Forbidden::Why::safety);
  const auto across = changed("WH,F,Y,S,B", "WH,F,Y,S,A");
  ASSERT_TRUE(across) << "the compressor runs without the float";
  EXPECT_FALSE(changed("GN,T,G,F,G", "GN,T,G,F,W"));
}

TEST(Mends, WhereOnlyBridgingASafetyHelpsTheAnswerIsToFindWhy) {
  // Nothing runs from the float back to the furnace, and no conductor is there that could.
  const std::string cut = testing::edited(kFloatInYellow, "\n3,18,2,1,m,WH,F,Y,S,B,", "");
  const sheet::Sheet sheet = read(testing::edited(cut, "3,18,2,1,m,RD", "3,18,1,1,m,RD"));
  const SheetCheck before = checked(sheet);
  ASSERT_FALSE(clean(before));
  const auto mends = searchMends(sheet, library(), before);
  ASSERT_EQ(mends.size(), 1U);
  EXPECT_TRUE(mends[0].edits.empty());
  ASSERT_TRUE(mends[0].findWhy);
  EXPECT_EQ(mends[0].findWhy->part, "FL");
}

TEST(Mends, ALiftedFloatIsLandedAgain) {
  const sheet::Sheet sheet = read(testing::edited(kFloatInYellow, "WH,F,Y,S,B", "WH,F,Y,S,"));
  const auto mends = searchMends(sheet, library(), checked(sheet));
  ASSERT_FALSE(mends.empty());
  ASSERT_EQ(mends[0].edits.size(), 1U);
  EXPECT_EQ(print(sheet, mends[0].edits[0].to), "S.B");
}

TEST(Mends, NoLargerFuseNoJumperAtHotNothingInASafetysPlace) {
  for (const sheet::Sheet& sheet : {testing::rowA(), testing::rowB(), testing::rowG()})
    for (const Candidate& candidate : candidatesOf(sheet, library(), checked(sheet))) {
      const Edit& edit = candidate.edit;
      EXPECT_FALSE(edit.key == "fuse" && edit.value == "fuse5");
      EXPECT_NE(edit.value, "jumper");
      if (edit.kind != Edit::Kind::jumper) continue;
      for (const sheet::Landing& end : {edit.from, edit.to}) {
        const auto& terminal = std::get<sheet::TerminalRef>(end).terminal;
        EXPECT_TRUE(terminal != "R" && terminal != "C") << print(sheet, end);
      }
    }
}

TEST(Mends, TwoTransformersAreTakenApartNeverTied) {
  const std::string two =
      testing::edited(testing::edited(kRowA, "#unit,F,furnace-1", "#unit,F,furnace-1\n#unit,X,furnace-1"),
                      "2,18,2,12,m,YE", "3,18,2,2,m,RD,F,R,X,R,\n3,18,2,2,m,WH,F,C,X,C,\n2,18,2,12,m,YE");
  const sheet::Sheet tied = read(two);
  const Protected apart(asbuilt::compile(read(testing::edited(two, "RD,F,R,X,R", "RD,F,*,X,*")), library()));
  const auto broken = apart.broken(asbuilt::compile(tied, library()));
  ASSERT_TRUE(broken);
  EXPECT_EQ(broken->why, Forbidden::Why::sources);
  const auto mends = searchMends(tied, library(), checked(tied));
  ASSERT_FALSE(mends.empty());
  for (const Finding& finding : mends[0].remains) EXPECT_NE(finding.rule, "sources-tied");
}

TEST(Mends, TheSameOnAnyNumberOfThreads) {
  sheet::Sheet sheet = testing::rowG();
  std::mt19937 random(81);
  for (int edits = 2; edits > 0;) edits -= plant(sheet, random);
  const SheetCheck before = checked(sheet);
  const auto told = [&](unsigned threads) {
    std::vector<std::string> list;
    MendLimits limits;
    limits.threads = threads;
    for (const Mend& mend : searchMends(sheet, library(), before, limits))
      list.push_back(inWords(sheet, mend));
    return list;
  };
  const auto one = told(1);
  EXPECT_FALSE(one.empty());
  EXPECT_EQ(one, told(2));
  EXPECT_EQ(one, told(7));
}

TEST(Mends, StopsWhenAskedToAndSearchesNothingOnACleanSheet) {
  std::stop_source stop;
  stop.request_stop();
  EXPECT_TRUE(
      searchMends(testing::rowASwapped(), library(), checked(testing::rowASwapped()), {}, stop.get_token())
          .empty());
  EXPECT_TRUE(searchMends(testing::rowA(), library(), checked(testing::rowA())).empty());
}

}  // namespace
}  // namespace ww::verify
