// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/wiring.h"

namespace ww::drawing {

namespace {

End resolveEnd(const sheet::Landing& landing, const std::map<sheet::UnitId, int>& index,
               const std::vector<Strip>& strips) {
  End end;
  if (std::holds_alternative<sheet::Capped>(landing)) end.kind = End::Kind::capped;
  const auto* terminal = std::get_if<sheet::TerminalRef>(&landing);
  const auto* splice = std::get_if<sheet::Splice>(&landing);
  if (!terminal && !splice) return end;
  const auto at = index.find(terminal ? terminal->unit : splice->unit);
  if (at == index.end()) return end;
  end.kind = End::Kind::landed;
  end.strip = at->second;
  end.row =
      strips[static_cast<size_t>(at->second)].row(terminal ? terminal->terminal : splice->name, !terminal);
  return end;
}

void chooseZones(CableLine& line, const Placement& placement) {
  const int ca = placement.column[static_cast<size_t>(line.a)],
            cb = placement.column[static_cast<size_t>(line.b)];
  const bool rightwards = ca <= cb;
  line.direct = ca - cb == 1 || cb - ca == 1;
  line.zoneA = {ca, rightwards ? Side::right : Side::left};
  line.zoneB = {cb, rightwards ? Side::left : Side::right};
}

/// The side of a landed end: the zone of its cable where the unit stands in that column, else towards the
/// cable.
Side sideOf(const End& end, const Zone& home, const Placement& placement) {
  const int column = placement.column[static_cast<size_t>(end.strip)];
  if (column == home.column) return home.side;
  return column > home.column ? Side::left : Side::right;
}

}  // namespace

double Wiring::rowY(int strip, int row) const {
  return placement->top[static_cast<size_t>(strip)] +
         (*strips)[static_cast<size_t>(strip)].rows[static_cast<size_t>(row)].y;
}

Zone Wiring::zoneOf(const End& end) const {
  return {placement->column[static_cast<size_t>(end.strip)], end.side};
}

bool Wiring::atHome(const WireLine& wire, bool isA) const {
  const CableLine& line = cables[static_cast<size_t>(wire.cable)];
  return zoneOf(wire.end(isA)).index() == (isA ? line.zoneA : line.zoneB).index();
}

Wiring resolve(const sheet::Sheet& sheet, const std::vector<Strip>& strips, const Placement& placement) {
  Wiring wiring;
  wiring.strips = &strips;
  wiring.placement = &placement;
  wiring.columns = static_cast<int>(placement.columns.size());
  std::map<sheet::UnitId, int> index;
  for (size_t i = 0; i < strips.size(); ++i) index[strips[i].unit->id] = static_cast<int>(i);
  for (const sheet::Cable& cable : sheet.cables) {
    const auto a = index.find(cable.endA), b = index.find(cable.endB);
    if (a == index.end() || b == index.end()) continue;
    CableLine line;
    line.cable = &cable;
    line.a = a->second;
    line.b = b->second;
    chooseZones(line, placement);
    wiring.cables.push_back(line);
  }
  std::sort(wiring.cables.begin(), wiring.cables.end(),
            [](const auto& x, const auto& y) { return x.cable->id < y.cable->id; });
  std::map<sheet::CableId, int> cableIndex;
  for (size_t i = 0; i < wiring.cables.size(); ++i)
    cableIndex[wiring.cables[i].cable->id] = static_cast<int>(i);

  for (const sheet::Conductor& row : sheet.conductors) {
    WireLine wire;
    wire.row = &row;
    wire.a = resolveEnd(row.endA, index, strips);
    wire.b = resolveEnd(row.endB, index, strips);
    if (const auto at = row.cable ? cableIndex.find(*row.cable) : cableIndex.end(); at != cableIndex.end())
      wire.cable = at->second;
    wiring.wires.push_back(wire);
  }
  std::sort(wiring.wires.begin(), wiring.wires.end(),
            [](const auto& x, const auto& y) { return x.row->id < y.row->id; });
  for (size_t i = 0; i < wiring.wires.size(); ++i) {
    WireLine& wire = wiring.wires[i];
    if (wire.cable >= 0) wiring.cables[static_cast<size_t>(wire.cable)].wires.push_back(static_cast<int>(i));
    for (const bool isA : {true, false}) {
      End& end = wire.end(isA);
      if (end.strip < 0) continue;
      if (wire.cable >= 0) {
        const CableLine& line = wiring.cables[static_cast<size_t>(wire.cable)];
        end.side = sideOf(end, isA ? line.zoneA : line.zoneB, placement);
      } else if (const End& other = wire.end(!isA); other.strip >= 0 && other.strip != end.strip) {
        end.side = placement.column[static_cast<size_t>(other.strip)] <
                           placement.column[static_cast<size_t>(end.strip)]
                       ? Side::left
                       : Side::right;
      }
    }
    if (wire.cable < 0 && wire.a.strip < 0 && wire.b.strip < 0) wire.drawn = false;
  }
  return wiring;
}

}  // namespace ww::drawing
