// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <tuple>

#include "drawing/separation.h"
#include "drawing/wiring.h"

namespace ww::drawing {

namespace {

using SideOfStrip = std::pair<int, int>;  ///< strip, 0 left or 1 right

int sideIndex(Side side) { return side == Side::right ? 1 : 0; }

/// Ends on each row of each strip side.
std::map<SideOfStrip, std::map<int, int>> countEnds(const Wiring& wiring) {
  std::map<SideOfStrip, std::map<int, int>> counts;
  for (const WireLine& wire : wiring.wires)
    for (const bool isA : {true, false})
      if (const End& end = wire.end(isA); end.strip >= 0 && !wire.jumper())
        ++counts[{end.strip, sideIndex(end.side)}][end.row];
  return counts;
}

/// What a bow between two rows would meet on that side.
int inTheWay(const std::map<int, int>& ends, int low, int high) {
  int sum = 0;
  for (auto at = ends.lower_bound(low); at != ends.end() && at->first <= high; ++at) sum += at->second;
  return sum;
}

/// Whether the bow lies within a wider one on the same side.
bool insideBow(const Wiring& wiring, const WireLine& wire) {
  const int low = std::min(wire.a.row, wire.b.row), high = std::max(wire.a.row, wire.b.row);
  return std::any_of(wiring.wires.begin(), wiring.wires.end(), [&](const WireLine& other) {
    return &other != &wire && other.jumper() && other.a.strip == wire.a.strip &&
           other.a.side == wire.a.side && std::min(other.a.row, other.b.row) < low &&
           std::max(other.a.row, other.b.row) > high;
  });
}

/// Sorts ends on one screw so that their runs need not cross: what goes up first.
struct EndKey {
  double towards = 0;  ///< y that the run heads for
  int wire = 0;
  bool isA = true;
  friend auto operator<=>(const EndKey&, const EndKey&) = default;
};

double headsFor(const Wiring& wiring, const WireLine& wire, bool isA) {
  if (wire.cable < 0) {
    const End& other = wire.end(!isA);
    return other.strip >= 0 ? wiring.rowY(other.strip, other.row) : 1e9;
  }
  return wiring.atHome(wire, isA) && wiring.cables[static_cast<size_t>(wire.cable)].direct ? wire.slotY
                                                                                           : -1e9;
}

}  // namespace

void sideJumpers(Wiring& wiring) {
  auto counts = countEnds(wiring);
  for (WireLine& wire : wiring.wires) {
    if (!wire.jumper()) continue;
    const int column = wiring.placement->column[static_cast<size_t>(wire.a.strip)];
    const int low = std::min(wire.a.row, wire.b.row), high = std::max(wire.a.row, wire.b.row);
    const auto cost = [&](Side side) {
      const bool outer = side == Side::left ? column == 0 : column == wiring.columns - 1;
      return std::tuple(inTheWay(counts[{wire.a.strip, sideIndex(side)}], low, high), !outer);
    };
    const Side side = cost(Side::left) < cost(Side::right) ? Side::left : Side::right;
    auto& ends = counts[{wire.a.strip, sideIndex(side)}];
    wire.a.side = wire.b.side = side;
    ++ends[low];
    ++ends[high];
  }
  // A narrow bow only where nothing else, another jumper included, lands between or on its screws.
  for (WireLine& wire : wiring.wires)
    if (wire.jumper()) {
      const int low = std::min(wire.a.row, wire.b.row), high = std::max(wire.a.row, wire.b.row);
      wire.tight = low != high && inTheWay(counts[{wire.a.strip, sideIndex(wire.a.side)}], low, high) == 2 &&
                   !insideBow(wiring, wire);
    }
}

void spreadEnds(Wiring& wiring) {
  std::map<SideOfStrip, std::map<int, std::vector<EndKey>>> sides;
  for (size_t i = 0; i < wiring.wires.size(); ++i)
    for (const bool isA : {true, false})
      if (const End& end = wiring.wires[i].end(isA); end.strip >= 0)
        sides[{end.strip, sideIndex(end.side)}][end.row].push_back(
            {headsFor(wiring, wiring.wires[i], isA), static_cast<int>(i), isA});
  for (auto& [side, rows] : sides) {
    std::vector<double> wishes, gaps;
    std::vector<EndKey> order;
    for (auto& [row, ends] : rows) {
      std::sort(ends.begin(), ends.end());
      const double centre = wiring.rowY(side.first, row);
      for (size_t i = 0; i < ends.size(); ++i) {
        wishes.push_back(centre +
                         kTrackGap * (static_cast<double>(i) - static_cast<double>(ends.size() - 1) / 2));
        gaps.push_back(kTrackGap);
        order.push_back(ends[i]);
      }
    }
    const std::vector<double> places = separated(wishes, gaps);
    for (size_t i = 0; i < order.size(); ++i)
      wiring.wires[static_cast<size_t>(order[i].wire)].end(order[i].isA).y = places[i];
  }
}

}  // namespace ww::drawing
