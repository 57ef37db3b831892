// SPDX-License-Identifier: GPL-3.0-or-later
#include "power_loss.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "history/reader.h"
#include "history/store.h"
#include "support/sample_job.h"
#include "support/stores.h"

namespace {

namespace history = ww::history;
namespace job = ww::job;
using namespace ww::testing;

/// A draft of some 30 KB, so that the journal is moved into the file now and then.
job::Job numbered(std::uint64_t sequence) {
  job::Job job = draftAt(sequence % 5, std::to_string(sequence) + " Larkmoor Terrace");
  job.site.notes = std::to_string(sequence);
  for (int i = 0; i < 30; ++i)
    job.openItems.push_back({sampleId(i), std::string(900, static_cast<char>('a' + sequence % 26)), {}, {}});
  return job;
}

struct Outcome {
  std::uint64_t saved = 0;    ///< acknowledged
  std::uint64_t crashes = 0;  ///< in the middle of a save
};

Outcome lossesOfPower(int rounds, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  Outcome outcome;
  for (int round = 0; round < rounds; ++round) {
    SCOPED_TRACE("round " + std::to_string(round));
    const TemporaryFolder before;
    const TemporaryFolder after;
    PowerLossDisk disk("power-loss");
    auto options = optionsFor(before.path());
    options.vfs = "power-loss";
    std::uint64_t last = 0;
    {
      auto store = openedStore(options);
      disk.failAfter(random() % 2'500);
      std::map<std::string, history::Version> versions;
      try {
        for (;;) {
          const job::Job job = numbered(last + 1);
          versions[job.id] = store.saveDraft(job, versions[job.id]).version;
          ++last;
        }
      } catch (const history::StoreFault&) {
        EXPECT_TRUE(disk.isOff());
        ++outcome.crashes;
      }
      outcome.saved += last;
      disk.leftTo(after.path(), random());
    }
    auto left = optionsFor(after.path());
    auto store = openedStore(left);
    EXPECT_THAT(store.faults(), ::testing::IsEmpty());
    history::Reader reader(store);
    for (std::uint64_t sequence = last; sequence > 0 && sequence + 5 > last; --sequence) {
      const auto stored = reader.load({numbered(sequence).id});
      if (!stored) {
        ADD_FAILURE() << "job of number " << sequence << " of " << last << " is gone";
        continue;
      }
      const std::uint64_t there = std::stoull(stored.value->job.site.notes);
      EXPECT_GE(there, sequence);
      EXPECT_EQ(stored.value->job, numbered(there));
    }
  }
  return outcome;
}

TEST(PowerLoss, losesNothingAcknowledged) {
  const auto outcome = lossesOfPower(30, 1);
  EXPECT_EQ(outcome.crashes, 30u);
  EXPECT_GT(outcome.saved, 600u);
}

TEST(PowerLossLong, losesNothingAcknowledged) {
  const auto outcome = lossesOfPower(1'000, 2);
  EXPECT_EQ(outcome.crashes, 1'000u);
}

// The stand-in does lose what was not synced: else the test above proved nothing.
TEST(PowerLoss, theStandInForgets) {
  const TemporaryFolder before;
  PowerLossDisk disk("power-loss-check");
  sqlite3* database = nullptr;
  const std::string path = before.path() + "/jobs.db";
  ASSERT_EQ(sqlite3_open_v2(path.c_str(), &database, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE,
                            "power-loss-check"),
            SQLITE_OK);
  const auto run = [&](const char* sql) { return sqlite3_exec(database, sql, nullptr, nullptr, nullptr); };
  EXPECT_EQ(run("PRAGMA journal_mode = WAL; PRAGMA synchronous = OFF; CREATE TABLE t(a)"), SQLITE_OK);
  int lost = 0;
  for (int i = 0; i < 20; ++i) {
    EXPECT_EQ(run("INSERT INTO t VALUES(1)"), SQLITE_OK);
    const TemporaryFolder after;
    disk.leftTo(after.path(), static_cast<std::uint64_t>(i));
    sqlite3* left = nullptr;
    sqlite3_open((after.path() + "/jobs.db").c_str(), &left);
    sqlite3_stmt* count = nullptr;
    int rows = -1;
    if (sqlite3_prepare_v2(left, "SELECT count(*) FROM t", -1, &count, nullptr) == SQLITE_OK &&
        sqlite3_step(count) == SQLITE_ROW)
      rows = sqlite3_column_int(count, 0);
    sqlite3_finalize(count);
    sqlite3_close(left);
    lost += rows < i + 1 ? 1 : 0;
  }
  sqlite3_close(database);
  EXPECT_GT(lost, 10);
}

}  // namespace
