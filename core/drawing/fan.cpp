// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/fan.h"

#include <algorithm>
#include <numeric>

#include "drawing/strip.h"

namespace ww::drawing {

namespace {

/// Crossings of two nets when `a`'s vertical stands nearer to the plate than `b`'s.
int crossingsInOrder(const FanNet& a, const FanNet& b) {
  int count = 0;
  for (int i = 0; i < b.count; ++i)
    if (b.ends[i].side == FanSide::plate && b.ends[i].y > a.low() && b.ends[i].y < a.high()) ++count;
  for (int i = 0; i < a.count; ++i)
    if (a.ends[i].side == FanSide::sheath && a.ends[i].y > b.low() && b.high() > a.ends[i].y) ++count;
  return count;
}

/// Whether a horizontal of `a` from the plate comes too near to one of `b` from the sheath, so that `a` must
/// turn off before `b`.
bool mustTurnBefore(const FanNet& a, const FanNet& b) {
  for (int i = 0; i < a.count; ++i)
    for (int j = 0; j < b.count; ++j)
      if (a.ends[i].side == FanSide::plate && b.ends[j].side == FanSide::sheath &&
          std::abs(a.ends[i].y - b.ends[j].y) < kTrackGap)
        return true;
  return false;
}

bool isStub(const FanNet& net) { return net.count == 1; }

struct Relation {
  size_t other = 0;
  bool hard = false, before = false;  ///< the other must stand nearer to the plate
};

class Assignment {
 public:
  Assignment(std::vector<FanNet>& nets, const FanRule& rule) : nets_(nets), rule_(rule), near_(nets.size()) {}

  FanResult run() {
    relate();
    place();
    for (const FanNet& net : nets_)
      if (!net.straight())
        result_.width =
            std::max(result_.width, net.u + (net.behindStub ? kStubLength + kTipGap : kSheathGap));
    return result_;
  }

 private:
  /// Finds the pairs whose spans come near each other, sweeping downwards.
  void relate() {
    std::vector<size_t> order(nets_.size());
    std::iota(order.begin(), order.end(), 0);
    std::stable_sort(order.begin(), order.end(),
                     [&](size_t a, size_t b) { return nets_[a].low() < nets_[b].low(); });
    std::vector<size_t> active;
    for (const size_t i : order) {
      std::erase_if(active, [&](size_t j) { return nets_[j].high() + kTrackGap <= nets_[i].low(); });
      for (const size_t j : active) relatePair(i, j);
      active.push_back(i);
    }
  }

  void relatePair(size_t i, size_t j) {
    ++result_.work;
    FanNet &a = nets_[i], &b = nets_[j];
    if (isStub(a) && a.ends[0].side == FanSide::sheath) b.behindStub = true;
    if (isStub(b) && b.ends[0].side == FanSide::sheath) a.behindStub = true;
    if (isStub(a) || isStub(b)) return;
    if (a.straight() || b.straight()) {
      result_.crossings += crossingsInOrder(a, b) > 0 || crossingsInOrder(b, a) > 0;
      return;
    }
    const bool aFirst = mustTurnBefore(a, b), bFirst = mustTurnBefore(b, a);
    const int ab = crossingsInOrder(a, b), ba = crossingsInOrder(b, a);
    near_[i].push_back({j, bFirst, bFirst || (!aFirst && ba < ab)});
    near_[j].push_back({i, aFirst, aFirst || (!bFirst && ab < ba)});
  }

  bool ready(size_t i, bool hardOnly) const {
    return std::all_of(near_[i].begin(), near_[i].end(), [&](const Relation& relation) {
      return placed_[relation.other] || !relation.before || (hardOnly && !relation.hard);
    });
  }

  void place() {
    placed_.assign(nets_.size(), false);
    std::vector<size_t> waiting;
    for (size_t i = 0; i < nets_.size(); ++i) {
      if (nets_[i].straight())
        placed_[i] = true;
      else
        waiting.push_back(i);
    }
    std::stable_sort(waiting.begin(), waiting.end(),
                     [&](size_t a, size_t b) { return nets_[a].low() < nets_[b].low(); });
    while (!waiting.empty()) {
      const size_t before = waiting.size();
      std::erase_if(waiting, [&](size_t i) { return ready(i, false) && put(i); });
      result_.work += static_cast<std::int64_t>(before);
      if (waiting.size() == before) breakCycle(waiting);
    }
  }

  void breakCycle(std::vector<size_t>& waiting) {
    auto at = std::find_if(waiting.begin(), waiting.end(), [&](size_t i) { return ready(i, true); });
    if (at == waiting.end()) {
      at = waiting.begin();
      ++result_.violations;
    }
    put(*at);
    waiting.erase(at);
  }

  /// The track nearest to the plate that is free for it behind all that stand before it.
  bool put(size_t i) {
    double u = rule_.first;
    for (const Relation& relation : near_[i])
      if (placed_[relation.other] && relation.before && !nets_[relation.other].straight())
        u = std::max(u, nets_[relation.other].u + rule_.pitch);
    for (bool moved = true; moved;) {
      moved = false;
      for (const Relation& relation : near_[i])
        if (placed_[relation.other] && !nets_[relation.other].straight() &&
            std::abs(nets_[relation.other].u - u) < kTrackGap) {
          u = nets_[relation.other].u + rule_.pitch;
          moved = true;
        }
    }
    nets_[i].u = u;
    placed_[i] = true;
    for (const Relation& relation : near_[i])
      if (placed_[relation.other] && !nets_[relation.other].straight())
        result_.crossings += nets_[relation.other].u < u ? crossingsInOrder(nets_[relation.other], nets_[i])
                                                         : crossingsInOrder(nets_[i], nets_[relation.other]);
    return true;
  }

  std::vector<FanNet>& nets_;
  const FanRule& rule_;
  std::vector<std::vector<Relation>> near_;
  std::vector<bool> placed_;
  FanResult result_;
};

}  // namespace

double FanNet::low() const { return count == 1 ? ends[0].y : std::min(ends[0].y, ends[1].y); }
double FanNet::high() const { return count == 1 ? ends[0].y : std::max(ends[0].y, ends[1].y); }

FanResult assignTracks(std::vector<FanNet>& nets, const FanRule& rule) {
  return Assignment(nets, rule).run();
}

}  // namespace ww::drawing
