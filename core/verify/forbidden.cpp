// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/forbidden.h"

#include <algorithm>

#include "operation/logic_run.h"
#include "verify/metal.h"
#include "verify/purpose.h"

namespace ww::verify {

namespace {

using equipment::ContactPart;
using equipment::TransformerPart;

Place placeOf(const asbuilt::AsBuilt& circuit, const asbuilt::Device& device) {
  Place place;
  place.unit = circuit.units[size_t(device.unit)].id;
  place.part = circuit.element(device).id;
  return place;
}

bool isSafety(const asbuilt::Device& device) {
  const auto* contact = std::get_if<ContactPart>(&device.part);
  return contact != nullptr && contact->safety;
}

/// Jumpers are contacts that take no time.
bool isJumper(const asbuilt::Device& device) {
  const auto* contact = std::get_if<ContactPart>(&device.part);
  return contact != nullptr && contact->operating.si() == 0;
}

bool isLoad(const asbuilt::Device& device) {
  return std::holds_alternative<equipment::CoilPart>(device.part) ||
         std::holds_alternative<equipment::ThermalPart>(device.part) ||
         std::holds_alternative<equipment::InputPart>(device.part) || equipment::isSupply(device.part);
}

/// Both sides of the element are screws, so that wiring can lead around it.
bool atScrews(const asbuilt::AsBuilt& circuit, const asbuilt::Device& device) {
  const auto& profile = *circuit.units[size_t(device.unit)].profile;
  const auto& element = circuit.element(device);
  return profile.terminal(element.a) != nullptr && profile.terminal(element.b) != nullptr;
}

std::vector<const asbuilt::Device*> transformersOf(const asbuilt::AsBuilt& circuit) {
  std::vector<const asbuilt::Device*> sources;
  for (const auto& device : circuit.devices)
    if (std::holds_alternative<TransformerPart>(device.part)) sources.push_back(&device);
  return sources;
}

/// What is one piece of metal while every contact is closed; jumpers stand as their setting says.
Metal inAnyCall(const asbuilt::AsBuilt& circuit) {
  std::vector<char> closed = jumpersIn(circuit);
  for (size_t i = 0; i < closed.size(); ++i)
    if (const auto* contact = std::get_if<ContactPart>(&circuit.devices[i].part);
        contact != nullptr && contact->operating.si() > 0)
      closed[i] = 1;
  return Metal(circuit, &closed);
}

/// Whether a dry pair with a supply of its own is reached by another unit's. A plain contact may close it,
/// and a dry pair without a supply may switch any one circuit.
bool meetsAnotherSource(const asbuilt::AsBuilt& circuit, const Metal& calling, int unit, int node) {
  bool own = false, other = false;
  for (const auto* source : transformersOf(circuit))
    if (calling.joined(node, source->a) || calling.joined(node, source->b))
      (source->unit == unit ? own : other) = true;
  return own && other;
}

/// Whether a screw of another role is one piece of metal with this one; a tie post has none of its own.
bool meetsAnotherRole(const asbuilt::AsBuilt& circuit, const Metal& metal,
                      const equipment::Terminal& terminal, int node) {
  return std::any_of(circuit.nodeOfTerminal.begin(), circuit.nodeOfTerminal.end(), [&](const auto& entry) {
    const auto& unit = circuit.units[size_t(circuit.unitIndex(entry.first.unit))];
    const auto role = unit.profile->terminal(entry.first.terminal)->role;
    return metal.joined(node, entry.second) && role != terminal.role && role != equipment::Role::tie;
  });
}

/// Loads that a safety can stop, and those fed without it, while these contacts are closed.
struct Stopped {
  std::vector<Place> guarded, free;
};

Stopped stoppedBy(const asbuilt::AsBuilt& circuit, const std::vector<char>& closed, const Metal& whole,
                  const std::vector<int>& feeding, size_t safety) {
  const Metal without(circuit, &closed, int(safety));
  Stopped stopped;
  for (const auto& device : circuit.devices) {
    if (!isLoad(device)) continue;
    const auto fed = [&](const Metal& paths) {
      return std::any_of(feeding.begin(), feeding.end(), [&](int source) {
        return paths.joined(device.a, source) || paths.joined(device.b, source);
      });
    };
    if (fed(without))
      stopped.free.push_back(placeOf(circuit, device));
    else if (fed(whole))
      stopped.guarded.push_back(placeOf(circuit, device));
  }
  return stopped;
}

bool has(const std::vector<Place>& list, const Place& place) {
  return std::find(list.begin(), list.end(), place) != list.end();
}

}  // namespace

/// Only units that have one are asked what their settings say.
std::vector<char> jumpersIn(const asbuilt::AsBuilt& circuit) {
  const size_t n = circuit.devices.size();
  std::vector<char> fitted(n, 0);
  std::optional<operation::LogicRun> logic;
  int unit = -1;
  for (size_t i = 0; i < n; ++i) {
    const auto& device = circuit.devices[i];
    if (!isJumper(device)) continue;
    if (device.unit != unit) {
      unit = device.unit;
      logic.emplace(circuit, unit, 0);
      const std::vector<char> none(n);
      logic->evaluate(0, {none, none, none, none, none, none});
    }
    fitted[i] = logic->value(circuit.element(device).closedBy);
  }
  return fitted;
}

Protected::Protected(const asbuilt::AsBuilt& before) : before_(stateOf(before)) {}

Protected::State Protected::stateOf(const asbuilt::AsBuilt& circuit) {
  State state;
  const auto sources = transformersOf(circuit);
  std::vector<int> feeding;  // hot sides, of thermopiles too
  for (const auto& device : circuit.devices)
    if (std::holds_alternative<TransformerPart>(device.part) ||
        std::holds_alternative<equipment::PilePart>(device.part))
      feeding.push_back(device.a);
  const Metal metal(circuit);
  state.jumpers = jumpersIn(circuit);
  const std::vector<char>& jumpers = state.jumpers;
  const Metal jumpered(circuit, &jumpers);
  // Whatever may close, closed: a jumper only where it is fitted.
  std::vector<char> closed(circuit.devices.size(), 0);
  for (size_t i = 0; i < closed.size(); ++i)
    closed[i] =
        equipment::isContact(circuit.devices[i].part) && (!isJumper(circuit.devices[i]) || jumpers[i]);
  std::optional<Metal> whole;
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const auto& safety = circuit.devices[i];
    if (!isSafety(safety) || !atScrews(circuit, safety)) continue;
    if (!whole) whole.emplace(circuit, &closed);
    Stopped now = stoppedBy(circuit, closed, *whole, feeding, i);
    Guard guard{placeOf(circuit, safety), std::move(now.guarded), std::move(now.free), {}, false};
    for (const auto& wire : circuit.wires)
      for (const int node : {wire.a, wire.b}) guard.landed |= node == safety.a || node == safety.b;
    if (Metal(circuit, &jumpers, int(i)).joined(safety.a, safety.b)) {
      state.bridged.push_back(guard.safety);
      std::vector<char> unjumpered = closed;
      for (size_t k = 0; k < unjumpered.size(); ++k)
        if (jumpers[k]) unjumpered[k] = 0;
      guard.meant = stoppedBy(circuit, unjumpered, Metal(circuit, &unjumpered), feeding, i).guarded;
    }
    state.guards.push_back(std::move(guard));
  }
  for (size_t i = 0; i < sources.size(); ++i)
    for (size_t k = i + 1; k < sources.size(); ++k) {
      const auto& one = *sources[i];
      const auto& two = *sources[k];
      if (jumpered.joined(one.a, two.a) || jumpered.joined(one.a, two.b) || jumpered.joined(one.b, two.a))
        state.tied.emplace_back(placeOf(circuit, one), placeOf(circuit, two));
    }
  std::optional<Metal> calling;
  for (size_t u = 0; u < circuit.units.size(); ++u) {
    const auto& unit = circuit.units[u];
    for (const auto& terminal : unit.profile->terminals) {
      if (!standsApart(terminal.role)) continue;
      const int node = circuit.node({unit.id, terminal.id});
      const bool dry = terminal.role == equipment::Role::dry;
      if (dry && !calling) calling.emplace(inAnyCall(circuit));
      if (!(dry ? meetsAnotherSource(circuit, *calling, int(u), node)
                : meetsAnotherRole(circuit, metal, terminal, node)))
        continue;
      Place place;
      place.unit = unit.id;
      place.terminal = terminal.id;
      state.foreign.push_back(place);
    }
  }
  return state;
}

Standing standingOf(const asbuilt::AsBuilt& circuit) {
  Protected::State state = Protected::stateOf(circuit);
  return {std::move(state.jumpers), std::move(state.guards), std::move(state.foreign)};
}

std::vector<Place> Standing::idleSafeties() const {
  std::vector<Place> idle;
  for (const auto& guard : guards)
    if (guard.landed && guard.guarded.empty()) idle.push_back(guard.safety);
  return idle;
}

std::optional<Forbidden> Protected::broken(const asbuilt::AsBuilt& after) const {
  const State now = stateOf(after);
  for (const Place& place : now.bridged)
    if (!has(before_.bridged, place)) return Forbidden{Forbidden::Why::safety, place};
  for (const Guard& was : before_.guards) {
    const auto is = std::find_if(now.guards.begin(), now.guards.end(),
                                 [&](const Guard& guard) { return guard.safety == was.safety; });
    if (is == now.guards.end()) continue;
    if (std::any_of(was.guarded.begin(), was.guarded.end(),
                    [&](const Place& load) { return has(is->free, load); }))
      return Forbidden{Forbidden::Why::safety, was.safety};
    // Whoever takes a bridge away leaves the safety where it stops what it was put there for.
    if (has(before_.bridged, was.safety) && !has(now.bridged, was.safety) &&
        std::any_of(was.meant.begin(), was.meant.end(),
                    [&](const Place& load) { return has(is->free, load); }))
      return Forbidden{Forbidden::Why::safety, was.safety};
    // One that is wired and guards nothing was meant to guard what would now be fed around it.
    if (was.landed && is->guarded.empty() &&
        !std::all_of(is->free.begin(), is->free.end(),
                     [&](const Place& load) { return has(was.free, load); }))
      return Forbidden{Forbidden::Why::safety, was.safety};
  }
  for (const auto& pair : now.tied)
    if (std::find(before_.tied.begin(), before_.tied.end(), pair) == before_.tied.end())
      return Forbidden{Forbidden::Why::sources, pair.second};
  for (const Place& place : now.foreign)
    if (!has(before_.foreign, place)) return Forbidden{Forbidden::Why::foreign, place};
  return std::nullopt;
}

}  // namespace ww::verify
