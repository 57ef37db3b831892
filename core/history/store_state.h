// SPDX-License-Identifier: GPL-3.0-or-later
// The inside of the store. Private to the room.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "history/connection.h"
#include "history/open_store.h"
#include "history/presence.h"
#include "history/projection.h"
#include "history/store.h"

namespace ww::history {

struct Store::State {
  State(const OpenOptions& opened, const equipment::Library& profiles, Opened store);

  OpenOptions options;
  std::string path;
  std::string migrationBackup;
  const equipment::Library& library;
  std::unique_ptr<SQLite::Database> database;
  Statements sql;
  Projection projection;
  Presence presence = newPresence();

  /// All or nothing; faults become StoreFault.
  template <class Run>
  auto inTransaction(Run run) {
    return guarded(path, [&] {
      SQLite::Transaction transaction(*database, SQLite::TransactionBehavior::IMMEDIATE);
      if constexpr (std::is_void_v<decltype(run())>) {
        run();
        transaction.commit();
      } else {
        auto result = run();
        transaction.commit();
        return result;
      }
    });
  }

  // Each inside a transaction.
  Saved save(const job::Job& job, const Version& from);
  Saved close(const job::Job& job, const Version& from);
  Saved takeIn(const job::Job& job);
  void bin(const JobRef& ref, bool binned);
  void addMissing(const std::vector<job::Job>& jobs);  ///< those whose id is not there

  /// A row of the table of jobs.
  struct JobRow {
    Stored stored;
    std::int64_t version = 0;
    std::optional<std::int64_t> head;
  };
  std::optional<JobRow> find(const JobRef& ref);
  std::string now() const { return isoOf(options.clock()); }

 private:
  /// Where a save goes: the row it came from, a new one, or a sibling when another saved meanwhile.
  struct Place {
    JobRef ref;
    JobRow row;
    bool becameSibling = false;
  };
  Place placeFor(const job::Job& job, const Version& from, const std::string& body);
  JobRow insert(const JobRef& ref, std::optional<std::int64_t> head);
  Place siblingOf(const std::string& id, std::optional<std::int64_t> head);
  void keepDraft(std::int64_t job, const std::string& body);
  /// Freezes the body as the newest revision of the row.
  void freeze(Place& place, const job::Job& job);
  void sign(std::int64_t revision, const job::Job& job);
  Saved counted(const Place& place);
  std::string draftOf(std::int64_t job);
  std::string hashOfHead(const JobRow& row);
};

}  // namespace ww::history
