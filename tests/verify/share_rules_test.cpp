// SPDX-License-Identifier: GPL-3.0-or-later
// Mistakes with a kit that puts two calls on one conductor.
#include <gmock/gmock.h>

#include "sheet/sheet_csv.h"
#include "support/installation.h"
#include "support/shared_conductor.h"
#include "verify/check.h"
#include "verify/gain_common.h"
#include "verify/mends.h"

namespace ww::verify {
namespace {

using testing::edited;
using testing::kRowShared;
using testing::sheetOf;

const equipment::Library& library() { return equipment::standardLibrary(); }

SheetCheck checked(const std::string& csv) {
  const auto sheet = sheetOf(csv);
  return check(sheet, operation::solveSheet(sheet, library()));
}

std::vector<std::string> rulesOf(const std::string& csv, Severity from = Severity::note) {
  std::vector<std::string> rules;
  for (const Finding& finding : checked(csv).findings)
    if (finding.severity >= from) rules.push_back(finding.rule);
  return rules;
}

/// Why a shared conductor is unfit; empty: it is not, or is told more than once.
std::string unfitOf(const std::string& csv) {
  std::vector<std::string> words;
  for (const Finding& finding : checked(csv).findings)
    if (finding.rule == "share-unfit") words.push_back(std::get<Word>(finding.arguments.at(0).figure).word);
  return words.size() == 1 ? words.front() : std::string();
}

const std::string kReversed = edited(edited(kRowShared, "F,/C,K,C", "F,/C,K,X"), "F,/X,K,X", "F,/X,K,C");

TEST(ShareRules, AHealthyKitHasNothing) {
  for (const Finding& finding : checked(kRowShared).findings) ADD_FAILURE() << keyOf(finding);
  for (const CallVerdict& call : checked(kRowShared).calls) EXPECT_TRUE(call.ok) << call.call;
}

TEST(ShareRules, CallsThatChangePlacesStopTheVisit) {
  const auto exchangedAt = [](const char* a, const char* b, const char* c, const char* d) {
    return edited(edited(kRowShared, a, b), c, d);
  };
  for (const std::string& row : {kReversed, exchangedAt("T,Y,S,A", "T,Y,S,B", "T,G,S,B", "T,G,S,A"),
                                 exchangedAt("F,Y,K,A", "F,Y,K,B", "F,G,K,B", "F,G,K,A")})
    EXPECT_THAT(rulesOf(row, Severity::stop),
                ::testing::IsSupersetOf({"share-swapped", "compressor-without-blower"}))
        << row;
  for (const Finding& finding : checked(kReversed).findings) {
    if (finding.rule != "share-swapped") continue;
    EXPECT_EQ(finding.severity, Severity::stop);
    EXPECT_EQ(finding.arguments.size(), 3U) << "X and C are told";
  }
}

TEST(ShareRules, ExchangedAtBothEndsIsNoMistake) {
  const std::string row = edited(
      edited(edited(edited(kRowShared, "T,Y,S,A", "T,Y,S,B"), "T,G,S,B", "T,G,S,A"), "F,Y,K,A", "F,Y,K,B"),
      "F,G,K,B", "F,G,K,A");
  EXPECT_THAT(rulesOf(row), ::testing::IsEmpty());
}

TEST(ShareRules, OnlyPlainCallsOfOneTransformerMayShare) {
  const auto electronic = checked(edited(kRowShared, "rc-1h1c-common", "rc-1h1c-solidstate")).findings;
  EXPECT_EQ(std::count_if(electronic.begin(), electronic.end(),
                          [](const Finding& finding) { return finding.rule == "share-unfit"; }),
            2);
  const std::string own =
      edited(edited(edited(kRowShared, "cable,gauge", "#unit,Z,transformer-addon\ncable,gauge"), "RD,T,R,F,R",
                    "RD,T,*,F,*"),
             ",,,,,BU", "5,18,2,2,m,RD,T,R,Z,R,\n5,18,2,2,m,BU,T,C,Z,C,\n,,,,,BU");
  EXPECT_THAT(rulesOf(own), ::testing::Contains("share-unfit"));
  EXPECT_EQ(unfitOf(edited(kRowShared, "YE,T,/X,F,/X", "YE,T,/X,F,W")), "joined");
}

TEST(ShareRules, AReversingValveMayNot) {
  const std::string row =
      edited(edited(edited(kRowShared, "rc-1h1c-common", "rc-heatpump-2"), "YE,T,Y,S,A", "YE,T,Y1,S,A"),
             "GN,T,G,S,B", "OG,T,RV,S,B");
  EXPECT_EQ(unfitOf(edited(row, "WH,T,W,F,W", "WH,T,W2,F,W")), "valve");
}

/// One swap, at either end of the two conductors.
TEST(ShareRules, AnExchangeAtTheReceiverIsMendedByPuttingItBack) {
  const auto sheet = sheetOf(kReversed);
  bool back = false;
  for (const Mend& mend : searchMends(sheet, library(), checked(kReversed))) {
    EXPECT_TRUE(mend.clearsAll());
    ASSERT_EQ(mend.edits.size(), 1U);
    EXPECT_EQ(mend.edits[0].kind, Edit::Kind::swap);
    const auto mended = edited(sheet, mend.edits);
    back |= mended.conductors == sheetOf(kRowShared).conductors;
  }
  EXPECT_TRUE(back);
}

/// The shared conductor on the heat screw: told there, and mended by bringing it back to its splice.
TEST(ShareRules, AnotherScrewOnTheSharedConductorIsToldAndMended) {
  const std::string row = edited(kRowShared, "YE,T,/X,F,/X", "YE,T,/X,F,W");
  const auto sheet = sheetOf(row);
  const auto check = checked(row);
  const auto unfit = std::find_if(check.findings.begin(), check.findings.end(),
                                  [](const Finding& finding) { return finding.rule == "share-unfit"; });
  ASSERT_NE(unfit, check.findings.end());
  EXPECT_EQ(unfit->places.front().unit, sheet.unitByTag("F")->id);
  EXPECT_EQ(unfit->places.front().terminal, "W");
  const auto mends = searchMends(sheet, library(), check);
  ASSERT_FALSE(mends.empty());
  EXPECT_EQ(edited(sheet, mends.front().edits), sheetOf(kRowShared));
}

/// The four old conductors of a furnace with cooling, all landed, and a control that wants a common.
std::vector<CommonWay> waysOf(const std::string& control, const std::string& conductors) {
  const auto sheet =
      sheetOf("#unit,T," + control +
              "\n#unit,F,furnace-1\n#unit,O,od-cool-1\n"
              "cable,gauge,count,length,unit,colour,end_a_unit,end_a,end_b_unit,end_b,remark\n" +
              conductors);
  for (const Wanting& wanting : plan(sheet, library()).wanting)
    if (wanting.purpose == "common") return waysToCommon(sheet, library(), wanting);
  ADD_FAILURE() << "no common wanted";
  return {};
}

bool offersKit(const std::vector<CommonWay>& ways) {
  return std::any_of(ways.begin(), ways.end(),
                     [](const CommonWay& way) { return way.kind == CommonWay::Kind::sharingKit; });
}

TEST(ShareRules, TheKitIsOfferedWhereTheRuleWouldSayNothing) {
  const std::string four =
      "1,18,4,15,m,RD,T,R,F,R,\n1,18,4,15,m,WH,T,W,F,W,\n1,18,4,15,m,YE,T,Y,F,Y,\n1,18,4,15,m,GN,T,G,F,G,\n"
      "2,18,2,12,m,YE,F,Y,O,Y,\n2,18,2,12,m,BU,F,C,O,C,\n";
  EXPECT_TRUE(offersKit(waysOf("rc-1h1c-common", four)));
  EXPECT_FALSE(offersKit(waysOf("rc-1h1c-solidstate", four))) << "electronic outputs";
  EXPECT_FALSE(offersKit(waysOf("rc-1h1c-common", "1,18,2,15,m,RD,T,R,F,R,\n1,18,2,15,m,WH,T,W,F,W,\n")))
      << "a single call has nothing to share with";
}

}  // namespace
}  // namespace ww::verify
