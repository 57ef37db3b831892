// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/reader.h"

#include <sqlite3.h>

#include "history/presence.h"
#include "history/reader_state.h"
#include "history/state_words.h"
#include "history/store_state.h"
#include "job/job_json.h"

namespace ww::history {

Reader::State::State(std::string file, const OpenOptions& options, std::string writer,
                     const equipment::Library& profiles)
    : path(std::move(file)),
      clock(options.clock),
      process(std::move(writer)),
      library(profiles),
      database(connect(path, SQLite::OPEN_READWRITE, options.busyMilliseconds, options.vfs)),
      sql(*database) {
  // A journal can only be shared by a connection that may write; this one never does.
  database->exec("PRAGMA query_only = ON");
  database->exec("PRAGMA cache_size = -16000");
}

Reader::Reader(const Store& store)
    : state_(guarded(store.path(), [&] {
        return std::make_unique<State>(store.path(), store.state_->options, store.state_->presence.process,
                                       store.state_->library);
      })) {}
Reader::Reader(Reader&&) noexcept = default;
Reader& Reader::operator=(Reader&&) noexcept = default;
Reader::~Reader() = default;

namespace {

/// Runs a search; nothing when another thread stopped it.
template <class Run>
auto unlessInterrupted(const std::string& path, Run run) -> std::optional<decltype(run())> {
  return guarded(path, [&]() -> std::optional<decltype(run())> {
    try {
      return run();
    } catch (const SQLite::Exception& error) {
      if (!wasInterrupted(error)) throw;
      return std::nullopt;
    }
  });
}

}  // namespace

std::optional<Found> Reader::find(const std::string& text, size_t from, size_t count) {
  return unlessInterrupted(state_->path, [&] { return state_->find(text, from, count); });
}

std::optional<Count> Reader::count(const std::string& text, size_t most) {
  return unlessInterrupted(state_->path, [&] { return state_->count(text, most); });
}

size_t Reader::total() {
  return guarded(state_->path, [&] {
    auto rows = state_->sql("SELECT count(*) FROM listing WHERE state <> 'binned'");
    rows.next();
    return static_cast<size_t>(rows.whole(0));
  });
}

void Reader::interrupt() { sqlite3_interrupt(state_->database->getHandle()); }

std::optional<std::int64_t> Reader::State::keyOf(const JobRef& ref) {
  auto found = sql("SELECT key FROM job WHERE id = ? AND sibling = ?", ref.id, ref.sibling);
  if (!found.next()) return std::nullopt;
  return found.whole(0);
}

quantity::Loaded<StoredJob> Reader::load(const JobRef& ref) {
  using Result = quantity::Loaded<StoredJob>;
  return guarded(state_->path, [&] {
    StoredJob stored;
    std::string body;
    std::int64_t head = 0;
    bool draft = false;
    {
      auto found = state_->sql(
          "SELECT job.version, job.binned IS NOT NULL, coalesce(draft.body, revision.body),"
          " coalesce(draft.saved, revision.closed), coalesce(revision.sha256, ''), coalesce(job.head, 0),"
          " draft.job IS NOT NULL FROM job LEFT JOIN draft ON draft.job = job.key"
          " LEFT JOIN revision ON revision.key = job.head WHERE job.id = ? AND job.sibling = ?",
          ref.id, ref.sibling);
      if (!found.next()) return Result::failed({{"", "job-not-stored", {{"id", ref.id}}}});
      stored.version = {ref, found.whole(0)};
      stored.binned = found.whole(1) != 0;
      body = found.text(2);
      stored.savedAt = found.text(3);
      stored.hash = found.text(4);
      head = found.whole(5);
      draft = found.whole(6) != 0;
    }
    auto job = job::readJob(body, state_->library);
    if (!job) return Result::failed(std::move(job.problems));
    stored.job = std::move(*job.value);
    if (!draft) {
      auto facts = state_->sql(
          "SELECT id, role, name, at, form FROM signature WHERE revision = ? ORDER BY rowid", head);
      while (facts.next())
        stored.job.signatures.push_back(
            {facts.text(0), facts.text(1), facts.text(2), facts.text(3), facts.text(4)});
    }
    return Result::ok(std::move(stored));
  });
}

std::vector<Visit> Reader::visits(const JobRef& ref) {
  return guarded(state_->path, [&] {
    std::vector<Visit> visits;
    auto rows = state_->sql(
        "SELECT job.id, job.sibling, day, state, open FROM listing JOIN job ON job.key = listing.job"
        " WHERE listing.job = ?1 OR (state <> 'binned' AND"
        " site = (SELECT site FROM listing WHERE job = ?1)) ORDER BY recency",
        state_->keyOf(ref).value_or(-1));
    while (rows.next())
      visits.push_back({{rows.text(0), static_cast<int>(rows.whole(1))},
                        rows.text(2),
                        stateOf(rows.text(3)),
                        static_cast<int>(rows.whole(4))});
    return visits;
  });
}

std::vector<VisitReading> Reader::readings(const JobRef& ref, const std::string& step) {
  return guarded(state_->path, [&] {
    std::vector<VisitReading> readings;
    auto rows = state_->sql(
        "SELECT job.id, job.sibling, day, step, reading.unit, value, open_line, low, high FROM listing"
        " JOIN job ON job.key = listing.job JOIN reading ON reading.job = listing.job"
        " WHERE (listing.job = ?1 OR (state <> 'binned' AND"
        " site = (SELECT site FROM listing WHERE job = ?1))) AND counts AND (?2 = '' OR step = ?2)"
        " ORDER BY recency, place",
        state_->keyOf(ref).value_or(-1), step);
    const auto numberIn = [&](int column) {
      return rows.isNull(column) ? std::nullopt : std::optional(rows.number(column));
    };
    while (rows.next())
      readings.push_back({{rows.text(0), static_cast<int>(rows.whole(1))},
                          rows.text(2),
                          rows.text(3),
                          rows.text(4),
                          numberIn(5),
                          rows.whole(6) != 0,
                          numberIn(7),
                          numberIn(8)});
    return readings;
  });
}

Choices Reader::choices() {
  return guarded(state_->path, [&] {
    Choices choices;
    const auto all = [&](const char* sql, std::vector<std::string>& into) {
      auto rows = state_->sql(sql);
      while (rows.next()) into.push_back(rows.text(0));
    };
    // Each from the one before, so that a million jobs are not read for a dozen years.
    all("WITH RECURSIVE a(y) AS (SELECT max(recency) FROM listing UNION ALL SELECT (SELECT max(recency) FROM"
        " listing WHERE recency < unixepoch(strftime('%Y', (y >> 32) * 86400, 'unixepoch') || '-01-01')"
        " / 86400 << 32) FROM a WHERE y IS NOT NULL) SELECT strftime('%Y', (y >> 32) * 86400, 'unixepoch')"
        " FROM a WHERE y IS NOT NULL",
        choices.years);
    all("WITH RECURSIVE a(v) AS (SELECT min(system) FROM listing WHERE system > '' UNION ALL SELECT (SELECT"
        " min(system) FROM listing WHERE system > v) FROM a WHERE v IS NOT NULL) SELECT v FROM a WHERE v IS"
        " NOT NULL",
        choices.systems);
    all("WITH RECURSIVE a(v) AS (SELECT min(installer) FROM listing WHERE installer > '' UNION ALL SELECT"
        " (SELECT min(installer) FROM listing WHERE installer > v) FROM a WHERE v IS NOT NULL) SELECT v FROM "
        "a"
        " WHERE v IS NOT NULL",
        choices.installers);
    return choices;
  });
}

std::vector<Editor> Reader::editors(const JobRef& ref) {
  return guarded(state_->path, [&] {
    std::vector<Editor> others;
    auto rows =
        state_->sql("SELECT who, since, boot, pid, beat, process FROM editor WHERE job = ? ORDER BY since",
                    state_->keyOf(ref).value_or(-1));
    while (rows.next()) {
      const Presence presence{rows.text(5), rows.text(2), static_cast<int>(rows.whole(3)), rows.whole(4)};
      if (presence.process != state_->process && isAlive(presence, millisecondsOf(state_->clock())))
        others.push_back({rows.text(0), rows.text(1)});
    }
    return others;
  });
}

}  // namespace ww::history
