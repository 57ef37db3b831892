// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/profiles.h"

#include "equipment/own_profiles.h"

namespace ww::job {

equipment::Library libraryOf(const Job& job, const equipment::Library& base) {
  equipment::Library library = base;
  for (const auto& [id, text] : job.profiles)
    if (auto profile = equipment::readProfile(text, base.parts))
      equipment::putOwn(library, std::move(*profile.value), text);
  return library;
}

Job withProfiles(Job job, const equipment::Library& library) {
  if (job.profiles.empty() && library.own.empty()) return job;
  std::map<std::string, std::string> used;
  for (const auto* sheet : {&job.asFound, &job.planned, &job.asLeft}) {
    if (!*sheet) continue;
    for (const sheet::Unit& unit : (*sheet)->units) {
      if (const auto kept = job.profiles.find(unit.profile); kept != job.profiles.end())
        used.insert(*kept);
      else if (const auto own = library.own.find(unit.profile); own != library.own.end())
        used.insert(*own);
    }
  }
  job.profiles = std::move(used);
  return job;
}

}  // namespace ww::job
