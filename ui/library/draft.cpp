// SPDX-License-Identifier: GPL-3.0-or-later
#include "library/draft.h"

namespace ww::library {

Draft::Draft(std::string_view text, const equipment::Library& library) : library_(library) {
  json_ = Json::parse(text, nullptr, false);
  if (!json_.is_object()) json_ = Json::object();
  check();
}

void Draft::put(const std::string& pointer, Json value) {
  const Json::json_pointer at(pointer);
  if (!value.is_null()) {
    // A pointer through what cannot hold the member is not followed: what stands in its way goes.
    const bool index = at.back().find_first_not_of("0123456789") == std::string::npos;
    if (const auto parent = at.parent_pointer();
        json_.contains(parent) && !json_[parent].is_object() && !(index && json_[parent].is_array()))
      json_[parent] = Json::object();
    json_[at] = std::move(value);
  } else if (json_.contains(at)) {
    Json& parent = json_[at.parent_pointer()];
    if (parent.is_object())
      parent.erase(at.back());
    else
      parent.erase(static_cast<size_t>(std::stoul(at.back())));
  }
  check();
}

Json Draft::at(const std::string& pointer) const {
  const Json::json_pointer at(pointer);
  return json_.contains(at) ? json_.at(at) : Json();
}

bool Draft::replace(std::string_view text) {
  Json json = Json::parse(text, nullptr, false);
  const bool readable = json.is_object();
  if (readable) json_ = std::move(json);
  check(text);
  return readable;
}

std::string Draft::id() const {
  const Json id = at("/id");
  return id.is_string() ? id.get<std::string>() : std::string();
}

void Draft::check() { check(json_.dump()); }

void Draft::check(std::string_view text) {
  read_ = equipment::readOwnProfile(text, library_);
  profile_ = read_ ? std::make_shared<const equipment::Profile>(*read_.value) : nullptr;
}

std::string copyOf(std::string_view text, const equipment::Library& library) {
  Json json = Json::parse(text, nullptr, false);
  if (!json.is_object()) return std::string(text);
  const std::string from = json.value("id", std::string("unit"));
  std::string id = from + "-own";
  for (int n = 2; library.find(id) != nullptr; ++n) id = from + "-own-" + std::to_string(n);
  json["id"] = id;
  return json.dump(2) + "\n";
}

}  // namespace ww::library
