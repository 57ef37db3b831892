// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/metal.h"

namespace ww::verify {

Metal::Metal(const asbuilt::AsBuilt& circuit, const std::vector<char>* closed, int without)
    : joints_(circuit.nodeNames.size()) {
  for (const auto& wire : circuit.wires) joints_.join(wire.a, wire.b);
  for (const auto& bonding : circuit.bondings)
    if (bonding.known) joints_.join(bonding.a, bonding.b);
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const auto& device = circuit.devices[i];
    const bool fuse = std::holds_alternative<equipment::FusePart>(device.part);
    const bool contact = std::holds_alternative<equipment::ContactPart>(device.part);
    if (int(i) != without && (fuse || (contact && closed != nullptr && (*closed)[i])))
      joints_.join(device.a, device.b);
  }
}

}  // namespace ww::verify
