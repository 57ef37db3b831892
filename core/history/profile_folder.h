// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "equipment/own_profiles.h"
#include "job/document_file.h"

namespace ww::history {

/// A person's own unit profiles: one JSON file each in the folder "profiles" of the data folder.
class ProfileFolder {
 public:
  /// Nothing is made.
  explicit ProfileFolder(const std::string& dataFolder) : folder_(dataFolder + "/profiles") {}
  const std::string& path() const { return folder_; }

  static constexpr size_t kMostFiles = 500;
  /// The library with the sound ones of the folder, in the order of their file names. Problems of a file
  /// besides those of equipment::withOwnProfiles(): "own-unreadable" {detail}; beyond kMostFiles
  /// "own-too-many" {limit}, once.
  equipment::OwnProfiles read(const equipment::Library& shipped) const;

  /// Writes a profile, whole or not at all, as "<id>.json", or into the file that holds that id. The folder
  /// is made when it is not there.
  std::optional<job::SaveFailure> save(const std::string& id, std::string_view json) const;
  /// Moves the profile's file into the folder "bin" beside it; its name there, or nothing when that failed.
  std::optional<std::string> bin(const std::string& id) const;
  /// Takes it out again, unless another stands in its place.
  bool restore(const std::string& id, const std::string& binned) const;

 private:
  /// The file that holds a profile of that id; empty without one.
  std::string fileOf(const std::string& id) const;
  std::string folder_;
};

}  // namespace ww::history
