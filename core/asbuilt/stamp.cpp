// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/stamp.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace ww::asbuilt {

namespace {

using circuit::Phasor;
using equipment::CoilPart;
using equipment::ContactPart;
using equipment::FusePart;
using equipment::InputPart;
using equipment::PilePart;
using equipment::ResistorPart;
using equipment::SolidStatePart;
using equipment::SupplyPart;
using equipment::ThermalPart;
using equipment::TransformerPart;

constexpr double kRatedFrequency = 60;  // the part figures are at 60 Hz
constexpr double kLeastWireOhms = 1e-4;
constexpr double kBondOhms = 0.020 + 0.1;  // common to metal, metal to earth: common practice
constexpr double kWindingShare = 0.45;  // of the source impedance that is secondary copper: common practice

double cableScale(const Conditions& conditions, int cable) {
  return size_t(cable) < conditions.cableScale.size() ? conditions.cableScale[size_t(cable)] : 1.0;
}

/// A cable whose length is not known yet still conducts.
double wireOhms(const Wire& wire, const Conditions& conditions) {
  const auto length = wire.length * cableScale(conditions, wire.cable);
  return std::max(kLeastWireOhms,
                  copperResistance(wire.gauge, length, quantity::Celsius(conditions.temperature)).si());
}

template <class Scalar>
void stampMetal(const AsBuilt& circuit, const Conditions& conditions, circuit::Solver<Scalar>& solver) {
  for (const Wire& wire : circuit.wires)
    solver.setBranch(wire.branch, Scalar(1 / wireOhms(wire, conditions)));
  for (const Bonding& bonding : circuit.bondings)
    if (bonding.known || conditions.unknownBonded) solver.setBranch(bonding.branch, Scalar(1 / kBondOhms));
}

/// What is no fixed admittance. Kept from solve to solve to spare the allocations.
struct Ports {
  std::vector<circuit::PowerPort> supplies;
  std::vector<circuit::DropPort> outputs;
};

circuit::DropPort dropOf(const SolidStatePart& part, int branch) {
  return {branch, part.drop.si(), 0.05, part.open.si()};
}

/// Admittance of one element at the supply frequency; supplies and closed electronic outputs come later.
class AcStamp {
 public:
  AcStamp(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
          circuit::Solver<Phasor>& solver, Ports& ports)
      : circuit_(circuit), positions_(positions), conditions_(conditions), solver_(solver), ports_(ports) {}

  void place(size_t index) {
    index_ = index;
    device_ = &circuit_.devices[index];
    if (device_->a == device_->b && !std::holds_alternative<TransformerPart>(device_->part)) return;
    std::visit(*this, device_->part);
  }

  void operator()(const TransformerPart& part) {
    if (!positions_.closed[index_]) return;  // what an idle core lets through is next to nothing
    const PlacedUnit& unit = circuit_.units[size_t(device_->unit)];
    put(1.0 / sourceImpedance(part, conditions_),
        std::polar(emf(part, unit.tapRatio, conditions_), unit.phaseDegrees * std::numbers::pi / 180));
  }
  void operator()(const FusePart& part) {
    if (positions_.closed[index_]) put(1 / part.resistance.si());
  }
  void operator()(const ContactPart& part) {
    if (positions_.closed[index_]) put(1 / (part.closed.si() * conditions_.contactScale));
  }
  void operator()(const CoilPart& part) {
    const bool sealed = positions_.pulledIn[index_] && !positions_.allAtInrush;
    put(1.0 / (conditions_.coilScale * coilImpedance(part, sealed, circuit_.frequency)));
  }
  void operator()(const ThermalPart& part) { put(1 / (conditions_.coilScale * part.resistance.si())); }
  void operator()(const InputPart& part) { put(1 / (conditions_.inputScale * part.resistance.si())); }
  void operator()(const ResistorPart& part) { put(1 / part.resistance.si()); }
  void operator()(const SupplyPart& part) {
    if (!positions_.supplyOn[index_]) return;
    const double s = positions_.supplyVoltAmps[index_] * conditions_.supplyScale;
    const double pf = part.powerFactor;
    ports_.supplies.push_back({device_->branch, s * Phasor(pf, std::sqrt(1 - pf * pf)), 0});
  }
  void operator()(const SolidStatePart& part) {
    if (positions_.closed[index_])
      ports_.outputs.push_back(dropOf(part, device_->branch));
    else
      put(1 / part.open.si());
  }
  /// Thermopile circuits are apart from all others and purely resistive: a phasor stands for direct volts.
  void operator()(const PilePart& part) {
    put(1 / part.resistance.si(), part.open.si() * conditions_.pileScale);
  }
  /// Half waves are no phasors (asbuilt/half_wave.h).
  void operator()(const equipment::DiodePart&) {}
  void operator()(const equipment::HalfWaveRelayPart&) {}

 private:
  void put(Phasor admittance, Phasor volts = {}) { solver_.setBranch(device_->branch, admittance, volts); }

  const AsBuilt& circuit_;
  const Positions& positions_;
  const Conditions& conditions_;
  circuit::Solver<Phasor>& solver_;
  Ports& ports_;
  size_t index_ = 0;
  const Device* device_ = nullptr;
};

/// Lays the overrides over what was stamped.
template <class Scalar>
class Overrider {
 public:
  Overrider(const AsBuilt& circuit, const Conditions& conditions, circuit::Solver<Scalar>& solver)
      : circuit_(circuit), conditions_(conditions), solver_(solver) {}

  void apply() {
    for (const Override& change : conditions_.overrides)
      if (change.branch >= 0 && change.branch < solver_.plan().branches()) apply(change);
  }

 private:
  void apply(const Override& change) {
    const int branch = change.branch;
    const Scalar was = solver_.admittance(branch);
    const Scalar volts = solver_.emf(branch);
    switch (change.kind) {
      case Override::Kind::open:
      case Override::Kind::stuckOpen: solver_.setBranch(branch, {}); break;
      case Override::Kind::ohms:
      case Override::Kind::bridge: solver_.setBranch(branch, Scalar(1 / change.value)); break;
      case Override::Kind::series:
        solver_.setBranch(branch, was / (Scalar(1) + was * change.value), volts);
        break;
      case Override::Kind::parallel: {
        const Scalar both = was + Scalar(1 / change.value);
        solver_.setBranch(branch, both, volts * was / both);
        break;
      }
      case Override::Kind::emf: solver_.setBranch(branch, was, volts * change.value); break;
      case Override::Kind::stuckClosed: close(branch); break;
      case Override::Kind::heldIn: setArmature(branch, true); break;
      case Override::Kind::heldOut: setArmature(branch, false); break;
    }
  }

  template <class Part>
  const Part* part(int branch) const {
    return size_t(branch) < circuit_.devices.size()
               ? std::get_if<Part>(&circuit_.devices[size_t(branch)].part)
               : nullptr;
  }

  void close(int branch) {
    if (const auto* contact = part<ContactPart>(branch))
      solver_.setBranch(branch, Scalar(1 / (contact->closed.si() * conditions_.contactScale)));
  }

  void setArmature(int branch, bool in) {
    if constexpr (std::is_same_v<Scalar, Phasor>)
      if (const auto* coil = part<CoilPart>(branch))
        solver_.setBranch(branch,
                          1.0 / (conditions_.coilScale * coilImpedance(*coil, in, circuit_.frequency)));
  }

  const AsBuilt& circuit_;
  const Conditions& conditions_;
  circuit::Solver<Scalar>& solver_;
};

/// A supply that is out of the circuit is no port; an electronic output may be held open or closed.
void overridePorts(const AsBuilt& circuit, const Conditions& conditions, circuit::Solver<Phasor>& solver,
                   Ports& ports) {
  using Kind = Override::Kind;
  for (const Override& change : conditions.overrides) {
    const auto here = [&](const auto& port) { return port.branch == change.branch; };
    if (change.kind == Kind::open || change.kind == Kind::ohms) std::erase_if(ports.supplies, here);
    if (change.branch < 0 || size_t(change.branch) >= circuit.devices.size()) continue;
    const auto* output = std::get_if<SolidStatePart>(&circuit.devices[size_t(change.branch)].part);
    if (output == nullptr) continue;
    std::erase_if(ports.outputs, here);
    if (change.kind == Kind::stuckClosed) ports.outputs.push_back(dropOf(*output, change.branch));
    if (change.kind == Kind::stuckOpen) solver.setBranch(change.branch, 1 / output->open.si());
  }
}

/// Ohms of one element to a meter's direct current; nothing where no current passes.
struct DeadOhms {
  bool closed;
  const Conditions& conditions;
  std::optional<double> operator()(const TransformerPart& part) const {
    return kWindingShare * std::abs(sourceImpedance(part, {}));
  }
  std::optional<double> operator()(const FusePart& part) const { return when(closed, part.resistance.si()); }
  std::optional<double> operator()(const ContactPart& part) const {
    return when(closed, part.closed.si() * conditions.contactScale);
  }
  std::optional<double> operator()(const CoilPart& part) const { return part.dc.si() * conditions.coilScale; }
  std::optional<double> operator()(const ThermalPart& part) const {
    return part.resistance.si() * conditions.coilScale;
  }
  std::optional<double> operator()(const InputPart& part) const {
    return part.resistance.si() * conditions.inputScale;
  }
  std::optional<double> operator()(const ResistorPart& part) const { return part.resistance.si(); }
  std::optional<double> operator()(const SupplyPart& part) const {
    return part.dc.si() * conditions.supplyScale;
  }
  std::optional<double> operator()(const SolidStatePart& part) const { return part.open.si(); }
  std::optional<double> operator()(const PilePart& part) const { return part.resistance.si(); }
  /// Depends on the meter's volts and on the way round.
  std::optional<double> operator()(const equipment::DiodePart&) const { return std::nullopt; }
  std::optional<double> operator()(const equipment::HalfWaveRelayPart&) const { return std::nullopt; }
  static std::optional<double> when(bool yes, double ohms) {
    return yes ? std::optional(ohms) : std::nullopt;
  }
};

}  // namespace

double emf(const TransformerPart& part, double tapRatio, const Conditions& conditions) {
  return part.rated.si() * (1 + part.regulation + conditions.regulationShift) * tapRatio * conditions.line;
}

Phasor sourceImpedance(const TransformerPart& part, const Conditions& conditions) {
  const double volts = part.rated.si();
  const double size = (part.regulation + conditions.regulationShift) * volts * volts / part.rating.si();
  return std::polar(size, part.angleDegrees * std::numbers::pi / 180);
}

Phasor coilImpedance(const CoilPart& part, bool sealed, double frequency) {
  const Phasor rated = equipment::impedance(sealed ? part.sealed : part.inrush);
  return {rated.real(), rated.imag() * frequency / kRatedFrequency};
}

circuit::PowerOutcome solve(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
                            circuit::Solver<Phasor>& solver) {
  thread_local Ports ports;
  ports.supplies.clear();
  ports.outputs.clear();
  solver.clear();
  stampMetal(circuit, conditions, solver);
  AcStamp stamp(circuit, positions, conditions, solver, ports);
  for (size_t i = 0; i < circuit.devices.size(); ++i) stamp.place(i);
  if (!conditions.overrides.empty()) {
    Overrider<Phasor>(circuit, conditions, solver).apply();
    overridePorts(circuit, conditions, solver, ports);
  }
  return circuit::solveWithConstantPower(solver, ports.supplies, ports.outputs);
}

void stampDead(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
               const std::vector<char>& lifted, circuit::Solver<double>& solver) {
  solver.clear();
  stampMetal(circuit, conditions, solver);
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const Device& device = circuit.devices[i];
    if (lifted[i] || device.a == device.b) continue;
    const auto ohms = std::visit(DeadOhms{positions.closed[i] != 0, conditions}, device.part);
    if (ohms) solver.setBranch(device.branch, 1 / *ohms);
  }
  Overrider<double>(circuit, conditions, solver).apply();
  solver.solve();
}

}  // namespace ww::asbuilt
