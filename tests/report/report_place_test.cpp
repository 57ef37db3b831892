// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/report_place.h"

#include <gtest/gtest.h>
#include <poppler-qt6.h>

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPdfWriter>
#include <QPushButton>
#include <QSignalSpy>
#include <QTemporaryDir>

#include "support/sample_job.h"
#include "support/window.h"

namespace ww::report {
namespace {

class ReportView : public ::testing::Test {
 protected:
  ReportView() : place(desk.around) {
    job::Job job = testing::sampleJob();
    job.state = job::State::draft;
    job.signatures.clear();
    open = std::make_unique<session::OpenJob>(job, desk.around.library);
    place.askFile = [this](const QString&) { return file; };
    place.askPrinter = [](paint::PaperSize) { return nullptr; };
    testing::bringUp(place, open.get());
    settle();
  }
  ~ReportView() override { place.setJob(nullptr); }

  void settle() {
    ASSERT_TRUE(testing::waitFor([this] { return !place.busy(); }));
  }
  void press(int key, Qt::KeyboardModifiers held = {}) {
    QTest::keyClick(static_cast<QWidget*>(place.contents()), Qt::Key(key), held);
  }
  void openCloseSheet() {
    press(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_TRUE(testing::waitFor([this] { return place.closing(); }));
  }
  int rowOf(const QString& id) const {
    for (int row = 0; row < place.contents()->count(); ++row)
      if (place.contents()->item(row)->data(Qt::UserRole).toString() == id) return row;
    return -1;
  }

  testing::Desk desk;
  std::unique_ptr<session::OpenJob> open;
  QTemporaryDir folder;
  QString file = folder.filePath("report.pdf");
  ReportPlace place;
};

TEST_F(ReportView, ThePreviewIsThePdf) {
  ASSERT_GT(place.pages(), 3);
  EXPECT_FALSE(place.view()->image().isNull());
  press(Qt::Key_S, Qt::ControlModifier);
  settle();
  const auto pdf = Poppler::Document::load(file);
  ASSERT_NE(pdf, nullptr);
  pdf->setRenderHint(Poppler::Document::Antialiasing);
  pdf->setRenderHint(Poppler::Document::TextAntialiasing);
  ASSERT_EQ(pdf->numPages(), place.pages());
  const Source source{open->job(), &desk.around.library, &desk.around.language, paint::PaperSize::letter, {},
                      {}};
  const auto made = make(source);
  for (int page = 0; page < pdf->numPages(); ++page) {
    const QSizeF paper = pdf->page(page)->pageSizeF();
    const QSize pictured = made->pages->pictures()[size_t(page)].pageSize();
    EXPECT_NEAR(paper.width() * 10, pictured.width(), 2) << page;
    EXPECT_NEAR(paper.height() * 10, pictured.height(), 2) << page;
    // The same ink in the same places: both drawn alike, then so small that only the grey of each spot
    // counts.
    const double dpi = 800 / (paper.width() / 72);
    const QSize small(60, int(60 * paper.height() / paper.width()));
    const auto grey = [&](const QImage& image) {
      return image.scaled(small, Qt::IgnoreAspectRatio, Qt::SmoothTransformation)
          .convertToFormat(QImage::Format_Grayscale8);
    };
    const QImage ours = grey(pageImage(*made, page, 800));
    const QImage theirs = grey(pdf->page(page)->renderToImage(dpi, dpi));
    double difference = 0, ink = 0;
    for (int y = 0; y < small.height(); ++y)
      for (int x = 0; x < small.width(); ++x) {
        difference += std::abs(ours.constScanLine(y)[x] - theirs.constScanLine(y)[x]);
        ink += 255 - theirs.constScanLine(y)[x];
      }
    EXPECT_GT(ink, 0) << page;
    EXPECT_LT(difference, 0.35 * ink) << page;
  }
}

TEST_F(ReportView, KeysTurnPagesAndTheListFollows) {
  EXPECT_EQ(place.page(), 0);
  press(Qt::Key_PageDown);
  EXPECT_EQ(place.page(), 1);
  EXPECT_GT(place.contents()->currentRow(), 0);
  for (int i = 0; i < 50; ++i) press(Qt::Key_PageDown);
  EXPECT_EQ(place.page(), place.pages() - 1);
  for (int i = 0; i < 50; ++i) press(Qt::Key_PageUp);
  EXPECT_EQ(place.page(), 0);
  place.contents()->setCurrentRow(rowOf("diagram"));
  EXPECT_GT(place.page(), 1);
  const double before = place.view()->zoom();
  press(Qt::Key_Plus, Qt::ControlModifier);
  EXPECT_GT(place.view()->zoom(), before);
  press(Qt::Key_0, Qt::ControlModifier);
  EXPECT_DOUBLE_EQ(place.view()->zoom(), 1);
}

TEST_F(ReportView, PartsAreLeftOutOfPreviewAndFile) {
  const int all = place.pages();
  place.contents()->setCurrentRow(rowOf("diagram"));
  press(Qt::Key_Space);
  settle();
  EXPECT_LT(place.pages(), all);
  EXPECT_EQ(place.contents()->count(), 8);
  press(Qt::Key_S, Qt::ControlModifier);
  settle();
  EXPECT_EQ(Poppler::Document::load(file)->numPages(), place.pages());
  press(Qt::Key_Space);
  settle();
  EXPECT_EQ(place.pages(), all);
}

TEST_F(ReportView, PaperAndLanguageAreChosen) {
  place.paper()->setCurrentIndex(1);
  Q_EMIT place.paper()->activated(1);
  place.reportLanguage()->setCurrentIndex(1);
  Q_EMIT place.reportLanguage()->activated(1);
  settle();
  EXPECT_EQ(desk.around.preferences.paper, "a4");
  press(Qt::Key_S, Qt::ControlModifier);
  settle();
  const auto pdf = Poppler::Document::load(file);
  ASSERT_NE(pdf, nullptr);
  EXPECT_NEAR(pdf->page(0)->pageSizeF().width(), 595, 1);
  QString text;
  for (int page = 0; page < pdf->numPages(); ++page) text += pdf->page(page)->text({});
  EXPECT_TRUE(text.contains(wording::Language::spanish().sentence("report.section.equipment")));
}

TEST_F(ReportView, PrintsOnWhatIsGiven) {
  const QString paper = folder.filePath("printed.pdf");
  place.askPrinter = [&](paint::PaperSize) {
    auto device = std::make_shared<QPdfWriter>(paper);
    device->setResolution(paint::kPaperDpi);
    return device;
  };
  QSignalSpy said(&place, &fittings::Place::say);
  press(Qt::Key_P, Qt::ControlModifier);
  settle();
  ASSERT_EQ(said.count(), 1);
  EXPECT_TRUE(said[0][0].toString().contains(QString::number(place.pages())));
  EXPECT_EQ(Poppler::Document::load(paper)->numPages(), place.pages());
}

TEST_F(ReportView, WhatCannotBeWrittenIsTold) {
  file = "/nowhere-at-all/report.pdf";
  QSignalSpy said(&place, &fittings::Place::say);
  press(Qt::Key_S, Qt::ControlModifier);
  settle();
  ASSERT_GE(said.count(), 1);
  EXPECT_TRUE(said.back()[0].toString().contains(file));
  EXPECT_FALSE(said.back()[0].toString().contains("is written"));
  file.clear();
  said.clear();
  press(Qt::Key_S, Qt::ControlModifier);
  settle();
  EXPECT_EQ(said.count(), 0) << "given up";
}

TEST_F(ReportView, AClickGoesToItsStep) {
  QSignalSpy gone(&place, &fittings::Place::goTo);
  const Source source{open->job(), &desk.around.library, &desk.around.language, paint::PaperSize::letter, {},
                      {}};
  const auto made = make(source);
  const auto step = std::find_if(made->painted.areas.begin(), made->painted.areas.end(),
                                 [](const auto& area) { return area.what.starts_with("step:"); });
  ASSERT_NE(step, made->painted.areas.end());
  place.showPage(step->page);
  const QSize paper = made->pages->pictures()[size_t(step->page)].pageSize();
  const QRect page = place.view()->pageRect();
  const QPointF middle = step->box.center();
  const QPoint at(page.x() + int(middle.x() / paper.width() * page.width()),
                  page.y() + int(middle.y() / paper.height() * page.height()));
  QTest::mouseClick(place.view()->widget(), Qt::LeftButton, {}, at);
  ASSERT_EQ(gone.count(), 1);
  EXPECT_EQ("step:" + gone[0][1].toString().toStdString(), step->what);
  EXPECT_TRUE(gone[0][0].toString() == "dead" || gone[0][0].toString() == "live");
}

TEST_F(ReportView, WhatIsMissingSaysWhereToGo) {
  EXPECT_TRUE(place.openText().contains("not measured"));
  QSignalSpy gone(&place, &fittings::Place::goTo);
  for (QLabel* label : place.findChildren<QLabel*>())
    if (label->textFormat() == Qt::RichText) Q_EMIT label->linkActivated("0");
  ASSERT_EQ(gone.count(), 1);
  EXPECT_FALSE(gone[0][0].toString().isEmpty());
}

TEST_F(ReportView, AReadingOutsideItsBandStandsOpenAndLeadsToItsStep) {
  EXPECT_FALSE(place.openText().contains("outside its band"));
  const auto& steps = open->steps();
  const auto step = std::ranges::find_if(steps, [](const auto& each) {
    return each.phase == checklist::Phase::dead && each.band && !each.band->open;
  });
  ASSERT_NE(step, steps.end());
  job::Reading wrong;
  wrong.id = testing::sampleId(71);
  wrong.step = step->key;
  wrong.value = step->band->high * 10 + 50;
  wrong.unit = "ohm";
  wrong.band = step->band;
  wrong.entered = "x";
  wrong.by = "M. Ode";
  wrong.at = desk.time;
  ASSERT_TRUE(open->record(wrong));
  settle();
  EXPECT_TRUE(place.openText().contains("1 dead reading outside its band")) << place.openText().toStdString();
}

TEST_F(ReportView, ClosingSaysWhatStandsOpenAndDoesNotImprison) {
  QSignalSpy closed(&place, &fittings::Place::closeJob);
  openCloseSheet();
  CloseSheet* sheet = place.closeSheet();
  EXPECT_TRUE(sheet->name("installer")->hasFocus());
  EXPECT_TRUE(sheet->openText().contains("not measured"));
  EXPECT_TRUE(sheet->openText().contains("Not signed"));
  QTest::keyClicks(sheet->name("installer"), "J. Tamsin");
  QTest::keyClick(sheet->name("installer"), Qt::Key_Return);
  EXPECT_FALSE(sheet->complaint().isEmpty()) << "the list was not read";
  EXPECT_EQ(closed.count(), 0);
  EXPECT_TRUE(sheet->read()->hasFocus());
  QTest::keyClick(static_cast<QWidget*>(sheet->read()), Qt::Key_Space);
  sheet->form("owner")->setCurrentIndex(1);
  QTest::keyClicks(sheet->name("owner"), "A. Pennick");
  QTest::mouseClick(sheet->closeButton(), Qt::LeftButton);
  EXPECT_EQ(closed.count(), 1);
  ASSERT_EQ(open->job().signatures.size(), 2u);
  EXPECT_EQ(open->job().signatures[0].name, "J. Tamsin");
  EXPECT_EQ(open->job().signatures[0].form, "drawn");
  EXPECT_EQ(open->job().signatures[1].role, "owner");
  EXPECT_EQ(open->job().signatures[1].form, "on paper");
  EXPECT_EQ(open->job().signatures[1].at, desk.time);
}

TEST_F(ReportView, EscapeLeavesClosingAndNothingHappened) {
  QSignalSpy closed(&place, &fittings::Place::closeJob);
  openCloseSheet();
  QTest::keyClicks(place.closeSheet()->name("owner"), "A. Pennick");
  QTest::keyClick(place.closeSheet()->name("owner"), Qt::Key_Escape);
  EXPECT_FALSE(place.closing());
  EXPECT_TRUE(open->job().signatures.empty());
  EXPECT_EQ(closed.count(), 0);
}

TEST_F(ReportView, AClosedJobStillTakesASignature) {
  open->replaceState(job::State::closed);
  settle();
  QSignalSpy closed(&place, &fittings::Place::closeJob);
  openCloseSheet();
  QTest::mouseClick(place.closeSheet()->closeButton(), Qt::LeftButton);
  EXPECT_FALSE(place.closeSheet()->complaint().isEmpty()) << "a name is wanted";
  QTest::keyClicks(place.closeSheet()->name("owner"), "A. Pennick");
  QTest::mouseClick(place.closeSheet()->closeButton(), Qt::LeftButton);
  EXPECT_EQ(open->job().signatures.size(), 1u);
  EXPECT_EQ(closed.count(), 0);
}

TEST_F(ReportView, AChangeOfTheJobIsSeen) {
  const QString before = place.openText();
  session::Undoable next = session::undoableOf(open->job());
  next.openItems.push_back({testing::sampleId(70), "Order a cover", "", ""});
  open->edit("item", next);
  settle();
  EXPECT_NE(place.openText(), before);
  EXPECT_TRUE(place.openText().contains("Order a cover"));
}

TEST(ReportOfNothing, HasAPageAndSaysWhatIsMissing) {
  testing::Desk desk;
  ReportPlace place(desk.around);
  session::OpenJob open({}, desk.around.library);
  place.setJob(&open);
  place.show();
  place.enter();
  ASSERT_TRUE(testing::waitFor([&] { return !place.busy(); }));
  EXPECT_GE(place.pages(), 1);
  EXPECT_TRUE(place.openText().contains("address"));
  place.setJob(nullptr);
}

TEST(ReportTexts, AreNotCutInAnyLanguage) {
  for (const char* code : {"en", "es", "pseudo"}) {
    testing::Desk desk(code);
    job::Job job = testing::sampleJob();
    job.state = job::State::draft;
    session::OpenJob open(job, desk.around.library);
    ReportPlace place(desk.around);
    place.setJob(&open);
    place.resize(1112, 648);
    place.show();
    place.enter();
    ASSERT_TRUE(testing::waitFor([&] { return !place.busy(); }));
    const QListWidget* list = place.contents();
    for (int row = 0; row < list->count(); ++row)
      EXPECT_LE(list->fontMetrics().horizontalAdvance(list->item(row)->text()) + 28,
                list->viewport()->width())
          << code << ": " << list->item(row)->text().toStdString();
    testing::expectLabelsWhole(place, code);
    place.setJob(nullptr);
  }
}

}  // namespace
}  // namespace ww::report
