// SPDX-License-Identifier: GPL-3.0-or-later
// SQLite as the room uses it. Private to the room.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <chrono>
#include <cstdint>
#include <map>
#include <memory>
#include <string>

#include "history/store.h"

namespace ww::history {

/// Where things lie for these options.
std::string storePath(const OpenOptions& options);
std::string backupFolder(const OpenOptions& options);
/// The newest backup of the store; empty without any.
std::string newestBackup(const OpenOptions& options);

StoreProblem problemOf(const SQLite::Exception& error, const std::string& path);
bool wasInterrupted(const SQLite::Exception& error);

/// Runs something on a database; its exceptions become StoreFault.
template <class Run>
auto guarded(const std::string& path, Run run) {
  try {
    return run();
  } catch (const SQLite::Exception& error) {
    throw StoreFault(problemOf(error, path));
  }
}

std::unique_ptr<SQLite::Database> connect(const std::string& path, int flags, int busyMilliseconds,
                                          const std::string& vfs);

/// ISO 8601, UTC, to the millisecond; fit for file names when `compact`.
std::string isoOf(std::chrono::system_clock::time_point time, bool compact = false);
std::int64_t millisecondsOf(std::chrono::system_clock::time_point time);

/// A statement in use: reset when done, so that no snapshot stays open.
class Use {
 public:
  explicit Use(SQLite::Statement& statement) : statement_(&statement) {}
  Use(Use&& other) noexcept : statement_(std::exchange(other.statement_, nullptr)) {}
  Use(const Use&) = delete;
  Use& operator=(const Use&) = delete;
  ~Use() {
    if (statement_ != nullptr) statement_->tryReset();
  }
  bool next() { return statement_->executeStep(); }
  void run() {
    while (statement_->executeStep()) {
    }
  }
  std::string text(int column) const { return statement_->getColumn(column).getString(); }
  std::int64_t whole(int column) const { return statement_->getColumn(column).getInt64(); }
  double number(int column) const { return statement_->getColumn(column).getDouble(); }
  bool isNull(int column) const { return statement_->isColumnNull(column); }

 private:
  SQLite::Statement* statement_;
};

/// Binary data, in and out.
struct Bytes {
  const std::string& bytes;
};
struct Null {};

/// Prepared statements of one connection, each prepared once. `sql` must be a literal.
class Statements {
 public:
  explicit Statements(SQLite::Database& database) : database_(database) {}
  template <class... Values>
  Use operator()(const char* sql, const Values&... values) {
    SQLite::Statement& statement = prepared(sql);
    int index = 0;
    (put(statement, ++index, values), ...);
    return Use(statement);
  }
  SQLite::Database& database() { return database_; }
  /// Forgets all of them, so that the file can be closed or its tables changed.
  void clear() { statements_.clear(); }

 private:
  SQLite::Statement& prepared(const char* sql);
  static void put(SQLite::Statement& s, int at, const std::string& value) { s.bind(at, value); }
  static void put(SQLite::Statement& s, int at, const char* value) { s.bind(at, value); }
  static void put(SQLite::Statement& s, int at, std::int64_t value) { s.bind(at, value); }
  static void put(SQLite::Statement& s, int at, int value) { s.bind(at, value); }
  static void put(SQLite::Statement& s, int at, size_t value) {
    s.bind(at, static_cast<std::int64_t>(value));
  }
  static void put(SQLite::Statement& s, int at, double value) { s.bind(at, value); }
  static void put(SQLite::Statement& s, int at, const Bytes& value) {
    s.bind(at, value.bytes.data(), static_cast<int>(value.bytes.size()));
  }
  static void put(SQLite::Statement& s, int at, const Null& /*none*/) { s.bind(at); }
  template <class Value>
  static void put(SQLite::Statement& s, int at, const std::optional<Value>& value) {
    value ? s.bind(at, *value) : s.bind(at);
  }

  SQLite::Database& database_;
  std::map<const char*, SQLite::Statement> statements_;
};

}  // namespace ww::history
