// SPDX-License-Identifier: GPL-3.0-or-later
#include "quantity/canonical.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "quantity/text.h"

namespace ww::quantity {

namespace {

using nlohmann::json;

std::string spelled(const json& scalar) {
  if (!scalar.is_number_float()) return scalar.dump(-1, ' ', false, json::error_handler_t::replace);
  // The library's own numbers always read back but are not always the shortest.
  const double number = scalar.get<double>();
  return std::isfinite(number) ? printNumber(number) : "null";
}

void append(std::string& text, const json& value) {
  bool first = true;
  const auto comma = [&] {
    if (!first) text += ',';
    first = false;
  };
  if (value.is_object()) {
    text += '{';
    for (auto at = value.begin(); at != value.end(); ++at) {  // a std::map inside: sorted by bytes
      comma();
      text += spelled(json(at.key())) + ':';
      append(text, at.value());
    }
    text += '}';
  } else if (value.is_array()) {
    text += '[';
    for (const json& item : value) {
      comma();
      append(text, item);
    }
    text += ']';
  } else {
    text += spelled(value);
  }
}

}  // namespace

std::string canonicalText(const json& value) {
  std::string text;
  append(text, value);
  return text + '\n';
}

}  // namespace ww::quantity
