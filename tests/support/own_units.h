// SPDX-License-Identifier: GPL-3.0-or-later
// Unit profiles of a person's own, made from shipped ones.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <string>

#include "equipment/own_profiles.h"
#include "equipment/shipped.h"

namespace ww::testing {

using ChangeProfile = std::function<void(nlohmann::json&)>;

/// The JSON of a shipped profile under another id, changed.
inline std::string ownProfile(const std::string& shipped, const std::string& id,
                              const ChangeProfile& change = {}) {
  auto json = nlohmann::json::parse(equipment::textOf(equipment::shippedProfiles(), shipped));
  json["id"] = id;
  if (change) change(json);
  return json.dump(2);
}

/// The shipped library with one profile of one's own beside it.
inline equipment::Library libraryWith(const std::string& text) {
  return equipment::withOwnProfiles(equipment::standardLibrary(), {{"own.json", text}}).library;
}

}  // namespace ww::testing
