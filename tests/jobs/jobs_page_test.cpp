// SPDX-License-Identifier: GPL-3.0-or-later
// The start page: typing finds, keys reach everything, a list of thousands is fetched as it is scrolled.
#include "jobs/jobs_page.h"

#include <gtest/gtest.h>

#include <QLineEdit>
#include <QMenu>
#include <QMimeData>
#include <QPushButton>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTableView>

#include "jobs/preview_pane.h"
#include "jobs/row_delegate.h"
#include "support/fake_shelf.h"
#include "support/window.h"

namespace ww::jobs {
namespace {

using testing::Desk;
using testing::FakeShelf;

class JobsPageTest : public ::testing::Test {
 protected:
  explicit JobsPageTest(size_t count = 12408) : shelf(count), page(desk.around, shelf) {
    page.resize(1280, 648);
    page.show();
    EXPECT_TRUE(QTest::qWaitForWindowExposed(&page));
    page.enter();
  }
  void type(const QString& text) {
    QTest::keyClicks(QApplication::focusWidget(), text);
    QCoreApplication::processEvents();
  }
  static void press(Qt::Key key, Qt::KeyboardModifiers held = Qt::NoModifier) {
    QTest::keyClick(QApplication::focusWidget(), key, held);
  }

  Desk desk;
  FakeShelf shelf;
  JobsPage page;
};

class EmptyJobsPageTest : public JobsPageTest {
 protected:
  EmptyJobsPageTest() : JobsPageTest(0) {}
};

TEST_F(JobsPageTest, StartsInTheSearchFieldAndCounts) {
  EXPECT_TRUE(page.searchField()->hasFocus());
  EXPECT_EQ(page.countText().toStdString(), "12,408 of 12,408 jobs");
  type("104 N");
  EXPECT_EQ(shelf.queries.back(), "104 N");
  EXPECT_EQ(page.list()->model()->rowCount(), 13);  // 104, 1104, ... 12104
}

TEST_F(JobsPageTest, FetchesRowsAsTheListIsScrolled) {
  const int first = page.list()->model()->rowCount();
  EXPECT_LE(first, 200);
  page.list()->verticalScrollBar()->setValue(page.list()->verticalScrollBar()->maximum());
  EXPECT_GT(page.list()->model()->rowCount(), first);
}

TEST_F(JobsPageTest, DownEntersTheListEnterOpensTypingGoesBack) {
  QSignalSpy opened(&page, &JobsPage::openWanted);
  press(Qt::Key_Return);
  EXPECT_TRUE(page.list()->hasFocus());
  EXPECT_EQ(opened.count(), 0);
  EXPECT_EQ(shelf.previews.back(), "id-0");
  press(Qt::Key_Down);
  EXPECT_EQ(shelf.previews.back(), "id-1");
  press(Qt::Key_Return);
  ASSERT_EQ(opened.count(), 1);
  EXPECT_EQ(opened[0][0].value<std::string>(), "id-1");
  press(Qt::Key_7);
  EXPECT_TRUE(page.searchField()->hasFocus());
  EXPECT_EQ(page.searchField()->text(), "7");
}

TEST_F(JobsPageTest, AnotherQuestionBringsItsFirstAnswerToTheFront) {
  type("104 N");
  const std::string first = shelf.previews.back();
  press(Qt::Key_Return);
  press(Qt::Key_Down);
  const std::string second = shelf.previews.back();
  EXPECT_NE(second, first);
  page.reload();
  QCoreApplication::processEvents();
  EXPECT_EQ(shelf.previews.back(), second) << "the same question keeps what was looked at";
  press(Qt::Key_Backspace);
  QCoreApplication::processEvents();
  EXPECT_EQ(page.searchField()->text(), "104 ");
  EXPECT_TRUE(testing::waitFor([&] { return shelf.previews.back() == first; }));
}

TEST_F(JobsPageTest, PreviewTakesNoFocus) {
  press(Qt::Key_Down);
  press(Qt::Key_Down);
  EXPECT_TRUE(page.list()->hasFocus());
  ASSERT_TRUE(page.previewPane()->shown());
  EXPECT_EQ(page.previewPane()->shown()->id, "id-1");
}

TEST_F(JobsPageTest, DeleteBinsOnlyFromTheList) {
  QSignalSpy binned(&page, &JobsPage::binWanted);
  type("1");
  press(Qt::Key_Home);
  press(Qt::Key_Delete);
  EXPECT_EQ(binned.count(), 0);
  EXPECT_EQ(page.searchField()->text(), "");
  press(Qt::Key_Down);
  press(Qt::Key_A, Qt::ControlModifier);
  press(Qt::Key_Delete);
  ASSERT_EQ(binned.count(), 1);
  EXPECT_GT(binned[0][0].value<std::vector<std::string>>().size(), 50u);
}

TEST_F(JobsPageTest, FiltersAreWordsOfTheQuery) {
  QPushButton* state = nullptr;
  for (QPushButton* button : page.findChildren<QPushButton*>())
    if (button->text() == "State") state = button;
  ASSERT_TRUE(state);
  Q_EMIT state->menu()->aboutToShow();
  ASSERT_EQ(state->menu()->actions().size(), 2);
  state->menu()->actions()[1]->trigger();
  EXPECT_EQ(page.searchField()->text(), "state:closed");
  Q_EMIT state->menu()->aboutToShow();
  state->menu()->actions()[0]->trigger();
  EXPECT_EQ(page.searchField()->text(), "state:draft");
  EXPECT_TRUE(page.searchField()->hasFocus());
}

TEST_F(JobsPageTest, ActsOnTheJobInFront) {
  QSignalSpy callBack(&page, &JobsPage::callBackWanted), copy(&page, &JobsPage::duplicateWanted),
      print(&page, &JobsPage::printWanted);
  press(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
  press(Qt::Key_D, Qt::ControlModifier);
  press(Qt::Key_P, Qt::ControlModifier);
  EXPECT_EQ(callBack.count() + copy.count() + print.count(), 3);
  QSignalSpy exported(&page, &JobsPage::exportWanted);
  page.setFileQuestions({{}, [](QWidget*, const QString&) { return QStringLiteral("kept.json"); }});
  press(Qt::Key_E, Qt::ControlModifier);
  ASSERT_EQ(exported.count(), 1);
  EXPECT_EQ(exported[0][1].toString(), "kept.json");
}

TEST_F(JobsPageTest, ABinnedJobOffersRestoreAlone) {
  shelf.binned = "id-3";
  for (int i = 0; i < 4; ++i) press(Qt::Key_Down);
  EXPECT_TRUE(page.previewPane()->restore->isVisible());
  EXPECT_FALSE(page.previewPane()->open->isVisible());
  QSignalSpy restored(&page, &JobsPage::restoreWanted);
  QTest::mouseClick(page.previewPane()->restore, Qt::LeftButton);
  EXPECT_EQ(restored.count(), 1);
}

TEST_F(JobsPageTest, TakesFilesDropped) {
  QSignalSpy wanted(&page, &JobsPage::importWanted);
  QMimeData data;
  data.setUrls({QUrl::fromLocalFile(QStringLiteral("sheet.csv"))});
  QDropEvent drop(QPointF(50, 50), Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
  static_cast<QObject&>(page).event(&drop);
  ASSERT_EQ(wanted.count(), 1);
  EXPECT_EQ(wanted[0][0].toStringList().size(), 1);
}

TEST_F(JobsPageTest, NothingFoundIsOneSentenceAndEnterStartsAJob) {
  QSignalSpy started(&page, &JobsPage::newWanted);
  type("zzz");
  EXPECT_FALSE(page.list()->isVisible());
  EXPECT_FALSE(page.previewPane()->shown());
  press(Qt::Key_Return);
  EXPECT_EQ(started.count(), 1);
}

TEST_F(EmptyJobsPageTest, AnEmptyStoreOffersAFirstJobAndTheDemoJobs) {
  QSignalSpy demo(&page, &JobsPage::demoWanted);
  for (QPushButton* button : page.findChildren<QPushButton*>())
    if (button->text() == "Look at the demo jobs" && button->isVisible())
      QTest::mouseClick(button, Qt::LeftButton);
  EXPECT_EQ(demo.count(), 1);
}

TEST(Matches, AreBeginningsOfWordsWhateverCaseAndAccent) {
  using Found = std::vector<std::pair<qsizetype, qsizetype>>;
  EXPECT_EQ(matchesIn("14 North Oak Avenue, Unit 4", "n oak 4"), (Found{{3, 1}, {9, 3}, {26, 1}}));
  EXPECT_EQ(matchesIn("Élan Road", "elan"), (Found{{0, 4}}));
  EXPECT_EQ(matchesIn("State Street", "state:open"), Found{});
  EXPECT_EQ(matchesIn("", "x"), Found{});
}

TEST(Rows, LongWordsOfASystemStandInTwoLines) {
  const QFontMetrics metrics(testing::widgetApplication().font());
  const QString text = QStringLiteral("G Heat pump with electric auxiliary heat");
  const int whole = metrics.horizontalAdvance(text);
  EXPECT_EQ(inTwoLines(text, metrics, whole), text);
  const QStringList two = inTwoLines(text, metrics, whole * 3 / 4).split(u'\n');
  ASSERT_EQ(two.size(), 2);
  EXPECT_EQ(two.join(u' '), text);
  const QStringList cut = inTwoLines(text, metrics, whole / 3).split(u'\n');
  ASSERT_EQ(cut.size(), 2);
  EXPECT_TRUE(cut[1].endsWith(QChar(0x2026)));
  for (const QString& line : two + cut) EXPECT_LE(metrics.horizontalAdvance(line), whole * 3 / 4);
  EXPECT_FALSE(inTwoLines(QStringLiteral("Unbreakable"), metrics, 20).contains(u'\n'));
}

}  // namespace
}  // namespace ww::jobs
