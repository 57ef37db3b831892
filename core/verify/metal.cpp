// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/metal.h"

#include <numeric>

namespace ww::verify {

namespace {

int rootOf(std::vector<int>& parent, int node) {
  while (parent[size_t(node)] != node) node = parent[size_t(node)] = parent[size_t(parent[size_t(node)])];
  return node;
}

}  // namespace

Metal::Metal(const asbuilt::AsBuilt& circuit, const std::vector<char>* closed, int without)
    : part_(circuit.nodeNames.size()) {
  std::iota(part_.begin(), part_.end(), 0);
  const auto join = [&](int a, int b) { part_[size_t(rootOf(part_, a))] = rootOf(part_, b); };
  for (const auto& wire : circuit.wires) join(wire.a, wire.b);
  for (const auto& bonding : circuit.bondings)
    if (bonding.known) join(bonding.a, bonding.b);
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const auto& device = circuit.devices[i];
    const bool fuse = std::holds_alternative<equipment::FusePart>(device.part);
    const bool contact = std::holds_alternative<equipment::ContactPart>(device.part);
    if (int(i) != without && (fuse || (contact && closed != nullptr && (*closed)[i])))
      join(device.a, device.b);
  }
  for (size_t node = 0; node < part_.size(); ++node) part_[node] = rootOf(part_, int(node));
}

}  // namespace ww::verify
