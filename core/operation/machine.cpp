// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/machine.h"

#include <algorithm>

#include "asbuilt/half_wave.h"
#include "circuit/arithmetic.h"
#include "operation/machine_parts.h"

namespace ww::operation {

namespace {

constexpr Millis kLimit = 2 * 3600 * 1000;  // no call of a single house takes longer to show its end state
constexpr int kMostEvents = 4000;
constexpr double kRatedVolts = 24;

}  // namespace

Machine::Machine(const asbuilt::AsBuilt& circuit, asbuilt::Conditions conditions)
    : circuit_(&circuit),
      roster_(std::make_shared<const Roster>(circuit)),
      conditions_(std::move(conditions)),
      solver_(asbuilt::planFor(circuit, conditions_.overrides)),
      stamp_(circuit, conditions_),  // after the plan, which fills in the bridges' branches
      positions_(circuit.devices.size()),
      halfWaveRelays_(asbuilt::halfWaveRelays(circuit)) {
  const size_t n = circuit.devices.size();
  senses_ = {std::vector<char>(n), std::vector<char>(n), std::vector<char>(n),
             std::vector<char>(n), std::vector<char>(n), std::vector<char>(n)};
  contactDue_.assign(n, kNever);
  warmth_.assign(n, 0);
  late_.assign(n, 0);
  moved_.assign(n, 0);
  marginalInput_.assign(n, 0);
  letGo_.assign(n, 0);
  noPoint_.assign(n, 0);
  overSeconds_.assign(n, 0);
  melted_.assign(n, {});
  holds_ = asbuilt::holdsOf(circuit, conditions_.overrides);
  int controls = 0;
  for (const auto& unit : circuit.units) controls += unit.profile->kind == equipment::Kind::roomControl;
  int number = 0;
  logic_.reserve(circuit.units.size());
  for (size_t u = 0; u < circuit.units.size(); ++u) {
    const bool control = circuit.units[u].profile->kind == equipment::Kind::roomControl;
    logic_.emplace_back(circuit, int(u), control && controls > 1 ? ++number : 0);
    loggedSignals_.push_back(logic_.back().signals());
    proves_ |= logic_.back().proves();
  }
  looks_.assign(logic_.size(), 1);
  evaluated_.assign(logic_.size(), 0);
}

double Machine::volts(int device) const {
  const auto& d = circuit_->devices[size_t(device)];
  const auto reading = solver_.read(d.a, d.b);
  return reading.quality == circuit::Quality::solid && reading.value ? circuit::magnitude(*reading.value) : 0;
}

double Machine::ownVolts(int device) const {
  const double joint = holds_[size_t(device)].series;
  if (joint == 0) return volts(device);
  const auto admittance = solver_.admittance(circuit_->devices[size_t(device)].branch);
  return admittance == circuit::Phasor{} ? 0 : amps(device) * std::abs(1.0 / admittance - joint);
}

bool Machine::collapsed() const {
  return std::any_of(noPoint_.begin(), noPoint_.end(), [](char out) { return out != 0; });
}

void Machine::setConditions(asbuilt::Conditions conditions) {
  const auto bridges = [](const asbuilt::Conditions& c) {
    return std::any_of(c.overrides.begin(), c.overrides.end(),
                       [](const asbuilt::Override& o) { return o.kind == asbuilt::Override::Kind::bridge; });
  };
  const bool planned = bridges(conditions_) || bridges(conditions);
  conditions_ = std::move(conditions);
  if (planned) solver_ = circuit::Solver<circuit::Phasor>(asbuilt::planFor(*circuit_, conditions_.overrides));
  holds_ = asbuilt::holdsOf(*circuit_, conditions_.overrides);
  stamp_ = asbuilt::Stamp(*circuit_, conditions_);
  solvedFor_.reset();
}

double Machine::amps(int device) const {
  return circuit::magnitude(solver_.current(circuit_->devices[size_t(device)].branch));
}

void Machine::forget() {
  events_.clear();
  moments_.clear();
  prints_.clear();
}

Work Machine::work() const {
  Work work{solver_.solves(), solver_.admittancesTaken(), rounds_, 0};
  for (const auto& unit : logic_) work.statements += unit.work();
  return work;
}

RunEnd Machine::powerUp(const Facts& facts) {
  for (auto& unit : logic_) {
    unit.setFacts(facts);
    unit.powerUp(now_);
    unit.evaluate(now_, senses_);
  }
  positions_ = unpowered(*circuit_, conditions_.overrides);
  return run(facts);
}

RunEnd Machine::run(const Facts& facts) {
  forget();
  outcomes_.clear();
  period_ = 0;
  oscillates_ = false;
  std::fill(letGo_.begin(), letGo_.end(), 0);
  std::fill(late_.begin(), late_.end(), 0);
  std::fill(moved_.begin(), moved_.end(), 0);
  for (size_t u = 0; u < logic_.size(); ++u)
    if (logic_[u].setFacts(facts)) looks_[u] = 1;
  for (const size_t i : roster_->transformers)
    positions_.closed[i] = logic_[unitOf(i)].line() && melted_[i].amps == 0;
  return advance();
}

RunEnd Machine::advance() {
  const Millis start = now_;
  for (int count = 0; count < kMostEvents; ++count) {
    instant();
    if (oscillates_) return RunEnd::chatter;
    if (const auto end = repeated()) return *end == RunEnd::chatter && tryOrders() ? RunEnd::race : *end;
    const auto next = nextEvent();
    if (!next) return RunEnd::settled;
    if (*next - start > kLimit) return RunEnd::limit;
    warm(*next - now_);
    now_ = *next;
  }
  return RunEnd::limit;
}

/// Everything that happens without time passing: contacts due, relays, logic, and the load of the boards'
/// relays.
void Machine::instant() {
  moveDueContacts();
  std::fill(evaluated_.begin(), evaluated_.end(), 0);
  for (int round = 0; round < kMostRounds; ++round) {
    settleElectrics();
    while (meltDueFuses()) settleElectrics();
    readSenses();
    if (!evaluateLogic()) oscillates_ = true;
    if (oscillates_) break;  // the call chatters; where it is cut short is chance
    const bool other = readRunning();
    if (!updateSupplyLoad() && !other) break;
  }
  logSignals();
  scheduleContacts();
}

/// A unit's logic gives the same answer until it sees something else or a timer strikes.
bool Machine::evaluateLogic() {
  bool settled = true;
  for (size_t u = 0; u < logic_.size(); ++u) {
    if (!looks_[u] && !logic_[u].strikes(now_)) continue;
    evaluated_[u] = 1;
    const bool sound = logic_[u].evaluate(now_, senses_);
    looks_[u] = !sound;
    settled &= sound;
  }
  return settled;
}

/// Relays behind diodes draw nothing from the solved circuit and follow it.
void Machine::readHalfWaves() {
  if (halfWaveRelays_.empty()) return;
  const asbuilt::HalfWaveWays ways(*circuit_, positions_, solver_);
  for (const size_t i : halfWaveRelays_) {
    const asbuilt::Hold& hold = holds_[i];
    const bool in = hold.armature > 0 || (hold.armature == 0 && !hold.dead && ways.pulls(i));
    if (in != (positions_.pulledIn[i] != 0)) log(i, in);
    positions_.pulledIn[i] = in;
    sense(senses_.pulledIn, i, in);
  }
}

void Machine::readSenses() {
  readHalfWaves();
  for (const size_t i : roster_->inputs) {
    const auto& input = *part<InputPart>(i);
    const double v = holds_[i].dead ? 0 : ownVolts(int(i));
    marginalInput_[i] = v >= input.goneBelow.si() && v < input.seenFrom.si();
    if (marginalInput_[i]) continue;
    const bool seen = v >= input.seenFrom.si();
    if (seen != (senses_.seen[i] != 0)) log(i, seen);
    sense(senses_.seen, i, seen);
  }
  for (const size_t i : roster_->coils) {
    sense(senses_.pulledIn, i, positions_.pulledIn[i] != 0);
    sense(senses_.powered, i, positions_.pulledIn[i] && ownVolts(int(i)) >= part<CoilPart>(i)->dropOut.si());
  }
  for (const size_t i : roster_->thermals) {
    const bool hot = senses_.hot[i] ? warmth_[i] > 0 : warmth_[i] >= 1;
    if (hot != (senses_.hot[i] != 0)) log(i, hot);
    sense(senses_.hot, i, hot);
  }
  for (const size_t i : roster_->contacts) sense(senses_.closed, i, positions_.closed[i] != 0);
  for (const size_t i : roster_->feeding) sense(senses_.supplyOn, i, positions_.supplyOn[i] != 0);
}

/// What units that prove air or water may look at; true when it is not what it was.
bool Machine::readRunning() {
  if (!proves_) return false;
  running_.clear();
  for (const auto& [unit, duty] : runningDuties())
    running_.push_back(circuit_->units[size_t(unit)].profile->duties[size_t(duty)].name);
  if (running_ == senses_.running) return false;
  std::swap(running_, senses_.running);
  for (size_t u = 0; u < logic_.size(); ++u)
    if (logic_[u].proves()) looks_[u] = 1;
  return true;
}

void Machine::scheduleContacts() {
  for (const size_t i : roster_->contacts) {
    const int held = holds_[i].contact;
    const bool wanted = held != 0 ? held > 0 : logic_[unitOf(i)].value(roster_->closedBy[i]);
    if (wanted == (positions_.closed[i] != 0))
      contactDue_[i] = kNever;
    else if (contactDue_[i] == kNever)
      contactDue_[i] = now_ + operatingTime(i);
  }
}

bool Machine::moveDueContacts() {
  bool any = false;
  for (const size_t i : roster_->contacts) {
    if (contactDue_[i] > now_) continue;
    positions_.closed[i] = !positions_.closed[i];
    contactDue_[i] = kNever;
    log(i, positions_.closed[i] != 0);
    any = true;
  }
  return any;
}

/// Rate of warming per second at the present volts; negative when cooling.
static double warmingRate(const ThermalPart& part, double volts) {
  if (volts < part.never.si()) return -1 / part.opening.si();
  const double ratio = volts / kRatedVolts;
  return ratio * ratio / part.closing.si();
}

double Machine::thermalVolts(size_t device) const { return holds_[device].dead ? 0 : ownVolts(int(device)); }

void Machine::warm(Millis elapsed) {
  for (const size_t i : roster_->thermals) {
    const double change = warmingRate(*part<ThermalPart>(i), thermalVolts(i)) * double(elapsed) / 1000;
    warmth_[i] = std::clamp(warmth_[i] + change, 0.0, 1.0);
  }
  warmFuses(double(elapsed) / 1000);
}

std::optional<Millis> Machine::thermalDue(size_t i) const {
  const double rate = warmingRate(*part<ThermalPart>(i), thermalVolts(i));
  const double distance = rate > 0 ? 1 - warmth_[i] : warmth_[i];
  if (distance <= 0) return std::nullopt;
  // Rounded up, so that the element has certainly arrived.
  return now_ + 1 + static_cast<Millis>(std::ceil(distance / std::abs(rate) * 1000));
}

std::optional<Millis> Machine::nextEvent() const {
  Millis soonest = kNever;
  const auto take = [&](const std::optional<Millis>& due) {
    if (due) soonest = std::min(soonest, *due);
  };
  for (const size_t i : roster_->contacts) soonest = std::min(soonest, contactDue_[i]);
  for (const auto& unit : logic_) take(unit.due(now_));
  for (const size_t i : roster_->thermals) take(thermalDue(i));
  for (const size_t i : roster_->melting) take(meltingDue(i));
  return soonest == kNever ? std::nullopt : std::optional(soonest);
}

void Machine::log(size_t device, bool on) {
  events_.push_back({now_, circuit_->devices[device].unit, *roster_->name[device], on});
}

void Machine::logSignals() {
  for (size_t u = 0; u < logic_.size(); ++u) {
    if (!evaluated_[u]) continue;
    const auto& signals = logic_[u].signals();
    for (size_t k = 0; k < signals.size(); ++k)
      if (signals[k] != loggedSignals_[u][k])
        events_.push_back({now_, int(u), logic_[u].signalNames()[k], signals[k] != 0});
    loggedSignals_[u] = signals;
  }
}

asbuilt::Positions unpowered(const asbuilt::AsBuilt& circuit,
                             const std::vector<asbuilt::Override>& overrides) {
  const size_t n = circuit.devices.size();
  const Senses nothing{std::vector<char>(n), std::vector<char>(n), std::vector<char>(n),
                       std::vector<char>(n), std::vector<char>(n), std::vector<char>(n)};
  asbuilt::Positions positions(n);
  std::vector<LogicRun> logic;
  logic.reserve(circuit.units.size());
  for (size_t u = 0; u < circuit.units.size(); ++u) {
    logic.emplace_back(circuit, int(u), 0);
    logic.back().evaluate(0, nothing);
  }
  const auto holds = asbuilt::holdsOf(circuit, overrides);
  for (size_t i = 0; i < n; ++i) {
    const auto& device = circuit.devices[i];
    if (std::holds_alternative<FusePart>(device.part) ||
        std::holds_alternative<equipment::TransformerPart>(device.part))
      positions.closed[i] = 1;
    if (equipment::isContact(device.part))
      positions.closed[i] = logic[size_t(device.unit)].value(circuit.element(device).closedBy);
    if (holds[i].contact != 0) positions.closed[i] = holds[i].contact > 0;
    if (holds[i].armature > 0) positions.pulledIn[i] = 1;
  }
  return positions;
}

}  // namespace ww::operation
