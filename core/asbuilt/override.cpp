// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/override.h"

namespace ww::asbuilt {

using Kind = Override::Kind;

std::shared_ptr<const circuit::Plan> planFor(const AsBuilt& circuit, std::vector<Override>& overrides) {
  std::optional<circuit::Pattern> pattern;
  for (Override& change : overrides) {
    if (change.kind != Kind::bridge) continue;
    if (!pattern) pattern = circuit.plan->pattern();
    change.branch = int(pattern->branches.size());
    pattern->branches.push_back({change.a, change.b, false});
  }
  return pattern ? circuit::makePlan(std::move(*pattern)) : circuit.plan;
}

std::vector<Hold> holdsOf(const AsBuilt& circuit, const std::vector<Override>& overrides) {
  std::vector<Hold> holds(circuit.devices.size());
  for (const Override& change : overrides) {
    if (change.branch < 0 || size_t(change.branch) >= holds.size()) continue;  // devices come first
    Hold& hold = holds[size_t(change.branch)];
    switch (change.kind) {
      case Kind::open:
      case Kind::ohms: hold.dead = true; break;
      case Kind::series: hold.series += change.value; break;
      case Kind::stuckOpen: hold.contact = -1; break;
      case Kind::stuckClosed: hold.contact = 1; break;
      case Kind::heldOut: hold.armature = -1; break;
      case Kind::heldIn: hold.armature = 1; break;
      case Kind::parallel:
      case Kind::emf:
      case Kind::bridge: break;
    }
  }
  return holds;
}

}  // namespace ww::asbuilt
