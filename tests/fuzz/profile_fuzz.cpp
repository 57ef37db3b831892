// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "drawing/inner.h"
#include "equipment/profile.h"

namespace {

/// The inner circuit of whatever is sound: every element in a place of its own.
bool drawnWhole(const ww::equipment::Profile& profile) {
  const auto measure = [](std::string_view text, ww::drawing::TextStyle style) {
    return ww::drawing::Box{0, -style.px, 0.6 * style.px * static_cast<double>(text.size()), 1.4 * style.px};
  };
  const auto inner =
      ww::drawing::layoutInner(profile, measure, [](const auto&) { return std::string("1 VA"); });
  for (const auto& element : inner.elements)
    for (const auto& other : inner.elements)
      if (element.box.w <= 0 || (&element != &other && ww::drawing::overlap(element.box, other.box)))
        return false;
  return inner.elements.size() == profile.elements.size() &&
         inner.terminals.size() == profile.terminals.size();
}

}  // namespace

// Whatever the bytes: a value or problems, never both and never neither.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto profile = ww::equipment::readProfile(text, ww::equipment::standardLibrary().parts);
  if (profile.value.has_value() != profile.problems.empty()) std::abort();
  if (profile.value && !ww::equipment::combinationalLoops(profile.value->logic).empty()) std::abort();
  if (profile.value && !drawnWhole(*profile.value)) std::abort();
  const auto parts = ww::equipment::readParts(text);
  if (parts.value.has_value() != parts.problems.empty()) std::abort();

  ww::equipment::Logic logic;
  ww::quantity::Problems problems;
  ww::equipment::parseStatement(text, "", logic, problems);
  if (problems.size() > 1 || problems.empty() != (logic.statements.size() == 1)) std::abort();
  return 0;
}
