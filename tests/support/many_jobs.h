// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdio>
#include <string>
#include <variant>
#include <vector>

#include "equipment/profile.h"
#include "history/reader.h"
#include "history/store.h"
#include "job/identity.h"

namespace ww::testing {

/// A store of `count` invented jobs in the folder; left alone when it has them already. False when it cannot
/// be written.
inline bool fillStore(const std::string& folder, size_t count) {
  history::OpenOptions options;
  options.folder = folder;
  auto opened = history::Store::open(options, equipment::standardLibrary());
  if (const auto* problem = std::get_if<history::StoreProblem>(&opened)) {
    std::fprintf(stderr, "%s: %s\n", problem->path.c_str(), problem->detail.c_str());
    return false;
  }
  auto& store = std::get<history::Store>(opened);
  if (history::Reader(store).total() >= count) return true;
  const char* const streets[] = {"North Oak Avenue", "Larkmoor Terrace", "Noakes Lane", "New Oak Street",
                                 "Oakfield Mews",    "Tern Court",       "Mill Road",   "Quarry Rise"};
  const char* const people[] = {"M. Ode", "S. Brandt-Lowe", "J. Quill"};
  std::uint64_t state = 1;
  const auto random = [&state] {
    return state = state * 6364136223846793005u + 1442695040888963407u, state >> 16;
  };
  std::vector<job::Job> block;
  for (size_t i = 0; i < count; ++i) {
    job::Job job;
    job.id = job::uuid7(1'600'000'000'000 + i * 60'000, random);
    job.number = "2024-0101-" + std::to_string(i);
    job.site.address = std::to_string(1 + random() % 999) + " " + streets[random() % 8];
    job.site.unit = random() % 3 ? "" : "Unit " + std::to_string(1 + random() % 40);
    job.site.city = "Larkmoor";
    job.visit = "20" + std::to_string(15 + random() % 11) + "-0" + std::to_string(1 + random() % 9) + "-1" +
                std::to_string(random() % 10);
    job.installer = people[random() % 3];
    job.stage = "site";
    block.push_back(std::move(job));
    if (block.size() == 5000 || i + 1 == count) {
      store.import(block);
      block.clear();
    }
  }
  return true;
}

}  // namespace ww::testing
