// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/open_store.h"

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <optional>

#include "history/projection.h"
#include "history/schema.h"

namespace ww::history {

namespace {

namespace fs = std::filesystem;
using Kind = StoreProblem::Kind;

// The head of a database file (SQLite, "Database File Format", 1.3).
constexpr size_t kHeadBytes = 100;
constexpr size_t kUserVersionAt = 60;
constexpr size_t kApplicationIdAt = 68;
constexpr std::string_view kMagic{"SQLite format 3\0", 16};

int bigEndian(const std::array<char, kHeadBytes>& head, size_t at) {
  unsigned value = 0;
  for (size_t i = 0; i < 4; ++i) value = value << 8 | static_cast<unsigned char>(head[at + i]);
  return static_cast<int>(value);
}

StoreProblem newer(const std::string& path, int version) {
  return {Kind::newer, path, std::to_string(version), {}};
}

/// What the head of a file that is there says against opening it; read past the database, which might write.
std::optional<StoreProblem> headProblem(const OpenOptions& options) {
  const std::string path = storePath(options);
  std::error_code none;
  if (!fs::exists(path, none)) return std::nullopt;
  if (!fs::is_regular_file(path, none)) return StoreProblem{Kind::notAStore, path, {}, {}};
  std::array<char, kHeadBytes> head{};
  std::ifstream file(path, std::ios::binary);
  file.read(head.data(), head.size());
  const auto bytes = file.gcount();
  if (bytes == 0) return std::nullopt;  // made, and never written
  if (bytes < static_cast<std::streamsize>(head.size()) ||
      std::string_view(head.data(), kMagic.size()) != kMagic) {
    // Zeros are what a lost write leaves; anything else was never a store.
    const bool lost = std::all_of(head.begin(), head.end(), [](char c) { return c == 0; });
    return StoreProblem{lost ? Kind::corrupt : Kind::notAStore, path, {}, newestBackup(options)};
  }
  const int application = bigEndian(head, kApplicationIdAt);
  if (application != 0 && application != kApplicationId) return StoreProblem{Kind::notAStore, path, {}, {}};
  if (const int version = bigEndian(head, kUserVersionAt); version > schemaVersion())
    return newer(path, version);
  return std::nullopt;
}

std::optional<StoreProblem> folderProblem(const OpenOptions& options) {
  const std::string kind = options.fileSystem(options.folder);
  if (isNetwork(kind)) return StoreProblem{Kind::network, options.folder, kind, {}};
  std::error_code error;
  fs::create_directories(backupFolder(options), error);
  if (error) {
    const Kind what = error == std::errc::no_space_on_device ? Kind::full : Kind::readOnly;
    return StoreProblem{what, options.folder, error.message(), {}};
  }
  return std::nullopt;
}

int pragma(SQLite::Database& database, const char* name) {
  return database.execAndGet(std::string("PRAGMA ") + name).getInt();
}

void prepare(SQLite::Database& database, const OpenOptions& options) {
  database.exec("PRAGMA synchronous = FULL");
  database.exec("PRAGMA foreign_keys = ON");
  database.exec("PRAGMA recursive_triggers = ON");
  database.exec("PRAGMA trusted_schema = OFF");
  database.exec("PRAGMA cache_size = -16000");
  if (options.mostPages > 0) database.exec("PRAGMA max_page_count = " + std::to_string(options.mostPages));
}

void flush(const std::string& path) {
  const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (file < 0) return;
  ::fsync(file);
  ::close(file);
}

std::string backUpBeforeMigration(SQLite::Database& database, const OpenOptions& options, int version) {
  std::string path = backupFolder(options) + (options.kind == StoreKind::demo ? "/demo-v" : "/jobs-v") +
                     std::to_string(version) + "-" + isoOf(options.clock(), true) + ".db";
  SQLite::Statement copy(database, "VACUUM INTO ?");
  copy.bind(1, path);
  copy.exec();
  flush(path);
  flush(backupFolder(options));
  return path;
}

/// References that point nowhere; a migration that made one is taken back.
void checkReferences(SQLite::Database& database) {
  SQLite::Statement broken(database, "PRAGMA foreign_key_check");
  if (broken.executeStep()) throw SQLite::Exception("a reference points nowhere", SQLITE_CORRUPT);
}

/// Steps and derived tables in one transaction; another process may have done it meanwhile.
void bringUpToDate(SQLite::Database& database, const equipment::Library& library) {
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  const int version = pragma(database, "user_version");
  for (int step = version; step < schemaVersion(); ++step)
    database.exec(schemaSteps()[static_cast<size_t>(step)]);
  Statements statements(database);
  const std::string projection = std::to_string(kProjection);
  const bool derived = [&] {
    auto stored = statements("SELECT value FROM meta WHERE name = 'projection'");
    return stored.next() && stored.text(0) == projection;
  }();
  if (!derived) {
    Projection(statements, library).rebuild();
    statements(
        "INSERT INTO meta(name, value) VALUES('projection', ?)"
        " ON CONFLICT(name) DO UPDATE SET value = excluded.value",
        projection)
        .run();
  }
  statements.clear();
  if (version < schemaVersion()) {
    checkReferences(database);
    database.exec("PRAGMA application_id = " + std::to_string(kApplicationId));
    database.exec("PRAGMA user_version = " + std::to_string(schemaVersion()));
  }
  transaction.commit();
}

bool isUpToDate(SQLite::Database& database) {
  if (pragma(database, "user_version") != schemaVersion()) return false;
  SQLite::Statement stored(database, "SELECT value FROM meta WHERE name = 'projection'");
  return stored.executeStep() && stored.getColumn(0).getString() == std::to_string(kProjection);
}

std::variant<Opened, StoreProblem> opened(const OpenOptions& options, const equipment::Library& library) {
  const std::string path = storePath(options);
  Opened result;
  result.database =
      connect(path, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, options.busyMilliseconds, options.vfs);
  SQLite::Database& database = *result.database;
  // Until it is known to be ours, not even what its journal holds is moved into the file.
  sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 1, nullptr);
  const int version = pragma(database, "user_version");
  if (version > schemaVersion()) return newer(path, version);
  if (version == 0 && pragma(database, "schema_version") != 0)
    return StoreProblem{Kind::notAStore, path, {}, {}};
  sqlite3_db_config(database.getHandle(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, 0, nullptr);
  prepare(database, options);
  if (const std::string mode = database.execAndGet("PRAGMA journal_mode = WAL").getString(); mode != "wal")
    return StoreProblem{Kind::network, options.folder, options.fileSystem(options.folder), {}};
  if (version > 0 && !isUpToDate(database))
    result.migrationBackup = backUpBeforeMigration(database, options, version);
  if (version == 0 || !result.migrationBackup.empty()) bringUpToDate(database, library);
  return result;
}

}  // namespace

std::variant<Opened, StoreProblem> openStore(const OpenOptions& options, const equipment::Library& library) {
  if (auto problem = folderProblem(options)) return std::move(*problem);
  if (auto problem = headProblem(options)) return std::move(*problem);
  const std::string path = storePath(options);
  try {
    return opened(options, library);
  } catch (const SQLite::Exception& error) {
    StoreProblem problem = problemOf(error, path);
    if (problem.kind == Kind::corrupt || problem.kind == Kind::notAStore) {
      // The head was in order, so it was a store once.
      problem.kind = Kind::corrupt;
      problem.backup = newestBackup(options);
    }
    return problem;
  }
}

}  // namespace ww::history
