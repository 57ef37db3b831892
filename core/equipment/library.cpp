// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "equipment/profile.h"
#include "equipment/shipped.h"

namespace ww::equipment {

namespace {

constexpr std::string_view kParts = "parts";

template <class Rows, class IdOf>
auto findRow(const Rows& rows, std::string_view id, IdOf idOf) -> decltype(rows.data()) {
  const auto at = std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return idOf(row) == id; });
  return at == rows.end() ? nullptr : &*at;
}

Library readShipped() {
  Library library;
  if (auto parts = readParts(textOf(shippedProfiles(), kParts))) library.parts = std::move(*parts.value);
  for (const ShippedFile& file : shippedProfiles()) {
    if (file.name == kParts) continue;
    auto profile = readProfile(file.text, library.parts);
    // One that does not read is left out; the tests read every shipped file and let none pass.
    if (!profile) continue;
    const auto shared = std::make_shared<const Profile>(std::move(*profile.value));
    library.profiles[shared->id] = shared;
  }
  return library;
}

}  // namespace

const Terminal* Profile::terminal(std::string_view terminalId) const {
  return findRow(terminals, terminalId, [](const Terminal& t) -> const std::string& { return t.id; });
}

const Element* Profile::element(std::string_view elementId) const {
  return findRow(elements, elementId, [](const Element& e) -> const std::string& { return e.id; });
}

const Setting* Profile::setting(std::string_view key) const {
  return findRow(settings, key, [](const Setting& s) -> const std::string& { return s.key; });
}

bool Profile::offers(std::string_view duty) const {
  return std::any_of(duties.begin(), duties.end(), [&](const Duty& each) { return each.name == duty; });
}

const Profile* Library::find(std::string_view profileId) const {
  const auto at = profiles.find(std::string(profileId));
  return at == profiles.end() ? nullptr : at->second.get();
}

bool Library::shipped(std::string_view profileId) const {
  return find(profileId) != nullptr && !own.contains(std::string(profileId));
}

std::string_view textOf(const std::vector<ShippedFile>& files, std::string_view name) {
  const auto* file = findRow(files, name, [](const ShippedFile& f) { return f.name; });
  return file ? file->text : std::string_view();
}

const Library& standardLibrary() {
  static const Library library = readShipped();
  return library;
}

}  // namespace ww::equipment
