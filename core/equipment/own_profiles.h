// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "equipment/profile.h"

namespace ww::equipment {

/// A file that holds, or is to hold, one unit profile of the person's own.
struct ProfileFile {
  std::string name;  ///< as it stands in its folder
  std::string text;
};

/// A file that was left out, and everything that is wrong with it.
struct RefusedFile {
  std::string name;
  quantity::Problems problems;
};

/// A library with a person's own profiles beside the shipped ones.
struct OwnProfiles {
  Library library;
  std::vector<RefusedFile> refused;
};

inline constexpr std::string_view kProfileFormat = "wirewright-profile";

/// Reads a profile that is to stand beside those of the library. Problems: those of readProfile(), and
/// "own-shipped-id" {id} for the id of one that shipped.
quantity::Loaded<Profile> readOwnProfile(std::string_view json, const Library& library);

/// The library with the files that are sound; each of the others is refused by itself. Of two files with one
/// id the first stays, the other has the problem "own-id-doubled" {id}.
OwnProfiles withOwnProfiles(Library library, const std::vector<ProfileFile>& files);

/// Puts a profile that is known to be sound, with its text, in the place of any other of its id.
void putOwn(Library& library, Profile profile, std::string_view json);

}  // namespace ww::equipment
