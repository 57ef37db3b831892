// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/own_profiles.h"

#include <nlohmann/json.hpp>

#include "quantity/canonical.h"
#include "quantity/json.h"

namespace ww::equipment {

quantity::Loaded<Profile> readOwnProfile(std::string_view json, const Library& library) {
  auto read = readProfile(json, library.parts);
  // The id is looked at even where the rest is unsound: all problems at once.
  std::string id = read ? read.value->id : std::string();
  if (!read)
    if (const auto parsed = quantity::parseJson(json); parsed && parsed.value->is_object())
      if (const auto at = parsed.value->find("id"); at != parsed.value->end() && at->is_string())
        id = at->get<std::string>();
  if (library.shipped(id)) {
    read.value.reset();
    read.problems.push_back({"/id", "own-shipped-id", {{"id", id}}});
  }
  return read;
}

void putOwn(Library& library, Profile profile, std::string_view json) {
  const auto parsed = quantity::parseJson(json);
  const auto shared = std::make_shared<const Profile>(std::move(profile));
  library.own[shared->id] = parsed ? quantity::canonicalText(*parsed.value) : std::string(json);
  library.profiles[shared->id] = shared;
}

OwnProfiles withOwnProfiles(Library library, const std::vector<ProfileFile>& files) {
  OwnProfiles result{std::move(library), {}};
  for (const ProfileFile& file : files) {
    auto read = readOwnProfile(file.text, result.library);
    if (read && result.library.own.contains(read.value->id)) {
      read.problems.push_back({"/id", "own-id-doubled", {{"id", read.value->id}}});
      read.value.reset();
    }
    if (read)
      putOwn(result.library, std::move(*read.value), file.text);
    else
      result.refused.push_back({file.name, std::move(read.problems)});
  }
  return result;
}

}  // namespace ww::equipment
