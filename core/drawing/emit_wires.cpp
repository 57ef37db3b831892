// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/emit.h"

namespace ww::drawing {

namespace {

constexpr double kUnderSheath = 12;  ///< how far runs reach under the capsule
constexpr double kBow = 20;          ///< depth of a jumper's bow at the strip
constexpr double kFork = 14;         ///< where a run leaves a crowded screw at a slant
constexpr double kTagEvery = 240;    ///< of a long run

/// Drops points that repeat or lie on the line between their neighbours.
std::vector<Point> simplified(const std::vector<Point>& points) {
  std::vector<Point> kept;
  for (const Point& p : points) {
    if (!kept.empty() && kept.back() == p) continue;
    while (kept.size() >= 2) {
      const Point &a = kept[kept.size() - 2], &b = kept.back();
      if ((a.x == b.x && b.x == p.x) || (a.y == b.y && b.y == p.y))
        kept.pop_back();
      else
        break;
    }
    kept.push_back(p);
  }
  return kept;
}

class WireEmitter {
 public:
  WireEmitter(const Wiring& wiring, const Routing& routing, const ZoneRules& rules, Diagram& diagram)
      : wiring_(wiring), routing_(routing), rules_(rules), diagram_(diagram) {}

  void emit(size_t i) {
    const WireLine& wire = wiring_.wires[i];
    if (!wire.drawn) return;
    out_ = {wire.row->id, wire.row->cable, wire.row->colour, wire.jumper(), {}};
    tagWidth_ = rules_.tagWidth[i];
    label_ = wire.jumper() ? "J" : sheet::print(wire.row->colour);
    if (wire.cable >= 0)
      emitCabled(i);
    else if (wire.jumper())
      emitJumper(i);
    else
      emitBare(i);
    diagram_.wires.push_back(out_);
  }

 private:
  double direction(int zone) const { return zone % 2 ? 1.0 : -1.0; }

  void addTag(RunPart part, Point centre) {
    const Box box{centre.x - tagWidth_ / 2, centre.y - 8, tagWidth_, 16};
    diagram_.tags.push_back({out_.conductor, part, {label_, kTag, box, Align::centre}});
  }

  /// From the screw to where the run is level with its place: straight, or at a slant from a crowded screw.
  std::vector<Point> leave(const End& end, RunPart part) {
    const int zone = wiring_.zoneOf(end).index();
    const double edge = routing_.edge(zone), centre = wiring_.rowY(end.strip, end.row);
    addTag(part, {edge + direction(zone) * (kTagOffset + tagWidth_ / 2), end.y});
    if (std::abs(end.y - centre) <= 8.01) return {{edge, end.y}};
    return {{edge, centre}, {edge + direction(zone) * kFork, end.y}};
  }

  const FanNet& net(const Piece& piece) const {
    return routing_.zones[static_cast<size_t>(piece.zone)][static_cast<size_t>(piece.net)];
  }
  double trackX(const Piece& piece) const { return routing_.x(piece.zone, net(piece).u); }

  void longTags(const std::vector<Point>& points, RunPart part) {
    for (size_t k = 0; k + 1 < points.size(); ++k) {
      const double length = points[k + 1].x - points[k].x;
      if (points[k].y != points[k + 1].y || std::abs(length) < kTagEvery + 40) continue;
      const int count = static_cast<int>(std::abs(length) / kTagEvery);
      for (int n = 1; n <= count; ++n) addTag(part, {points[k].x + length * n / (count + 1), points[k].y});
    }
  }

  void emitCabled(size_t i) {
    const WireLine& wire = wiring_.wires[i];
    for (const bool isA : {true, false}) {
      const RunPart part = isA ? RunPart::endA : RunPart::endB;
      std::vector<Point> points =
          wire.end(isA).strip >= 0 ? landedRun(i, isA, part) : freeRun(wire, isA, part);
      points = simplified(points);
      if (wire.end(isA).strip >= 0) longTags(points, part);
      if (!isA) std::reverse(points.begin(), points.end());
      out_.runs.push_back({part, std::move(points)});
    }
  }

  /// Screw to sheath.
  std::vector<Point> landedRun(size_t i, bool isA, RunPart part) {
    const WireLine& wire = wiring_.wires[i];
    const Route& route = (isA ? routing_.routeA : routing_.routeB)[i];
    std::vector<Point> points = leave(wire.end(isA), part);
    if (route.away.exists()) {
      points.push_back({trackX(route.away), wire.end(isA).y});
      points.push_back({trackX(route.away), route.lane});
      points.push_back({trackX(route.home), route.lane});
    } else if (!net(route.home).straight()) {
      points.push_back({trackX(route.home), wire.end(isA).y});
    }
    if (!net(route.home).straight()) points.push_back({trackX(route.home), wire.slotY});
    points.push_back(sheathPoint(wire, isA));
    return points;
  }

  /// -1 at the sheath's left side, +1 at its right.
  double sheathSide(const WireLine& wire, bool isA) const {
    const CableLine& line = wiring_.cables[static_cast<size_t>(wire.cable)];
    const Box& box = routing_.sheaths[static_cast<size_t>(wire.cable)];
    return routing_.edge((isA ? line.zoneA : line.zoneB).index()) < box.centre().x ? -1 : 1;
  }

  Point sheathPoint(const WireLine& wire, bool isA) const {
    const Box& box = routing_.sheaths[static_cast<size_t>(wire.cable)];
    const double side = sheathSide(wire, isA);
    return {box.centre().x + side * (box.w / 2 - kUnderSheath), wire.slotY};
  }

  /// A free end: a stub out of the sheath.
  std::vector<Point> freeRun(const WireLine& wire, bool isA, RunPart part) {
    const double side = sheathSide(wire, isA);
    const Point inner = sheathPoint(wire, isA);
    const double edge = inner.x + side * kUnderSheath;
    const Point tip{edge + side * (tagWidth_ + kStubLength - 24), wire.slotY};
    addTag(part, {edge + side * (6 + tagWidth_ / 2), wire.slotY});
    addMark(wire.end(isA), part, tip);
    return {tip, inner};
  }

  void addMark(const End& end, RunPart part, Point tip) {
    diagram_.ends.push_back(
        {out_.conductor, part, end.kind == End::Kind::capped ? EndKind::capped : EndKind::loose, tip});
  }

  /// One flag in the middle of a bow, one near either end of a long one.
  void tagBow(double x, double from, double to) {
    const double towards = from < to ? 1 : -1;
    if (std::abs(from - to) <= 128) {
      addTag(RunPart::whole, {x, (from + to) / 2});
      return;
    }
    addTag(RunPart::whole, {x, from + towards * kPitch});
    addTag(RunPart::whole, {x, to - towards * kPitch});
  }

  void emitJumper(size_t i) {
    const WireLine& wire = wiring_.wires[i];
    const int zone = wiring_.zoneOf(wire.a).index();
    std::vector<Point> points;
    if (wire.tight) {
      const double x = routing_.x(zone, kBow), edge = routing_.edge(zone);
      points = {{edge, wire.a.y}, {x, wire.a.y}, {x, wire.b.y}, {edge, wire.b.y}};
      tagBow(x, wire.a.y, wire.b.y);
    } else {
      points = leave(wire.a, RunPart::whole);
      const double x = trackX(routing_.routeA[i].home);
      points.push_back({x, wire.a.y});
      points.push_back({x, wire.b.y});
      std::vector<Point> back = leave(wire.b, RunPart::whole);
      points.insert(points.end(), back.rbegin(), back.rend());
    }
    out_.runs.push_back({RunPart::whole, simplified(points)});
  }

  /// A conductor without a cable that is no jumper: from unit to unit through the header, or hanging free.
  void emitBare(size_t i) {
    const WireLine& wire = wiring_.wires[i];
    std::vector<Point> points;
    if (wire.a.strip >= 0 && wire.b.strip >= 0) {
      const Route& route = routing_.routeA[i];
      points = leave(wire.a, RunPart::whole);
      points.push_back({trackX(route.home), wire.a.y});
      points.push_back({trackX(route.home), route.lane});
      points.push_back({trackX(route.away), route.lane});
      points.push_back({trackX(route.away), wire.b.y});
      const std::vector<Point> back = leave(wire.b, RunPart::whole);
      points.insert(points.end(), back.rbegin(), back.rend());
      points = simplified(points);
      longTags(points, RunPart::whole);
    } else {
      const bool isA = wire.a.strip >= 0;
      const End& end = wire.end(isA);
      const int zone = wiring_.zoneOf(end).index();
      points = leave(end, RunPart::whole);
      points.push_back({routing_.x(zone, kTagOffset + tagWidth_ + 10), end.y});
      addMark(wire.end(!isA), isA ? RunPart::endB : RunPart::endA, points.back());
      points = simplified(points);
      if (!isA) std::reverse(points.begin(), points.end());
    }
    out_.runs.push_back({RunPart::whole, std::move(points)});
  }

  const Wiring& wiring_;
  const Routing& routing_;
  const ZoneRules& rules_;
  Diagram& diagram_;
  Wire out_;
  double tagWidth_ = 24;
  std::string label_;
};

}  // namespace

void emitWires(const Wiring& wiring, const Routing& routing, const ZoneRules& rules, Diagram& diagram) {
  WireEmitter emitter(wiring, routing, rules, diagram);
  for (size_t i = 0; i < wiring.wires.size(); ++i) emitter.emit(i);
}

}  // namespace ww::drawing
