// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ww::sheet {

/// Insulation colours, written with the two-letter codes of IEC 60757; TN (tan) is an addition of our own.
enum class Insulation { rd, wh, ye, gn, bu, og, bn, bk, gy, vt, pk, tn, unknown };

/// Two-letter code ("RD"); "??" for an unknown colour.
std::string_view code(Insulation colour);
std::optional<Insulation> insulationOf(std::string_view code);

/// All codes, as a complaint lists them.
inline constexpr std::string_view kColourCodes = "RD, WH, YE, GN, BU, OG, BN, BK, GY, VT, PK, TN, ??";

/// A conductor's colour with an optional tracer: "WH/RD" is white with a red tracer.
struct Colour {
  Insulation body = Insulation::unknown;
  std::optional<Insulation> tracer;
  friend bool operator==(const Colour&, const Colour&) = default;
};

std::string print(const Colour& colour);
std::optional<Colour> parseColour(std::string_view text);

/// Customary colours of a new cable of 2 to 8 conductors (common practice); beyond that the rest are unknown.
std::vector<Colour> customaryColours(int conductors);

}  // namespace ww::sheet
