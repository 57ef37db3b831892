// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/routes.h"

namespace ww::drawing {

namespace {

/// A stretch of header lane between two zones, as many lanes high as it has conductors.
struct Lane {
  int from = 0, to = 0;  ///< order of zones along x
  int slots = 1;
  double first = 0;           ///< y of the uppermost lane
  double clear = kSlotPitch;  ///< to the next one
  double top() const { return first - clear; }
};

/// Place of a zone along x: left zone, plate, right zone of every column.
int along(const Zone& zone) { return 3 * zone.column + (zone.side == Side::right ? 2 : 0); }

class Router {
 public:
  Router(Wiring& wiring, const ZoneRules& rules, const std::vector<double>& sheathWidths)
      : wiring_(wiring), rules_(rules), widths_(sheathWidths) {}

  Routing run() {
    routing_.zones.resize(2 * static_cast<size_t>(wiring_.columns));
    routing_.routeA.resize(wiring_.wires.size());
    routing_.routeB.resize(wiring_.wires.size());
    hangLanes();
    for (size_t i = 0; i < wiring_.wires.size(); ++i) addNets(i);
    for (size_t zone = 0; zone < routing_.zones.size(); ++zone) {
      const FanResult result = assignTracks(routing_.zones[zone], rules_.rules[zone]);
      routing_.zoneWidth.push_back(std::max(result.width, rules_.baseWidth[zone]));
      routing_.work += result.work + static_cast<std::int64_t>(routing_.zones[zone].size());
    }
    placeColumns();
    placeSheathBoxes();
    return std::move(routing_);
  }

 private:
  bool awayFromHome(const WireLine& wire, bool isA) const {
    return wire.end(isA).strip >= 0 && wire.cable >= 0 && !wiring_.atHome(wire, isA);
  }

  /// y above everything that stands in the columns and channels.
  double headerFloor() const {
    double floor = 1e9;
    for (size_t i = 0; i < wiring_.strips->size(); ++i)
      floor = std::min(floor, wiring_.placement->top[i] - (*wiring_.strips)[i].above);
    for (const CableLine& line : wiring_.cables)
      if (line.direct) floor = std::min(floor, line.firstSlot - kSlotPitch);
    return floor - 24;
  }

  /// Packs lanes upwards, the shortest lowest.
  void hangLanes() {
    std::vector<Lane> lanes;
    std::vector<std::pair<int, bool>> users;  ///< cable, or wire end coded below
    std::vector<size_t> wires;
    for (size_t i = 0; i < wiring_.cables.size(); ++i) {
      const CableLine& line = wiring_.cables[i];
      if (line.direct) continue;
      const int from = along(line.zoneA), to = along(line.zoneB);
      lanes.push_back({std::min(from, to), std::max(from, to),
                       std::max(1, static_cast<int>(line.wires.size())), 0, kSlotPitch + 14});
      users.emplace_back(static_cast<int>(i), true);
      wires.push_back(i);
    }
    const size_t cables = lanes.size();
    for (size_t i = 0; i < wiring_.wires.size(); ++i)
      for (const bool isA : {true, false}) {
        const WireLine& wire = wiring_.wires[i];
        const bool bare = isA && wire.cable < 0 && !wire.jumper() && wire.a.strip >= 0 && wire.b.strip >= 0;
        if (!awayFromHome(wire, isA) && !bare) continue;
        const int from = bare ? along(wiring_.zoneOf(wire.a)) : along(homeZone(wire, isA));
        const int to = along(wiring_.zoneOf(bare ? wire.b : wire.end(isA)));
        lanes.push_back({std::min(from, to), std::max(from, to), 1, 0, kSlotPitch});
        users.emplace_back(static_cast<int>(i), isA);
        wires.push_back(i);
      }
    pack(lanes);
    for (size_t l = 0; l < lanes.size(); ++l) {
      if (l < cables) {
        CableLine& line = wiring_.cables[wires[l]];
        line.firstSlot = lanes[l].first;
        for (size_t slot = 0; slot < line.wires.size(); ++slot)
          wiring_.wires[static_cast<size_t>(line.wires[slot])].slotY = line.slotY(slot);
      } else {
        (users[l].second ? routing_.routeA : routing_.routeB)[wires[l]].lane = lanes[l].first;
      }
    }
  }

  void pack(std::vector<Lane>& lanes) {
    std::vector<size_t> order(lanes.size());
    for (size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
      return lanes[a].to - lanes[a].from < lanes[b].to - lanes[b].from;
    });
    const double floor = headerFloor();
    // Height already taken over each place along x.
    std::vector<double> top(3 * static_cast<size_t>(wiring_.columns) + 1, floor);
    for (const size_t i : order) {
      Lane& lane = lanes[i];
      double bottom = floor;
      for (int p = lane.from; p <= lane.to; ++p) bottom = std::min(bottom, top[static_cast<size_t>(p)]);
      lane.first = bottom - (lane.clear - kSlotPitch) - kSlotPitch * (lane.slots - 1);
      for (int p = lane.from; p <= lane.to; ++p) top[static_cast<size_t>(p)] = lane.top();
      routing_.work += lane.to - lane.from + 1;
    }
  }

  Zone homeZone(const WireLine& wire, bool isA) const {
    const CableLine& line = wiring_.cables[static_cast<size_t>(wire.cable)];
    return isA ? line.zoneA : line.zoneB;
  }

  Piece add(const Zone& zone, FanNet net) {
    auto& nets = routing_.zones[static_cast<size_t>(zone.index())];
    nets.push_back(net);
    return {zone.index(), static_cast<int>(nets.size()) - 1};
  }

  static FanNet net(FanEnd from, FanEnd to) {
    FanNet made;
    made.ends[0] = from;
    made.ends[1] = to;
    return made;
  }

  static FanNet stub(FanEnd at) {
    FanNet made;
    made.ends[0] = at;
    made.count = 1;
    return made;
  }

  void addNets(size_t i) {
    const WireLine& wire = wiring_.wires[i];
    if (!wire.drawn) return;
    if (wire.cable < 0) {
      addBare(i);
      return;
    }
    const CableLine& line = wiring_.cables[static_cast<size_t>(wire.cable)];
    for (const bool isA : {true, false}) {
      Route& route = (isA ? routing_.routeA : routing_.routeB)[i];
      const End& end = wire.end(isA);
      const FanEnd sheathEnd{line.direct ? FanSide::sheath : FanSide::lane, wire.slotY};
      if (end.strip < 0) {
        if (line.direct) add(homeZone(wire, isA), stub(sheathEnd));
      } else if (wiring_.atHome(wire, isA)) {
        route.home = add(homeZone(wire, isA), net({FanSide::plate, end.y}, sheathEnd));
      } else {
        route.home = add(homeZone(wire, isA), net(sheathEnd, {FanSide::lane, route.lane}));
        route.away = add(wiring_.zoneOf(end), net({FanSide::plate, end.y}, {FanSide::lane, route.lane}));
      }
    }
  }

  void addBare(size_t i) {
    const WireLine& wire = wiring_.wires[i];
    Route& route = routing_.routeA[i];
    if (wire.jumper()) {
      if (!wire.tight)
        route.home = add(wiring_.zoneOf(wire.a), net({FanSide::plate, wire.a.y}, {FanSide::plate, wire.b.y}));
    } else if (wire.a.strip >= 0 && wire.b.strip >= 0) {
      route.home = add(wiring_.zoneOf(wire.a), net({FanSide::plate, wire.a.y}, {FanSide::lane, route.lane}));
      route.away = add(wiring_.zoneOf(wire.b), net({FanSide::plate, wire.b.y}, {FanSide::lane, route.lane}));
    } else {
      const End& end = wire.end(wire.a.strip >= 0);
      add(wiring_.zoneOf(end), stub({FanSide::plate, end.y}));
    }
  }

  void placeColumns() {
    double x = kMargin;
    for (int c = 0; c < wiring_.columns; ++c) {
      routing_.columnX.push_back(x);
      routing_.columnWidth.push_back(wiring_.placement->width[static_cast<size_t>(c)]);
      x += routing_.columnWidth.back() + channelWidth(c);
    }
  }

  double channelWidth(int left) const {
    if (left + 1 >= wiring_.columns) return 0;
    double sheath = 24;
    for (size_t i = 0; i < wiring_.cables.size(); ++i)
      if (wiring_.cables[i].direct &&
          std::min(wiring_.cables[i].zoneA.column, wiring_.cables[i].zoneB.column) == left)
        sheath = std::max(sheath, widths_[i]);
    const size_t zone = 2 * static_cast<size_t>(left) + 1;
    return std::max(120.0, routing_.zoneWidth[zone] + sheath + routing_.zoneWidth[zone + 1]);
  }

  void placeSheathBoxes() {
    for (size_t i = 0; i < wiring_.cables.size(); ++i) {
      const CableLine& line = wiring_.cables[i];
      const double height = kSlotPitch * static_cast<double>(std::max<size_t>(1, line.wires.size())) + 8;
      double centre = 0;
      if (line.direct) {
        const int left = std::min(line.zoneA.column, line.zoneB.column);
        const int zone = 2 * left + 1;
        centre = (routing_.x(zone, routing_.zoneWidth[static_cast<size_t>(zone)]) +
                  routing_.x(zone + 1, routing_.zoneWidth[static_cast<size_t>(zone) + 1])) /
                 2;
      } else {
        centre = (routing_.edge(line.zoneA.index()) + routing_.edge(line.zoneB.index())) / 2;
      }
      routing_.sheaths.push_back({centre - widths_[i] / 2, line.firstSlot - 14, widths_[i], height});
    }
  }

  Wiring& wiring_;
  const ZoneRules& rules_;
  const std::vector<double>& widths_;
  Routing routing_;
};

}  // namespace

double Routing::edge(int zone) const {
  const size_t column = static_cast<size_t>(zone) / 2;
  return columnX[column] + (zone % 2 ? columnWidth[column] : 0);
}

double Routing::x(int zone, double u) const { return edge(zone) + (zone % 2 ? u : -u); }

Routing route(Wiring& wiring, const ZoneRules& rules, const std::vector<double>& sheathWidths) {
  return Router(wiring, rules, sheathWidths).run();
}

}  // namespace ww::drawing
