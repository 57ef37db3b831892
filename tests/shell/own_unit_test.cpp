// SPDX-License-Identifier: GPL-3.0-or-later
// A unit of one's own, from the page of profiles into a job, and with the job to another computer.
#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QLineEdit>

#include "library/library_page.h"
#include "library/profile_form.h"
#include "site/site_place.h"
#include "support/whole_window.h"

namespace ww::shell {
namespace {

using testing::WholeWindow;

TEST(OwnUnit, IsWrittenPlacedAndTravelsWithItsJob) {
  const QTemporaryDir elsewhere;
  const QString kept = elsewhere.path() + QStringLiteral("/job.json");
  std::string id;
  {
    WholeWindow here;
    here.press(Qt::Key_L, Qt::ControlModifier | Qt::ShiftModifier);
    ASSERT_TRUE(here.window->inLibrary());
    here.type(QStringLiteral("condensing one stage"));
    here.press(Qt::Key_Down);
    here.press(Qt::Key_D, Qt::ControlModifier);
    ASSERT_TRUE(here.window->libraryPage().editing());
    qobject_cast<QLineEdit*>(here.window->libraryPage().form()->editor("/title/en"))->selectAll();
    here.window->libraryPage().form()->editor("/title/en")->setFocus();
    here.type(QStringLiteral("Attic furnace"));
    here.press(Qt::Key_S, Qt::ControlModifier);
    ASSERT_FALSE(here.window->libraryPage().editing());
    here.press(Qt::Key_N, Qt::ControlModifier);
    ASSERT_TRUE(here.bench->job());
    auto& site = dynamic_cast<site::SitePlace&>(*here.window->stages()[0].place);
    site.addUnit("furnace-1-condensing-own");
    const job::Job& job = here.bench->job()->job();
    ASSERT_EQ(here.bench->job()->sheet().units.size(), 1u);
    EXPECT_EQ(job.profiles.size(), 1u) << "it travels inside";
    ASSERT_EQ(job.surveys.size(), 1u) << "placing it by hand is an answer too";
    ASSERT_TRUE(here.allSaved());
    id = job.id;
    // Out of the job by Esc, to the page and back: the job opens as it was, though the unit is gone.
    here.window->showLibrary();
    EXPECT_FALSE(here.bench->job());
    here.window->libraryPage().choose("furnace-1-condensing-own");
    here.window->libraryPage().remove();
    EXPECT_EQ(here.desk.library.find("furnace-1-condensing-own"), nullptr);
    here.press(Qt::Key_Escape);
    here.press(Qt::Key_Escape);
    here.press(Qt::Key_Escape);
    EXPECT_FALSE(here.window->inLibrary());
    here.bench->open(id);
    ASSERT_TRUE(here.bench->job());
    EXPECT_EQ(here.bench->job()->library().find("furnace-1-condensing-own")->title.at("en"), "Attic furnace");
    here.bench->putAway();
    here.bench->exportJobs({id}, kept);
    ASSERT_TRUE(testing::waitFor([&] { return QFile::exists(kept); }));
  }
  WholeWindow there;
  there.bench->openFile(kept);
  ASSERT_TRUE(there.bench->job());
  EXPECT_EQ(there.bench->job()->library().find("furnace-1-condensing-own")->title.at("en"), "Attic furnace");
  EXPECT_EQ(there.desk.library.find("furnace-1-condensing-own"), nullptr);
  EXPECT_FALSE(there.bench->job()->solution().calls.empty());
}

}  // namespace
}  // namespace ww::shell
