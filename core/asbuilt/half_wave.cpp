// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/half_wave.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ww::asbuilt {

namespace {

using circuit::Phasor;
using equipment::DiodePart;
using equipment::HalfWaveRelayPart;
using equipment::TransformerPart;

constexpr double kMostOhms = 100;

bool isHalfWave(const Device& device) {
  return std::holds_alternative<DiodePart>(device.part) ||
         std::holds_alternative<HalfWaveRelayPart>(device.part);
}

/// What is metal while it is closed.
bool isWay(const Device& device) {
  return equipment::isContact(device.part) || std::holds_alternative<equipment::FusePart>(device.part);
}

bool hasHalfWaves(const AsBuilt& circuit) {
  return std::any_of(circuit.devices.begin(), circuit.devices.end(), isHalfWave);
}

}  // namespace

HalfWaveWays::HalfWaveWays(const AsBuilt& circuit, const Positions& positions,
                           const circuit::Solver<Phasor>& solver)
    : circuit_(circuit), positions_(positions), solver_(solver), joints_(circuit.nodeNames.size()) {
  const auto join = [&](int branch, int a, int b) {
    if (std::abs(solver.admittance(branch)) > 1 / kMostOhms) joints_.join(a, b);
  };
  for (const Wire& wire : circuit.wires) join(wire.branch, wire.a, wire.b);
  for (const Bonding& bonding : circuit.bondings) join(bonding.branch, bonding.a, bonding.b);
  for (size_t i = 0; i < circuit.devices.size(); ++i)
    if (isWay(circuit.devices[i]) && positions.closed[i])
      join(circuit.devices[i].branch, circuit.devices[i].a, circuit.devices[i].b);
  const auto& branches = solver.plan().pattern().branches;  // bridges stand behind the circuit's own
  for (size_t b = size_t(circuit.plan->branches()); b < branches.size(); ++b)
    join(int(b), branches[b].a, branches[b].b);
}

/// The hot screw of a unit; -1: none.
int HalfWaveWays::hotOf(int unit) const {
  const PlacedUnit& placed = circuit_.units[size_t(unit)];
  for (const auto& terminal : placed.profile->terminals)
    if (terminal.role == equipment::Role::hot) return circuit_.node({placed.id, terminal.id});
  return -1;
}

/// Alternating volts from p to q where one live transformer stands between them, at which the place `hot`
/// lies too (-1: any); else 0.
double HalfWaveWays::between(int p, int q, int hot) const {
  for (size_t i = 0; i < circuit_.devices.size(); ++i) {
    const Device& source = circuit_.devices[i];
    if (!std::holds_alternative<TransformerPart>(source.part) || !positions_.closed[i]) continue;
    if (hot >= 0 && !joined(hot, source.a) && !joined(hot, source.b)) continue;
    const bool forth = joined(p, source.a) && joined(q, source.b);
    if (!forth && !(joined(p, source.b) && joined(q, source.a))) continue;
    const auto reading = solver_.read(p, q);
    if (reading.quality == circuit::Quality::solid && reading.value) return std::abs(*reading.value);
  }
  return 0;
}

bool HalfWaveWays::pulls(size_t relay) const {
  const Device& device = circuit_.devices[relay];
  const auto& part = std::get<HalfWaveRelayPart>(device.part);
  const int hot = hotOf(device.unit);
  if (joined(device.a, device.b)) return false;  // the way past it takes all
  const double least = part.pullsFrom * std::numbers::sqrt2 * part.rated.si();
  const auto enough = [&](double volts, double drops) {
    return volts > 0 && std::numbers::sqrt2 * volts - drops >= least;
  };
  if (enough(between(device.a, device.b, hot), part.drop.si())) return true;
  return std::any_of(circuit_.devices.begin(), circuit_.devices.end(), [&](const Device& other) {
    const auto* diode = std::get_if<DiodePart>(&other.part);
    if (diode == nullptr) return false;
    const double drops = part.drop.si() + diode->drop.si();
    return (joined(other.b, device.a) && enough(between(other.a, device.b, hot), drops)) ||
           (joined(other.a, device.b) && enough(between(device.a, other.b, hot), drops));
  });
}

HalfWaves HalfWaveWays::at(int node, int reference) const {
  HalfWaves waves;
  if (joined(node, reference)) return waves;
  for (const Device& device : circuit_.devices) {
    if (!std::holds_alternative<DiodePart>(device.part)) continue;
    if (joined(device.b, node)) waves.positive = std::max(waves.positive, between(device.a, reference));
    if (joined(device.a, node)) waves.negative = std::max(waves.negative, between(reference, device.b));
  }
  return waves;
}

std::vector<size_t> halfWaveRelays(const AsBuilt& circuit) {
  std::vector<size_t> relays;
  for (size_t i = 0; i < circuit.devices.size(); ++i)
    if (std::holds_alternative<HalfWaveRelayPart>(circuit.devices[i].part)) relays.push_back(i);
  return relays;
}

std::vector<char> sharedNodes(const AsBuilt& circuit) {
  std::vector<char> shared(circuit.nodeNames.size(), 0);
  if (!hasHalfWaves(circuit)) return shared;
  circuit::Joints metal(circuit.nodeNames.size());
  for (const Wire& wire : circuit.wires) metal.join(wire.a, wire.b);
  // Where another element or a bond ends, the place belongs to that.
  std::vector<char> taken(shared);
  for (const Device& device : circuit.devices)
    if (!isHalfWave(device))
      for (const int node : {device.a, device.b}) taken[size_t(metal.root(node))] = 1;
  for (const Bonding& bonding : circuit.bondings) taken[size_t(metal.root(bonding.a))] = 1;
  std::vector<char> roots(shared);
  for (const Device& one : circuit.devices)
    for (const Device& two : circuit.devices)
      if (isHalfWave(one) && one.part.index() == two.part.index() && one.unit == two.unit && one.b == two.a) {
        const auto root = size_t(metal.root(one.b));
        roots[root] |= std::holds_alternative<DiodePart>(one.part) || !taken[root];
      }
  for (size_t node = 0; node < shared.size(); ++node) shared[node] = roots[size_t(metal.root(int(node)))];
  return shared;
}

}  // namespace ww::asbuilt
