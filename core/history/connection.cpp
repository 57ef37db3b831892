// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/connection.h"

#include <sqlite3.h>

#include <array>
#include <cstdio>
#include <ctime>
#include <filesystem>

namespace ww::history {

namespace {

const char* fileName(StoreKind kind) { return kind == StoreKind::demo ? "demo.db" : "jobs.db"; }

}  // namespace

std::string storePath(const OpenOptions& options) { return options.folder + "/" + fileName(options.kind); }

std::string backupFolder(const OpenOptions& options) { return options.folder + "/backups"; }

std::string newestBackup(const OpenOptions& options) {
  namespace fs = std::filesystem;
  const std::string stem = options.kind == StoreKind::demo ? "demo-" : "jobs-";
  std::error_code none;
  fs::path newest;
  fs::file_time_type when;
  for (const auto& entry : fs::directory_iterator(backupFolder(options), none)) {
    const std::string name = entry.path().filename().string();
    if (!name.starts_with(stem) || !name.ends_with(".db")) continue;
    const auto written = fs::last_write_time(entry.path(), none);
    if (newest.empty() || written > when || (written == when && entry.path() > newest)) {
      newest = entry.path();
      when = written;
    }
  }
  return newest.string();
}

StoreProblem problemOf(const SQLite::Exception& error, const std::string& path) {
  using Kind = StoreProblem::Kind;
  const auto kind = [&] {
    switch (error.getErrorCode() & 0xFF) {
      case SQLITE_READONLY:
      case SQLITE_PERM:
      case SQLITE_CANTOPEN: return Kind::readOnly;
      case SQLITE_FULL: return Kind::full;
      case SQLITE_CORRUPT: return Kind::corrupt;
      case SQLITE_NOTADB: return Kind::notAStore;
      case SQLITE_BUSY:
      case SQLITE_LOCKED: return Kind::locked;
      default: return Kind::broken;
    }
  }();
  return {kind, path, error.what(), {}};
}

bool wasInterrupted(const SQLite::Exception& error) { return error.getErrorCode() == SQLITE_INTERRUPT; }

std::unique_ptr<SQLite::Database> connect(const std::string& path, int flags, int busyMilliseconds,
                                          const std::string& vfs) {
  auto database = std::make_unique<SQLite::Database>(path, flags, busyMilliseconds, vfs);
  sqlite3_extended_result_codes(database->getHandle(), 1);
  return database;
}

std::int64_t millisecondsOf(std::chrono::system_clock::time_point time) {
  return std::chrono::duration_cast<std::chrono::milliseconds>(time.time_since_epoch()).count();
}

std::string isoOf(std::chrono::system_clock::time_point time, bool compact) {
  const std::int64_t whole = millisecondsOf(time);
  const std::int64_t rest = ((whole % 1000) + 1000) % 1000;
  const auto seconds = static_cast<std::time_t>((whole - rest) / 1000);
  std::tm parts{};
  gmtime_r(&seconds, &parts);
  std::array<char, 64> text{};
  std::snprintf(text.data(), text.size(),
                compact ? "%04d%02d%02dT%02d%02d%02d-%03dZ" : "%04d-%02d-%02dT%02d:%02d:%02d.%03dZ",
                parts.tm_year + 1900, parts.tm_mon + 1, parts.tm_mday, parts.tm_hour, parts.tm_min,
                parts.tm_sec, static_cast<int>(rest));
  return text.data();
}

SQLite::Statement& Statements::prepared(const char* sql) {
  auto found = statements_.find(sql);
  if (found == statements_.end())
    found = statements_.emplace(sql, SQLite::Statement(database_, sql)).first;
  else
    found->second.tryReset();
  found->second.clearBindings();
  return found->second;
}

}  // namespace ww::history
