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
#include <array>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "checklist/checklist.h"
#include "document/report_builder.h"
#include "job/document_file.h"
#include "job/job_json.h"
#include "paint/pdf_file.h"
#include "support/report_texts.h"
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

using testing::DemoReport;
using testing::loadDemo;

/// Compatibility forms (ligatures) undone and all white space gone, for a line may break anywhere.
QString plain(const QString& text) {
  QString out;
  for (const QChar c : text.normalized(QString::NormalizationForm_KC))
    if (!c.isSpace() && c != QChar(0x200B) && c != QChar(0x00AD)) out += c;
  return out;
}

/// Whether the page text holds all of a sentence, which may be broken into lines of a column anywhere.
bool holds(const QString& page, const QString& sentence) {
  const QStringList words = sentence.simplified().split(u' ');
  for (qsizetype from = 0; from < words.size();) {
    QString run = plain(words[from]);
    if (!page.contains(run)) return false;
    while (++from < words.size() && page.contains(run + plain(words[from]))) run += plain(words[from]);
  }
  return true;
}

struct Written {
  QByteArray bytes;
  PdfResult result;
};

QByteArray contentOf(const QString& path) {
  QFile file(path);
  return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

Written write(const DemoReport& demo, const wording::Language& language, PaperSize paper,
              const QString& path) {
  application();
  Written written;
  written.result = writePdf(demo.report, demo.sheet, equipment::standardLibrary(), language, paper, path);
  written.bytes = contentOf(path);
  return written;
}

Written reportOf(const std::string& demo, const wording::Language& language, PaperSize paper,
                 const QString& path) {
  return write(loadDemo(demo), language, paper, path);
}

using testing::kDemos;

struct Edition {
  const char* demo;
  bool spanish;
  PaperSize paper;
};

std::ostream& operator<<(std::ostream& out, const Edition& edition) {
  return out << edition.demo << (edition.spanish ? " es" : " en")
             << (edition.paper == PaperSize::a4 ? " A4" : " Letter");
}

class Report : public ::testing::TestWithParam<Edition> {
 protected:
  static void SetUpTestSuite() { application(); }
  void SetUp() override {
    demo_ = loadDemo(GetParam().demo);
    path_ = folder_.filePath("report.pdf");
    written_ = write(demo_, language(), GetParam().paper, path_);
    ASSERT_TRUE(written_.result);
    document_ = Poppler::Document::load(path_);
    ASSERT_TRUE(document_);
  }
  const wording::Language& language() const {
    return GetParam().spanish ? wording::Language::spanish() : wording::Language::english();
  }
  /// Line by line as it lies on the page.
  QString textOf(int page) const {
    return std::unique_ptr<Poppler::Page>(document_->page(page))->text(QRectF());
  }

  QTemporaryDir folder_;
  QString path_;
  DemoReport demo_;
  Written written_;
  std::unique_ptr<Poppler::Document> document_;
};

TEST_P(Report, PassesQpdf) {
  EXPECT_TRUE(written_.bytes.startsWith("%PDF-1.4"));
  const std::string command =
      "qpdf --check " + path_.toStdString() + " > " + path_.toStdString() + ".txt 2>&1";
  EXPECT_EQ(std::system(command.c_str()), 0) << contentOf(path_ + ".txt").toStdString();
}

TEST_P(Report, PrintsItsNumberOfPagesAndTheAddressOnEach) {
  ASSERT_EQ(document_->numPages(), written_.result.pages);
  const int pages = document_->numPages();
  const QString foot =
      GetParam().spanish ? QStringLiteral("página %1 de %2") : QStringLiteral("page %1 of %2");
  for (int i = 0; i < pages; ++i) {
    const QString text = plain(textOf(i));
    EXPECT_TRUE(text.contains(plain(foot.arg(i + 1).arg(pages)))) << i + 1;
    EXPECT_TRUE(text.contains(plain(QString::fromStdString(demo_.report.head.address)))) << i + 1;
    EXPECT_TRUE(text.contains(plain(QString::fromStdString(demo_.job.number)))) << i + 1;
  }
}

/// Verdict, findings, every cell of every table, cautions, legend and signatures can be searched for.
TEST_P(Report, HoldsEveryTextOfTheReportAsText) {
  QString all;
  for (int i = 0; i < document_->numPages(); ++i) all += plain(textOf(i));
  const testing::ReportTexts texts(demo_.report, language(), demo_.sheet);
  ASSERT_GT(texts.all().size(), 200);
  for (const QString& text : texts.all()) {
    EXPECT_TRUE(holds(all, text)) << text.toStdString();
    EXPECT_FALSE(text.contains(u'{')) << text.toStdString();
  }
  const wording::Context context{demo_.sheet, equipment::standardLibrary()};
  for (const auto& finding : demo_.findings) {
    EXPECT_TRUE(holds(all, wording::findingTitle(language(), finding, context))) << finding.rule;
    EXPECT_TRUE(holds(all, wording::findingText(language(), finding, context))) << finding.rule;
  }
}

TEST_P(Report, EmbedsEveryFont) {
  EXPECT_FALSE(document_->fonts().isEmpty());
  for (const auto& font : document_->fonts()) {
    EXPECT_TRUE(font.isEmbedded()) << font.name().toStdString();
    EXPECT_TRUE(font.name().contains("NotoSans")) << font.name().toStdString();
  }
}

TEST_P(Report, HasABookmarkForEachSectionInOrder) {
  const auto outline = document_->outline();
  ASSERT_EQ(size_t(outline.size()), demo_.report.sections.size());
  int before = 1;
  for (qsizetype i = 0; i < outline.size(); ++i) {
    const auto& item = outline[i];
    ASSERT_TRUE(item.destination());
    const int page = item.destination()->pageNumber();
    EXPECT_GE(page, before);
    // The first page is headed by the address.
    const QString title = i == 0 ? QString::fromStdString(demo_.report.head.address) : item.name();
    EXPECT_TRUE(holds(plain(textOf(page - 1)), title)) << item.name().toStdString();
    before = page;
  }
}

TEST_P(Report, KeepsItsMarginsAndItsPaper) {
  constexpr double kMargin = 18 / 25.4 * 72 - 1;
  const QSizeF paper = GetParam().paper == PaperSize::a4 ? QSizeF(595, 842) : QSizeF(612, 792);
  int landscape = 0;
  for (int i = 0; i < document_->numPages(); ++i) {
    const std::unique_ptr<Poppler::Page> page(document_->page(i));
    QSizeF size = page->pageSizeF();
    const bool wide = size.width() > size.height();
    landscape += wide;
    EXPECT_NEAR(wide ? size.height() : size.width(), paper.width(), 1);
    EXPECT_NEAR(wide ? size.width() : size.height(), paper.height(), 1);
    const auto boxes = page->textList();
    EXPECT_FALSE(boxes.empty());
    for (const auto& box : boxes) {
      const QRectF at = box->boundingBox();
      EXPECT_GE(at.left(), kMargin) << "page " << i + 1 << ": " << box->text().toStdString();
      EXPECT_LE(at.right(), size.width() - kMargin) << "page " << i + 1 << ": " << box->text().toStdString();
      EXPECT_GE(at.top(), kMargin) << "page " << i + 1 << ": " << box->text().toStdString();
      EXPECT_LE(at.bottom(), size.height() - kMargin)
          << "page " << i + 1 << ": " << box->text().toStdString();
    }
  }
  EXPECT_EQ(landscape, 1) << "the diagram";
}

std::vector<Edition> editions() {
  std::vector<Edition> all;
  for (const char* demo : kDemos)
    for (const bool spanish : {false, true})
      for (const PaperSize paper : {PaperSize::letter, PaperSize::a4}) all.push_back({demo, spanish, paper});
  return all;
}

/// Share of the page's height down to its last line above the foot.
double filledTo(const Poppler::Page& page) {
  const double height = page.pageSizeF().height(), foot = height - 18 / 25.4 * 72 - 20;
  double lowest = 0;
  for (const auto& box : page.textList())
    if (const double bottom = box->boundingBox().bottom(); bottom < foot) lowest = std::max(lowest, bottom);
  return lowest / height;
}

TEST_P(Report, TellsTheOwnerOnOnePageAndLeavesNoSpillOnTheLast) {
  const auto outline = document_->outline();
  EXPECT_EQ(outline.at(0).destination()->pageNumber(), 1);
  EXPECT_EQ(outline.at(1).destination()->pageNumber(), 2);
  const std::unique_ptr<Poppler::Page> last(document_->page(document_->numPages() - 1));
  EXPECT_GT(filledTo(*last), 0.25);
}

TEST_P(Report, NumbersItsSectionsFromTheOwnersPageOn) {
  const auto outline = document_->outline();
  for (qsizetype i = 0; i < outline.size(); ++i)
    EXPECT_TRUE(outline[i].name().startsWith(QString::number(i + 1) + "  "))
        << outline[i].name().toStdString();
}

INSTANTIATE_TEST_SUITE_P(Demos, Report, ::testing::ValuesIn(editions()), [](const auto& edition) {
  std::string name;
  for (const char c : std::string(edition.param.demo).substr(9)) name += std::isalnum(c) ? c : '_';
  return name + (edition.param.spanish ? "_es" : "_en") +
         (edition.param.paper == PaperSize::a4 ? "_a4" : "_letter");
});

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
  EXPECT_TRUE(text.contains("/DestOutputProfile"));
  EXPECT_TRUE(text.contains("/GTS_PDFA1"));
  EXPECT_TRUE(text.contains("/ID ["));
  EXPECT_FALSE(text.contains("/Encrypt"));
  EXPECT_FALSE(text.contains("/S /Transparency"));
  EXPECT_FALSE(text.contains("/JavaScript"));
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

TEST(Pdf, InformationAndMetadataTellTheSame) {
  QTemporaryDir folder;
  const QString path = folder.filePath("report.pdf");
  ASSERT_TRUE(
      reportOf("larkmoor-b-electric-air-handler", wording::Language::spanish(), PaperSize::a4, path).result);
  const auto document = Poppler::Document::load(path);
  ASSERT_TRUE(document);
  const QString metadata = document->metadata();
  const QDateTime created = document->creationDate();
  ASSERT_TRUE(created.isValid());
  EXPECT_TRUE(metadata.contains(created.toUTC().toString(Qt::ISODate))) << metadata.toStdString();
  EXPECT_EQ(created, document->modificationDate());
  EXPECT_FALSE(document->title().isEmpty());
  EXPECT_TRUE(metadata.contains(document->title().toHtmlEscaped()));
  EXPECT_TRUE(document->title().contains("7 Larkmoor Terrace"));
}

TEST(Pdf, AFolderInThePlaceOfTheFileIsAFailureAndNothingIsLeftBeside) {
  QTemporaryDir folder;
  ASSERT_TRUE(QDir(folder.path()).mkpath("report.pdf/inner"));
  const auto written = reportOf("larkmoor-a-furnace-cooling", wording::Language::english(), PaperSize::letter,
                                folder.filePath("report.pdf"));
  ASSERT_TRUE(written.result.failure);
  EXPECT_FALSE(written.result.failure->detail.isEmpty());
  EXPECT_EQ(QDir(folder.path()).entryList(QDir::AllEntries | QDir::Hidden | QDir::NoDotAndDotDot),
            QStringList("report.pdf"));
  EXPECT_TRUE(QDir(folder.path()).exists("report.pdf/inner"));
}

TEST(Pdf, AnEarlierReportStaysWhenTheNewOneCannotBeWritten) {
  QTemporaryDir folder;
  const QString path = folder.filePath("report.pdf");
  const auto first =
      reportOf("larkmoor-a-furnace-cooling", wording::Language::english(), PaperSize::letter, path);
  ASSERT_TRUE(first.result);
  const auto second = reportOf("larkmoor-b-electric-air-handler", wording::Language::english(),
                               PaperSize::letter, path + "/report.pdf");
  EXPECT_TRUE(second.result.failure);
  EXPECT_EQ(contentOf(path), first.bytes);
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
