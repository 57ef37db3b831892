// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <array>
#include <set>

#include "verify/rules.h"

namespace ww::verify {

namespace {

using sheet::Conductor;
using sheet::Insulation;
using sheet::Landing;
using sheet::TerminalRef;

const equipment::Terminal* terminalOf(const Inspection& in, const TerminalRef& ref) {
  const int unit = in.circuit.unitIndex(ref.unit);
  return unit < 0 ? nullptr : in.circuit.units[size_t(unit)].profile->terminal(ref.terminal);
}

bool isLoose(const Landing& landing) { return std::holds_alternative<sheet::Loose>(landing); }
bool isJoined(const Landing& landing) {
  return std::holds_alternative<TerminalRef>(landing) || std::holds_alternative<sheet::Splice>(landing);
}

void ends(const Inspection& in, const Conductor& wire) {
  const bool looseA = isLoose(wire.endA);
  const bool looseB = isLoose(wire.endB);
  if (!looseA && !looseB) return;
  if (isJoined(wire.endA) || isJoined(wire.endB)) {
    const char end = looseA ? 'A' : 'B';
    std::vector<Place> places{atConductor(wire.id, end)};
    if (const auto unit = unitOfEnd(in.sheet, wire, looseA)) places.push_back(atUnit(*unit));
    in.add("loose-end", std::move(places));
  } else {
    in.add("spare-not-capped", {atConductor(wire.id, looseA && looseB ? char(0) : looseA ? 'A' : 'B')});
  }
}

/// How many ends a screw holds, and how many of them come from one cable.
void screws(const Inspection& in) {
  std::map<TerminalRef, std::vector<const Conductor*>> landed;
  for (const Conductor& wire : in.sheet.conductors)
    for (const Landing* landing : {&wire.endA, &wire.endB})
      if (const auto* ref = std::get_if<TerminalRef>(landing)) landed[*ref].push_back(&wire);
  for (const auto& [ref, wires] : landed) {
    const auto* terminal = terminalOf(in, ref);
    if (terminal == nullptr) continue;
    if (int(wires.size()) > terminal->posts)
      in.add(
          "screw-crowded", {atTerminal(ref)},
          {{"count", Word{std::to_string(wires.size())}}, {"limit", Word{std::to_string(terminal->posts)}}});
    std::set<sheet::CableId> cables;
    for (const Conductor* wire : wires)
      if (wire->cable && !cables.insert(*wire->cable).second) {
        in.add("end-doubled", {atTerminal(ref), atConductor(wire->id)});
        break;
      }
  }
}

/// Customary colours of call conductors; common practice, no source. Colours that no custom ties to a call,
/// and calls that no custom ties to a colour, are left alone.
bool isCustomary(const std::string& purpose, Insulation colour) {
  struct Custom {
    const char* purpose;
    std::array<Insulation, 3> colours;
  };
  static constexpr std::array kCustoms{
      Custom{"compressor1", {Insulation::ye, Insulation::ye, Insulation::ye}},
      Custom{"compressor2", {Insulation::bu, Insulation::og, Insulation::ye}},
      Custom{"blower", {Insulation::gn, Insulation::gn, Insulation::gn}},
      Custom{"heat1", {Insulation::wh, Insulation::wh, Insulation::wh}},
      Custom{"reversingValve", {Insulation::og, Insulation::bu, Insulation::bn}},
  };
  const auto custom =
      std::find_if(kCustoms.begin(), kCustoms.end(), [&](const Custom& c) { return purpose == c.purpose; });
  return custom == kCustoms.end() ||
         std::find(custom->colours.begin(), custom->colours.end(), colour) != custom->colours.end();
}

bool hasNoCustom(Insulation colour) {
  switch (colour) {
    case Insulation::bk:
    case Insulation::bn:
    case Insulation::gy:
    case Insulation::pk:
    case Insulation::vt:
    case Insulation::tn:
    case Insulation::unknown: return true;
    default: return false;
  }
}

void colour(const Inspection& in, const Conductor& wire) {
  if (hasNoCustom(wire.colour.body)) return;
  const auto* a = std::get_if<TerminalRef>(&wire.endA);
  const auto* b = std::get_if<TerminalRef>(&wire.endB);
  if (a == nullptr || b == nullptr) return;
  const auto* terminalA = terminalOf(in, *a);
  const auto* terminalB = terminalOf(in, *b);
  // Only where both ends agree on what the conductor is for; a swapped one has worse to be told.
  if (terminalA == nullptr || terminalB == nullptr || terminalA->purpose != terminalB->purpose) return;
  if (isCustomary(terminalA->purpose, wire.colour.body)) return;
  in.add("colour-custom", {atConductor(wire.id)},
         {{"colour", Word{sheet::print(wire.colour)}}, {"purpose", Word{terminalA->purpose}}});
}

}  // namespace

void landingRules(const Inspection& in) {
  for (const Conductor& wire : in.sheet.conductors) {
    ends(in, wire);
    colour(in, wire);
  }
  screws(in);
}

}  // namespace ww::verify
