// SPDX-License-Identifier: GPL-3.0-or-later
#include "checklist/checklist.h"

#include <algorithm>
#include <set>

#include "asbuilt/half_wave.h"
#include "checklist/band_model.h"
#include "checklist/cautions.h"
#include "circuit/joints.h"
#include "equipment/demand.h"
#include "verify/check.h"
#include "verify/purpose.h"

namespace ww::checklist {

namespace {

using equipment::Kind;
using equipment::Role;
using equipment::TransformerPart;
using sheet::TerminalRef;
using sheet::UnitId;

/// Writes the steps down in the order in which a person walks them; bands come later.
class Walk {
 public:
  Walk(const sheet::Sheet& sheet, const operation::Solution& solution)
      : sheet_(sheet),
        solution_(solution),
        circuit_(*solution.circuit),
        order_(verify::walkingOrder(circuit_)) {
    for (const auto& wire : sheet.conductors)
      for (const auto* landing : {&wire.endA, &wire.endB})
        if (const auto* ref = std::get_if<TerminalRef>(landing)) landed_.insert(*ref);
    findCircuits();
  }

  std::vector<Step> write() {
    if (order_.empty()) return {};
    dead();
    atRest();
    for (const auto& demand : solution_.table)
      if (demand.call != "rest") call(demand);
    act(Phase::call, "close-up", order_.front(), {"no-jumper-left", "class-2-apart"});
    addProfileCautions(circuit_, steps_);
    return std::move(steps_);
  }

 private:
  const equipment::Profile& profile(UnitId unit) const {
    return *circuit_.units[size_t(circuit_.unitIndex(unit))].profile;
  }
  bool hasTransformer(UnitId unit) const {
    const auto& elements = profile(unit).elements;
    return std::any_of(elements.begin(), elements.end(),
                       [](const auto& e) { return std::holds_alternative<TransformerPart>(e.part); });
  }
  /// A transformer brings it even into an accessory.
  bool hasLineVoltage(UnitId unit) const {
    const Kind kind = profile(unit).kind;
    const bool small = kind == Kind::roomControl || kind == Kind::accessory || kind == Kind::zoneValve;
    return hasTransformer(unit) || !small;
  }
  std::optional<TerminalRef> withRole(UnitId unit, Role role) const {
    for (const auto& terminal : profile(unit).terminals)
      if (terminal.role == role) return TerminalRef{unit, terminal.id};
    return std::nullopt;
  }
  /// Circuits that nothing joins, whatever is open or closed: between them a meter shows nothing to judge.
  void findCircuits() {
    circuits_ = circuit::Joints(circuit_.nodeNames.size());
    for (const auto& device : circuit_.devices) circuits_.join(device.a, device.b);
    for (const auto& wire : circuit_.wires) circuits_.join(wire.a, wire.b);
    for (const auto& bonding : circuit_.bondings) circuits_.join(bonding.a, bonding.b);
  }
  bool sameCircuit(const TerminalRef& a, const TerminalRef& b) const {
    return circuits_.joined(circuit_.node(a), circuit_.node(b));
  }
  static std::string placeKey(const TerminalRef& ref) {
    return std::to_string(number(ref.unit)) + "." + ref.terminal;
  }

  Step& act(Phase phase, std::string instruction, UnitId unit, std::vector<std::string> cautions,
            const std::string& callName = {}) {
    Step step;
    step.phase = phase;
    step.instruction = std::move(instruction);
    step.standAt = unit;
    step.cautions = std::move(cautions);
    step.call = callName;
    step.key =
        step.instruction + ":" + std::to_string(number(unit)) + (callName.empty() ? "" : "@" + callName);
    steps_.push_back(std::move(step));
    return steps_.back();
  }

  Step& measure(Phase phase, Measure what, const std::string& instruction, const TerminalRef& a,
                const TerminalRef& b, const std::string& callName = {}) {
    Step& step = act(phase, instruction, a.unit, {}, callName);
    step.measure = what;
    step.probe1 = a;
    step.probe2 = b;
    step.key = instruction + ":" + placeKey(a) + ":" + placeKey(b) + (callName.empty() ? "" : "@" + callName);
    return step;
  }

  void dead() {
    act(Phase::dead, "isolate-and-lock", order_.front(),
        {"isolate-lock-off", "makers-instructions", "licensed-work"});
    for (const UnitId unit : order_)
      if (hasLineVoltage(unit)) act(Phase::dead, "prove-dead", unit, {"prove-meter"});
    for (const UnitId unit : order_)
      if (hasTransformer(unit)) act(Phase::dead, "open-fuse-lift-hot", unit, {"no-insulation-tester"});
    for (const UnitId unit : order_)
      if (profile(unit).kind == Kind::roomControl) act(Phase::dead, "control-off-base", unit, {});
    continuity();
    for (const UnitId unit : order_) terminalOhms(unit);
    act(Phase::dead, "restore-wiring", order_.front(), {});
  }

  /// Every conductor that is landed at both ends, cable by cable.
  void continuity() {
    for (const auto& cable : sheet_.cables)
      for (const auto* wire : conductorsOf(sheet_, cable.id)) {
        const auto* a = std::get_if<TerminalRef>(&wire->endA);
        const auto* b = std::get_if<TerminalRef>(&wire->endB);
        if (a == nullptr || b == nullptr) continue;
        Step& step = measure(Phase::dead, Measure::ohms, "continuity", *a, *b);
        step.conductor = wire->id;
        step.key += "#" + std::to_string(number(wire->id));
      }
  }

  /// What stands between each landed terminal and common: no dead short, coils plausible. Not at the control,
  /// which is off its base and would only repeat the other end of the cable.
  void terminalOhms(UnitId unit) {
    if (profile(unit).kind == Kind::roomControl) return;
    for (const auto& [first, second] : pairs(unit, Role::dry))
      measure(Phase::dead, Measure::ohms, "terminal-ohms", first, second);
    const auto common = withRole(unit, Role::common);
    if (!common) return;
    for (const auto& terminal : profile(unit).terminals) {
      const TerminalRef ref{unit, terminal.id};
      const bool apart = terminal.role == Role::common || verify::standsApart(terminal.role);
      if (!apart && landed_.contains(ref) && sameCircuit(ref, *common))
        measure(Phase::dead, Measure::ohms, "terminal-ohms", ref, *common);
    }
  }

  /// Neighbours on the strip that make a pair of that role, both landed: a common says nothing about them.
  std::vector<std::pair<TerminalRef, TerminalRef>> pairs(UnitId unit, Role role) const {
    std::vector<std::pair<TerminalRef, TerminalRef>> found;
    const auto& terminals = profile(unit).terminals;
    for (size_t i = 0; i + 1 < terminals.size(); ++i) {
      if (terminals[i].role != role || terminals[i + 1].role != role) continue;
      const TerminalRef first{unit, terminals[i].id}, second{unit, terminals[i + 1].id};
      if (landed_.contains(first) && landed_.contains(second)) found.emplace_back(first, second);
      ++i;
    }
    return found;
  }

  void atRest() {
    act(Phase::rest, "restore-power", order_.front(),
        {"live-cabinet", "makers-instructions", "licensed-work"}, "rest");
    for (const UnitId unit : order_) supply(unit, "rest");
    for (const UnitId unit : order_) signals(unit, "rest");
    observe(solution_.table.front(), Phase::rest);
  }

  void supply(UnitId unit, const std::string& callName) {
    const auto hot = withRole(unit, Role::hot);
    const auto common = withRole(unit, Role::common);
    if (!hot || !common) return;
    const bool used = hasTransformer(unit) || (landed_.contains(*hot) && landed_.contains(*common));
    if (used) measure(phaseOf(callName), Measure::acVolts, "volts", *hot, *common, callName);
  }

  /// The call terminals of a unit against its common.
  void signals(UnitId unit, const std::string& callName) {
    if (profile(unit).kind == Kind::roomControl) return;
    for (const auto& [first, second] : pairs(unit, Role::dry))
      measure(phaseOf(callName), Measure::acVolts, "volts", first, second, callName);
    for (const auto& [first, second] : pairs(unit, Role::millivolt))
      measure(phaseOf(callName), Measure::dcMillivolts, "millivolts", first, second, callName);
    const auto common = withRole(unit, Role::common);
    if (!common) return;
    for (const auto& terminal : profile(unit).terminals) {
      const TerminalRef ref{unit, terminal.id};
      const bool signal =
          terminal.role != Role::hot && terminal.role != Role::common && !verify::standsApart(terminal.role);
      if (signal && landed_.contains(ref) && sameCircuit(ref, *common))
        measure(phaseOf(callName), Measure::acVolts, "volts", ref, *common, callName);
    }
  }

  static Phase phaseOf(const std::string& callName) { return callName == "rest" ? Phase::rest : Phase::call; }

  void call(const operation::CallDemand& demand) {
    const bool compressor = contains(demand.must, "compressor1");
    UnitId asked = order_.front();
    if (demand.call == "defrost")
      for (const UnitId unit : order_)
        if (profile(unit).kind == Kind::outdoorUnit) asked = unit;
    // A plain contactor has no timer of its own, so the off time between two compressor calls is waited out
    // here.
    if (compressor && compressorRan_)
      act(Phase::call, "wait-off-time", asked, {"compressor-off-time"}, demand.call);
    compressorRan_ |= compressor;
    act(Phase::call, "set-call", asked, {}, demand.call);
    for (const UnitId unit : order_) {
      if (hasTransformer(unit)) supply(unit, demand.call);
      signals(unit, demand.call);
    }
    observe(demand, Phase::call);
  }

  void observe(const operation::CallDemand& demand, Phase phase) {
    Step& step = act(phase, "observe", order_.front(), {}, demand.call);
    step.measure = Measure::look;
    step.mustRun = demand.must;
    for (const auto& other : solution_.table)
      for (const auto& duty : other.must) {
        const std::string name = operation::dutyName(duty);
        const bool allowed = contains(demand.must, name) || contains(demand.may, name);
        if (!allowed && !contains(step.mustNotRun, name)) step.mustNotRun.push_back(name);
      }
    const auto unseen = [&](const std::string& duty) { return isDemand(operation::dutyName(duty)); };
    std::erase_if(step.mustRun, unseen);
    std::erase_if(step.mustNotRun, unseen);
  }

  /// A duty that only an outdoor unit without a coil has: that its demand arrives is measured, what it makes
  /// of it nobody sees.
  bool isDemand(const std::string& duty) const {
    bool demand = false;
    for (const auto& unit : circuit_.units) {
      if (!unit.profile->offers(duty)) continue;
      demand = equipment::takesDemand(*unit.profile);
      if (!demand) return false;
    }
    return demand;
  }

  static bool contains(const std::vector<std::string>& duties, const std::string& name) {
    return std::any_of(duties.begin(), duties.end(),
                       [&](const auto& d) { return operation::dutyName(d) == name; });
  }

  const sheet::Sheet& sheet_;
  const operation::Solution& solution_;
  const asbuilt::AsBuilt& circuit_;
  std::vector<UnitId> order_;
  std::set<TerminalRef> landed_;
  circuit::Joints circuits_;  ///< nodes
  std::vector<Step> steps_;
  bool compressorRan_ = false;
};

/// Marks what is measured between common and a conductor that two calls share, with what stands there.
void markHalfWaves(const operation::Solution& solution, std::vector<Step>& steps) {
  const auto& circuit = *solution.circuit;
  if (asbuilt::halfWaveRelays(circuit).empty()) return;
  const std::vector<char> shared = asbuilt::sharedNodes(circuit);
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  for (Step& step : steps) {
    const int a = circuit.node(step.probe1), b = circuit.node(step.probe2);
    if (!isMeasured(step) || a < 0 || b < 0 || shared[size_t(a)] == shared[size_t(b)]) continue;
    const auto& unit = circuit.units[size_t(circuit.unitIndex(step.probe1.unit))];
    if (unit.profile->terminal(step.probe1.terminal)->role == Role::hot)
      continue;  // from hot to an exchanged X
    step.halfWave.emplace();
    const auto* call = solution.call(step.call);
    if (call == nullptr) continue;
    asbuilt::solve(circuit, call->positions, solution.conditions, solver);
    const asbuilt::HalfWaveWays ways(circuit, call->positions, solver);
    const auto waves = shared[size_t(a)] ? ways.at(a, b) : ways.at(b, a);
    step.halfWave = shared[size_t(a)] ? HalfWaveVolts{waves.positive, waves.negative}
                                      : HalfWaveVolts{waves.negative, waves.positive};
  }
}

}  // namespace

std::vector<char> liftedForDeadChecks(const asbuilt::AsBuilt& circuit) {
  std::vector<char> lifted(circuit.devices.size());
  for (size_t i = 0; i < lifted.size(); ++i) {
    const auto& device = circuit.devices[i];
    lifted[i] = circuit.units[size_t(device.unit)].profile->kind == Kind::roomControl ||
                std::holds_alternative<TransformerPart>(device.part) ||
                std::holds_alternative<equipment::FusePart>(device.part);
  }
  return lifted;
}

std::vector<Step> checklistFor(const sheet::Sheet& sheet, const operation::Solution& solution,
                               const MeterFigures& meter, const std::vector<Observation>& observations,
                               const Priors& priors) {
  std::vector<Step> steps = Walk(sheet, solution).write();
  markHalfWaves(solution, steps);
  const auto predictions = BandModel(solution, meter, priors).predict(steps);
  const auto observed = [&](const Step& step) {
    return std::find_if(observations.begin(), observations.end(),
                        [&](const auto& o) { return o.step == step.key; });
  };
  std::optional<Posterior> posterior;
  for (size_t i = 0; i < steps.size(); ++i)
    if (const auto reading = observed(steps[i]); predictions[i] && reading != observations.end()) {
      if (!posterior) posterior.emplace(predictions[i]->slope.size(), priors);
      posterior->learn(*predictions[i], reading->value);
    }
  for (size_t i = 0; i < steps.size(); ++i) {
    if (!predictions[i]) continue;
    const bool learned = posterior && observed(steps[i]) == observations.end();
    steps[i].band = learned ? posterior->band(*predictions[i]) : priorBand(*predictions[i]);
  }
  return steps;
}

}  // namespace ww::checklist
