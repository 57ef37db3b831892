// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "drawing/emit.h"

namespace ww::drawing {

namespace {

/// Ends by row, left and right.
std::vector<std::map<int, std::array<int, 2>>> endCounts(const Wiring& wiring) {
  std::vector<std::map<int, std::array<int, 2>>> counts(wiring.strips->size());
  for (const WireLine& wire : wiring.wires)
    for (const bool isA : {true, false})
      if (const End& end = wire.end(isA); end.strip >= 0 && wire.drawn)
        ++counts[static_cast<size_t>(end.strip)][end.row][end.side == Side::right];
  return counts;
}

/// The side that most cables come from; it takes the screws that hold nothing.
std::vector<Side> partnerSides(const Wiring& wiring) {
  std::vector<int> balance(wiring.strips->size(), 0);
  for (const CableLine& line : wiring.cables) {
    balance[static_cast<size_t>(line.a)] += line.zoneA.side == Side::right ? 1 : -1;
    balance[static_cast<size_t>(line.b)] += line.zoneB.side == Side::right ? 1 : -1;
  }
  std::vector<Side> sides;
  for (size_t i = 0; i < balance.size(); ++i) {
    const bool first = wiring.placement->column[i] == 0;
    sides.push_back(balance[i] > 0 || (balance[i] == 0 && first) ? Side::right : Side::left);
  }
  return sides;
}

/// Lines of text over or under a plate: outer columns flush with their outer edge, the others centred.
std::vector<Text> lines(const std::vector<std::string>& texts, TextStyle style, double pitch, double top,
                        const Box& plate, Align align, const TextMeasure& measure) {
  std::vector<Text> placed;
  for (const std::string& text : texts) {
    const Box size = measure(text, style);
    const double w = std::ceil(size.w);
    const double x = align == Align::left    ? plate.x
                     : align == Align::right ? plate.right() - w
                                             : plate.x + (plate.w - w) / 2;
    placed.push_back(
        {text, style, {x, top + (pitch - std::min(pitch, size.h)) / 2, w, std::min(pitch, size.h)}, align});
    top += pitch;
  }
  return placed;
}

}  // namespace

/// Whether a conductor of the column goes up into the header, past the titles.
bool headerBound(const Routing& routing, int column) {
  for (const size_t zone : {2 * static_cast<size_t>(column), 2 * static_cast<size_t>(column) + 1})
    for (const FanNet& net : routing.zones[zone])
      for (int i = 0; i < net.count; ++i)
        if (net.ends[i].side == FanSide::lane) return true;
  return false;
}

/// Outer columns flush with their outer edge; centred where runs pass on both sides.
Align alignOf(const Wiring& wiring, const Routing& routing, int column) {
  if (headerBound(routing, column)) return Align::centre;
  return column == 0 ? Align::left : column == wiring.columns - 1 ? Align::right : Align::centre;
}

void emitPlates(const Wiring& wiring, const Routing& routing, const TextMeasure& measure, Diagram& diagram) {
  const auto counts = endCounts(wiring);
  const auto sides = partnerSides(wiring);
  std::vector<Align> aligns;
  aligns.reserve(size_t(wiring.columns));
  for (int c = 0; c < wiring.columns; ++c) aligns.push_back(alignOf(wiring, routing, c));
  for (size_t i = 0; i < wiring.strips->size(); ++i) {
    const Strip& strip = (*wiring.strips)[i];
    Plate plate;
    plate.unit = strip.unit->id;
    plate.column = wiring.placement->column[i];
    const size_t c = static_cast<size_t>(plate.column);
    plate.box = {routing.columnX[c], wiring.placement->top[i], routing.columnWidth[c], strip.height};
    const Align align = aligns[c];
    plate.title =
        lines(strip.title, kTitle, kTitleLine, plate.box.y - strip.above, plate.box, align, measure);
    plate.place = lines(strip.place, kPlace, kPlaceLine, plate.box.bottom() + 8, plate.box, align, measure);
    for (size_t r = 0; r < strip.rows.size(); ++r) {
      const StripRow& row = strip.rows[r];
      const double y = plate.box.y + row.y, x = plate.box.centre().x;
      const Box square{x - row.squareWidth / 2, y - 12, row.squareWidth, 24};
      plate.terminals.push_back(
          {row.id, square, {row.printed, kTerminal, square, Align::centre}, row.splice, row.unknown});
      const auto at = counts[i].find(static_cast<int>(r));
      const std::array<int, 2> ends = at == counts[i].end() ? std::array<int, 2>{} : at->second;
      for (const Side side : {Side::left, Side::right}) {
        const int held = ends[side == Side::right];
        if (held == 0 && (ends[0] + ends[1] > 0 || side != sides[i])) continue;
        plate.screws.push_back({row.id,
                                {side == Side::left ? plate.box.x : plate.box.right(), y},
                                side,
                                held,
                                row.splice,
                                row.unknown});
      }
    }
    diagram.plates.push_back(std::move(plate));
  }
}

}  // namespace ww::drawing
