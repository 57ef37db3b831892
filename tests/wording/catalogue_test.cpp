// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>

#include <QRegularExpression>
#include <QSet>

#include "checklist/checklist.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_pumps.h"
#include "verify/check.h"
#include "wording/sentences.h"

namespace ww::wording {
namespace {

using testing::edited;
using testing::kRowA;
using testing::kRowB;
using testing::kRowG;

QSet<QString> parametersOf(const QString& text) {
  static const QRegularExpression name("\\{([a-z0-9_]+)\\}");
  QSet<QString> names;
  for (auto at = name.globalMatch(text); at.hasNext();) names << at.next().captured(1);
  return names;
}

TEST(Catalogue, BothLanguagesHaveTheSameKeysAndParameters) {
  const auto& english = Language::english();
  const auto& spanish = Language::spanish();
  QStringList keys = english.keys();
  QStringList theirs = spanish.keys();
  keys.sort();
  theirs.sort();
  ASSERT_GT(keys.size(), 300);
  ASSERT_EQ(keys.join(u'\n').toStdString(), theirs.join(u'\n').toStdString());
  for (const QString& key : keys)
    EXPECT_EQ(parametersOf(english.templateOf(key)), parametersOf(spanish.templateOf(key)))
        << key.toStdString();
}

/// Numbers and letters of screws are told as they are.
bool tellsItself(const equipment::Profile& profile, const std::string& value) {
  return profile.terminal(value) != nullptr || value.find_first_not_of("0123456789") == std::string::npos;
}

TEST(Catalogue, EverySettingOfAShippedUnitHasAName) {
  size_t settings = 0;
  for (const auto& [id, profile] : equipment::standardLibrary().profiles)
    for (const auto& setting : profile->settings) {
      ++settings;
      const auto named = [](const char* kind, const std::string& word) {
        return Language::english().has(QStringLiteral("name.%1.%2").arg(kind, QString::fromStdString(word)));
      };
      EXPECT_TRUE(named("setting", setting.key)) << id << ": " << setting.key;
      for (const std::string& value : setting.choices)
        EXPECT_TRUE(tellsItself(*profile, value) || named("value", value)) << id << ": " << value;
    }
  EXPECT_GT(settings, 40u);
}

/// Sheets that between them provoke most of what the check can say.
std::vector<std::string> faultySheets() {
  return {edited(edited(kRowA, "YE,T,Y,F,Y", "YE,T,Y,F,G"), "GN,T,G,F,G", "GN,T,G,F,Y"),
          edited(kRowG, "rvSense,cooling", "rvSense,heating"),
          edited(kRowA, "BU,T,C,F,C", "BU,T,,F,C"),
          edited(kRowA, "BU,F,C,O,C", "BU,F,C,O,"),
          edited(edited(kRowA, "YE,F,Y,O,Y", "YE,F,Y,O,C"), "BU,F,C,O,C", "BU,F,C,O,Y"),
          edited(kRowA, "2,18,2,12,m,YE", ",,,,,RD,F,R,F,C,\n2,18,2,12,m,YE"),
          edited(kRowA, "2,18,2,12,m,YE", ",,,,,RD,F,Y,F,C,\n2,18,2,12,m,YE"),
          edited(kRowA, "#set,fanWithHeat,equipment", "#set,lineVolts,240\n#set,F.tap,208"),
          edited(edited(kRowA, "2,18,2,12,m,YE", "2,22,2,150,m,YE"), "2,18,2,12,m,BU", "2,22,2,150,m,BU"),
          edited(kRowB, "interlock,on", "interlock,off"),
          edited(kRowB, "2,18,2,9,m,YE", ",,,,,RD,A,R,A,G,\n2,18,2,9,m,YE"),
          edited(kRowG, "WH,A,W1,O,W", "WH,A,*,O,*"),
          edited(kRowG, "BN,T,*,A,*", "BN,T,R,A,R"),
          edited(kRowG, "BN,T,*,A,*", "BN,T,,A,"),
          edited(kRowA, "GN,T,G,F,G", "RD,T,G,F,G"),
          edited(kRowA, "#set,fanWithHeat,equipment", "#set,F.fuse,fuse5"),
          edited(edited(kRowA, "#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,S,float-switch"), "YE,F,Y,O,Y",
                 "YE,F,Y,O,Y,\n3,18,2,1,m,RD,F,HUM,S,A,\n3,18,2,1,m,WH,F,/S1,S,B"),
          edited(kRowA, "#unit,O,od-cool-1", "#unit,O,od-cool-1\n#unit,M,rc-millivolt") +
              "9,18,2,5,m,RD,F,R,M,M1,\n9,18,2,5,m,WH,F,W,M,M2,\n",
          edited(testing::kRowJ, "dualFuel,outdoor", "dualFuel,off"),
          edited(edited(testing::kRowJWithKit, "OG,T,RV,K,O", "OG,T,RV,K,/S"), "OG,K,O,O,O", "OG,K,/S,O,O"),
          edited(testing::kRowR, "RD,A,R,O,R", "RD,A,*,O,*"),
          edited(edited(kRowA, "rc-1h1c-common", "rc-series-fed"), "BU,T,C,F,C", "BU,T,*,F,*")};
}

TEST(Sentences, EveryFindingIsToldInBothLanguagesWithNothingLeftOver) {
  const auto& library = equipment::standardLibrary();
  QSet<QString> rules;
  for (const std::string& csv : faultySheets()) {
    const auto sheet = sheet::readCsv(csv, library);
    ASSERT_TRUE(sheet);
    const auto check = verify::check(*sheet.value, operation::solveSheet(*sheet.value, library));
    EXPECT_FALSE(check.findings.empty()) << csv;
    for (const auto& finding : check.findings)
      for (const auto* language : {&Language::english(), &Language::spanish()}) {
        const Context context{*sheet.value, library};
        const QString rule = QString::fromStdString(finding.rule);
        rules << rule;
        EXPECT_TRUE(language->has("finding." + rule + ".title")) << finding.rule;
        EXPECT_TRUE(language->has("finding." + rule + ".what")) << finding.rule;
        const QString all =
            findingTitle(*language, finding, context) + u'\n' + findingText(*language, finding, context);
        EXPECT_FALSE(all.contains(u'{')) << all.toStdString();
        EXPECT_FALSE(all.contains("finding")) << all.toStdString();
        EXPECT_NE(all, language->sentence("finding-unknown") + u'\n' + language->sentence("finding-unknown"));
      }
  }
  EXPECT_GT(rules.size(), 15);
}

TEST(Sentences, WhatChanceDecidesNamesBothEnds) {
  const auto sheet = sheet::readCsv(kRowA, equipment::standardLibrary());
  ASSERT_TRUE(sheet);
  const verify::Finding race{"race",
                             verify::severityOf("race"),
                             {},
                             {{"call", verify::CallName{"cool1"}},
                              {"one", verify::DutyList{{"blower"}}},
                              {"other", verify::DutyList{{"compressor1"}}}}};
  const Context context{*sheet.value, equipment::standardLibrary()};
  const QString told = findingText(Language::english(), race, context);
  EXPECT_TRUE(told.contains("indoor blower") && told.contains("compressor")) << told.toStdString();
  EXPECT_FALSE(told.contains(u'{')) << told.toStdString();
}

TEST(Sentences, EveryStepAndCautionIsTold) {
  const auto& library = equipment::standardLibrary();
  for (const std::string* csv : {&kRowA, &kRowB, &kRowG, &testing::kRowJWithKit, &testing::kRowR}) {
    const auto sheet = sheet::readCsv(*csv, library);
    const auto solution = operation::solveSheet(*sheet.value, library);
    for (const auto& step : checklist::checklistFor(*sheet.value, solution))
      for (const auto* language : {&Language::english(), &Language::spanish()}) {
        const QString text = stepText(*language, step, {*sheet.value, library});
        EXPECT_FALSE(text.isEmpty() || text.contains(u'{')) << step.key;
        EXPECT_TRUE(
            language->has("step." + QString::fromStdString(step.instruction) + ".title") ||
            !language->variant("step." + QString::fromStdString(step.instruction) + ".title", {}).isEmpty())
            << step.instruction;
        for (const auto& caution : step.cautions)
          EXPECT_TRUE(language->has("caution." + QString::fromStdString(caution) + ".text")) << caution;
      }
  }
}

TEST(Numbers, FollowTheLanguage) {
  EXPECT_EQ(Language::english().quantity(26.44, "V", 1).toStdString(), "26.4\u202FV");
  EXPECT_EQ(Language::spanish().quantity(26.44, "V", 1).toStdString(), "26,4\u202FV");
  EXPECT_EQ(Language::english().quantity(1500, "ohm", 1).toStdString(), "1.5\u202FkΩ");
  EXPECT_EQ(Language::english().number(-0.01, 1).toStdString(), "0.0");
  EXPECT_EQ(Language::english().quantity(15, "m", 1).toStdString(), "49.2\u202Fft");
}

TEST(Numbers, AreGroupedThroughoutOrNotAtAll) {
  EXPECT_EQ(Language::english().number(4194.3, 1).toStdString(), "4,194.3");
  EXPECT_EQ(Language::english().number(4194304, 0).toStdString(), "4,194,304");
  EXPECT_EQ(Language::spanish().number(4194.3, 1).toStdString(), "4194,3");
  EXPECT_EQ(Language::spanish().number(41943, 0).toStdString(), "41.943");
  EXPECT_EQ(Language::spanish().number(-4194304.5, 1).toStdString(), "-4.194.304,5");
}

TEST(Numbers, DecideBetweenOneAndMany) {
  const auto& english = Language::english();
  EXPECT_EQ(english.sentence("report.verdict.open", {}, 1).toStdString(), "One point is left open.");
  EXPECT_EQ(english.sentence("report.verdict.open", {{"n", "3"}}, 3).toStdString(),
            "3 points are left open.");
}

}  // namespace
}  // namespace ww::wording
