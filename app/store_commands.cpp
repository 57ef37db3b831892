// SPDX-License-Identifier: GPL-3.0-or-later
#include <chrono>
#include <nlohmann/json.hpp>
#include <random>

#include "history/reader.h"
#include "history/store.h"
#include "job/identity.h"
#include "opened.h"
#include "wording/sentences.h"

namespace ww::app {

namespace {

using nlohmann::json;

Exit storeFailed(const Request& request, const history::StoreProblem& problem) {
  return complain(wording::storeProblemText(languageOf(request), problem), Exit::unreadable);
}

/// Opens the store and does something with it.
template <class Run>
Exit withStore(const Request& request, Run run) {
  history::OpenOptions options;
  options.folder = history::dataFolder(request.data.empty() ? std::nullopt : std::optional(request.data));
  options.program = WIREWRIGHT_VERSION;
  try {
    auto opened = history::Store::open(options, equipment::standardLibrary());
    if (const auto* problem = std::get_if<history::StoreProblem>(&opened))
      return storeFailed(request, *problem);
    auto& store = std::get<history::Store>(opened);
    if (!store.migrationBackup().empty())
      complain(languageOf(request).sentence("store.migrated",
                                            {{"backup", QString::fromStdString(store.migrationBackup())}}),
               Exit::fine);
    return run(store);
  } catch (const history::StoreFault& fault) {
    return storeFailed(request, fault.problem());
  }
}

std::uint64_t millisecondsNow() {
  const auto since = std::chrono::system_clock::now().time_since_epoch();
  return static_cast<std::uint64_t>(std::chrono::duration_cast<std::chrono::milliseconds>(since).count());
}

/// A sheet alone becomes a draft of today.
void makeDraft(job::Job& job, history::Store& store) {
  std::random_device device;
  job.id = job::uuid7(millisecondsNow(), [&] { return std::uint64_t{device()} << 32 | device(); });
  const auto today =
      std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()));
  char day[16];
  std::snprintf(day, sizeof day, "%04d-%02u-%02u", static_cast<int>(today.year()),
                static_cast<unsigned>(today.month()), static_cast<unsigned>(today.day()));
  job.visit = day;
  job.number = store.freeNumber(job.visit);
  job.stage = "wiring";
}

QString addressLine(const job::Site& site) {
  QStringList parts;
  for (const std::string& part : {site.address, site.unit, site.city})
    if (!part.empty()) parts << QString::fromStdString(part);
  return parts.join(QStringLiteral(", "));
}

QString stateWord(const wording::Language& language, const history::Row& row) {
  switch (row.state) {
    case job::State::binned: return language.sentence("jobs.row.binned");
    case job::State::closed: return language.sentence("jobs.row.closed");
    case job::State::amended: return language.sentence("jobs.row.amended");
    case job::State::draft: break;
  }
  return language.sentence("jobs.row.draft");
}

QString lineOf(const wording::Language& language, const history::Row& row) {
  QStringList parts{QString::fromStdString(row.number), addressLine(row.site)};
  parts << QString::fromStdString(row.site.customer) << language.day(row.day)
        << QString::fromStdString(row.system) << stateWord(language, row);
  if (row.open > 0) parts << language.sentence("jobs.row.open", {{"n", QString::number(row.open)}}, row.open);
  if (row.ref.sibling > 0) parts << language.sentence("jobs.row.sibling");
  parts.removeAll(QString());
  return parts.join(QStringLiteral("  "));
}

const char* wordOf(job::State state) {
  switch (state) {
    case job::State::draft: return "draft";
    case job::State::closed: return "closed";
    case job::State::amended: return "amended";
    case job::State::binned: break;
  }
  return "binned";
}

const char* wordOf(history::Match::Field field) {
  using Field = history::Match::Field;
  switch (field) {
    case Field::address: return "address";
    case Field::unit: return "unit";
    case Field::city: return "city";
    case Field::customer: return "customer";
    case Field::phone: return "phone";
    case Field::number: break;
  }
  return "number";
}

json toJson(const wording::Language& language, const history::Row& row) {
  json matches = json::array();
  for (const auto& match : row.matches)
    matches.push_back({{"field", wordOf(match.field)}, {"begin", match.begin}, {"length", match.length}});
  return {{"id", row.ref.id},
          {"sibling", row.ref.sibling},
          {"number", row.number},
          {"address", row.site.address},
          {"unit", row.site.unit},
          {"city", row.site.city},
          {"customer", row.site.customer},
          {"phone", row.site.phone},
          {"day", row.day},
          {"system", row.system},
          {"state", wordOf(row.state)},
          {"inWork", row.inWork},
          {"stage", row.stage},
          {"installer", row.installer},
          {"open", row.open},
          {"matches", matches},
          {"text", lineOf(language, row).toStdString()}};
}

std::string askedFor(const Request& request) {
  std::string text;
  for (const std::string& word : request.words) text += (text.empty() ? "" : " ") + word;
  return text;
}

}  // namespace

Exit save(const Request& request) {
  auto read = readFile(request);
  if (const Exit* failed = std::get_if<Exit>(&read)) return *failed;
  job::Job& job = std::get<job::Job>(read);
  return withStore(request, [&](history::Store& store) {
    if (job.id.empty()) makeDraft(job, store);
    const history::Saved saved = store.import({job}).front();
    const auto& language = languageOf(request);
    const QString number = QString::fromStdString(job.number);
    if (request.json) {
      print(QString::fromStdString(json{
          {"id", job.id},
          {"sibling", saved.version.ref.sibling},
          {"number", job.number},
          {"store", store.path()}}.dump(2)));
    } else {
      print(language.sentence("store.saved",
                              {{"number", number}, {"path", QString::fromStdString(store.path())}}));
      if (saved.becameSibling) print(language.sentence("store.sibling", {{"number", number}}));
    }
    return Exit::fine;
  });
}

Exit find(const Request& request) {
  return withStore(request, [&](history::Store& store) {
    const auto& language = languageOf(request);
    history::Reader reader(store);
    const std::string text = askedFor(request);
    // Nobody interrupts this reader.
    const history::Found found = reader.find(text, 0, request.most).value();
    const history::Count count = reader.count(text).value();
    if (request.json) {
      json jobs = json::array();
      for (const history::Row& row : found.rows) jobs.push_back(toJson(language, row));
      print(QString::fromStdString(json{
          {"jobs", jobs},
          {"matching", count.matching},
          {"orMore", count.orMore},
          {"all", reader.total()},
          {"corrected",
           found.corrected}}.dump(2)));
      return Exit::fine;
    }
    if (!found.corrected.empty())
      print(language.sentence("store.corrected", {{"word", QString::fromStdString(found.corrected)}}));
    for (const history::Row& row : found.rows) print(lineOf(language, row));
    if (found.rows.empty())
      print(language.sentence("store.none"));
    else if (count.matching > found.rows.size())
      print(language.sentence(
          count.orMore ? "jobs.count-least" : "jobs.count",
          {{"n", QString::number(count.matching)}, {"all", QString::number(reader.total())}}));
    return Exit::fine;
  });
}

}  // namespace ww::app
