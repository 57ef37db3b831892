// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/roster.h"

namespace ww::operation {

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
    const auto& element = circuit.element(device);
    name.push_back(&element.id);
    closedBy.push_back(element.closedBy);
  }
}

}  // namespace ww::operation
