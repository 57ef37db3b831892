// SPDX-License-Identifier: GPL-3.0-or-later
// The job on the desk and the store: saved as it changes, told when it cannot be, nothing lost.
#include "shell/workbench.h"

#include <gtest/gtest.h>

#include <QDir>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>

#include "job/job_json.h"
#include "shell/store_shelf.h"
#include "support/window.h"

namespace ww::shell {
namespace {

using testing::Desk;

/// A workbench on a folder of its own, with what it said.
struct Bench {
  explicit Bench(const QString& dataFolder = {}, std::function<void(history::OpenOptions&)> bound = {})
      : folder(dataFolder.isEmpty() ? own.path() : dataFolder) {
    BenchWorld world;
    world.ticks = [this] { return ticks; };
    world.leaveUnsaved = [this](QWidget*, const QString& why) {
      asked << why;
      return leave;
    };
    world.pdfFile = [this](QWidget*, const QString&) { return pdf; };
    world.openOptions = std::move(bound);
    world.pace = {std::chrono::milliseconds(0), std::chrono::milliseconds(0), std::chrono::milliseconds(20)};
    bench = std::make_unique<Workbench>(desk.around, folder, world);
    QObject::connect(bench.get(), &Workbench::told, bench.get(),
                     [this](const QString& said) { told << said; });
    bench->openStore();
  }
  bool saved() {
    return testing::waitFor([this] { return bench->saved().kind == SavedState::Kind::saved; });
  }
  void address(const std::string& text) {
    session::Undoable next = session::undoableOf(bench->job()->job());
    next.site.address = text;
    bench->job()->edit(QStringLiteral("address"), next);
  }
  /// The entries the list has for a query.
  std::vector<jobs::Entry> list(const QString& query = {}) {
    std::optional<jobs::Answer> answer;
    const auto connection = QObject::connect(&bench->shelf(), &jobs::Shelf::found, bench.get(),
                                             [&](const jobs::Answer& found) { answer = found; });
    bench->shelf().search(query, 0, 100);
    EXPECT_TRUE(testing::waitFor([&] { return answer.has_value(); }));
    QObject::disconnect(connection);
    return answer ? answer->entries : std::vector<jobs::Entry>{};
  }
  std::optional<jobs::Preview> preview(const std::string& id) {
    std::optional<jobs::Preview> made;
    const auto connection = QObject::connect(&bench->shelf(), &jobs::Shelf::previewed, bench.get(),
                                             [&](const jobs::Preview& preview) { made = preview; });
    bench->shelf().preview(id);
    EXPECT_TRUE(testing::waitFor([&] { return made.has_value(); }));
    QObject::disconnect(connection);
    return made;
  }

  Desk desk;
  QTemporaryDir own;
  QString folder, pdf;
  QStringList told, asked;
  bool leave = false;
  std::chrono::steady_clock::time_point ticks{};
  std::unique_ptr<Workbench> bench;
};

TEST(Workbench, SavesWhatIsTypedAndFindsItAgain) {
  Bench desk;
  desk.bench->startNew();
  ASSERT_TRUE(desk.bench->job());
  EXPECT_EQ(desk.bench->saved().kind, SavedState::Kind::none);
  desk.address("14 North Oak Avenue");
  EXPECT_TRUE(desk.saved());
  desk.ticks += std::chrono::seconds(7);
  EXPECT_EQ(desk.bench->saved().secondsAgo, 7);
  desk.bench->putAway();
  EXPECT_FALSE(desk.bench->job());
  const auto found = desk.list("n oak 14");
  ASSERT_EQ(found.size(), 1u);
  EXPECT_EQ(found[0].address, "14 North Oak Avenue");
  desk.bench->open(found[0].id);
  ASSERT_TRUE(desk.bench->job());
  EXPECT_EQ(desk.bench->job()->job().site.address, "14 North Oak Avenue");
}

TEST(Workbench, ANewJobThatNothingWasTypedInLeavesNoTrace) {
  Bench desk;
  desk.bench->startNew();
  desk.bench->putAway();
  EXPECT_TRUE(desk.list().empty());
}

TEST(Workbench, NumbersJobsOfADay) {
  Bench desk;
  desk.bench->startNew();
  const std::string first = desk.bench->job()->job().number;
  desk.address("1 Mill Road");
  EXPECT_TRUE(desk.saved());
  desk.bench->startNew();
  EXPECT_NE(desk.bench->job()->job().number, first);
  EXPECT_EQ(first.rfind("2025-0312-", 0), 0u) << first;
}

TEST(Workbench, BinsAndGivesBack) {
  Bench desk;
  desk.bench->startNew();
  desk.address("2 Mill Road");
  ASSERT_TRUE(desk.saved());
  desk.bench->putAway();
  std::function<void()> undo;
  QObject::connect(desk.bench.get(), &Workbench::undoable, desk.bench.get(),
                   [&](const QString&, const std::function<void()>& back) { undo = back; });
  desk.bench->bin({desk.list()[0].id});
  EXPECT_TRUE(desk.list().empty());
  ASSERT_EQ(desk.list("state:bin").size(), 1u);
  EXPECT_TRUE(desk.list("state:bin")[0].binned);
  ASSERT_TRUE(undo);
  undo();
  EXPECT_EQ(desk.list().size(), 1u);
}

TEST(Workbench, CallBackIsANewVisitWithTheSheetAsFound) {
  Bench desk;
  desk.desk.time = "2027-03-12T10:42:00-05:00";
  desk.bench->openFile(QStringLiteral(WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-g-heat-pump.json"));
  ASSERT_TRUE(desk.bench->job()) << desk.told.join(u' ').toStdString();
  const job::Job before = desk.bench->job()->job();
  desk.bench->callBack(before.id);
  const job::Job& after = desk.bench->job()->job();
  EXPECT_NE(after.id, before.id);
  EXPECT_EQ(after.site, before.site);
  EXPECT_EQ(after.stage, "live");
  EXPECT_EQ(after.visit, "2027-03-12");
  EXPECT_TRUE(after.readings.empty());
  ASSERT_TRUE(desk.bench->job()->former());
  EXPECT_FALSE(before.readings.empty());
  EXPECT_EQ(*desk.bench->job()->former(), before);
  ASSERT_TRUE(after.asFound);
  EXPECT_EQ(*after.asFound, *job::currentSheet(before));
  EXPECT_TRUE(desk.saved());
  const auto preview = desk.preview(after.id);
  ASSERT_TRUE(preview);
  EXPECT_EQ(preview->visits.size(), 2u);
  EXPECT_TRUE(preview->visits.back().inFront);
  // Found again when the new visit is taken up another day; the old one has none before it.
  const std::string fresh = after.id;
  desk.bench->putAway();
  desk.bench->open(fresh);
  ASSERT_TRUE(desk.bench->job()->former());
  EXPECT_EQ(desk.bench->job()->former()->readings, before.readings);
  desk.bench->putAway();
  desk.bench->open(before.id);
  EXPECT_FALSE(desk.bench->job()->former());
}

TEST(Workbench, DuplicateKeepsTheSheetAndNotTheSite) {
  Bench desk;
  desk.bench->openFile(QStringLiteral(WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-g-heat-pump.json"));
  const job::Job before = desk.bench->job()->job();
  desk.bench->duplicate(before.id);
  const job::Job& after = desk.bench->job()->job();
  EXPECT_EQ(after.site, job::Site{});
  EXPECT_EQ(*job::currentSheet(after), *job::currentSheet(before));
  EXPECT_TRUE(after.readings.empty());
}

TEST(Workbench, TakesInGoodFilesAndTellsTheBadOne) {
  Bench desk;
  const QString csv = QStringLiteral(WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-a.csv");
  QFile junk(desk.folder + "/junk.json");
  ASSERT_TRUE(junk.open(QIODevice::WriteOnly));
  junk.write("{\"colour\": ");
  junk.close();
  desk.bench->importFiles({csv, junk.fileName(), desk.folder + "/not-there.json"});
  EXPECT_EQ(desk.list().size(), 1u);
  EXPECT_EQ(desk.told.size(), 1);
}

TEST(Workbench, GivesOutWhatItTakesIn) {
  Bench desk;
  desk.bench->openFile(QStringLiteral(WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-g-heat-pump.json"));
  const job::Job before = desk.bench->job()->job();
  const QString target = desk.folder + "/out.json";
  desk.bench->exportJobs({before.id}, target);
  QFile file(target);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  EXPECT_EQ(file.readAll().toStdString(), job::writeJob(before));
}

TEST(Workbench, ClosingFreezesAndPrintsFromTheList) {
  Bench desk;
  desk.bench->openFile(QStringLiteral(WIREWRIGHT_DEMO_DATA_DIR "/larkmoor-a-furnace-cooling.json"));
  ASSERT_TRUE(desk.bench->job());
  const std::string id = desk.bench->job()->job().id;
  if (!desk.bench->job()->readOnly()) desk.bench->closeRevision();
  EXPECT_TRUE(desk.bench->job()->readOnly());
  desk.bench->putAway();
  desk.pdf = desk.folder + "/last.pdf";
  desk.bench->print(id);
  EXPECT_TRUE(testing::waitFor([&] { return QFile::exists(desk.pdf); }));
  QFile file(desk.pdf);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  EXPECT_EQ(file.read(5), "%PDF-");
}

TEST(Workbench, AFullDiskIsToldAndNothingTypedIsLost) {
  Bench desk({}, [](history::OpenOptions& options) { options.mostPages = 60; });
  desk.bench->startNew();
  desk.address("3 Mill Road");
  ASSERT_TRUE(desk.saved()) << desk.told.join(u' ').toStdString();
  session::Undoable next = session::undoableOf(desk.bench->job()->job());
  next.site.notes = std::string(400'000, 'n');
  desk.bench->job()->edit(QStringLiteral("notes"), next);
  EXPECT_TRUE(testing::waitFor([&] { return desk.bench->saved().kind == SavedState::Kind::failed; }));
  EXPECT_TRUE(desk.bench->saved().failure.contains("full")) << desk.bench->saved().failure.toStdString();
  desk.bench->putAway();
  EXPECT_TRUE(desk.bench->job()) << "a job that cannot be saved stays on the desk";
  EXPECT_EQ(desk.asked.size(), 1);
  desk.bench->undo();
  EXPECT_TRUE(desk.saved()) << "saving goes on by itself once there is room";
}

TEST(Workbench, AStoreThatIsNoneLeavesAUsableWindow) {
  QTemporaryDir folder;
  QFile file(folder.path() + "/jobs.db");
  ASSERT_TRUE(file.open(QIODevice::WriteOnly));
  file.write(QByteArray(9000, 'x'));
  file.close();
  Bench desk(folder.path());
  ASSERT_EQ(desk.told.size(), 1);
  desk.bench->startNew();
  ASSERT_TRUE(desk.bench->job());
  desk.address("4 Mill Road");
  EXPECT_EQ(desk.bench->saved().kind, SavedState::Kind::failed);
  ASSERT_TRUE(file.open(QIODevice::ReadOnly));
  EXPECT_EQ(file.readAll(), QByteArray(9000, 'x')) << "what lay there was changed";
}

TEST(Workbench, TwoWindowsOnOneJobKeepBoth) {
  QTemporaryDir folder;
  Bench first(folder.path());
  first.bench->startNew();
  first.address("5 Mill Road");
  ASSERT_TRUE(first.saved());
  const std::string id = first.bench->job()->job().id;
  history::OpenOptions options;
  options.folder = folder.path().toStdString();
  auto look = history::Store::open(options, first.desk.around.library);
  history::Reader reader(std::get<history::Store>(look));
  ASSERT_TRUE(testing::waitFor([&] { return !reader.editors({id}).empty(); }));
  Bench second(folder.path());
  second.bench->open(id);
  ASSERT_TRUE(second.bench->job());
  EXPECT_TRUE(second.told.join(u' ').contains("open")) << "presence is told";
  first.address("5 Mill Road, front");
  ASSERT_TRUE(first.saved());
  second.address("5 Mill Road, rear");
  ASSERT_TRUE(second.saved());
  EXPECT_TRUE(testing::waitFor([&] { return second.told.join(u' ').contains("both are kept"); }));
  EXPECT_EQ(second.list().size(), 2u);
}

TEST(Workbench, DemoJobsStandApart) {
  Bench desk;
  desk.bench->useDemo(true);
  EXPECT_TRUE(desk.bench->demo());
  EXPECT_GE(desk.list().size(), 5u);
  desk.bench->startOwn();
  EXPECT_FALSE(desk.bench->demo());
  ASSERT_TRUE(desk.bench->job());
  desk.bench->putAway();
  EXPECT_TRUE(desk.list().empty());
}

TEST(StoreShelf, EntriesNameSiblings) {
  EXPECT_EQ(entryId({"a", 0}), "a");
  EXPECT_EQ(refOf(entryId({"a", 2})), (history::JobRef{"a", 2}));
}

}  // namespace
}  // namespace ww::shell
