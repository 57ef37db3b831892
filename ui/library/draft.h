// SPDX-License-Identifier: GPL-3.0-or-later
// Private to the room: a profile while it is being written.
#pragma once

#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "equipment/own_profiles.h"

namespace ww::library {

using Json = nlohmann::ordered_json;

/// The JSON of a profile, its members in the order they stand in, and what is wrong with it now.
class Draft {
 public:
  /// Of any text; one that is no JSON object becomes an empty one with the text's own problems.
  Draft(std::string_view text, const equipment::Library& library);

  const Json& json() const { return json_; }
  /// Replaces what stands at a pointer; null takes it away.
  void put(const std::string& pointer, Json value);
  /// What stands at a pointer; null without anything.
  Json at(const std::string& pointer) const;

  /// Takes a whole text over; one that is no JSON object changes nothing but the problems. Whether it was
  /// one.
  bool replace(std::string_view text);

  const quantity::Problems& problems() const { return read_.problems; }
  /// Null while anything is wrong.
  std::shared_ptr<const equipment::Profile> profile() const { return profile_; }
  /// As the file is to be written.
  std::string text() const { return json_.dump(2) + "\n"; }
  std::string id() const;

 private:
  void check();
  void check(std::string_view text);
  Json json_;
  const equipment::Library& library_;
  quantity::Loaded<equipment::Profile> read_;
  std::shared_ptr<const equipment::Profile> profile_;
};

/// A copy of a profile's text under a free id of one's own.
std::string copyOf(std::string_view text, const equipment::Library& library);

}  // namespace ww::library
