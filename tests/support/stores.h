// SPDX-License-Identifier: GPL-3.0-or-later
// Folders, clocks and made-up jobs for tests of the store.
#pragma once

#include <stdlib.h>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "history/reader.h"
#include "history/store.h"
#include "job/job.h"

namespace ww::testing {

/// A folder that goes with the test.
class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "wirewright-XXXXXX").string();
    path_ = ::mkdtemp(pattern.data()) == nullptr ? std::string() : pattern;
  }
  ~TemporaryFolder() {
    std::error_code none;
    std::filesystem::remove_all(path_, none);
  }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  const std::string& path() const { return path_; }

 private:
  std::string path_;
};

/// A clock that stands at 12 March 2026, 10:00 UTC until it is moved.
struct StandingClock {
  std::chrono::system_clock::time_point now{std::chrono::seconds{1'773'309'600}};
  history::Clock clock() {
    return [this] { return now; };
  }
};

inline history::OpenOptions optionsFor(const std::string& folder) {
  history::OpenOptions options;
  options.folder = folder;
  options.program = "0.1.0";
  return options;
}

inline history::Store openedStore(const history::OpenOptions& options) {
  auto opened = history::Store::open(options, equipment::standardLibrary());
  if (const auto* problem = std::get_if<history::StoreProblem>(&opened))
    throw std::runtime_error("store not opened: " + problem->detail);
  return std::move(std::get<history::Store>(opened));
}

/// A UUID for each number.
inline std::string numberedId(std::uint64_t number) {
  char text[37];
  std::snprintf(text, sizeof text, "019ce146-3668-70aa-9022-%012llx",
                static_cast<unsigned long long>(number));
  return text;
}

/// A draft at an address, numbered.
inline job::Job draftAt(std::uint64_t number, const std::string& address, const std::string& unit = {}) {
  job::Job job;
  job.id = numberedId(number);
  char jobNumber[32];
  std::snprintf(jobNumber, sizeof jobNumber, "2026-0312-%02llu", static_cast<unsigned long long>(number));
  job.number = jobNumber;
  job.stage = "site";
  job.visit = "2026-03-12";
  job.installer = "J. Tamsin";
  job.site.address = address;
  job.site.unit = unit;
  job.site.city = "Larkmoor";
  return job;
}

/// Streets and people put together from syllables, so that none is anybody's; frequent ones are few, as in
/// towns (Zipf's law).
class MadeUpTown {
 public:
  explicit MadeUpTown(std::uint64_t seed) : random_(seed) {
    constexpr size_t kNames = 4'000;
    double sum = 0;
    for (size_t i = 0; i < kNames; ++i) {
      names_.push_back(name());
      sum += 1.0 / static_cast<double>(i + 1);
      cumulated_.push_back(sum);
    }
  }
  job::Job draft(std::uint64_t number) {
    static const char* const kKinds[] = {"Street", "Avenue", "Lane", "Road", "Terrace", "Court", "Drive"};
    static const char* const kSides[] = {"", "", "", "North ", "South ", "E ", "W "};
    job::Job job = draftAt(number, std::to_string(1 + below(9'000)) + " " + kSides[below(7)] +
                                       frequentName() + " " + kKinds[below(7)]);
    if (below(4) == 0) job.site.unit = "Unit " + std::to_string(1 + below(40));
    job.site.customer = std::string(1, static_cast<char>('A' + below(26))) + ". " + frequentName();
    char phone[16];
    std::snprintf(phone, sizeof phone, "555-01%02d", static_cast<int>(below(100)));
    job.site.phone = phone;
    char day[16];
    std::snprintf(day, sizeof day, "20%02d-%02d-%02d", static_cast<int>(16 + below(10)),
                  static_cast<int>(1 + below(12)), static_cast<int>(1 + below(28)));
    job.visit = day;
    job.installer = std::string(1, static_cast<char>('A' + below(6))) + ". Tamsin";
    job.state = below(3) == 0 ? job::State::draft : job::State::closed;
    return job;
  }
  std::string frequentName() {
    const double at = cumulated_.back() * static_cast<double>(random_() >> 11) * 0x1p-53;
    const auto found = std::lower_bound(cumulated_.begin(), cumulated_.end(), at);
    return names_[std::min(names_.size() - 1, static_cast<size_t>(found - cumulated_.begin()))];
  }
  std::uint64_t below(std::uint64_t limit) { return random_() % limit; }

 private:
  std::string name() {
    static const char* const kFirst[] = {"lark", "quill", "pen", "bram", "thorn", "hazel", "ost",  "wick",
                                         "fenn", "gor",   "mal", "tam",  "ull",   "vern",  "yarn", "oak"};
    static const char* const kLast[] = {"moor", "ridge", "by",   "ton",  "wick", "combe", "ley",  "stow",
                                        "mere", "den",   "fold", "gate", "hope", "shaw",  "well", ""};
    std::string text = kFirst[below(16)];
    if (below(2) == 0) text += kFirst[below(16)];
    text += kLast[below(16)];
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
    return text;
  }
  std::mt19937_64 random_;
  std::vector<std::string> names_;
  std::vector<double> cumulated_;
};

}  // namespace ww::testing
