// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/colour.h"

#include <algorithm>
#include <cctype>

#include "quantity/text.h"

namespace ww::sheet {

namespace {

struct Coded {
  Insulation colour;
  std::string_view code;
};

constexpr std::array<Coded, 13> kCodes{{{Insulation::rd, "RD"},
                                        {Insulation::wh, "WH"},
                                        {Insulation::ye, "YE"},
                                        {Insulation::gn, "GN"},
                                        {Insulation::bu, "BU"},
                                        {Insulation::og, "OG"},
                                        {Insulation::bn, "BN"},
                                        {Insulation::bk, "BK"},
                                        {Insulation::gy, "GY"},
                                        {Insulation::vt, "VT"},
                                        {Insulation::pk, "PK"},
                                        {Insulation::tn, "TN"},
                                        {Insulation::unknown, "??"}}};

bool sameLetters(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, [](unsigned char x, unsigned char y) { return std::toupper(x) == y; });
}

}  // namespace

std::string_view code(Insulation colour) {
  const auto found = std::ranges::find(kCodes, colour, &Coded::colour);
  return found == kCodes.end() ? "??" : found->code;
}

std::optional<Insulation> insulationOf(std::string_view code) {
  code = quantity::trimmed(code);
  for (const auto& [colour, letters] : kCodes)
    if (sameLetters(code, letters)) return colour;
  return std::nullopt;
}

std::string print(const Colour& colour) {
  std::string text(code(colour.body));
  if (colour.tracer) text.append("/").append(code(*colour.tracer));
  return text;
}

std::optional<Colour> parseColour(std::string_view text) {
  const auto pieces = quantity::split(text, '/');
  if (pieces.size() > 2) return std::nullopt;
  const auto body = insulationOf(pieces.front());
  if (!body) return std::nullopt;
  if (pieces.size() == 1) return Colour{*body, std::nullopt};
  const auto tracer = insulationOf(pieces.back());
  if (!tracer) return std::nullopt;
  return Colour{*body, tracer};
}

std::vector<Colour> customaryColours(int conductors) {
  using enum Insulation;
  const size_t count = static_cast<size_t>(std::max(conductors, 0));
  std::vector<Insulation> bodies;
  if (count <= 3)
    bodies = {rd, wh, gn};
  else if (count == 4)
    bodies = {rd, ye, gn, wh};
  else
    bodies = {rd, bu, ye, gn, wh, og, bn, bk};
  bodies.resize(count, unknown);
  std::vector<Colour> colours;
  colours.reserve(bodies.size());
  for (const Insulation body : bodies) colours.push_back({body, std::nullopt});
  return colours;
}

}  // namespace ww::sheet
