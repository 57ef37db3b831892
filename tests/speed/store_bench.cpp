// SPDX-License-Identifier: GPL-3.0-or-later
// What the store costs: a search as typed beside the bare statements it rests on, a page of the list, a save.
// WIREWRIGHT_BENCH_JOBS: how many jobs, 100,000 unless set; WIREWRIGHT_BENCH_STORE: a folder that keeps them.
#include <SQLiteCpp/SQLiteCpp.h>
#include <benchmark/benchmark.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>

#include "history/reader.h"
#include "history/search_text.h"
#include "history/store.h"
#include "support/reference_sheets.h"
#include "support/sample_job.h"
#include "support/stores.h"

using namespace ww;

namespace {

using Micros = std::chrono::duration<double, std::micro>;

size_t jobsWanted() {
  const char* set = std::getenv("WIREWRIGHT_BENCH_JOBS");
  return set == nullptr ? 100'000 : std::strtoul(set, nullptr, 10);
}

/// A store of made-up jobs, filled once.
struct Filled {
  testing::TemporaryFolder temporary;
  history::Store store;
  Filled() : store(testing::openedStore(testing::optionsFor(folder()))) {
    history::Reader reader(store);
    const size_t wanted = jobsWanted();
    testing::MadeUpTown town(1);
    std::vector<job::Job> jobs;
    for (size_t number = reader.total() + 1; number <= wanted; ++number) {
      jobs.push_back(town.draft(number));
      if (jobs.size() < 5'000 && number < wanted) continue;
      store.import(jobs);
      jobs.clear();
    }
  }
  std::string folder() const {
    const char* kept = std::getenv("WIREWRIGHT_BENCH_STORE");
    return kept == nullptr ? temporary.path() : kept;
  }
};

Filled& filled() {
  static Filled filled;
  return filled;
}

/// What people type: letter by letter of addresses and people that are there.
std::vector<std::string> typedTexts(size_t count) {
  testing::MadeUpTown town(1);
  std::vector<std::string> texts;
  while (texts.size() < count) {
    const job::Job job = town.draft(texts.size());
    const std::string whole = town.below(4) == 0 ? job.site.customer : job.site.address;
    texts.push_back(whole.substr(0, 1 + town.below(whole.size())));
  }
  return texts;
}

double percentile(std::vector<double> times, double share) {
  std::sort(times.begin(), times.end());
  return times[std::min(times.size() - 1, static_cast<size_t>(share * static_cast<double>(times.size())))];
}

template <class Run>
double timed(Run run) {
  const auto start = std::chrono::steady_clock::now();
  run();
  return Micros(std::chrono::steady_clock::now() - start).count();
}

/// Alternates the search of 50 rows with the two statements under it, on the same texts.
void search(benchmark::State& state, const std::string& filter) {
  history::Reader reader(filled().store);
  SQLite::Database database(filled().store.path(), SQLite::OPEN_READONLY);
  database.exec("PRAGMA cache_size = -16000");
  SQLite::Statement bare(database,
                         "SELECT rowid, address, customer, numbers FROM search WHERE search MATCH ?"
                         " ORDER BY rowid DESC LIMIT 200");
  SQLite::Statement words(database,
                          "SELECT term FROM word WHERE term >= ?1 AND term < ?1 || char(1114111) LIMIT 200");
  // The expressions are the search's own; looking them up is not part of the bare statements.
  const auto askedAs = [&](const std::string& text) {
    history::Asked asked = history::askedBy(text);
    for (auto& term : asked.terms) {
      if (term.typed.size() < 4) continue;
      words.reset();
      words.bind(1, term.typed);
      while (words.executeStep()) term.beginnings.push_back(words.getColumn(0).getString());
    }
    return asked;
  };
  const auto statements = [&](const history::Asked& asked) {
    for (const bool whole : {false, true}) {
      bare.reset();
      bare.bind(1, history::expressionOf(asked, whole));
      while (bare.executeStep()) benchmark::DoNotOptimize(bare.getColumn(1).getText());
    }
  };
  const auto texts = typedTexts(10'000);
  std::vector<double> searches;
  std::vector<double> bares;
  size_t next = 0;
  for (auto _ : state) {
    const std::string text = texts[next++ % texts.size()] + filter;
    const auto asked = askedAs(text);
    searches.push_back(timed([&] { benchmark::DoNotOptimize(reader.find(text, 0, 50)); }));
    if (!asked.terms.empty()) bares.push_back(timed([&] { statements(asked); }));
  }
  const auto sum = [](const std::vector<double>& times) {
    double all = 0;
    for (const double time : times) all += time;
    return all / static_cast<double>(times.size());
  };
  state.counters["jobs"] = static_cast<double>(reader.total());
  state.counters["median_us"] = percentile(searches, 0.5);
  state.counters["p99_us"] = percentile(searches, 0.99);
  state.counters["bare_median_us"] = percentile(bares, 0.5);
  state.counters["bare_p99_us"] = percentile(bares, 0.99);
  state.counters["ratio"] = sum(searches) / sum(bares);
}
BENCHMARK_CAPTURE(search, typed, "")->Iterations(10'000)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(search, filtered, " state:draft")->Iterations(10'000)->Unit(benchmark::kMicrosecond);

void mistyped(benchmark::State& state) {
  history::Reader reader(filled().store);
  testing::MadeUpTown town(1);
  std::vector<double> times;
  reader.find("qqqqqq");  // the words are learnt once
  for (auto _ : state) {
    std::string text = town.frequentName();
    std::swap(text[1], text[2]);
    times.push_back(timed([&] { benchmark::DoNotOptimize(reader.find(text, 0, 50)); }));
  }
  state.counters["p99_us"] = percentile(times, 0.99);
}
BENCHMARK(mistyped)->Iterations(2'000)->Unit(benchmark::kMicrosecond);

void countMatching(benchmark::State& state) {
  history::Reader reader(filled().store);
  const auto texts = typedTexts(1'000);
  std::vector<double> times;
  size_t next = 0;
  for (auto _ : state)
    times.push_back(timed([&] { benchmark::DoNotOptimize(reader.count(texts[next++ % texts.size()])); }));
  state.counters["p99_us"] = percentile(times, 0.99);
}
BENCHMARK(countMatching)->Iterations(1'000)->Unit(benchmark::kMicrosecond);

void openStore(benchmark::State& state) {
  const auto options = testing::optionsFor(filled().folder());
  for (auto _ : state) {
    auto store = testing::openedStore(options);
    benchmark::DoNotOptimize(history::Reader(store).find("", 0, 50));
  }
}
BENCHMARK(openStore)->Unit(benchmark::kMicrosecond);

/// A job with a sheet and 40 readings; each save another landing or another reading.
void saveDraft(benchmark::State& state, bool sheetChanges) {
  const testing::TemporaryFolder folder;
  auto store = testing::openedStore(testing::optionsFor(folder.path()));
  job::Job job = testing::sampleJob();
  job.state = job::State::draft;
  for (int i = 0; i < 40; ++i) job.readings.push_back(testing::sampleReading(100 + i, "rest:R-C"));
  const sheet::Sheet sheets[] = {testing::rowA(), testing::rowASwapped()};
  history::Version version;
  int next = 0;
  std::vector<double> times;
  for (auto _ : state) {
    ++next;
    if (sheetChanges) job.asLeft = sheets[next % 2];
    job.site.notes = std::to_string(next);
    times.push_back(timed([&] { version = store.saveDraft(job, version).version; }));
  }
  state.counters["median_us"] = percentile(times, 0.5);
  state.counters["p99_us"] = percentile(times, 0.99);
}
BENCHMARK_CAPTURE(saveDraft, sameSheet, false)->Iterations(500)->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(saveDraft, otherSheet, true)->Iterations(500)->Unit(benchmark::kMicrosecond);

}  // namespace
