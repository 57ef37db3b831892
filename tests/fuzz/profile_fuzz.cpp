// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "equipment/profile.h"

// Whatever the bytes: a value or problems, never both and never neither.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto profile = ww::equipment::readProfile(text, ww::equipment::standardLibrary().parts);
  if (profile.value.has_value() != profile.problems.empty()) std::abort();
  if (profile.value && !ww::equipment::combinationalLoops(profile.value->logic).empty()) std::abort();
  const auto parts = ww::equipment::readParts(text);
  if (parts.value.has_value() != parts.problems.empty()) std::abort();

  ww::equipment::Logic logic;
  ww::quantity::Problems problems;
  ww::equipment::parseStatement(text, "", logic, problems);
  if (problems.size() > 1 || problems.empty() != (logic.statements.size() == 1)) std::abort();
  return 0;
}
