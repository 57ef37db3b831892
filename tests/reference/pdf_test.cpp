// SPDX-License-Identifier: GPL-3.0-or-later
// The report read back with poppler and checked with qpdf. Requirements of ISO 19005-1 level b as far as they
// can be read here: identification in the XMP, output intent, embedded fonts, no transparency (as reported
// for the standard).
#include <gtest/gtest.h>
#include <poppler/qt6/poppler-qt6.h>

#include <QDir>
#include <QFile>
#include <QGuiApplication>
#include <QRegularExpression>
#include <QTemporaryDir>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "checklist/checklist.h"
#include "document/report_builder.h"
#include "job/document_file.h"
#include "job/job_json.h"
#include "paint/pdf_file.h"
#include "verify/check.h"

namespace ww::paint {
namespace {

QGuiApplication& application() {
  static int count = 1;
  static char name[] = "test";
  static char* arguments[] = {name, nullptr};
  static QGuiApplication app(count, arguments);
  return app;
}

struct Written {
  QByteArray bytes;
  PdfResult result;
};

Written reportOf(const std::string& demo, const wording::Language& language, PaperSize paper,
                 const QString& path) {
  application();
  std::ifstream file(std::string(WIREWRIGHT_DEMO_DATA_DIR) + "/" + demo + ".json");
  std::stringstream text;
  text << file.rdbuf();
  const auto& library = equipment::standardLibrary();
  const auto job = job::readDocument(text.str(), library).value.value();
  const auto& sheet = *job::currentSheet(job);
  const auto solution = operation::solveSheet(sheet, library);
  std::vector<operation::CallResult> results;
  for (const auto& call : solution.calls) results.push_back(call.result);
  const auto report =
      document::build({job, library, solution.table, results, verify::check(sheet, solution).findings,
                       checklist::checklistFor(sheet, solution), "test", job::hashOf(job)});
  Written written;
  written.result = writePdf(report, sheet, library, language, paper, path);
  QFile out(path);
  if (out.open(QIODevice::ReadOnly)) written.bytes = out.readAll();
  return written;
}

constexpr const char* kDemos[] = {"larkmoor-a-furnace-cooling", "larkmoor-a-swapped-at-furnace",
                                  "larkmoor-b-electric-air-handler", "larkmoor-g-heat-pump",
                                  "larkmoor-g-wrong-valve-sense"};

TEST(Pdf, EveryDemoReadsBackInBothLanguagesAndOnBothPapers) {
  QTemporaryDir folder;
  for (const char* demo : kDemos)
    for (const auto* language : {&wording::Language::english(), &wording::Language::spanish()}) {
      const bool spanish = language == &wording::Language::spanish();
      const QString path = folder.filePath("report.pdf");
      const Written written = reportOf(demo, *language, spanish ? PaperSize::a4 : PaperSize::letter, path);
      ASSERT_TRUE(written.result) << demo;
      EXPECT_TRUE(written.bytes.startsWith("%PDF-1.4"));
      EXPECT_EQ(
          std::system(
              ("qpdf --check " + path.toStdString() + " > " + path.toStdString() + ".txt 2>&1").c_str()),
          0);
      const auto document = Poppler::Document::load(path);
      ASSERT_TRUE(document);
      EXPECT_EQ(document->numPages(), written.result.pages);
      for (const auto& font : document->fonts()) {
        EXPECT_TRUE(font.isEmbedded()) << font.name().toStdString();
        EXPECT_TRUE(font.name().contains("NotoSans")) << font.name().toStdString();
      }
      EXPECT_GE(document->outline().size(), 7) << "a bookmark a section";
      for (int i = 0; i < document->numPages(); ++i) {
        const std::unique_ptr<Poppler::Page> page(document->page(i));
        const QString text = page->text(QRectF()).normalized(QString::NormalizationForm_KC);
        const QString foot = spanish ? QStringLiteral("página %1 de %2") : QStringLiteral("page %1 of %2");
        EXPECT_TRUE(text.contains(foot.arg(i + 1).arg(document->numPages()))) << demo << " page " << i + 1;
        EXPECT_TRUE(text.contains("7 Larkmoor Terrace")) << demo << " page " << i + 1;
        EXPECT_FALSE(text.contains('{')) << "a parameter was not filled";
        const double margin = 18 / 25.4 * 72 - 1;
        const QSizeF size = page->pageSizeF();
        for (const auto& box : page->textList()) {
          EXPECT_GE(box->boundingBox().left(), margin) << box->text().toStdString();
          EXPECT_LE(box->boundingBox().right(), size.width() - margin) << box->text().toStdString();
        }
      }
    }
}

TEST(Pdf, IdentifiesItselfAsA1bAndIsOpaque) {
  QTemporaryDir folder;
  const QString path = folder.filePath("report.pdf");
  ASSERT_TRUE(reportOf("larkmoor-g-heat-pump", wording::Language::english(), PaperSize::letter, path).result);
  const QString plain = folder.filePath("plain.pdf");
  ASSERT_EQ(
      std::system(
          ("qpdf --qdf --object-streams=disable " + path.toStdString() + " " + plain.toStdString()).c_str()),
      0);
  QFile file(plain);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  const QString text = QString::fromLatin1(file.readAll());
  EXPECT_TRUE(text.contains("<pdfaid:part>1</pdfaid:part>"));
  EXPECT_TRUE(text.contains("<pdfaid:conformance>B</pdfaid:conformance>"));
  EXPECT_TRUE(text.contains("/OutputIntent"));
  EXPECT_FALSE(text.contains("/ObjStm"));
  EXPECT_FALSE(text.contains("/Subtype /Image")) << "the diagram is lines, not a picture";
  static const QRegularExpression alpha("/(ca|CA) ([0-9.]+)"), mask("/SMask (?!/None)");
  for (auto at = alpha.globalMatch(text); at.hasNext();) EXPECT_EQ(at.next().captured(2).toDouble(), 1.0);
  EXPECT_FALSE(mask.match(text).hasMatch());
}

TEST(Pdf, TheSameReportGivesTheSameBytes) {
  QTemporaryDir folder;
  const auto one = reportOf("larkmoor-a-furnace-cooling", wording::Language::english(), PaperSize::letter,
                            folder.filePath("1.pdf"));
  const auto two = reportOf("larkmoor-a-furnace-cooling", wording::Language::english(), PaperSize::letter,
                            folder.filePath("2.pdf"));
  EXPECT_FALSE(one.bytes.isEmpty());
  EXPECT_EQ(one.bytes, two.bytes);
}

TEST(Pdf, AnOutputThatCannotBeWrittenLeavesNothing) {
  QTemporaryDir folder;
  const QString path = folder.filePath("no-such-folder/report.pdf");
  const auto written =
      reportOf("larkmoor-a-furnace-cooling", wording::Language::english(), PaperSize::letter, path);
  EXPECT_FALSE(written.result);
  EXPECT_TRUE(QDir(folder.path()).isEmpty());
}

}  // namespace
}  // namespace ww::paint
