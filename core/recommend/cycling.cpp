// SPDX-License-Identifier: GPL-3.0-or-later
#include "recommend/cycling.h"

#include <algorithm>
#include <limits>

namespace ww::recommend {

namespace {

constexpr double kHour = 3600;

quantity::Seconds secondsOver(double divisor) {
  return quantity::Seconds(divisor > 0 ? kHour / divisor : std::numeric_limits<double>::infinity());
}

}  // namespace

Cycle asked(double most, double share) {
  const double x = std::clamp(share, 0.0, 1.0);
  return {x, secondsOver(4 * most * (1 - x)), secondsOver(4 * most * x), 4 * most * x * (1 - x), false};
}

Cycle delivered(double most, double share, quantity::Seconds least) {
  Cycle cycle = asked(most, share);
  if (cycle.off.si() >= least.si()) return cycle;
  cycle.held = true;
  cycle.off = least;
  const double rest = 1 - cycle.share;
  if (rest <= 0) return cycle;  // never stops: on is infinite already, and nothing starts
  cycle.on = quantity::Seconds(least.si() * cycle.share / rest);
  cycle.perHour = kHour * rest / least.si();
  return cycle;
}

std::optional<double> heldAbove(double most, quantity::Seconds least) {
  if (4 * most * least.si() <= kHour) return std::nullopt;
  return kHour / (4 * most * least.si());
}

Cycle busiest(double most, quantity::Seconds least) {
  return delivered(most, std::min(0.5, heldAbove(most, least).value_or(1)), least);
}

std::vector<Cycle> curve(double most, quantity::Seconds least, int steps) {
  std::vector<double> shares{0.5};
  for (int i = 0; i <= std::max(steps, 2); ++i) shares.push_back(double(i) / std::max(steps, 2));
  if (const auto corner = heldAbove(most, least)) shares.push_back(*corner);
  std::sort(shares.begin(), shares.end());
  shares.erase(std::unique(shares.begin(), shares.end()), shares.end());
  std::vector<Cycle> points;
  points.reserve(shares.size());
  for (const double share : shares) points.push_back(delivered(most, share, least));
  return points;
}

}  // namespace ww::recommend
