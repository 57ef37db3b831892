// SPDX-License-Identifier: GPL-3.0-or-later
// A walk over every window: names, visible focus, whole texts, keys that mean one thing.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "library/library_page.h"
#include "library/profile_form.h"
#include "shell/keys_dialog.h"
#include "shell/settings_dialog.h"
#include "support/walk.h"
#include "support/whole_window.h"
#include "wiring/wiring_place.h"

namespace ww::shell {
namespace {

using ::testing::IsEmpty;
using testing::WholeWindow;

const char* const kJob = WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-a-swapped-at-furnace.json";

bool waitForMends(WholeWindow& whole) {
  auto& wiring = static_cast<wiring::WiringPlace&>(*whole.window->place());
  return testing::waitFor([&] { return !wiring.findings().searching(); });
}

/// Does something with the start page, every stage of a job, and every dialog.
template <class Look>
void everyWindow(WholeWindow& whole, Look lookAt) {
  // A frame is painted once what was put in its layouts has found its places.
  const auto look = [&](QWidget& window, const std::string& where) {
    QApplication::processEvents();
    lookAt(window, where);
  };
  whole.bench->useDemo(true);
  EXPECT_TRUE(whole.settled());
  look(*whole.window, "jobs");
  whole.bench->useDemo(false);
  EXPECT_TRUE(testing::waitFor([&] { return whole.window->jobsPage().countText().startsWith(u'0'); }));
  look(*whole.window, "jobs, empty");
  whole.press(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
  ASSERT_TRUE(whole.window->inLibrary());
  library::LibraryPage& library = whole.window->libraryPage();
  for (const char* unit : {"zonepanel-3", "furnace-1"}) {
    library.choose(unit);
    QApplication::processEvents();  // the pane settles its bar first
    look(*whole.window, std::string("library, ") + unit);
  }
  library.copyToOwn();
  look(*whole.window, "library, form");
  qobject_cast<QLineEdit*>(library.form()->editor("/id"))->setFocus();
  whole.type(QStringLiteral(" x"));
  look(*whole.window, "library, form with problems");
  EXPECT_TRUE(library.stepOut());
  whole.window->showJobs();
  whole.bench->openFile(QString::fromUtf8(kJob));
  ASSERT_TRUE(whole.bench->job());
  for (size_t i = 0; i < whole.window->stages().size(); ++i) {
    whole.window->showStage(i);
    look(*whole.window, whole.window->stages()[i].id);
  }
  whole.window->showStage(std::string("wiring"));
  whole.press(Qt::Key_F3);
  EXPECT_TRUE(waitForMends(whole));
  look(*whole.window, "wiring, findings");
  whole.press(Qt::Key_Escape);
  for (const char* cautions : {"dead", "live"}) {
    if (whole.bench->job()->acknowledge({whole.desk.nextId(), cautions, "M. Ode", whole.desk.time})) {
      whole.window->showStage(std::string(cautions));
      look(*whole.window, std::string(cautions) + ", a step");
    }
  }
  SettingsDialog settings(whole.desk.around, whole.window.get());
  settings.show();
  QApplication::processEvents();
  look(settings, "preferences");
  settings.hide();
  KeysDialog keys(whole.desk.around, QStringLiteral("Wiring"), whole.window->stages()[1].place->keys(),
                  whole.window->everywhere().lines(), whole.window.get());
  keys.show();
  keys.activateWindow();
  QApplication::processEvents();
  look(keys, "keys");
  keys.hide();
  AboutDialog about(whole.desk.around, whole.window.get());
  about.show();
  QApplication::processEvents();
  look(about, "about");
}

TEST(Walk, EverythingThatTakesTheKeyboardHasANameAndShowsIt) {
  WholeWindow whole;
  everyWindow(whole, [](QWidget& window, const std::string& where) {
    EXPECT_THAT(testing::nameless(window), IsEmpty()) << where;
    EXPECT_THAT(testing::withoutVisibleFocus(window), IsEmpty()) << where;
  });
}

struct Sight {
  const char* name;
  const char* language;
  double scale;
};

class Texts : public ::testing::TestWithParam<Sight> {};

TEST_P(Texts, AreWhole) {
  const Sight& sight = GetParam();
  auto& application = testing::widgetApplication();
  fittings::dress(application, paint::theme(paint::ThemeName::light), sight.scale);
  {
    WholeWindow whole(sight.language, paint::ThemeName::light, {}, QSize(1280, 720) * sight.scale);
    everyWindow(whole, [](QWidget& window, const std::string& where) {
      EXPECT_THAT(testing::cutTexts(window), IsEmpty()) << where;
    });
  }
  fittings::dress(application, paint::theme(paint::ThemeName::light));
}

INSTANTIATE_TEST_SUITE_P(At, Texts,
                         ::testing::Values(Sight{"English100", "en", 1}, Sight{"Spanish100", "es", 1},
                                           Sight{"English150", "en", 1.5}, Sight{"Spanish200", "es", 2},
                                           Sight{"Pseudo100", "pseudo", 1}),
                         [](const auto& sight) { return std::string(sight.param.name); });

TEST(Keys, MeanOneThingInOneContext) {
  WholeWindow whole;
  for (fittings::KeyMap* map : whole.window->findChildren<fittings::KeyMap*>()) {
    std::set<QString> seen;
    for (const QKeySequence& keys : map->all())
      EXPECT_TRUE(seen.insert(keys.toString()).second) << keys.toString().toStdString();
  }
}

TEST(Keys, OfAPlaceLeaveThoseOfTheWindowAlone) {
  WholeWindow whole;
  std::set<QString> everywhere;
  for (const QKeySequence& keys : whole.window->everywhere().all()) everywhere.insert(keys.toString());
  EXPECT_GE(everywhere.size(), 12u);
  const auto apart = [&](const std::vector<fittings::KeyLine>& lines, const std::string& where) {
    for (const fittings::KeyLine& line : lines) {
      if (line.keys == QKeySequence(Qt::Key_Escape)) continue;  // one level out, wherever
      EXPECT_EQ(everywhere.count(line.keys.toString()), 0u)
          << where << " " << line.keys.toString().toStdString();
    }
  };
  for (const Stage& stage : whole.window->stages()) apart(stage.place->keys(), stage.id);
  apart(whole.window->jobsPage().keys(), "jobs");
  apart(whole.window->libraryPage().keys(), "library");
}

}  // namespace
}  // namespace ww::shell
