// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/roster.h"

#include <algorithm>
#include <optional>

namespace ww::operation {

namespace {

bool isLookedAt(const asbuilt::AsBuilt& circuit, const asbuilt::Device& device) {
  const auto& nodes = circuit.units[size_t(device.unit)].profile->logic.nodes;
  const std::string& id = circuit.element(device).id;
  return std::any_of(nodes.begin(), nodes.end(), [&](const equipment::LogicNode& node) {
    return node.op == equipment::Op::shut && node.name == id;
  });
}

/// What the settings alone make of an expression; nothing where more decides.
std::optional<bool> bySettings(const asbuilt::PlacedUnit& unit, int node) {
  using enum equipment::Op;
  const equipment::LogicNode& expression = unit.profile->logic.nodes[size_t(node)];
  switch (expression.op) {
    case constant: return expression.number != 0;
    case setting: {
      const auto value = unit.settings.find(expression.name);
      return value != unit.settings.end() && value->second == expression.value;
    }
    case negation: {
      const auto value = bySettings(unit, expression.args.front());
      return value ? std::optional(!*value) : std::nullopt;
    }
    case conjunction:
    case disjunction: {
      const bool decides = expression.op == disjunction;
      bool open = false;
      for (const int argument : expression.args) {
        const auto value = bySettings(unit, argument);
        if (value == decides) return decides;
        open |= !value;
      }
      return open ? std::nullopt : std::optional(!decides);
    }
    default: return std::nullopt;
  }
}

/// Not where a setting says that it is not fitted: it is closed for good then.
bool isSafety(const asbuilt::AsBuilt& circuit, const asbuilt::Device& device) {
  const auto* contact = std::get_if<equipment::ContactPart>(&device.part);
  const int closedBy = circuit.element(device).closedBy;
  return contact != nullptr && contact->safety &&
         (closedBy < 0 || bySettings(circuit.units[size_t(device.unit)], closedBy) != true);
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
    const bool safety = keep(safeties, i, isSafety(circuit, device));
    lookedAt.push_back(safety && isLookedAt(circuit, device));
    const auto& element = circuit.element(device);
    name.push_back(&element.id);
    closedBy.push_back(element.closedBy);
  }
}

}  // namespace ww::operation
