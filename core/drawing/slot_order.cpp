// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/slot_order.h"

#include <tuple>

namespace ww::drawing {

namespace {

/// Height of the screw at one end; far above for a unit that this side of the sheath does not face.
std::optional<double> rank(const Wiring& wiring, int wireIndex, bool isA) {
  const WireLine& wire = wiring.wires[static_cast<size_t>(wireIndex)];
  const End& end = wire.end(isA);
  if (end.strip < 0) return std::nullopt;
  return wiring.atHome(wire, isA) ? wiring.rowY(end.strip, end.row) : -1e9;
}

/// Where in the order the wire crosses fewest at its other end: the first of the best places.
size_t bestPlace(const Wiring& wiring, const std::vector<int>& order, int wire, bool isA) {
  const double own = *rank(wiring, wire, isA);
  int crossed = 0;
  for (const int other : order)
    if (const auto theirs = rank(wiring, other, isA); theirs && *theirs < own) ++crossed;
  size_t best = 0;
  int fewest = crossed;
  for (size_t i = 0; i < order.size(); ++i) {
    if (const auto theirs = rank(wiring, order[i], isA))
      crossed += *theirs > own ? 1 : *theirs < own ? -1 : 0;
    if (crossed < fewest) {
      fewest = crossed;
      best = i + 1;
    }
  }
  return best;
}

}  // namespace

std::vector<int> slotOrder(const Wiring& wiring, const CableLine& line, bool byA, int insertionPoint) {
  std::vector<int> order, half, freed;
  for (const int wire : line.wires) {
    if (rank(wiring, wire, byA))
      order.push_back(wire);
    else if (rank(wiring, wire, !byA))
      half.push_back(wire);
    else
      freed.push_back(wire);
  }
  std::sort(order.begin(), order.end(), [&](int x, int y) {
    return std::tuple(*rank(wiring, x, byA), rank(wiring, x, !byA), x) <
           std::tuple(*rank(wiring, y, byA), rank(wiring, y, !byA), y);
  });
  std::sort(half.begin(), half.end(), [&](int x, int y) {
    return std::tuple(*rank(wiring, x, !byA), x) < std::tuple(*rank(wiring, y, !byA), y);
  });
  for (const int wire : half)
    order.insert(order.begin() + static_cast<std::ptrdiff_t>(bestPlace(wiring, order, wire, !byA)), wire);
  std::sort(freed.begin(), freed.end());
  const auto at = std::min(static_cast<size_t>(insertionPoint), order.size());
  order.insert(order.begin() + static_cast<std::ptrdiff_t>(at), freed.begin(), freed.end());
  return order;
}

int insertionPoints(const Wiring& wiring, const CableLine& line) {
  int bound = 0;
  for (const int wire : line.wires) bound += rank(wiring, wire, true) || rank(wiring, wire, false);
  return bound < static_cast<int>(line.wires.size()) ? bound + 1 : 1;
}

}  // namespace ww::drawing
