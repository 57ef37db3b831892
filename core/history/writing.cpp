// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/state_words.h"
#include "history/store_state.h"
#include "job/identity.h"
#include "job/job_json.h"

namespace ww::history {

Store::State::State(const OpenOptions& opened, const equipment::Library& profiles, Opened store)
    : options(opened),
      path(storePath(opened)),
      migrationBackup(std::move(store.migrationBackup)),
      library(profiles),
      database(std::move(store.database)),
      sql(*database),
      projection(sql, library) {}

std::optional<Store::State::JobRow> Store::State::find(const JobRef& ref) {
  auto row =
      sql("SELECT key, created, version, head, binned IS NOT NULL,"
          " EXISTS(SELECT 1 FROM draft WHERE draft.job = job.key) FROM job WHERE id = ? AND sibling = ?",
          ref.id, ref.sibling);
  if (!row.next()) return std::nullopt;
  JobRow found;
  found.stored = {row.whole(0), row.text(1), row.whole(5) != 0, row.whole(4) != 0};
  found.version = row.whole(2);
  if (!row.isNull(3)) found.head = row.whole(3);
  return found;
}

Store::State::JobRow Store::State::insert(const JobRef& ref, std::optional<std::int64_t> head) {
  const std::string created = now();
  sql("INSERT INTO job(id, sibling, created, version, head) VALUES(?,?,?,0,?)", ref.id, ref.sibling, created,
      head)
      .run();
  JobRow row;
  row.stored = {database->getLastInsertRowid(), created, true, false};
  row.head = head;
  return row;
}

Store::State::Place Store::State::siblingOf(const std::string& id, std::optional<std::int64_t> head) {
  int last = 0;
  {
    auto found = sql("SELECT max(sibling) FROM job WHERE id = ?", id);
    found.next();
    last = static_cast<int>(found.whole(0));
  }
  const JobRef ref{id, last + 1};
  return {ref, insert(ref, head), true};
}

std::string Store::State::draftOf(std::int64_t job) {
  auto found = sql("SELECT body FROM draft WHERE job = ?", job);
  return found.next() ? found.text(0) : std::string();
}

std::string Store::State::hashOfHead(const JobRow& row) {
  if (!row.head) return {};
  auto found = sql("SELECT sha256 FROM revision WHERE key = ?", *row.head);
  return found.next() ? found.text(0) : std::string();
}

Store::State::Place Store::State::placeFor(const job::Job& job, const Version& from,
                                           const std::string& body) {
  const JobRef ref{job.id, from.ref.id == job.id ? from.ref.sibling : 0};
  auto row = find(ref);
  if (!row) return {ref, insert(ref, std::nullopt), false};
  if (row->version == from.number || draftOf(row->stored.key) == body) return {ref, *row, false};
  return siblingOf(job.id, row->head);
}

void Store::State::keepDraft(std::int64_t job, const std::string& body) {
  sql("INSERT INTO draft(job, body, saved) VALUES(?,?,?)"
      " ON CONFLICT(job) DO UPDATE SET body = excluded.body, saved = excluded.saved",
      job, Bytes{body}, now())
      .run();
}

Saved Store::State::counted(const Place& place) {
  sql("UPDATE job SET version = ?, head = ? WHERE key = ?", place.row.version + 1, place.row.head,
      place.row.stored.key)
      .run();
  return {{place.ref, place.row.version + 1}, place.becameSibling, now()};
}

void Store::State::sign(std::int64_t revision, const job::Job& job) {
  for (const job::Signature& fact : job.signatures)
    sql("INSERT INTO signature(revision, id, role, name, at, form) SELECT ?1,?2,?3,?4,?5,?6"
        " WHERE NOT EXISTS(SELECT 1 FROM signature WHERE revision = ?1 AND id = ?2)",
        revision, fact.id, fact.role, fact.name, fact.at, fact.form)
        .run();
}

void Store::State::freeze(Place& place, const job::Job& job) {
  const std::string body = job::writeFrozen(job);
  sql("INSERT INTO revision(job, parent, body, sha256, closed, program) VALUES(?,?,?,?,?,?)",
      place.row.stored.key, place.row.head, Bytes{body}, job::sha256(body), now(), options.program)
      .run();
  place.row.head = database->getLastInsertRowid();
  sign(*place.row.head, job);
  sql("DELETE FROM draft WHERE job = ?", place.row.stored.key).run();
  place.row.stored.inWork = false;
}

Saved Store::State::save(const job::Job& job, const Version& from) {
  if (job.state == job::State::closed) {
    // What is closed takes signatures and nothing else.
    auto row = find(from.ref.id == job.id ? from.ref : JobRef{job.id});
    if (row && row->head && hashOfHead(*row) == job::hashOf(job)) {
      sign(*row->head, job);
      return {{from.ref, row->version}, false, now()};
    }
    throw StoreFault({StoreProblem::Kind::frozen, path, job.id, {}});
  }
  const std::string body = job::writeJob(job);
  Place place = placeFor(job, from, body);
  if (place.row.version > 0 && draftOf(place.row.stored.key) == body)
    return {{place.ref, place.row.version}, false, now()};
  keepDraft(place.row.stored.key, body);
  place.row.stored.inWork = true;
  projection.write(place.row.stored, job);
  return counted(place);
}

Saved Store::State::close(const job::Job& job, const Version& from) {
  job::Job closing = job;
  if (closing.state != job::State::amended) closing.state = job::State::closed;
  Place place = placeFor(job, from, job::writeJob(job));
  freeze(place, closing);
  projection.write(place.row.stored, closing);
  return counted(place);
}

Saved Store::State::takeIn(const job::Job& job) {
  const bool frozen = job.state == job::State::closed || job.state == job::State::amended;
  const std::string body = job::writeJob(job);
  {
    // The same content, wherever among the siblings it is, is there already.
    auto siblings = sql("SELECT sibling FROM job WHERE id = ? ORDER BY sibling", job.id);
    std::vector<int> numbers;
    while (siblings.next()) numbers.push_back(static_cast<int>(siblings.whole(0)));
    for (const int number : numbers) {
      const JobRef ref{job.id, number};
      const auto row = find(ref);
      const bool same = frozen ? hashOfHead(*row) == job::hashOf(job) : draftOf(row->stored.key) == body;
      if (!same) continue;
      if (frozen) sign(*row->head, job);
      return {{ref, row->version}, false, now()};
    }
  }
  const JobRef ref{job.id};
  const auto there = find(ref);
  Place place = there ? siblingOf(job.id, std::nullopt) : Place{ref, insert(ref, std::nullopt), false};
  if (frozen)
    freeze(place, job);
  else
    keepDraft(place.row.stored.key, body);
  place.row.stored.binned = job.state == job::State::binned;
  if (place.row.stored.binned)
    sql("UPDATE job SET binned = ? WHERE key = ?", now(), place.row.stored.key).run();
  projection.write(place.row.stored, job);
  return counted(place);
}

void Store::State::addMissing(const std::vector<job::Job>& jobs) {
  for (const job::Job& job : jobs)
    if (!find({job.id})) takeIn(job);
}

void Store::State::bin(const JobRef& ref, bool binned) {
  auto row = find(ref);
  if (!row || row->stored.binned == binned) return;
  if (binned)
    sql("UPDATE job SET binned = ? WHERE key = ?", now(), row->stored.key).run();
  else
    sql("UPDATE job SET binned = NULL WHERE key = ?", row->stored.key).run();
  std::string body = draftOf(row->stored.key);
  if (body.empty() && row->head) {
    auto found = sql("SELECT body FROM revision WHERE key = ?", *row->head);
    if (found.next()) body = found.text(0);
  }
  row->stored.binned = binned;
  const auto job = job::readJob(body, library);
  projection.write(row->stored, job ? *job.value : job::Job{});
}

}  // namespace ww::history
