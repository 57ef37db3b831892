// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/quantity.h"

namespace ww::quantity {

/// Parses a finite decimal number in the C locale ("12", "-0.5", "1e3"); nothing else may surround it but
/// blanks.
std::optional<double> parseNumber(std::string_view text);

/// Shortest decimal text that reads back as the same double; C locale.
std::string printNumber(double value);

/// Fixed decimals, C locale, no negative zero.
std::string printFixed(double value, int decimals);

/// Text without blanks at either end.
std::string_view trimmed(std::string_view text);

/// Pieces between separators; an empty text gives one empty piece.
std::vector<std::string_view> split(std::string_view text, char separator);

/// Pieces joined with ", ".
std::string joined(const std::vector<std::string>& pieces);

/// A length with its unit ("m" or "ft"); nothing for an unknown unit. 1 ft = 0.3048 m exactly (international
/// foot).
std::optional<Metres> lengthOf(double number, std::string_view unit);

inline constexpr double kMetresPerFoot = 0.3048;

}  // namespace ww::quantity
