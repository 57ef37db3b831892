// SPDX-License-Identifier: GPL-3.0-or-later
// The main job in the whole window: from an empty store to a printed report, by keyboard alone and by mouse
// alone.
#include <gtest/gtest.h>

#include <QFile>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QPdfWriter>
#include <QPushButton>
#include <QTableView>
#include <QToolButton>

#include "report/report_place.h"
#include "shell/top_bar.h"
#include "site/site_place.h"
#include "site/system_field.h"
#include "support/whole_window.h"
#include "wiring/wiring_place.h"

namespace ww::shell {
namespace {

using testing::WholeWindow;

/// The window system's own presses of keys, counted where the application gets them.
class Presses : public QObject {
 public:
  Presses() { qApp->installEventFilter(this); }
  bool eventFilter(QObject* watched, QEvent* event) override {
    if (watched->isWindowType() && event->type() == QEvent::KeyPress) {
      // A combination is one press; QTest gives its modifier keys beside.
      const int key = static_cast<QKeyEvent*>(event)->key();
      if (key != Qt::Key_Control && key != Qt::Key_Shift && key != Qt::Key_Alt) ++count;
    }
    if (event->type() == QEvent::MouseButtonPress) ++clicks;
    return false;
  }
  int count = 0, clicks = 0;
};

struct MainJob : WholeWindow {
  MainJob() {
    report().askPrinter = [this](paint::PaperSize) -> std::shared_ptr<QPagedPaintDevice> {
      auto writer = std::make_shared<QPdfWriter>(printed());
      return writer;
    };
    pdf = folder + QStringLiteral("/kept.pdf");
    report().askFile = [this](const QString&) { return pdf; };
  }
  QString printed() const { return folder + QStringLiteral("/printed.pdf"); }
  template <class P>
  P& stage(size_t i) {
    return dynamic_cast<P&>(*window->stages()[i].place);
  }
  site::SitePlace& site() { return stage<site::SitePlace>(0); }
  wiring::WiringPlace& wiring() { return stage<wiring::WiringPlace>(1); }
  report::ReportPlace& report() { return stage<report::ReportPlace>(5); }
  bool printedWhole() {
    return testing::waitFor([this] {
      QFile file(printed());
      return !report().busy() && file.open(QIODevice::ReadOnly) && file.size() > 2000 &&
             file.readAll().trimmed().endsWith("%%EOF");
    });
  }
  void click(QWidget* widget) {
    QTest::mouseClick(widget, Qt::LeftButton);
    QCoreApplication::processEvents();
  }
  /// To the field of the kind of system, and A taken.
  void chooseSystemA() {
    for (int guard = 0; guard < 12 && !site().system()->isAncestorOf(QApplication::focusWidget()); ++guard)
      press(Qt::Key_Tab);
    type(QStringLiteral("a"));
    press(Qt::Key_Return);
  }
  int looseEnds() {
    int loose = 0;
    for (const sheet::Conductor& wire : bench->job()->sheet().conductors)
      loose +=
          std::holds_alternative<sheet::Loose>(wire.endA) + std::holds_alternative<sheet::Loose>(wire.endB);
    return loose;
  }
  /// Nothing open above a note.
  std::string worst() {
    bench->job()->finishCheck();
    for (const verify::Finding* finding : bench->job()->openFindings())
      if (finding->severity != verify::Severity::note) return finding->rule;
    return {};
  }
};

TEST(MainJob, PlannedByKeyboardAlone) {
  MainJob whole;
  Presses presses;
  whole.press(Qt::Key_N, Qt::ControlModifier);
  ASSERT_TRUE(whole.bench->job());
  whole.chooseSystemA();
  ASSERT_EQ(whole.bench->job()->sheet().units.size(), 3u);
  whole.press(Qt::Key_2, Qt::AltModifier);
  // The ghost text offers the customary terminal of each end; Enter takes it.
  for (int guard = 0; guard < 40 && whole.looseEnds() > 0; ++guard) whole.press(Qt::Key_Return);
  EXPECT_EQ(whole.looseEnds(), 0);
  EXPECT_EQ(whole.worst(), "");
  whole.press(Qt::Key_6, Qt::AltModifier);
  whole.press(Qt::Key_P, Qt::ControlModifier);
  EXPECT_TRUE(whole.printedWhole());
  EXPECT_TRUE(whole.allSaved());
  EXPECT_EQ(presses.count, whole.keys);
  EXPECT_EQ(presses.clicks, 0);
  RecordProperty("keys", presses.count);
  std::printf("planned: %d keys\n", presses.count);
  EXPECT_LE(presses.count, 40);
}

TEST(MainJob, AsFoundByKeyboardAlone) {
  MainJob whole;
  Presses presses;
  whole.press(Qt::Key_N, Qt::ControlModifier);
  whole.chooseSystemA();
  whole.press(Qt::Key_2, Qt::AltModifier);
  for (int guard = 0; guard < 3 && whole.bench->job()->sheetInHand() != job::SheetState::asFound; ++guard)
    whole.press(Qt::Key_T, Qt::ControlModifier);
  ASSERT_EQ(whole.bench->job()->sheetInHand(), job::SheetState::asFound);
  ASSERT_EQ(QApplication::focusWidget(), &whole.wiring().table());
  // What is read off the screws, in the order of the table: letter, Enter.
  const sheet::Sheet& sheet = whole.bench->job()->sheet();
  const std::map<std::string, QString> screws{{"RD", QStringLiteral("r")},
                                              {"BU", QStringLiteral("c")},
                                              {"YE", QStringLiteral("y")},
                                              {"GN", QStringLiteral("g")},
                                              {"WH", QStringLiteral("w")}};
  const size_t all = sheet.conductors.size();
  std::vector<QString> letters;
  for (const sheet::Cable& cable : sheet.cables)
    for (const sheet::Conductor* wire : sheet::conductorsOf(sheet, cable.id)) {
      const bool outdoors = sheet::conductorsOf(sheet, cable.id).size() == 2;
      const std::string colour = sheet::print(wire->colour);
      const QString screw =
          outdoors ? (colour == "RD" ? QStringLiteral("y") : QStringLiteral("c")) : screws.at(colour);
      letters.insert(letters.end(), 2, screw);
    }
  ASSERT_EQ(letters.size(), 2 * all);
  for (const QString& letter : letters) {
    whole.type(letter);
    whole.press(Qt::Key_Return);
  }
  EXPECT_EQ(whole.looseEnds(), 0);
  EXPECT_EQ(whole.worst(), "");
  whole.press(Qt::Key_6, Qt::AltModifier);
  whole.press(Qt::Key_P, Qt::ControlModifier);
  EXPECT_TRUE(whole.printedWhole());
  EXPECT_EQ(presses.clicks, 0);
  std::printf("as found: %d keys\n", presses.count);
  EXPECT_LE(presses.count, 60);
}

TEST(MainJob, ByMouseAlone) {
  MainJob whole;
  Presses presses;
  whole.click(whole.window->topBar().newButton());
  ASSERT_TRUE(whole.bench->job());
  auto* kinds = whole.site().system()->findChild<QListWidget*>();
  ASSERT_TRUE(kinds);
  if (!kinds->isVisible()) whole.click(whole.site().system()->findChild<QLineEdit*>());
  ASSERT_TRUE(kinds->isVisible()) << "the kinds of system can be seen without typing";
  const QRect first = kinds->visualItemRect(kinds->item(0));
  QTest::mouseClick(kinds->viewport(), Qt::LeftButton, {}, first.center());
  QCoreApplication::processEvents();
  if (whole.bench->job()->sheet().units.empty())
    QTest::mouseDClick(kinds->viewport(), Qt::LeftButton, {}, first.center());
  ASSERT_EQ(whole.bench->job()->sheet().units.size(), 3u);
  whole.click(whole.window->rail().buttonOf(1));
  QPushButton* propose = nullptr;
  for (QPushButton* button : whole.wiring().topBar()->findChildren<QPushButton*>())
    if (button->isVisible()) propose = button;
  ASSERT_TRUE(propose);
  whole.click(propose);
  EXPECT_EQ(whole.looseEnds(), 0);
  EXPECT_EQ(whole.worst(), "");
  whole.click(whole.window->rail().buttonOf(5));
  QPushButton* print = nullptr;
  for (QPushButton* button : whole.window->findChildren<QPushButton*>())
    if (button->isVisible() && button->text() == "Print") print = button;
  ASSERT_TRUE(print);
  ASSERT_TRUE(testing::waitFor([&] { return whole.report().pages() > 0; }));
  whole.click(print);
  EXPECT_TRUE(whole.printedWhole());
  EXPECT_EQ(presses.count, 0);
  EXPECT_TRUE(whole.allSaved());
}

TEST(MainJob, UndoneToNothingAndRedoneIsTheSameSheet) {
  MainJob whole;
  whole.press(Qt::Key_N, Qt::ControlModifier);
  const session::Undoable empty = session::undoableOf(whole.bench->job()->job());
  whole.chooseSystemA();
  whole.press(Qt::Key_2, Qt::AltModifier);
  for (int guard = 0; guard < 40 && whole.looseEnds() > 0; ++guard) whole.press(Qt::Key_Return);
  const session::Undoable full = session::undoableOf(whole.bench->job()->job());
  ASSERT_NE(full, empty);
  QUndoStack& stack = whole.bench->job()->undoStack();
  const int steps = stack.count();
  EXPECT_GT(steps, 10);
  for (int i = 0; i < steps; ++i) whole.press(Qt::Key_Z, Qt::ControlModifier);
  EXPECT_FALSE(stack.canUndo());
  EXPECT_EQ(session::undoableOf(whole.bench->job()->job()), empty);
  for (int i = 0; i < steps; ++i) whole.press(Qt::Key_Z, Qt::ControlModifier | Qt::ShiftModifier);
  EXPECT_EQ(session::undoableOf(whole.bench->job()->job()), full);
}

TEST(MainJob, SearchFindsItTomorrowAndEnterOpensIt) {
  MainJob whole;
  whole.press(Qt::Key_N, Qt::ControlModifier);
  whole.type(QStringLiteral("14 north oak avenue"));
  whole.press(Qt::Key_Tab);
  ASSERT_TRUE(whole.allSaved());
  whole.press(Qt::Key_Escape);
  ASSERT_FALSE(whole.bench->job());
  whole.type(QStringLiteral("n oak 14"));
  ASSERT_TRUE(testing::waitFor([&] { return whole.window->jobsPage().list()->model()->rowCount() == 1; }));
  whole.press(Qt::Key_Return);
  whole.press(Qt::Key_Return);
  ASSERT_TRUE(whole.bench->job());
  EXPECT_EQ(whole.bench->job()->job().site.address, "14 north oak avenue");
}

}  // namespace
}  // namespace ww::shell
