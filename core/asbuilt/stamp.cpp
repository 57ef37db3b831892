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

/// Ohms of every wire. A cable whose length is not known yet still conducts.
template <class Place>
void eachWire(const AsBuilt& circuit, const Conditions& conditions, Place place) {
  const Wire* before = nullptr;
  double ohmsPerMetre = 0;
  for (const Wire& wire : circuit.wires) {
    if (before == nullptr || !(wire.gauge == before->gauge))
      ohmsPerMetre =
          copperResistance(wire.gauge, quantity::Metres(1), quantity::Celsius(conditions.temperature)).si();
    before = &wire;
    const double metres = wire.length.si() * cableScale(conditions, wire.cable);
    place(wire.branch, 1 / std::max(kLeastWireOhms, ohmsPerMetre * metres));
  }
}

/// Wires and bonds, which do not move.
template <class Place>
void eachMetal(const AsBuilt& circuit, const Conditions& conditions, Place place) {
  eachWire(circuit, conditions, place);
  for (const Bonding& bonding : circuit.bondings)
    if (bonding.known || conditions.unknownBonded) place(bonding.branch, 1 / kBondOhms);
}

/// What is no fixed admittance. Kept from solve to solve to spare the allocations.
struct Ports {
  std::vector<circuit::PowerPort> supplies;
  std::vector<circuit::DropPort> outputs;
};

circuit::DropPort dropOf(const SolidStatePart& part, int branch) {
  return {branch, part.drop.si(), 0.05, part.open.si()};
}

/// Branches before they go into a solver.
struct Branches {
  std::vector<Phasor> siemens, volts;

  int count() const { return int(siemens.size()); }
  Phasor admittance(int branch) const { return siemens[size_t(branch)]; }
  Phasor emf(int branch) const { return volts[size_t(branch)]; }
  void setBranch(int branch, Phasor admittance, Phasor emf = {}) {
    siemens[size_t(branch)] = admittance;
    volts[size_t(branch)] = emf;
  }
};

/// Lays the overrides over what was stamped.
template <class Scalar, class Target>
class Overrider {
 public:
  Overrider(const AsBuilt& circuit, const Conditions& conditions, Target& solver)
      : circuit_(circuit), conditions_(conditions), solver_(solver) {}

  void apply(int branches) {
    for (const Override& change : conditions_.overrides)
      if (change.branch >= 0 && change.branch < branches) apply(change);
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
  Target& solver_;
};

/// A supply that is out of the circuit is no port; an electronic output may be held open or closed.
void overridePorts(const AsBuilt& circuit, const Conditions& conditions, Branches& branches, Ports& ports) {
  using Kind = Override::Kind;
  for (const Override& change : conditions.overrides) {
    const auto here = [&](const auto& port) { return port.branch == change.branch; };
    if (change.kind == Kind::open || change.kind == Kind::ohms) std::erase_if(ports.supplies, here);
    if (change.branch < 0 || size_t(change.branch) >= circuit.devices.size()) continue;
    const auto* output = std::get_if<SolidStatePart>(&circuit.devices[size_t(change.branch)].part);
    if (output == nullptr) continue;
    std::erase_if(ports.outputs, here);
    if (change.kind == Kind::stuckClosed) ports.outputs.push_back(dropOf(*output, change.branch));
    if (change.kind == Kind::stuckOpen) branches.setBranch(change.branch, 1 / output->open.si());
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

/// Sorts the elements into what stands still and what moves.
class Stamper {
 public:
  Stamper(const AsBuilt& circuit, Stamp& stamp) : circuit_(circuit), stamp_(stamp) {}

  void place(size_t index) {
    index_ = index;
    device_ = &circuit_.devices[index];
    if (device_->a == device_->b && !std::holds_alternative<TransformerPart>(device_->part)) return;
    std::visit(*this, device_->part);
  }

  void operator()(const TransformerPart& part) {
    // What an idle core lets through is next to nothing.
    const PlacedUnit& unit = circuit_.units[size_t(device_->unit)];
    moves(Kind::closing, {}, 1.0 / sourceImpedance(part, conditions()),
          std::polar(emf(part, unit.tapRatio, conditions()), unit.phaseDegrees * std::numbers::pi / 180));
  }
  void operator()(const FusePart& part) { moves(Kind::closing, {}, 1 / part.resistance.si()); }
  void operator()(const ContactPart& part) {
    moves(Kind::closing, {}, 1 / (part.closed.si() * conditions().contactScale));
  }
  void operator()(const CoilPart& part) {
    const auto siemens = [&](bool sealed) {
      return 1.0 / (conditions().coilScale * coilImpedance(part, sealed, circuit_.frequency));
    };
    moves(Kind::armature, siemens(false), siemens(true));
  }
  void operator()(const ThermalPart& part) { stands(1 / (conditions().coilScale * part.resistance.si())); }
  void operator()(const InputPart& part) { stands(1 / (conditions().inputScale * part.resistance.si())); }
  void operator()(const ResistorPart& part) { stands(1 / part.resistance.si()); }
  void operator()(const SupplyPart& part) {
    const double pf = part.powerFactor;
    moves(Kind::supply, {}, conditions().supplyScale * Phasor(pf, std::sqrt(1 - pf * pf)));
  }
  void operator()(const SolidStatePart& part) { moves(Kind::output, 1 / part.open.si(), {}); }
  /// Thermopile circuits are apart from all others and purely resistive: a phasor stands for direct volts.
  void operator()(const PilePart& part) {
    stands(1 / part.resistance.si(), part.open.si() * conditions().pileScale);
  }
  /// Half waves are no phasors (asbuilt/half_wave.h).
  void operator()(const equipment::DiodePart&) {}
  void operator()(const equipment::HalfWaveRelayPart&) {}

 private:
  using Kind = Stamp::Kind;
  const Conditions& conditions() const { return stamp_.conditions_; }
  void moves(Kind kind, Phasor off, Phasor on, Phasor volts = {}) {
    stamp_.moving_.push_back({kind, index_, device_->branch, off, on, volts});
  }
  void stands(Phasor siemens, Phasor volts = {}) {
    stamp_.siemens_[size_t(device_->branch)] = siemens;
    stamp_.volts_[size_t(device_->branch)] = volts;
  }

  const AsBuilt& circuit_;
  Stamp& stamp_;
  size_t index_ = 0;
  const Device* device_ = nullptr;
};

Stamp::Stamp(const AsBuilt& circuit, const Conditions& conditions)
    : circuit_(&circuit),
      siemens_(size_t(circuit.plan->branches())),
      volts_(siemens_.size()),
      conditions_(conditions) {
  eachMetal(circuit, conditions, [&](int branch, double siemens) { siemens_[size_t(branch)] = siemens; });
  moving_.reserve(circuit.devices.size());
  Stamper stamper(circuit, *this);
  for (size_t i = 0; i < circuit.devices.size(); ++i) stamper.place(i);
}

circuit::PowerOutcome Stamp::solve(const Positions& positions, circuit::Solver<Phasor>& solver) const {
  thread_local Ports ports;
  thread_local Branches now;
  ports.supplies.clear();
  ports.outputs.clear();
  now.siemens = siemens_;
  now.volts = volts_;
  now.siemens.resize(size_t(solver.plan().branches()));
  now.volts.resize(now.siemens.size());
  for (const Moving& part : moving_) {
    switch (part.kind) {
      case Kind::closing:
        if (positions.closed[part.device]) now.setBranch(part.branch, part.on, part.volts);
        break;
      case Kind::armature: {
        const bool sealed = positions.pulledIn[part.device] && !positions.allAtInrush;
        now.setBranch(part.branch, sealed ? part.on : part.off);
        break;
      }
      case Kind::supply:
        if (positions.supplyOn[part.device])
          ports.supplies.push_back({part.branch, positions.supplyVoltAmps[part.device] * part.on, 0});
        break;
      case Kind::output:
        if (positions.closed[part.device])
          ports.outputs.push_back(
              dropOf(std::get<SolidStatePart>(circuit_->devices[part.device].part), part.branch));
        else
          now.setBranch(part.branch, part.off);
        break;
    }
  }
  if (!conditions_.overrides.empty()) {
    Overrider<Phasor, Branches>(*circuit_, conditions_, now).apply(now.count());
    overridePorts(*circuit_, conditions_, now, ports);
  }
  for (int branch = 0; branch < now.count(); ++branch)
    solver.setBranch(branch, now.siemens[size_t(branch)], now.volts[size_t(branch)]);
  return circuit::solveWithConstantPower(solver, ports.supplies, ports.outputs);
}

circuit::PowerOutcome solve(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
                            circuit::Solver<Phasor>& solver) {
  solver.clear();
  return Stamp(circuit, conditions).solve(positions, solver);
}

void stampDead(const AsBuilt& circuit, const Positions& positions, const Conditions& conditions,
               const std::vector<char>& lifted, circuit::Solver<double>& solver) {
  solver.clear();
  eachMetal(circuit, conditions, [&](int branch, double siemens) { solver.setBranch(branch, siemens); });
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const Device& device = circuit.devices[i];
    if (lifted[i] || device.a == device.b) continue;
    const auto ohms = std::visit(DeadOhms{positions.closed[i] != 0, conditions}, device.part);
    if (ohms) solver.setBranch(device.branch, 1 / *ohms);
  }
  Overrider<double, circuit::Solver<double>>(circuit, conditions, solver).apply(solver.plan().branches());
  solver.solve();
}

}  // namespace ww::asbuilt
