// SPDX-License-Identifier: GPL-3.0-or-later
#include "quantity/text.h"

#include <array>
#include <charconv>
#include <cmath>

namespace ww::quantity {

std::optional<double> parseNumber(std::string_view text) {
  text = trimmed(text);
  if (text.starts_with('+')) text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::string printNumber(double value) {
  std::array<char, 40> buffer;
  const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return error == std::errc() ? std::string(buffer.data(), end) : std::string();
}

std::string printFixed(double value, int decimals) {
  std::array<char, 400> buffer;
  const auto [end, error] =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, std::chars_format::fixed, decimals);
  if (error != std::errc()) return {};
  std::string text(buffer.data(), end);
  if (text.starts_with('-') && text.find_first_of("123456789") == std::string::npos) text.erase(0, 1);
  return text;
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view blanks = " \t\r\n";
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::vector<std::string_view> split(std::string_view text, char separator) {
  std::vector<std::string_view> pieces;
  for (size_t at = text.find(separator); at != std::string_view::npos; at = text.find(separator)) {
    pieces.push_back(text.substr(0, at));
    text.remove_prefix(at + 1);
  }
  pieces.push_back(text);
  return pieces;
}

std::string joined(const std::vector<std::string>& pieces) {
  std::string text;
  for (const auto& piece : pieces) text += (text.empty() ? "" : ", ") + piece;
  return text;
}

std::optional<Metres> lengthOf(double number, std::string_view unit) {
  if (unit == "m") return Metres(number);
  if (unit == "ft") return Metres(number * kMetresPerFoot);
  return std::nullopt;
}

}  // namespace ww::quantity
