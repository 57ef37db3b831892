// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/roster.h"

#include <algorithm>

namespace ww::operation {

namespace {

bool isLookedAt(const asbuilt::AsBuilt& circuit, const asbuilt::Device& device) {
  const auto& nodes = circuit.units[size_t(device.unit)].profile->logic.nodes;
  const std::string& id = circuit.element(device).id;
  return std::any_of(nodes.begin(), nodes.end(), [&](const equipment::LogicNode& node) {
    return node.op == equipment::Op::shut && node.name == id;
  });
}

}  // namespace

Roster::Roster(const asbuilt::AsBuilt& circuit) {
  const auto keep = [](std::vector<size_t>& list, size_t device, bool belongs) {
    if (belongs) list.push_back(device);
    return belongs;
  };
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const auto& device = circuit.devices[i];
    const auto is = [&](auto part) { return std::holds_alternative<decltype(part)>(device.part); };
    const bool fuse = keep(fuses, i, is(equipment::FusePart{}));
    const bool transformer = keep(transformers, i, is(equipment::TransformerPart{}));
    keep(melting, i, fuse || transformer);
    bool moves = transformer || fuse;
    moves |= keep(coils, i, is(equipment::CoilPart{}));
    moves |= keep(inputs, i, is(equipment::InputPart{}));
    moves |= keep(thermals, i, is(equipment::ThermalPart{}));
    moves |= keep(contacts, i, equipment::isContact(device.part));
    moves |= keep(feeding, i, equipment::isSupply(device.part));
    keep(supplies, i, is(equipment::SupplyPart{}));
    keep(moving, i, moves);
    const auto* contact = std::get_if<equipment::ContactPart>(&device.part);
    const bool safety = keep(safeties, i, contact != nullptr && contact->safety);
    lookedAt.push_back(safety && isLookedAt(circuit, device));
    const auto& element = circuit.element(device);
    name.push_back(&element.id);
    closedBy.push_back(element.closedBy);
  }
}

}  // namespace ww::operation
