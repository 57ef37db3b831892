// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ww::recommend {

/// By effect, in the order they are shown.
enum class Group { connected, protect, comfort, access };

/// What values a setting takes: words, a number, or both.
struct Form {
  std::string_view key;
  Group group = Group::connected;
  std::vector<std::string_view> words;
  std::string_view unit;  ///< "per-hour", "s", "C", "K", "d", "months", "count"; empty: words only
  double least = 0, most = 0;
};

/// All settings, in the order they are shown. Cycle rates share one form: "cycles.compressor1" has "cycles".
const std::vector<Form>& forms();
/// The form of a key, also "cycles.<duty>"; null for an unknown one.
const Form* formOf(std::string_view key);

/// The value as it is stored: a word of the form, or a number within its range, shortest decimals. Nothing
/// for anything else.
std::optional<std::string> valueFor(std::string_view key, std::string_view text);
/// What valueFor() takes, for a complaint: "cooling, heating" or "1 - 12".
std::string choicesOf(std::string_view key);

inline constexpr double kLeastTemperature = -60, kMostTemperature = 60;  ///< C

/// Degrees Fahrenheit as degrees Celsius, and differences.
constexpr double fromFahrenheit(double f) { return (f - 32) / 1.8; }
constexpr double fromFahrenheitSteps(double f) { return f / 1.8; }

}  // namespace ww::recommend
