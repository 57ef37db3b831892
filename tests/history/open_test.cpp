// SPDX-License-Identifier: GPL-3.0-or-later
// What a store does that cannot be opened, is older, newer, damaged, or locked.
#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "history/reader.h"
#include "history/schema.h"
#include "history/store.h"
#include "job/job_json.h"
#include "support/sample_job.h"
#include "support/stores.h"

namespace {

namespace fs = std::filesystem;
namespace history = ww::history;
namespace job = ww::job;
using namespace ww::testing;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using Kind = history::StoreProblem::Kind;

std::string contentOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

void write(const fs::path& path, const std::string& bytes) {
  std::ofstream(path, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
}

class OpenTest : public ::testing::Test {
 protected:
  TemporaryFolder folder_;
  history::OpenOptions options_ = optionsFor(folder_.path());
  std::string path_ = folder_.path() + "/jobs.db";

  /// The problem; it is an error when the store opens.
  history::StoreProblem problem() {
    auto opened = history::Store::open(options_, ww::equipment::standardLibrary());
    if (const auto* problem = std::get_if<history::StoreProblem>(&opened)) return *problem;
    ADD_FAILURE() << "the store was opened";
    return {};
  }
  std::set<std::string> files() {
    std::set<std::string> names;
    for (const auto& entry : fs::directory_iterator(folder_.path())) names.insert(entry.path().filename());
    return names;
  }
};

TEST_F(OpenTest, theFolderIsMade) {
  options_.folder += "/a/b";
  openedStore(options_).saveDraft(draftAt(1, "7 Larkmoor Terrace"), {});
  EXPECT_TRUE(fs::exists(options_.folder + "/jobs.db"));
  EXPECT_TRUE(fs::is_directory(options_.folder + "/backups"));
}

TEST_F(OpenTest, theFolderIsTheOneChosenOrThePersons) {
  ::setenv("XDG_DATA_HOME", "/data", 1);
  EXPECT_EQ(history::dataFolder(std::nullopt), "/data/wirewright");
  EXPECT_EQ(history::dataFolder("elsewhere"), "elsewhere");
  ::setenv("XDG_DATA_HOME", "relative", 1);
  ::setenv("HOME", "/person", 1);
  EXPECT_EQ(history::dataFolder(std::nullopt), "/person/.local/share/wirewright");
  ::unsetenv("XDG_DATA_HOME");
  EXPECT_EQ(history::dataFolder(std::nullopt), "/person/.local/share/wirewright");
}

// Below a file no folder can be made, whoever asks.
TEST_F(OpenTest, aFolderThatCannotBeWrittenIsTold) {
  write(folder_.path() + "/file", "x");
  options_.folder = folder_.path() + "/file/store";
  EXPECT_EQ(problem().kind, Kind::readOnly);
  EXPECT_EQ(problem().path, options_.folder);
  EXPECT_THAT(problem().detail, ::testing::Not(IsEmpty()));
}

TEST_F(OpenTest, aNetworkFolderIsRefusedWithItsKind) {
  for (const char* kind : {"nfs4", "cifs", "smb3", "fuse.sshfs"}) {
    options_.fileSystem = [kind](const std::string&) { return std::string(kind); };
    EXPECT_EQ(problem().kind, Kind::network);
    EXPECT_EQ(problem().detail, kind);
  }
  EXPECT_THAT(files(), IsEmpty());
  options_.fileSystem = [](const std::string&) { return std::string("ext4"); };
  openedStore(options_);
}

TEST_F(OpenTest, theKindOfFileSystemIsAskedOfTheSystem) {
  EXPECT_EQ(history::fileSystemKind("/proc/self"), "proc");
  EXPECT_EQ(history::fileSystemKind("/proc/nowhere/at/all"), "proc");
  EXPECT_NE(history::fileSystemKind(folder_.path()), "");
  EXPECT_FALSE(history::isNetwork("proc"));
}

TEST_F(OpenTest, somethingElseOfThatNameIsLeftAsItIs) {
  const std::string letter(2000, 'a');
  write(path_, letter);
  EXPECT_EQ(problem().kind, Kind::notAStore);
  EXPECT_EQ(contentOf(path_), letter);
  write(path_, "short");
  EXPECT_EQ(problem().kind, Kind::notAStore);
  fs::remove(path_);
  fs::create_directory(path_);
  EXPECT_EQ(problem().kind, Kind::notAStore);
}

TEST_F(OpenTest, anotherProgramsDatabaseIsLeftAsItIs) {
  {
    SQLite::Database other(path_, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    other.exec("CREATE TABLE theirs(a)");
  }
  const std::string before = contentOf(path_);
  EXPECT_EQ(problem().kind, Kind::notAStore);
  EXPECT_EQ(contentOf(path_), before);
  {
    SQLite::Database other(path_, SQLite::OPEN_READWRITE);
    other.exec("PRAGMA application_id = 7");
  }
  EXPECT_EQ(problem().kind, Kind::notAStore);
}

TEST_F(OpenTest, aNewerStoreIsLeftAsItIs) {
  openedStore(options_).saveDraft(draftAt(1, "7 Larkmoor Terrace"), {});
  {
    SQLite::Database later(path_, SQLite::OPEN_READWRITE);
    later.exec("PRAGMA user_version = 99");
    later.exec("PRAGMA wal_checkpoint(TRUNCATE)");
  }
  const std::string before = contentOf(path_);
  const auto names = files();
  EXPECT_EQ(problem().kind, Kind::newer);
  EXPECT_EQ(problem().detail, "99");
  EXPECT_EQ(contentOf(path_), before);
  EXPECT_EQ(files(), names);
}

// The version may stand in the journal alone, when the program that wrote it was killed.
TEST_F(OpenTest, aNewerVersionInTheJournalIsSeenToo) {
  openedStore(options_);
  {
    SQLite::Database later(path_, SQLite::OPEN_READWRITE);
    later.exec("PRAGMA wal_autocheckpoint = 0");
    later.exec("PRAGMA user_version = 99");
    TemporaryFolder copy;
    for (const char* ending : {"", "-wal"}) fs::copy_file(path_ + ending, copy.path() + "/jobs.db" + ending);
    const std::string before = contentOf(copy.path() + "/jobs.db");
    const std::string journal = contentOf(copy.path() + "/jobs.db-wal");
    options_.folder = copy.path();
    EXPECT_EQ(problem().kind, Kind::newer);
    EXPECT_EQ(contentOf(copy.path() + "/jobs.db"), before);
    EXPECT_EQ(contentOf(copy.path() + "/jobs.db-wal"), journal);
  }
}

TEST_F(OpenTest, aDamagedStoreIsKeptAndTheNewestBackupNamed) {
  std::string backup;
  {
    auto store = openedStore(options_);
    store.saveDraft(draftAt(1, "7 Larkmoor Terrace"), {});
    backup = options_.folder + "/backups/jobs-1.db";
    store.backUp(backup);
    store.saveDraft(draftAt(2, "9 Larkmoor Terrace"), {});
  }
  std::string bytes = contentOf(path_);
  std::fill(bytes.begin() + 100, bytes.begin() + 4096, '\x5A');  // the schema, not the head
  write(path_, bytes);
  const auto damaged = problem();
  EXPECT_EQ(damaged.kind, Kind::corrupt);
  EXPECT_EQ(damaged.backup, backup);
  EXPECT_EQ(contentOf(path_), bytes);
  // What is offered: put it aside, go on with the backup.
  const std::string aside = history::setAside(options_);
  EXPECT_EQ(contentOf(aside), bytes);
  history::restoreBackup(options_, backup);
  auto store = openedStore(options_);
  EXPECT_EQ(history::Reader(store).total(), 1u);
  EXPECT_THROW(history::restoreBackup(options_, backup), history::StoreFault);
}

TEST_F(OpenTest, aStoreOfZerosIsDamaged) {
  write(path_, std::string(8192, '\0'));
  EXPECT_EQ(problem().kind, Kind::corrupt);
  EXPECT_EQ(contentOf(path_), std::string(8192, '\0'));
}

// Damage met later is told as such, and what can still be read is.
TEST_F(OpenTest, damageFoundWhileReadingIsTold) {
  std::vector<job::Job> jobs;
  for (std::uint64_t i = 1; i <= 200; ++i) jobs.push_back(draftAt(i, "7 Larkmoor Terrace"));
  openedStore(options_).import(jobs);
  std::string bytes = contentOf(path_);
  for (size_t at = 16 * 4096; at + 4096 <= bytes.size(); at += 4096)
    std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(at), 200, '\x5A');
  write(path_, bytes);
  auto opened = history::Store::open(options_, ww::equipment::standardLibrary());
  const auto kind = [&] {
    if (const auto* problem = std::get_if<history::StoreProblem>(&opened)) return problem->kind;
    try {
      auto& store = std::get<history::Store>(opened);
      history::Reader reader(store);
      for (const auto& one : jobs) reader.load({one.id});
    } catch (const history::StoreFault& fault) {
      return fault.problem().kind;
    }
    return Kind::frozen;
  }();
  EXPECT_EQ(kind, Kind::corrupt);
}

TEST_F(OpenTest, aLockedStoreIsTold) {
  openedStore(options_).saveDraft(draftAt(1, "7 Larkmoor Terrace"), {});
  SQLite::Database other(path_, SQLite::OPEN_READWRITE);
  other.exec("PRAGMA locking_mode = EXCLUSIVE");
  other.exec("BEGIN IMMEDIATE");
  other.exec("PRAGMA user_version = 2");
  options_.busyMilliseconds = 1;
  EXPECT_EQ(problem().kind, Kind::locked);
}

TEST_F(OpenTest, aWriterThatTakesTooLongIsTold) {
  options_.busyMilliseconds = 1;
  auto store = openedStore(options_);
  store.saveDraft(draftAt(1, "7 Larkmoor Terrace"), {});
  SQLite::Database other(path_, SQLite::OPEN_READWRITE);
  other.exec("BEGIN IMMEDIATE");
  try {
    store.saveDraft(draftAt(2, "9 Larkmoor Terrace"), {});
    FAIL() << "saved beside another writer";
  } catch (const history::StoreFault& fault) {
    EXPECT_EQ(fault.problem().kind, Kind::locked);
  }
  // Readers do not mind.
  EXPECT_EQ(history::Reader(store).total(), 1u);
  other.exec("ROLLBACK");
  store.saveDraft(draftAt(2, "9 Larkmoor Terrace"), {});
  EXPECT_EQ(history::Reader(store).total(), 2u);
}

TEST_F(OpenTest, aFullDiskIsToldAndNothingIsLost) {
  history::Version version;
  job::Job job = draftAt(1, "7 Larkmoor Terrace");
  {
    auto store = openedStore(options_);
    version = store.saveDraft(job, {}).version;
  }
  options_.mostPages = static_cast<int>(fs::file_size(path_) / 4096) + 2;
  auto store = openedStore(options_);
  job::Job large = job;
  large.site.notes = std::string(4000, 'n');
  for (int i = 0; i < 40; ++i)
    large.openItems.push_back({sampleId(i), std::string(1000, 'x'), "J. Tamsin", "2026-04-01"});
  try {
    store.saveDraft(large, version);
    FAIL() << "saved on a full disk";
  } catch (const history::StoreFault& fault) {
    EXPECT_EQ(fault.problem().kind, Kind::full);
  }
  history::Reader reader(store);
  EXPECT_EQ(reader.load({job.id}).value->job, job);
  EXPECT_EQ(reader.load({job.id}).value->version, version);
  EXPECT_THAT(store.faults(), IsEmpty());
  // With room again it is saved.
  options_.mostPages = 0;
  auto roomy = openedStore(options_);
  roomy.saveDraft(large, version);
  EXPECT_EQ(reader.load({job.id}).value->job, large);
}

/// A store as the first version made it: documents alone.
void makeFirstVersion(const std::string& path, const std::vector<job::Job>& drafts, const job::Job& closed) {
  SQLite::Database database(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
  database.exec("PRAGMA journal_mode = WAL");
  database.exec(history::schemaSteps()[0]);
  database.exec("PRAGMA application_id = " + std::to_string(history::kApplicationId));
  database.exec("PRAGMA user_version = 1");
  SQLite::Statement row(database,
                        "INSERT INTO job(id, sibling, created, version, head) VALUES(?,0,?,1,NULL)");
  const auto insert = [&](const job::Job& job) {
    row.reset();
    row.bind(1, job.id);
    row.bind(2, "2026-03-12T10:00:00.000Z");
    row.exec();
    return database.getLastInsertRowid();
  };
  for (const job::Job& job : drafts) {
    SQLite::Statement draft(database,
                            "INSERT INTO draft(job, body, saved) VALUES(?,?,'2026-03-12T10:00:00.000Z')");
    const std::string body = job::writeJob(job);
    draft.bind(1, insert(job));
    draft.bind(2, body.data(), static_cast<int>(body.size()));
    draft.exec();
  }
  const auto key = insert(closed);
  SQLite::Statement revision(database,
                             "INSERT INTO revision(job, parent, body, sha256, closed, program)"
                             " VALUES(?,NULL,?,?,'2026-03-12T10:00:00.000Z','0.1.0')");
  const std::string body = job::writeFrozen(closed);
  revision.bind(1, key);
  revision.bind(2, body.data(), static_cast<int>(body.size()));
  revision.bind(3, job::hashOf(closed));
  revision.exec();
  database.exec("UPDATE job SET head = " + std::to_string(database.getLastInsertRowid()) +
                " WHERE key = " + std::to_string(key));
}

TEST_F(OpenTest, theFirstVersionIsBroughtUpToDateAfterABackup) {
  job::Job closed = sampleJob();
  closed.signatures.clear();
  const std::vector<job::Job> drafts{draftAt(1, "14 North Oak Avenue", "Unit 4"),
                                     draftAt(2, "9 Larkmoor Terrace")};
  makeFirstVersion(path_, drafts, closed);
  auto store = openedStore(options_);
  ASSERT_NE(store.migrationBackup(), "");
  EXPECT_THAT(store.faults(), IsEmpty());
  history::Reader reader(store);
  EXPECT_EQ(reader.total(), 3u);
  EXPECT_EQ(reader.find("n oak 4")->rows.front().ref.id, drafts[0].id);
  EXPECT_EQ(reader.load({drafts[1].id}).value->job, drafts[1]);
  EXPECT_EQ(reader.load({closed.id}).value->job, closed);
  EXPECT_EQ(reader.load({closed.id}).value->hash, job::hashOf(closed));
  EXPECT_EQ(reader.readings({closed.id}).size(), 1u);
  // The backup is what was there.
  SQLite::Database backup(store.migrationBackup(), SQLite::OPEN_READONLY);
  EXPECT_EQ(backup.execAndGet("PRAGMA user_version").getInt(), 1);
  EXPECT_EQ(backup.execAndGet("SELECT count(*) FROM job").getInt(), 3);
  EXPECT_EQ(backup.execAndGet("PRAGMA integrity_check").getString(), "ok");
  // It happens once.
  EXPECT_EQ(openedStore(options_).migrationBackup(), "");
}

TEST_F(OpenTest, aMigrationThatFailsLeavesTheStoreAsItWas) {
  makeFirstVersion(path_, {draftAt(1, "7 Larkmoor Terrace")}, sampleJob());
  {
    SQLite::Database database(path_, SQLite::OPEN_READWRITE);
    database.exec("CREATE TABLE word(taken)");  // the way of the step is barred
  }
  EXPECT_EQ(problem().kind, Kind::broken);
  SQLite::Database database(path_, SQLite::OPEN_READONLY);
  EXPECT_EQ(database.execAndGet("PRAGMA user_version").getInt(), 1);
  EXPECT_EQ(database.execAndGet("SELECT count(*) FROM job").getInt(), 2);
  EXPECT_EQ(database.execAndGet("SELECT count(*) FROM sqlite_schema WHERE name = 'listing'").getInt(), 0);
}

TEST_F(OpenTest, whatIsDerivedIsDerivedAnewWhenItsRulesChanged) {
  {
    auto store = openedStore(options_);
    store.import({sampleJob(), draftAt(1, "14 North Oak Avenue")});
  }
  {
    SQLite::Database database(path_, SQLite::OPEN_READWRITE);
    database.exec("UPDATE meta SET value = '0' WHERE name = 'projection'");
    database.exec("DELETE FROM search");
    database.exec("DELETE FROM listing");
  }
  auto store = openedStore(options_);
  history::Reader reader(store);
  EXPECT_EQ(reader.total(), 2u);
  EXPECT_EQ(reader.find("oak")->rows.size(), 1u);
  EXPECT_THAT(store.faults(), IsEmpty());
}

TEST_F(OpenTest, aClosedRevisionCannotBeChangedByAnybody) {
  openedStore(options_).import({sampleJob()});
  SQLite::Database database(path_, SQLite::OPEN_READWRITE);
  const auto refused = [&](const char* sql) { EXPECT_THROW(database.exec(sql), SQLite::Exception) << sql; };
  refused("UPDATE revision SET body = x'00'");
  refused("UPDATE revision SET sha256 = ''");
  refused("DELETE FROM revision");
  refused("REPLACE INTO revision SELECT * FROM revision");
  refused("UPDATE signature SET name = 'somebody'");
  refused("DELETE FROM signature");
  refused("REPLACE INTO signature SELECT * FROM signature");
}

}  // namespace
