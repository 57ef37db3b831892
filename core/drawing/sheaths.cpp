// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/sheaths.h"

#include "drawing/separation.h"
#include "drawing/slot_order.h"

namespace ww::drawing {

namespace {

constexpr double kFineStep = 4, kNearShift = 48, kFarShift = 320;

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const size_t n = values.size();
  return n % 2 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

/// Middle of the screws that a cable serves; of the strips where it serves none.
double middleAt(const Wiring& wiring, const CableLine& line, bool isA) {
  std::vector<double> rows;
  for (const int i : line.wires) {
    const WireLine& wire = wiring.wires[static_cast<size_t>(i)];
    if (const End& end = wire.end(isA); end.strip >= 0 && wiring.atHome(wire, isA))
      rows.push_back(wiring.rowY(end.strip, end.row));
  }
  if (!rows.empty()) return median(rows);
  const size_t strip = static_cast<size_t>(isA ? line.a : line.b);
  return wiring.placement->top[strip] + (*wiring.strips)[strip].height / 2;
}

double slotSpan(const CableLine& line) {
  return kSlotPitch * (static_cast<double>(std::max<size_t>(1, line.wires.size())) - 1);
}

/// One way to lay a cable: an order of slots and the height of the first.
struct Candidate {
  std::vector<int> order;
  double firstSlot = 0;
  double cost = 1e18;
};

class Trial {
 public:
  Trial(const Wiring& wiring, const CableLine& line, const ZoneRules& rules)
      : wiring_(wiring), line_(line), rules_(rules) {}

  double cost(const std::vector<int>& order, double firstSlot) {
    return fanCost(order, firstSlot, true) + fanCost(order, firstSlot, false);
  }
  std::int64_t work = 0;

 private:
  /// What a fan costs: broken rules first, then crossings, width beyond the usual, and unquiet lines.
  double fanCost(const std::vector<int>& order, double firstSlot, bool isA) {
    const size_t zone = static_cast<size_t>((isA ? line_.zoneA : line_.zoneB).index());
    std::vector<FanNet> nets = fanNets(order, firstSlot, isA);
    const FanResult result = assignTracks(nets, rules_.rules[zone]);
    work += result.work + static_cast<std::int64_t>(nets.size());
    double cost = 1e6 * result.violations + 1e3 * result.crossings +
                  20 * std::max(0.0, result.width - rules_.baseWidth[zone]);
    for (const FanNet& net : nets) {
      const double jog = net.high() - net.low();
      if (net.count == 2 && jog == 0) cost -= 12;
      if (jog > 0 && jog < 10) cost += 10;
    }
    return cost;
  }

  std::vector<FanNet> fanNets(const std::vector<int>& order, double firstSlot, bool isA) const {
    // Ends that share a screw take its places in slot order.
    std::map<std::pair<int, int>, std::vector<double>> places;
    for (const int i : order)
      if (const End& end = wiring_.wires[static_cast<size_t>(i)].end(isA); end.strip >= 0)
        places[{end.strip, end.row}].push_back(end.y);
    for (auto& [row, ys] : places) std::sort(ys.begin(), ys.end(), std::greater<>());
    std::vector<FanNet> nets;
    for (size_t slot = 0; slot < order.size(); ++slot) {
      const WireLine& wire = wiring_.wires[static_cast<size_t>(order[slot])];
      const End& end = wire.end(isA);
      FanNet net;
      net.ends[0] = {FanSide::sheath, firstSlot + kSlotPitch * static_cast<double>(slot)};
      net.count = end.strip >= 0 ? 2 : 1;
      if (end.strip >= 0) {
        auto& ys = places[{end.strip, end.row}];
        net.ends[1] =
            wiring_.atHome(wire, isA) ? FanEnd{FanSide::plate, ys.back()} : FanEnd{FanSide::lane, -1e6};
        ys.pop_back();
      }
      nets.push_back(net);
    }
    return nets;
  }

  const Wiring& wiring_;
  const CableLine& line_;
  const ZoneRules& rules_;
};

class Channel {
 public:
  Channel(Wiring& wiring, const ZoneRules& rules, const Slots& kept, std::vector<int> cables)
      : wiring_(wiring), rules_(rules), kept_(kept), cables_(std::move(cables)) {}

  std::int64_t run() {
    std::vector<std::pair<double, int>> targets;
    for (const int i : cables_) {
      const CableLine& line = wiring_.cables[static_cast<size_t>(i)];
      targets.emplace_back((middleAt(wiring_, line, true) + middleAt(wiring_, line, false)) / 2, i);
    }
    std::sort(targets.begin(), targets.end());
    std::vector<double> wishes, gaps;
    for (size_t t = 0; t < targets.size(); ++t) {
      const double half = slotSpan(line(targets[t].second)) / 2;
      wishes.push_back(targets[t].first);
      gaps.push_back(t == 0 ? 0 : half + slotSpan(line(targets[t - 1].second)) / 2 + kSheathClear);
    }
    const std::vector<double> centres = separated(wishes, gaps);
    double least = -1e9;
    for (size_t t = 0; t < targets.size(); ++t) {
      CableLine& cable = line(targets[t].second);
      lay(cable, std::max(least, kFineStep * std::round((centres[t] - slotSpan(cable) / 2) / kFineStep)),
          least);
      least = cable.firstSlot + slotSpan(cable) + kSheathClear;
    }
    return work_;
  }

 private:
  static constexpr double kSheathClear = 28 + 16;  ///< last slot of one sheath to the first of the next

  CableLine& line(int cable) { return wiring_.cables[static_cast<size_t>(cable)]; }

  /// The cheapest of all orders and heights, none above `least`.
  void lay(CableLine& cable, double wish, double least) {
    Trial trial(wiring_, cable, rules_);
    Candidate best;
    for (const bool byA : {true, false}) {
      const int points = insertionPoints(wiring_, cable);
      for (int point = 0; point < points; ++point) {
        const std::vector<int> order = slotOrder(wiring_, cable, byA, point);
        tryHeights(trial, order, byA ? 0 : 8, wish, least, 0, kNearShift, best);
      }
    }
    if (best.cost > 5e5)
      for (const bool byA : {true, false})
        tryHeights(trial, slotOrder(wiring_, cable, byA, 0), byA ? 0 : 8, wish, least, kNearShift, kFarShift,
                   best);
    cable.wires = best.order;
    cable.firstSlot = best.firstSlot;
    for (size_t slot = 0; slot < cable.wires.size(); ++slot)
      wiring_.wires[static_cast<size_t>(cable.wires[slot])].slotY = cable.slotY(slot);
    work_ += trial.work;
  }

  /// What it costs to leave the wished height or, where the conductors had slots before, to move them.
  double unrest(const std::vector<int>& order, double first, double shift) const {
    double moved = 0;
    bool any = false;
    for (size_t slot = 0; slot < order.size(); ++slot) {
      const WireLine& wire = wiring_.wires[static_cast<size_t>(order[slot])];
      const auto at = kept_.find(wire.row->id);
      if (at == kept_.end()) continue;
      any = true;
      const double by = std::abs(first + kSlotPitch * static_cast<double>(slot) - at->second);
      moved += (wire.a.strip < 0 || wire.b.strip < 0 ? 2 : 1) * by + (by > 32 ? 200 : 0);
    }
    return any ? moved : shift;
  }

  void tryHeights(Trial& trial, const std::vector<int>& order, double extra, double wish, double least,
                  double from, double to, Candidate& best) {
    const int steps = static_cast<int>(std::floor((to - from) / kFineStep));
    for (int step = 0; step <= steps; ++step)
      for (const double sign : {1.0, -1.0}) {
        const double shift = from + step * kFineStep;
        const double first = wish + sign * shift;
        if (first < least || (shift == 0 && sign < 0)) continue;
        const double cost = trial.cost(order, first) + unrest(order, first, shift) + extra;
        if (cost < best.cost - 1e-9) best = {order, first, cost};
      }
  }

  Wiring& wiring_;
  const ZoneRules& rules_;
  const Slots& kept_;
  std::vector<int> cables_;
  std::int64_t work_ = 0;
};

}  // namespace

ZoneRules zoneRules(const Wiring& wiring, const TextMeasure& measure) {
  ZoneRules all;
  const size_t zones = 2 * static_cast<size_t>(wiring.columns);
  std::vector<double> widest(zones, 24);
  std::vector<size_t> conductors(zones, 0);
  for (const WireLine& wire : wiring.wires) {
    const double text = measure(wire.jumper() ? "J" : sheet::print(wire.row->colour), kTag).w;
    all.tagWidth.push_back(text <= 19 ? 24 : text <= 22 ? 28 : std::ceil(text) + 10);
    const auto widen = [&](const Zone& zone) {
      double& width = widest[static_cast<size_t>(zone.index())];
      width = std::max(width, all.tagWidth.back());
    };
    for (const bool isA : {true, false})
      if (const End& end = wire.end(isA); end.strip >= 0) widen(wiring.zoneOf(end));
    // Its own zones count even while an end is free, so that landing it moves no column.
    if (wire.cable >= 0) {
      widen(wiring.cables[static_cast<size_t>(wire.cable)].zoneA);
      widen(wiring.cables[static_cast<size_t>(wire.cable)].zoneB);
    }
  }
  for (const CableLine& line : wiring.cables)
    if (line.direct)
      for (const Zone& zone : {line.zoneA, line.zoneB}) {
        size_t& count = conductors[static_cast<size_t>(zone.index())];
        count = std::max(count, std::max<size_t>(1, line.wires.size()));
      }
  for (size_t zone = 0; zone < zones; ++zone) {
    FanRule rule;
    rule.first = kTagOffset + widest[zone] + 16;
    const size_t tracks = conductors[zone] <= 3 ? 3 : std::max<size_t>(4, conductors[zone] - 1);
    const double room = rule.pitch * static_cast<double>(tracks - 1) + kSheathGap;
    // A track or two must fit beyond the tip of a free end, so that cutting one loose widens nothing.
    const double beyondTip = (tracks > 3 ? rule.pitch : 0) + kStubLength + kTipGap;
    all.rules.push_back(rule);
    all.baseWidth.push_back(conductors[zone] ? rule.first + std::max(room, beyondTip) : 0);
  }
  return all;
}

std::int64_t placeSheaths(Wiring& wiring, const ZoneRules& rules, const Slots& kept) {
  std::map<int, std::vector<int>> channels;
  for (size_t i = 0; i < wiring.cables.size(); ++i) {
    CableLine& line = wiring.cables[i];
    if (line.direct)
      channels[std::min(line.zoneA.column, line.zoneB.column)].push_back(static_cast<int>(i));
    else
      line.wires = slotOrder(wiring, line, true, 0);
    if (line.zoneA.column == line.zoneB.column) std::reverse(line.wires.begin(), line.wires.end());
  }
  std::int64_t work = 0;
  for (auto& [channel, cables] : channels) work += Channel(wiring, rules, kept, cables).run();
  return work;
}

}  // namespace ww::drawing
