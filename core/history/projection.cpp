// SPDX-License-Identifier: GPL-3.0-or-later
#include "history/projection.h"

#include <algorithm>
#include <cstdio>

#include "history/search_text.h"
#include "history/state_words.h"
#include "job/job_json.h"
#include "job/profiles.h"
#include "job/survey_facts.h"
#include "operation/solution.h"
#include "verify/check.h"

namespace ww::history {

namespace {

constexpr size_t kShortestKept = 4;  // bytes of a word; the index has the beginnings of shorter ones itself

/// Days since 1970 of an ISO date; 0 for what is none.
std::int64_t daysOf(const std::string& iso) {
  int year = 0;
  unsigned month = 0;
  unsigned day = 0;
  if (std::sscanf(iso.c_str(), "%4d-%2u-%2u", &year, &month, &day) != 3) return 0;
  const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(month),
                                         std::chrono::day(day)};
  if (!date.ok()) return 0;
  return std::max<std::int64_t>(0, std::chrono::sys_days(date).time_since_epoch().count());
}

std::string dayOf(const Stored& stored, const job::Job& job) {
  return job.visit.empty() ? stored.created.substr(0, 10) : job.visit;
}

std::string stateOf(const Stored& stored, const job::Job& job) {
  return std::string(stored.binned ? wordOf(job::State::binned) : wordOf(job.state));
}

void append(std::string& text, const std::string& more) {
  if (more.empty()) return;
  if (!text.empty()) text += ' ';
  text += more;
}

std::string foldedText(std::string_view text) {
  std::string result;
  for (const FoldedWord& word : wordsOf(text)) append(result, word.folded);
  return result;
}

std::string addressOf(const job::Site& site) {
  std::string text = addressText(site.address);
  append(text, addressText(site.unit));
  append(text, addressText(site.city));
  return text;
}

/// A telephone number is found by its whole digits and by its pieces.
std::string customerOf(const job::Job& job) {
  std::string text = foldedText(job.site.customer);
  append(text, foldedText(job.site.phone));
  const std::string whole = foldedWhole(job.site.phone);
  if (text.find(whole) == std::string::npos) append(text, whole);
  return text;
}

std::string numbersOf(const job::Job& job, const std::string& letter) {
  std::string text = foldedText(job.number + letter);
  if (const sheet::Sheet* sheet = job::currentSheet(job))
    for (const sheet::Unit& unit : sheet->units)
      if (const auto serial = unit.nameplate.find("serial"); serial != unit.nameplate.end())
        append(text, foldedText(serial->second));
  return text;
}

std::string facetsOf(const Stored& stored, const job::Job& job, const std::string& system, int open) {
  std::string text = facet("state", stateOf(stored, job));
  if (stored.inWork) {
    append(text, facet("state", "open"));
    if (!job.stage.empty()) append(text, facet("stage", job.stage));
  }
  if (!system.empty()) append(text, facet("system", system));
  append(text, facet("findings", open > 0 ? "open" : "none"));
  if (!job.installer.empty()) {
    append(text, facet("installer", job.installer));
    for (const FoldedWord& word : wordsOf(job.installer)) append(text, facet("installer", word.folded));
  }
  const std::string day = dayOf(stored, job);
  for (const size_t length : {4, 7, 10}) append(text, facet("day", day.substr(0, length)));
  if (const sheet::Sheet* sheet = job::currentSheet(job))
    for (const sheet::Unit& unit : sheet->units) append(text, facet("unit", unit.profile));
  return text;
}

}  // namespace

void Projection::write(const Stored& stored, const job::Job& job) {
  const std::string system = job::systemOf(job, job::libraryOf(job, library_));
  const int open = keepFindings(stored, job);
  keepReadings(stored, job);
  list(stored, job, system, open);
}

std::optional<std::int64_t> Projection::siteOf(const job::Site& site) {
  const std::string place = placeOf(site.address, site.unit, site.city);
  if (wordsOf(site.address).empty()) return std::nullopt;
  sql_("INSERT INTO site(place) VALUES(?) ON CONFLICT DO NOTHING", place).run();
  auto found = sql_("SELECT key FROM site WHERE place = ?", place);
  found.next();
  return found.whole(0);
}

std::string Projection::letterOf(const Stored& stored, const job::Job& job) {
  if (job.number.empty()) return {};
  auto earlier = sql_(
      "SELECT count(DISTINCT other.id) FROM listing JOIN job AS other ON other.key = listing.job "
      "WHERE listing.number = ?1 AND other.key < ?2 AND other.id <> (SELECT id FROM job WHERE key = ?2)",
      job.number, stored.key);
  earlier.next();
  const auto count = earlier.whole(0);
  if (count == 0) return {};
  // b, c, ..., z, then numbers: nobody imports so much.
  return count < 26 ? std::string(1, static_cast<char>('a' + count)) : '-' + std::to_string(count + 1);
}

void Projection::list(const Stored& stored, const job::Job& job, const std::string& system, int open) {
  const std::string day = dayOf(stored, job);
  const std::int64_t recency = (daysOf(day) << 32) | stored.key;
  const std::string letter = letterOf(stored, job);
  const job::Site& site = job.site;
  std::optional<std::int64_t> before;
  if (auto row = sql_("SELECT recency FROM listing WHERE job = ?", stored.key); row.next())
    before = row.whole(0);
  sql_(
      "INSERT INTO listing(job, recency, site, number, letter, address, unit, city, customer, phone, day,"
      " system, state, in_work, stage, installer, open) VALUES(?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)"
      " ON CONFLICT(job) DO UPDATE SET recency = excluded.recency, site = excluded.site,"
      " number = excluded.number, letter = excluded.letter, address = excluded.address, unit = excluded.unit,"
      " city = excluded.city, customer = excluded.customer, phone = excluded.phone, day = excluded.day,"
      " system = excluded.system, state = excluded.state, in_work = excluded.in_work, stage = excluded.stage,"
      " installer = excluded.installer, open = excluded.open",
      stored.key, recency, siteOf(site), job.number, letter, site.address, site.unit, site.city,
      site.customer, site.phone, day, system, stateOf(stored, job), stored.inWork ? 1 : 0, job.stage,
      job.installer, open)
      .run();
  index(stored, job, before, recency, letter, system, open);
}

void Projection::index(const Stored& stored, const job::Job& job, std::optional<std::int64_t> before,
                       std::int64_t recency, const std::string& letter, const std::string& system, int open) {
  const std::string address = addressOf(job.site);
  const std::string customer = customerOf(job);
  const std::string numbers = numbersOf(job, letter);
  const std::string facets = facetsOf(stored, job, system, open);
  if (before) {
    auto row = sql_("SELECT address, customer, numbers, facets FROM search WHERE rowid = ?", *before);
    if (before == recency && row.next() && row.text(0) == address && row.text(1) == customer &&
        row.text(2) == numbers && row.text(3) == facets)
      return;
  }
  if (before) sql_("DELETE FROM search WHERE rowid = ?", *before).run();
  sql_("INSERT INTO search(rowid, address, customer, numbers, facets) VALUES(?,?,?,?,?)", recency, address,
       customer, numbers, facets)
      .run();
  for (const std::string& text : {address, customer, numbers}) keepWords(text);
}

void Projection::keepWords(const std::string& text) {
  for (const FoldedWord& word : wordsOf(text)) {
    if (word.folded.size() < kShortestKept) continue;
    sql_("INSERT INTO word(term) SELECT ?1 WHERE NOT EXISTS(SELECT 1 FROM word WHERE term = ?1)", word.folded)
        .run();
  }
}

void Projection::keepReadings(const Stored& stored, const job::Job& job) {
  int place = 0;
  for (const job::Reading& reading : job.readings) {
    std::optional<double> low;
    std::optional<double> high;
    if (reading.band) {
      low = reading.band->low;
      high = reading.band->high;
    }
    const bool counts = job::standing(job, reading.step) == &reading;
    sql_(
        "INSERT INTO reading(job, id, place, step, unit, value, open_line, low, high, counts)"
        " VALUES(?,?,?,?,?,?,?,?,?,?)"
        " ON CONFLICT(job, id) DO UPDATE SET counts = excluded.counts WHERE counts <> excluded.counts",
        stored.key, reading.id, ++place, reading.step, reading.unit, reading.value, reading.openLine ? 1 : 0,
        low, high, counts ? 1 : 0)
        .run();
  }
}

const std::vector<verify::Finding>& Projection::findingsOf(const job::Job& job) {
  const sheet::Sheet* sheet = job::currentSheet(job);
  if (auto refused = job::refusalFindings(job); !refused.empty()) {
    checked_.reset();
    findings_ = std::move(refused);
  } else if (sheet == nullptr || sheet->units.empty()) {
    checked_.reset();
    findings_.clear();
  } else if (checked_ != *sheet || profiles_ != job.profiles || low_ != job.lowLine ||
             high_ != job.highLine) {
    const auto library = job::libraryOf(job, library_);
    const auto solution = operation::solveSheet(*sheet, library, {job.lowLine, job.highLine});
    findings_ = verify::check(*sheet, solution).findings;
    checked_ = *sheet;
    profiles_ = job.profiles;
    low_ = job.lowLine;
    high_ = job.highLine;
  }
  return findings_;
}

int Projection::keepFindings(const Stored& stored, const job::Job& job) {
  int open = 0;
  sql_("DELETE FROM finding WHERE job = ?", stored.key).run();
  for (const verify::Finding& finding : findingsOf(job)) {
    const bool accepted = job::acceptanceOf(job, finding) != nullptr;
    if (!accepted && finding.severity > verify::Severity::note) ++open;
    sql_("INSERT INTO finding(job, key, severity, accepted) VALUES(?,?,?,?) ON CONFLICT DO NOTHING",
         stored.key, verify::keyOf(finding), static_cast<int>(finding.severity), accepted ? 1 : 0)
        .run();
  }
  return open;
}

void Projection::rebuild() {
  SQLite::Database& database = sql_.database();
  for (const char* table : {"search", "reading", "finding", "word", "listing", "site"})
    database.exec(std::string("DELETE FROM ") + table);
  SQLite::Statement bodies(database,
                           "SELECT job.key, job.created, draft.job IS NOT NULL, job.binned IS NOT NULL,"
                           " coalesce(draft.body, revision.body) FROM job"
                           " LEFT JOIN draft ON draft.job = job.key"
                           " LEFT JOIN revision ON revision.key = job.head ORDER BY job.key");
  while (bodies.executeStep()) {
    const Stored stored{bodies.getColumn(0).getInt64(), bodies.getColumn(1).getString(),
                        bodies.getColumn(2).getInt() != 0, bodies.getColumn(3).getInt() != 0};
    auto job = job::readJob(bodies.getColumn(4).getString(), library_);
    write(stored, job ? *job.value : job::Job{});
  }
}

}  // namespace ww::history
