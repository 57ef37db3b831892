// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/autosave.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <future>

#include "history/reader.h"
#include "support/sample_job.h"
#include "support/stores.h"

namespace {

namespace history = ww::history;
namespace job = ww::job;
using namespace ww::testing;
using history::Autosave;
using std::chrono::hours;

/// What the saving thread tells, to be waited for.
class Heard {
 public:
  Autosave::Told told() {
    return {[this](const history::Saved& saved) {
              const std::lock_guard lock(mutex_);
              saved_.push_back(saved);
              wake_.notify_all();
            },
            [this](const history::StoreProblem& problem) {
              const std::lock_guard lock(mutex_);
              failed_.push_back(problem);
              wake_.notify_all();
            }};
  }
  void waitForSaves(size_t count) {
    std::unique_lock lock(mutex_);
    wake_.wait(lock, [&] { return saved_.size() >= count; });
  }
  void waitForFailures(size_t count) {
    std::unique_lock lock(mutex_);
    wake_.wait(lock, [&] { return failed_.size() >= count; });
  }
  std::vector<history::Saved> saved() {
    const std::lock_guard lock(mutex_);
    return saved_;
  }
  std::vector<history::StoreProblem> failed() {
    const std::lock_guard lock(mutex_);
    return failed_;
  }

 private:
  std::mutex mutex_;
  std::condition_variable wake_;
  std::vector<history::Saved> saved_;
  std::vector<history::StoreProblem> failed_;
};

class AutosaveTest : public ::testing::Test {
 protected:
  TemporaryFolder folder_;
  history::OpenOptions options_ = optionsFor(folder_.path());
  Heard heard_;
  static constexpr Autosave::Pace kNever{hours(1), hours(1), hours(1)};
  static constexpr Autosave::Pace kAtOnce{std::chrono::milliseconds(0), std::chrono::milliseconds(0),
                                          hours(1)};

  job::Job stored(const std::string& id) {
    auto store = openedStore(options_);
    auto loaded = history::Reader(store).load({id});
    return loaded ? loaded.value->job : job::Job{};
  }
};

TEST_F(AutosaveTest, editsInARowAreOneSave) {
  Autosave autosave(openedStore(options_), heard_.told(), kNever);
  job::Job job = draftAt(1, "");
  for (const char letter : std::string("7 Larkmoor Terrace")) {
    job.site.address += letter;
    autosave.submit(job);
  }
  EXPECT_EQ(heard_.saved().size(), 0u);
  EXPECT_TRUE(autosave.flush());
  EXPECT_EQ(heard_.saved().size(), 1u);
  EXPECT_EQ(stored(job.id), job);
  EXPECT_EQ(autosave.versionOf(job.id).number, 1);
  EXPECT_TRUE(autosave.flush());
  EXPECT_EQ(heard_.saved().size(), 1u);
}

TEST_F(AutosaveTest, anEditIsSavedWithoutBeingAsked) {
  Autosave autosave(openedStore(options_), heard_.told(), kAtOnce);
  const job::Job job = draftAt(1, "7 Larkmoor Terrace");
  autosave.submit(job);
  heard_.waitForSaves(1);
  EXPECT_EQ(stored(job.id), job);
}

TEST_F(AutosaveTest, theUsualPaceSavesByItself) {
  Autosave autosave(openedStore(options_), heard_.told());
  const job::Job job = draftAt(1, "7 Larkmoor Terrace");
  autosave.submit(job);
  heard_.waitForSaves(1);
  EXPECT_EQ(stored(job.id), job);
}

TEST_F(AutosaveTest, aReadingIsSavedAtOnce) {
  Autosave autosave(openedStore(options_), heard_.told(), kNever);
  job::Job job = draftAt(1, "7 Larkmoor Terrace");
  autosave.submit(job);
  auto reading = sampleReading(2, "rest:R-C");
  reading.meter.clear();
  job = *job::withReading(job, reading);
  autosave.submit(job, true);
  heard_.waitForSaves(1);
  EXPECT_EQ(stored(job.id), job);
  // An edit behind a fact does not hold it up.
  job.site.unit = "Flat 1";
  auto again = sampleReading(3, "rest:R-C");
  again.meter.clear();
  job = *job::withReading(job, again);
  autosave.submit(job, true);
  job.site.customer = "A. Pennick";
  autosave.submit(job);
  heard_.waitForSaves(2);
  EXPECT_EQ(stored(job.id).readings.size(), 2u);
}

TEST_F(AutosaveTest, anotherJobOnTheDeskSavesTheOneBefore) {
  Autosave autosave(openedStore(options_), heard_.told(), kNever);
  const job::Job first = draftAt(1, "7 Larkmoor Terrace");
  const job::Job second = draftAt(2, "9 Larkmoor Terrace");
  autosave.submit(first);
  autosave.submit(second);
  heard_.waitForSaves(1);
  EXPECT_EQ(heard_.saved().front().version.ref.id, first.id);
  EXPECT_TRUE(autosave.flush());
  EXPECT_EQ(stored(second.id), second);
}

TEST_F(AutosaveTest, whatIsUnsavedAtTheEndIsSaved) {
  const job::Job job = draftAt(1, "7 Larkmoor Terrace");
  {
    Autosave autosave(openedStore(options_), heard_.told(), kNever);
    autosave.submit(job);
  }
  EXPECT_EQ(stored(job.id), job);
}

TEST_F(AutosaveTest, aFailureIsToldAndTriedAgain) {
  options_.busyMilliseconds = 1;
  Autosave autosave(openedStore(options_), heard_.told(), kNever);
  job::Job job = draftAt(1, "7 Larkmoor Terrace");
  autosave.submit(job);
  {
    SQLite::Database other(folder_.path() + "/jobs.db", SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE");
    EXPECT_FALSE(autosave.flush());
    ASSERT_EQ(heard_.failed().size(), 1u);
    EXPECT_EQ(heard_.failed().front().kind, history::StoreProblem::Kind::locked);
    // Edits go on; the newest is what will be saved.
    job.site.customer = "A. Pennick";
    autosave.submit(job);
    EXPECT_FALSE(autosave.flush());
  }
  EXPECT_TRUE(autosave.flush());
  EXPECT_EQ(stored(job.id), job);
  EXPECT_EQ(heard_.saved().size(), 1u);
}

TEST_F(AutosaveTest, aFailureIsTriedAgainByItself) {
  options_.busyMilliseconds = 1;
  const Autosave::Pace pace{std::chrono::milliseconds(0), std::chrono::milliseconds(0),
                            std::chrono::milliseconds(1)};
  Autosave autosave(openedStore(options_), heard_.told(), pace);
  const job::Job job = draftAt(1, "7 Larkmoor Terrace");
  {
    SQLite::Database other(folder_.path() + "/jobs.db", SQLite::OPEN_READWRITE);
    other.exec("BEGIN IMMEDIATE");
    autosave.submit(job);
    heard_.waitForFailures(2);
  }
  heard_.waitForSaves(1);
  EXPECT_EQ(stored(job.id), job);
}

TEST_F(AutosaveTest, goesOnAsASiblingAfterARace) {
  job::Job job = draftAt(1, "7 Larkmoor Terrace");
  auto theirs = openedStore(options_);
  const auto base = theirs.saveDraft(job, {}).version;
  Autosave autosave(openedStore(options_), heard_.told(), kNever);
  autosave.hold(base);
  job::Job theirJob = job;
  theirJob.site.customer = "A. Pennick";
  theirs.saveDraft(theirJob, base);
  job.site.customer = "M. Ode";
  autosave.submit(job);
  EXPECT_TRUE(autosave.flush());
  ASSERT_EQ(heard_.saved().size(), 1u);
  EXPECT_TRUE(heard_.saved().front().becameSibling);
  job.site.unit = "Flat 1";
  autosave.submit(job);
  EXPECT_TRUE(autosave.flush());
  EXPECT_FALSE(heard_.saved().back().becameSibling);
  EXPECT_EQ(stored(job.id), theirJob);
  history::Reader reader(theirs);
  EXPECT_EQ(reader.load({job.id, 1}).value->job, job);
}

TEST_F(AutosaveTest, otherActsComeAfterWhatWasSubmitted) {
  Autosave autosave(openedStore(options_), heard_.told(), kNever);
  job::Job job = draftAt(1, "7 Larkmoor Terrace");
  autosave.submit(job);
  autosave.act([&](history::Store& store) {
    autosave.hold(store.closeRevision(job, autosave.versionOf(job.id)).version);
  });
  EXPECT_EQ(stored(job.id).state, job::State::closed);
  job.state = job::State::closed;
  job.site.customer = "Somebody else";
  EXPECT_THROW(autosave.act([&](history::Store& store) { store.saveDraft(job, autosave.versionOf(job.id)); }),
               history::StoreFault);
}

TEST_F(AutosaveTest, manyThreadsMaySubmit) {
  Autosave autosave(openedStore(options_), heard_.told(), kAtOnce);
  std::vector<std::thread> threads;
  for (std::uint64_t t = 0; t < 4; ++t)
    threads.emplace_back([&, t] {
      for (int i = 0; i < 20; ++i) {
        job::Job job = draftAt(t, std::to_string(i) + " Larkmoor Terrace");
        autosave.submit(job, i % 3 == 0);
        if (i % 7 == 0) autosave.flush();
        if (i % 5 == 0) autosave.act([](history::Store& store) { store.freeNumber("2026-03-12"); });
      }
    });
  for (auto& thread : threads) thread.join();
  EXPECT_TRUE(autosave.flush());
  for (std::uint64_t t = 0; t < 4; ++t) EXPECT_EQ(stored(numberedId(t)).site.address, "19 Larkmoor Terrace");
}

}  // namespace
