// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences as people read them: nothing left unfilled, nothing unsaid, over the demo jobs and over sheets
// and files with faults.
#include "wording/sentences.h"

#include <gtest/gtest.h>

#include <QRegularExpression>
#include <QSet>
#include <random>

#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_water.h"
#include "support/report_texts.h"
#include "support/shared_conductor.h"
#include "support/sheet_edits.h"

namespace ww::wording {
namespace {

const Language* const kLanguages[] = {&Language::english(), &Language::spanish()};

/// What a parameter that nothing filled leaves behind: a brace, a gap, or a mark that stands alone.
bool hasGap(const QString& text) {
  static const QRegularExpression gap(QStringLiteral("[{}]|  | [,.;:!?)](?!\\w)|\\( |\\(\\)|^\\s|\\s$"));
  return gap.match(text).hasMatch();
}

/// Names, places and remarks of the demo jobs stay as they were typed, and a law is cited by its own name.
bool isTyped(const QString& text) {
  for (const char* piece :
       {"Larkmoor", "Quillmoor", "Label the second disconnect", "North side", "East side", " CFR "})
    if (text.contains(QString::fromLatin1(piece))) return true;
  return false;
}

TEST(Gaps, AreSeen) {
  for (const char* text :
       {"On  nothing runs", "Across the stand .", "at , and", "( V)", "{volts}", "ends with "})
    EXPECT_TRUE(hasGap(QString::fromUtf8(text))) << text;
  for (const char* text : {"Y to C, 26.4 V (guaranteed 20.4 V).", "R > Y: A", "2.5 V"})
    EXPECT_FALSE(hasGap(QString::fromUtf8(text))) << text;
}

TEST(Report, SaysEverythingInBothLanguages) {
  for (const char* name : testing::kDemos) {
    const auto demo = testing::loadDemo(name);
    QStringList said[2];
    for (int k = 0; k < 2; ++k) {
      said[k] = testing::ReportTexts(demo.report, *kLanguages[k], demo.sheet).all();
      const QString unknown = kLanguages[k]->sentence(QStringLiteral("word.unknown"));
      for (const QString& text : said[k]) {
        EXPECT_FALSE(hasGap(text)) << name << ": " << text.toStdString();
        EXPECT_NE(text, unknown) << name;
      }
    }
    ASSERT_EQ(said[0].size(), said[1].size());
    int sentences = 0;
    // What both languages say alike is not translated; names of people's own stay.
    for (qsizetype i = 0; i < said[0].size(); ++i)
      if (said[0][i].count(u' ') >= 3) {
        ++sentences;
        if (said[0][i] == said[1][i] && !isTyped(said[0][i])) {
          ADD_FAILURE() << name << ": " << said[0][i].toStdString();
        }
      }
    EXPECT_GT(sentences, 20) << name;
  }
}

/// Rows A, B and G with one to three random edits each: whatever the check finds is told.
TEST(Findings, OfRandomlyEditedSheetsAreTold) {
  const auto& library = equipment::standardLibrary();
  const sheet::Sheet rows[] = {testing::rowA(), testing::rowB(), testing::rowG()};
  QSet<QString> rules;
  for (unsigned seed = 1; seed <= 120; ++seed) {
    std::mt19937 random(seed);
    sheet::Sheet sheet = rows[seed % 3];
    for (unsigned k = 0; k <= random() % 3; ++k) testing::editAtRandom(sheet, library, random);
    const Context context{sheet, library};
    for (const auto& finding : verify::check(sheet, operation::solveSheet(sheet, library)).findings)
      for (const auto* language : kLanguages) {
        rules << QString::fromStdString(finding.rule);
        const QString title = findingTitle(*language, finding, context);
        const QString text = findingText(*language, finding, context);
        const QString unknown = language->sentence(QStringLiteral("finding-unknown"));
        EXPECT_FALSE(title == unknown || text == unknown) << finding.rule;
        EXPECT_FALSE(hasGap(title)) << finding.rule << ": " << title.toStdString();
        EXPECT_FALSE(hasGap(text)) << finding.rule << ": " << text.toStdString();
        EXPECT_TRUE(text.endsWith(u'.') || text.contains(QChar(0x203A))) << text.toStdString();
      }
  }
  EXPECT_GE(rules.size(), 12);
}

/// A shared conductor, right and with each mistake: findings, and what to expect on it.
TEST(SharedConductor, IsToldInBothLanguages) {
  const auto& library = equipment::standardLibrary();
  const auto row = [&](const char* piece, const char* by) {
    return *sheet::readCsv(testing::edited(testing::kRowShared, piece, by), library).value;
  };
  const sheet::Sheet sheets[] = {
      row("1h1c-common", "1h1c-common"), row("1h1c-common", "1h1c-solidstate"),
      row("YE,T,/X,F,/X", "YE,T,/X,F,W"),
      *sheet::readCsv(testing::edited(testing::edited(testing::kRowShared, "F,/C,K,C", "F,/C,K,X"),
                                      "F,/X,K,X", "F,/X,K,C"),
                      library)
           .value};
  for (const auto* language : kLanguages) {
    QSet<QString> said, rules;
    for (const auto& sheet : sheets) {
      const Context context{sheet, library};
      const auto solution = operation::solveSheet(sheet, library);
      for (const auto& finding : verify::check(sheet, solution).findings) {
        const QString text = findingText(*language, finding, context);
        EXPECT_FALSE(hasGap(text)) << text.toStdString();
        if (finding.rule.starts_with("share-")) said << text.section(u':', 1);
        rules << QString::fromStdString(finding.rule);
      }
      for (const auto& step : checklist::checklistFor(sheet, solution)) {
        const QString expected = halfWaveText(*language, step), text = stepText(*language, step, context);
        EXPECT_EQ(expected.isEmpty(), !step.halfWave) << step.key;
        EXPECT_FALSE(hasGap(text)) << text.toStdString();
        EXPECT_TRUE(text.endsWith(expected)) << text.toStdString();
        if (step.halfWave) said << expected.section(u' ', 0, 9);
      }
    }
    EXPECT_TRUE(rules.contains("share-swapped") && rules.contains("share-unfit"));
    EXPECT_GE(said.size(), 7) << "three ways unfit or swapped, four kinds of reading";
  }
}

/// A half wave of 24 V: 17.0 V true rms, 10.8 V direct, away from X for the second call, 13.1 V and 13.2 V on
/// meters that see no direct volts.
TEST(SharedConductor, TellsTheFiguresOfAHalfWave) {
  checklist::Step step;
  step.measure = checklist::Measure::acVolts;
  step.halfWave = {0, 24};
  const QString text = halfWaveText(Language::english(), step);
  for (const char* figure : {"17.0", "-10.8", "13.1", "13.2", "15"})
    EXPECT_TRUE(text.contains(QLatin1String(figure))) << text.toStdString();
  step.halfWave = {24, 0};
  EXPECT_FALSE(halfWaveText(Language::english(), step).contains("-10.8"));
}

TEST(SharedConductor, StandsInTheReportWithoutABand) {
  const auto demo = testing::loadDemo("larkmoor-a-shared-conductor");
  for (const auto* language : kLanguages) {
    const QStringList said = testing::ReportTexts(demo.report, *language, demo.sheet).all();
    EXPECT_EQ(said.count(language->sentence(QStringLiteral("report.reading.half-wave"))), 5);
  }
}

/// Every rule that has a sentence has both of them in both languages.
TEST(Findings, HaveTitleAndTextForEveryRule) {
  int rules = 0;
  for (const QString& key : Language::english().keys()) {
    if (!key.startsWith("finding.")) continue;
    const QString rule = key.section(u'.', 1, 1);
    ++rules;
    for (const auto* language : kLanguages)
      for (const char* form : {"title", "what"})
        EXPECT_FALSE(language->templateOf("finding." + rule + u'.' + form, 2).isEmpty())
            << rule.toStdString();
  }
  EXPECT_GT(rules, 50);
}

TEST(Findings, NameTheSecondPlaceToo) {
  const auto& library = equipment::standardLibrary();
  const std::string row =
      testing::edited(testing::edited(testing::kRowA, "#unit,O,", "#unit,S,float-switch\n#unit,O,"),
                      "YE,F,Y,O,Y", "YE,F,/S1,O,Y") +
      "3,18,2,1,m,RD,F,/S1,S,A,\n3,18,2,1,m,WH,F,Y,S,B,\n";
  const sheet::Sheet sheet = *sheet::readCsv(row, library).value;
  const auto findings = verify::check(sheet, operation::solveSheet(sheet, library)).findings;
  ASSERT_FALSE(findings.empty());
  EXPECT_EQ(findings.front().rule, "float-side");
  for (const auto* language : kLanguages) {
    const QString what = findingWhat(*language, findings.front(), {sheet, library});
    EXPECT_FALSE(hasGap(what)) << what.toStdString();
  }
}

TEST(Calls, AreNamedByZoneAndCondition) {
  const auto english = [](const char* call) { return callName(Language::english(), call).toStdString(); };
  EXPECT_EQ(english("cold.heat1"), "Heat 1, below changeover");
  EXPECT_EQ(english("zone2.cold.heat1"), "Heat 1, below changeover, zone 2");
  EXPECT_EQ(english("unoccupied.rest"), "Rest, nobody in");
  EXPECT_EQ(english("zones.heat1"), "Heat 1, all zones");
  EXPECT_EQ(callName(Language::spanish(), "unoccupied.cool1").toStdString(), "Frío 1, sin ocupantes");
}

TEST(Cautions, AreToldWithTheirSourceAndOnesOwnByTheirWords) {
  const auto told = [](const char* caution) {
    return cautionWithSource(Language::english(), caution).toStdString();
  };
  EXPECT_EQ(told("class-2-apart"),
            "Keep Class 2 wiring apart from power conductors. (NEC Article 725, separation of Class 2 "
            "conductors)");
  EXPECT_EQ(told("lid-is-sharp"), "lid is sharp (the unit's profile)");
}

/// Fan and heat exchanged at a water coil: the blower of a cooling call hangs on a safety.
TEST(Findings, ASafetyThatHasToBeOpenIsNamed) {
  const auto& library = equipment::standardLibrary();
  const std::string csv = testing::edited(testing::edited(testing::kRowP, "GN,T,G,A,G", "GN,T,G,A,W"),
                                          "WH,T,W,A,W", "WH,T,W,A,G");
  const sheet::Sheet sheet = *sheet::readCsv(csv, library).value;
  const auto finding = verify::check(sheet, operation::solveSheet(sheet, library)).findings.front();
  ASSERT_EQ(finding.rule, "compressor-without-blower");
  const Context context{sheet, library};
  EXPECT_TRUE(findingWhy(Language::english(), finding, context).contains(QStringLiteral("is open")));
  EXPECT_TRUE(findingWhy(Language::spanish(), finding, context).contains(QStringLiteral("abierto")));
  for (const Language* language : kLanguages) EXPECT_FALSE(hasGap(findingText(*language, finding, context)));
}

/// Problems of files damaged at random: each has its own sentence, and says where.
TEST(Problems, OfDamagedSheetsAreTold) {
  const auto& library = equipment::standardLibrary();
  const std::string* rows[] = {&testing::kRowA, &testing::kRowB, &testing::kRowG};
  const std::string signs = "Q7,\n\"#;x*/. -";
  QSet<QString> keys;
  for (unsigned seed = 1; seed <= 400; ++seed) {
    std::mt19937 random(seed);
    std::string text = *rows[seed % 3];
    for (unsigned k = 0; k <= random() % 2; ++k)
      text[random() % text.size()] = signs[random() % signs.size()];
    const auto loaded = sheet::readCsv(text, library);
    for (const auto& problem : loaded.problems)
      for (const auto* language : kLanguages) {
        keys << QString::fromStdString(problem.key);
        const QString said = problemText(*language, problem, QStringLiteral("job.csv"));
        EXPECT_TRUE(said.contains("job.csv")) << said.toStdString();
        EXPECT_TRUE(said.contains(QString::fromStdString(problem.where).remove("row ")))
            << said.toStdString();
        EXPECT_FALSE(said.contains(language->sentence(QStringLiteral("problem-unknown")))) << problem.key;
        EXPECT_FALSE(said.contains(u'{')) << said.toStdString();
      }
  }
  EXPECT_GE(keys.size(), 10);
}

TEST(Problems, OfDamagedJobsAreTold) {
  const auto& library = equipment::standardLibrary();
  std::ifstream file(std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/larkmoor-g-heat-pump.json");
  const std::string whole(std::istreambuf_iterator<char>(file), {});
  ASSERT_GT(whole.size(), 1000u);
  QSet<QString> keys;
  for (unsigned seed = 1; seed <= 150; ++seed) {
    std::mt19937 random(seed);
    std::string text = whole;
    const size_t at = random() % text.size();
    if (seed % 3 == 0)
      text.resize(at);
    else
      text[at] = "x0,\"-}"[random() % 6];
    for (const auto& problem : job::readDocument(text, library).problems)
      for (const auto* language : kLanguages) {
        keys << QString::fromStdString(problem.key);
        const QString said = problemText(*language, problem);
        EXPECT_FALSE(said.contains(language->sentence(QStringLiteral("problem-unknown")))) << problem.key;
        EXPECT_FALSE(said.contains("{}") || said.contains("  ")) << said.toStdString();
      }
  }
  EXPECT_GE(keys.size(), 5);
}

TEST(Plurals, HaveBothFormsAndTheNumberInTheOther) {
  int plurals = 0;
  for (const QString& key : Language::english().keys()) {
    if (!key.endsWith("#other")) continue;
    ++plurals;
    const QString base = key.chopped(6);
    // One language may say both alike ("1 marginal, 2 marginal"); where all do, the key needs no plural.
    int apart = 0;
    for (const auto* language : kLanguages) {
      EXPECT_FALSE(language->templateOf(base, 1).isEmpty()) << base.toStdString();
      EXPECT_TRUE(language->templateOf(base, 2).contains("{n}")) << base.toStdString();
      apart += language->templateOf(base, 1) != language->templateOf(base, 2);
      EXPECT_EQ(language->templateOf(base, 0), language->templateOf(base, 2)) << base.toStdString();
    }
    EXPECT_GT(apart, 0) << base.toStdString();
  }
  EXPECT_GT(plurals, 0);
}

TEST(Locale, APersonsUnitsGoBeforeTheCountrys) {
  const Language chosen = Language::english().measuring({.feet = false, .awg = false, .fahrenheit = false});
  EXPECT_EQ(chosen.quantity(15, "m", 1).toStdString(), "15.0\u202Fm");
  EXPECT_EQ(chosen.quantity(4, "C", 0).toStdString(), "4\u202F°C");
  EXPECT_FALSE(chosen.showsGauges());
  const Language feet = Language::spanish().measuring({});
  EXPECT_EQ(feet.quantity(15, "m", 1).toStdString(), "49,2\u202Fft");
  EXPECT_EQ(feet.quantity(-40, "C", 0).toStdString(), "-40\u202F°F");
  EXPECT_TRUE(feet.showsGauges());
  EXPECT_FALSE(Language::spanish().measuresInFahrenheit());
}

TEST(Locale, DecidesDecimalsDaysAndFeet) {
  const auto& english = Language::english();
  const auto& spanish = Language::spanish();
  EXPECT_EQ(english.number(0.75, 2).toStdString(), "0.75");
  EXPECT_EQ(spanish.number(0.75, 2).toStdString(), "0,75");
  EXPECT_TRUE(english.measuresInFeet());
  EXPECT_FALSE(spanish.measuresInFeet());
  EXPECT_EQ(spanish.quantity(15, "m", 1).toStdString(), "15,0\u202Fm");
  EXPECT_NE(english.day("2026-03-12"), spanish.day("2026-03-12"));
  EXPECT_TRUE(english.day("2026-03-12").contains("2026"));
  EXPECT_EQ(english.list({"a"}), "a");
  EXPECT_EQ(english.list({"a", "b", "c"}).toStdString(), "a, b and c");
  EXPECT_EQ(spanish.list({"a", "b"}).toStdString(), "a y b");
  EXPECT_EQ(bandText(spanish, {23.84, 26.91, 25.4, 0.7, false}, "V").toStdString(), "23,8 a 26,9\u202FV");
  EXPECT_EQ(bandText(english, {23.84, 26.91, 25.4, 0.7, false}, "V").toStdString(), "23.8 to 26.9\u202FV");
}

}  // namespace
}  // namespace ww::wording
