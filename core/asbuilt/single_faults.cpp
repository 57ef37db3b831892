// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/single_faults.h"

#include <cmath>

namespace ww::asbuilt {

namespace {

using Kind = Override::Kind;

constexpr double kTouchOhms = 0.05;  // bare copper on copper: common practice, no source
constexpr double kShortedOhms = 1.5;
constexpr double kWrongTap = 208.0 / 240.0;

class Faults {
 public:
  explicit Faults(const AsBuilt& circuit) : circuit_(circuit) {
    for (const Bonding& bonding : circuit.bondings)
      if (bonding.known) metal_ = bonding.b;
  }

  std::vector<SingleFault> list() {
    for (size_t i = 0; i < circuit_.wires.size(); ++i) wire(int(i));
    for (size_t i = 0; i < circuit_.devices.size(); ++i) device(int(i));
    return std::move(faults_);
  }

 private:
  void wire(int index) {
    const Wire& wire = circuit_.wires[size_t(index)];
    add({FaultKind::conductorOpen, index, -1, -1, 0, {openAt(wire.branch)}});
    for (const double ohms : kJointGrid)
      add({FaultKind::poorJoint, index, -1, -1, ohms, {seriesOhms(wire.branch, ohms)}});
    for (size_t j = size_t(index) + 1; j < circuit_.wires.size(); ++j) {
      const Wire& other = circuit_.wires[j];
      if (other.cable != wire.cable) continue;
      for (const auto& [a, b] : {std::pair(wire.a, other.a), std::pair(wire.b, other.b)})
        if (a != b) add({FaultKind::conductorsTouch, index, int(j), -1, 0, {bridgeOf(a, b, kTouchOhms)}});
    }
    if (metal_ >= 0 && wire.a != metal_)
      add({FaultKind::touchesMetal, index, -1, -1, 0, {bridgeOf(wire.a, metal_, kTouchOhms)}});
  }

  void device(int index) {
    const Device& device = circuit_.devices[size_t(index)];
    const auto one = [&](FaultKind what, Kind kind, double value = 0) {
      add({what, -1, -1, index, kind == Kind::ohms ? value : 0, {{kind, device.branch, value, 0, 0}}});
    };
    if (std::holds_alternative<equipment::CoilPart>(device.part)) {
      one(FaultKind::coilOpen, Kind::open);
      one(FaultKind::coilShorted, Kind::ohms, kShortedOhms);
      one(FaultKind::armatureStuckOut, Kind::heldOut);
      one(FaultKind::armatureStuckIn, Kind::heldIn);
    } else if (std::holds_alternative<equipment::HalfWaveRelayPart>(device.part)) {
      one(FaultKind::coilOpen, Kind::open);
      one(FaultKind::armatureStuckOut, Kind::heldOut);
      one(FaultKind::armatureStuckIn, Kind::heldIn);
    } else if (std::holds_alternative<equipment::ThermalPart>(device.part)) {
      one(FaultKind::coilOpen, Kind::open);
      one(FaultKind::coilShorted, Kind::ohms, kShortedOhms);
    } else if (equipment::isContact(device.part)) {
      one(FaultKind::contactStuckOpen, Kind::stuckOpen);
      one(FaultKind::contactStuckClosed, Kind::stuckClosed);
    } else if (std::holds_alternative<equipment::FusePart>(device.part)) {
      one(FaultKind::fuseOpen, Kind::open);
    } else if (std::holds_alternative<equipment::TransformerPart>(device.part)) {
      one(FaultKind::transformerDead, Kind::open);
      one(FaultKind::transformerReversed, Kind::emf, -1);
      one(FaultKind::wrongTap, Kind::emf, kWrongTap);
    } else if (std::holds_alternative<equipment::SupplyPart>(device.part)) {
      one(FaultKind::supplyDead, Kind::open);
    }
  }

  void add(SingleFault fault) { faults_.push_back(std::move(fault)); }

  const AsBuilt& circuit_;
  int metal_ = -1;
  std::vector<SingleFault> faults_;
};

}  // namespace

std::vector<SingleFault> singleFaults(const AsBuilt& circuit) { return Faults(circuit).list(); }

}  // namespace ww::asbuilt
