// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/machine.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ww::operation {

namespace {

using equipment::CoilPart;
using equipment::ContactPart;
using equipment::FusePart;
using equipment::InputPart;
using equipment::SupplyPart;
using equipment::ThermalPart;

constexpr Millis kNever = std::numeric_limits<Millis>::max();
constexpr Millis kLimit = 2 * 3600 * 1000;  // no call of a single house takes longer to show its end state
constexpr Millis kChatterPeriod = 2000;     // slower than this a person sees attempts, not chatter
constexpr int kChatterRounds = 8;           // so often the same within moments is no start that flutters
constexpr int kMostEvents = 4000;
constexpr int kMostRounds = 64;
constexpr double kMeltingRatio = 1.35;  // of rated amps, below which a fuse holds: from memory
constexpr double kRatedVolts = 24;

Millis millis(quantity::Seconds s) { return std::llround(s.si() * 1000); }

}  // namespace

Machine::Machine(const asbuilt::AsBuilt& circuit, asbuilt::Conditions conditions)
    : circuit_(&circuit),
      conditions_(std::move(conditions)),
      solver_(circuit.plan),
      positions_(circuit.devices.size()) {
  const size_t n = circuit.devices.size();
  senses_ = {std::vector<char>(n), std::vector<char>(n), std::vector<char>(n),
             std::vector<char>(n), std::vector<char>(n), std::vector<char>(n)};
  contactDue_.assign(n, kNever);
  warmth_.assign(n, 0);
  late_.assign(n, 0);
  moved_.assign(n, 0);
  marginalInput_.assign(n, 0);
  meltingAmps_.assign(n, 0);
  int controls = 0;
  for (const auto& unit : circuit.units) controls += unit.profile->kind == equipment::Kind::roomControl;
  int number = 0;
  for (size_t u = 0; u < circuit.units.size(); ++u) {
    const bool control = circuit.units[u].profile->kind == equipment::Kind::roomControl;
    logic_.emplace_back(circuit, int(u), control && controls > 1 ? ++number : 0);
    loggedSignals_.push_back(logic_.back().signals());
  }
}

double Machine::volts(int device) const {
  const auto& d = circuit_->devices[size_t(device)];
  const auto reading = solver_.read(d.a, d.b);
  return reading.quality == circuit::Quality::solid && reading.value ? std::abs(*reading.value) : 0;
}

double Machine::amps(int device) const {
  return std::abs(solver_.current(circuit_->devices[size_t(device)].branch));
}

RunEnd Machine::powerUp(const Facts& facts) {
  for (auto& unit : logic_) {
    unit.setFacts(facts);
    unit.powerUp(now_);
    unit.evaluate(now_, senses_);
  }
  positions_ = unpowered(*circuit_);
  return run(facts);
}

RunEnd Machine::run(const Facts& facts) {
  events_.clear();
  moments_.clear();
  oscillates_ = false;
  std::fill(late_.begin(), late_.end(), 0);
  std::fill(moved_.begin(), moved_.end(), 0);
  for (auto& unit : logic_) unit.setFacts(facts);
  for (size_t i = 0; i < circuit_->devices.size(); ++i)
    if (part<equipment::TransformerPart>(i) != nullptr)
      positions_.closed[i] = logic_[size_t(circuit_->devices[i].unit)].line();
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
  for (int round = 0; round < kMostRounds; ++round) {
    settleElectrics();
    readSenses();
    for (auto& unit : logic_)
      if (!unit.evaluate(now_, senses_)) oscillates_ = true;
    if (!updateSupplyLoad()) break;
  }
  logSignals();
  scheduleContacts();
}

/// Where no operating point exists a fuse melts if one carries that much even without the supplies; if none
/// does, the supplies let go, the one with the fewest volts first, until the rest can be carried. It is a
/// collapse where one lets go that has volts enough as long as it draws nothing. Often only time has passed,
/// and the volts are known.
void Machine::solve() {
  collapsed_ = false;
  if (solvedFor_ == positions_) return;
  while (asbuilt::solve(*circuit_, positions_, conditions_, solver_) == circuit::PowerOutcome::collapse) {
    if (!meltFuses() && !cutWeakestSupply()) break;
  }
  solvedFor_ = positions_;
}

bool Machine::cutWeakestSupply() {
  size_t weakest = positions_.supplyOn.size();
  for (size_t i = 0; i < positions_.supplyOn.size(); ++i)
    if (positions_.supplyOn[i] &&
        (weakest == positions_.supplyOn.size() || volts(int(i)) < volts(int(weakest))))
      weakest = i;
  if (weakest == positions_.supplyOn.size()) return false;
  collapsed_ |= volts(int(weakest)) >= part<SupplyPart>(weakest)->outBelow.si();
  positions_.supplyOn[weakest] = 0;
  log(weakest, false);
  return true;
}

void Machine::settleElectrics() {
  solve();
  bool collapsedEver = collapsed_;
  bool still = false;
  for (int round = 0; round < kMostRounds && !still; ++round) {
    // With the starting coils at inrush the volts are at their lowest: what cannot hold lets go now.
    while (dropOut()) solve();
    for (int pull = 0; pullInRound(pull); ++pull) solve();
    // What still flows when everything has pulled in that can, flows on: a fuse melts before a supply lets
    // go.
    while (meltFuses()) solve();
    const bool supplies = cutSupplies();
    const bool coils = dropOut();
    still = !supplies && !coils;
    if (!still) solve();
    collapsedEver |= collapsed_;
  }
  oscillates_ |= !still;
  collapsed_ = collapsedEver;
}

bool Machine::meltFuses() {
  bool melted = false;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto* fuse = part<FusePart>(i);
    if (fuse == nullptr || !positions_.closed[i] || amps(int(i)) <= kMeltingRatio * fuse->rating.si())
      continue;
    meltingAmps_[i] = amps(int(i));
    positions_.closed[i] = 0;
    log(i, false);
    melted = true;
  }
  return melted;
}

/// Moves every starting coil that reaches its typical pull-in; true when one moved.
bool Machine::pullInRound(int round) {
  bool any = false;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto* coil = part<CoilPart>(i);
    if (coil == nullptr || positions_.pulledIn[i] || volts(int(i)) < coil->pullInTypical.si()) continue;
    positions_.pulledIn[i] = 1;
    late_[i] = round > 0;
    log(i, true);
    any = true;
  }
  return any;
}

bool Machine::cutSupplies() {
  bool any = false;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto* supply = part<SupplyPart>(i);
    if (supply == nullptr) continue;
    const double v = volts(int(i));
    const bool on = positions_.supplyOn[i] ? v >= supply->outBelow.si() : v >= supply->backAt.si();
    if (on == (positions_.supplyOn[i] != 0)) continue;
    positions_.supplyOn[i] = on;
    if (positions_.supplyVoltAmps[i] == 0) positions_.supplyVoltAmps[i] = supply->power.si();
    if (on) logic_[size_t(circuit_->devices[i].unit)].powerUp(now_);
    log(i, on);
    any = true;
  }
  return any;
}

bool Machine::dropOut() {
  bool any = false;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto* coil = part<CoilPart>(i);
    if (coil == nullptr || !positions_.pulledIn[i] || volts(int(i)) >= coil->dropOut.si()) continue;
    positions_.pulledIn[i] = 0;
    late_[i] = 0;
    log(i, false);
    any = true;
  }
  return any;
}

void Machine::readSenses() {
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    if (const auto* input = part<InputPart>(i)) {
      const double v = volts(int(i));
      marginalInput_[i] = v >= input->goneBelow.si() && v < input->seenFrom.si();
      if (!marginalInput_[i]) {
        const bool seen = v >= input->seenFrom.si();
        if (seen != (senses_.seen[i] != 0)) log(i, seen);
        senses_.seen[i] = seen;
      }
    } else if (const auto* coil = part<CoilPart>(i)) {
      senses_.pulledIn[i] = positions_.pulledIn[i];
      senses_.powered[i] = positions_.pulledIn[i] && volts(int(i)) >= coil->dropOut.si();
    } else if (part<ContactPart>(i) != nullptr) {
      senses_.closed[i] = positions_.closed[i];
    } else if (part<SupplyPart>(i) != nullptr) {
      senses_.supplyOn[i] = positions_.supplyOn[i];
    } else if (part<ThermalPart>(i) != nullptr) {
      const bool hot = senses_.hot[i] ? warmth_[i] > 0 : warmth_[i] >= 1;
      if (hot != (senses_.hot[i] != 0)) log(i, hot);
      senses_.hot[i] = hot;
    }
  }
}

/// Counts the energised board relays; true when some supply now draws something else.
bool Machine::updateSupplyLoad() {
  bool changed = false;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto* supply = part<SupplyPart>(i);
    if (supply == nullptr) continue;
    const auto& device = circuit_->devices[i];
    double load = supply->power.si();
    for (const int relay : circuit_->element(device).relays)
      if (logic_[size_t(device.unit)].value(relay)) load += supply->perRelay.si();
    changed |= positions_.supplyOn[i] && load != positions_.supplyVoltAmps[i];
    positions_.supplyVoltAmps[i] = load;
  }
  return changed;
}

void Machine::scheduleContacts() {
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto* contact = part<ContactPart>(i);
    if (contact == nullptr) continue;
    const auto& device = circuit_->devices[i];
    const bool wanted = logic_[size_t(device.unit)].value(circuit_->element(device).closedBy);
    if (wanted == (positions_.closed[i] != 0))
      contactDue_[i] = kNever;
    else if (contactDue_[i] == kNever)
      contactDue_[i] = now_ + operatingTime(i);
  }
}

bool Machine::moveDueContacts() {
  bool any = false;
  for (size_t i = 0; i < contactDue_.size(); ++i) {
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

void Machine::warm(Millis elapsed) {
  for (size_t i = 0; i < warmth_.size(); ++i) {
    const auto* thermal = part<ThermalPart>(i);
    if (thermal == nullptr) continue;
    const double change = warmingRate(*thermal, volts(int(i))) * double(elapsed) / 1000;
    warmth_[i] = std::clamp(warmth_[i] + change, 0.0, 1.0);
  }
}

std::optional<Millis> Machine::thermalDue(size_t i) const {
  const auto* thermal = part<ThermalPart>(i);
  if (thermal == nullptr) return std::nullopt;
  const double rate = warmingRate(*thermal, volts(int(i)));
  const double distance = rate > 0 ? 1 - warmth_[i] : warmth_[i];
  if (distance <= 0) return std::nullopt;
  // Rounded up, so that the element has certainly arrived.
  return now_ + 1 + static_cast<Millis>(std::ceil(distance / std::abs(rate) * 1000));
}

std::optional<Millis> Machine::nextEvent() const {
  Millis soonest = kNever;
  for (const Millis due : contactDue_) soonest = std::min(soonest, due);
  for (const auto& unit : logic_)
    if (const auto due = unit.due(now_)) soonest = std::min(soonest, *due);
  for (size_t i = 0; i < circuit_->devices.size(); ++i)
    if (const auto due = thermalDue(i)) soonest = std::min(soonest, *due);
  return soonest == kNever ? std::nullopt : std::optional(soonest);
}

Machine::Moment Machine::moment() const {
  Moment moment{{}, {}, events_.size(), now_};
  if (!moments_.empty()) {
    moment.full.reserve(moments_.back().full.size());
    moment.brief.reserve(moments_.back().brief.size());
  }
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const Millis states = positions_.closed[i] | positions_.pulledIn[i] << 1 | positions_.supplyOn[i] << 2 |
                          senses_.seen[i] << 3 | senses_.hot[i] << 4;
    const Millis move = contactDue_[i] == kNever ? -1 : contactDue_[i] - now_;
    for (auto* print : {&moment.full, &moment.brief}) print->insert(print->end(), {states, move});
    moment.full.push_back(std::llround(warmth_[i] * 1000));  // changes slowly
  }
  for (const auto& unit : logic_) unit.appendFingerprints(now_, kChatterPeriod, moment.full, moment.brief);
  return moment;
}

/// Whether the installation, timers included, has stood like this before in this run; or so often within
/// moments, but for the clocks that run on, that it will go on until one of them strikes.
std::optional<RunEnd> Machine::repeated() {
  Moment present = moment();
  int rounds = 0;
  for (size_t i = moments_.size(); i-- > 0;) {
    const Moment& before = moments_[i];
    if (before.brief != present.brief) continue;
    const bool quick = now_ - before.at <= ++rounds * kChatterPeriod;
    if (before.full != present.full && !(quick && rounds == kChatterRounds)) continue;
    return markMoved(before.events) && quick ? RunEnd::chatter : RunEnd::periodic;
  }
  moments_.push_back(std::move(present));
  return std::nullopt;
}

/// Marks what moved since that event; true when a coil, a contact or a supply is among it.
bool Machine::markMoved(size_t from) {
  bool any = false;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto& device = circuit_->devices[i];
    const bool electric =
        part<CoilPart>(i) != nullptr || part<ContactPart>(i) != nullptr || part<SupplyPart>(i) != nullptr;
    for (size_t e = from; e < events_.size(); ++e)
      if (device.unit == events_[e].unit && circuit_->element(device).id == events_[e].name) {
        moved_[i] = 1;
        any |= electric;
      }
  }
  return any;
}

/// Lets each coil of the round in turn be quicker than the others. Where one order comes to rest it was the
/// exact tie that made the round, and the first such end is taken.
bool Machine::tryOrders() {
  if (quickest_ >= 0) return false;
  for (size_t coil = 0; coil < circuit_->devices.size(); ++coil) {
    if (part<CoilPart>(coil) == nullptr || !moved_[coil]) continue;
    Machine trial = *this;
    trial.quickest_ = int(coil);
    trial.moments_.clear();
    for (size_t i = 0; i < contactDue_.size(); ++i)
      if (contactDue_[i] != kNever) trial.contactDue_[i] = now_ + trial.operatingTime(i);
    if (trial.advance() != RunEnd::settled) continue;
    trial.quickest_ = -1;
    trial.moved_ = moved_;
    *this = std::move(trial);
    return true;
  }
  return false;
}

/// From the logic's wish to the contact's move. A contact of the coil that is to be quickest needs next to
/// none.
Millis Machine::operatingTime(size_t contact) const {
  const auto& device = circuit_->devices[contact];
  if (quickest_ >= 0 && circuit_->devices[size_t(quickest_)].unit == device.unit &&
      logic_[size_t(device.unit)].listensTo(circuit_->element(device).closedBy, quickest_))
    return 1;
  return std::max<Millis>(1, millis(part<ContactPart>(contact)->operating));
}

void Machine::log(size_t device, bool on) {
  const auto& d = circuit_->devices[device];
  events_.push_back({now_, d.unit, circuit_->element(d).id, on});
}

void Machine::logSignals() {
  for (size_t u = 0; u < logic_.size(); ++u) {
    const auto& signals = logic_[u].signals();
    for (size_t k = 0; k < signals.size(); ++k)
      if (signals[k] != loggedSignals_[u][k])
        events_.push_back({now_, int(u), logic_[u].signalNames()[k], signals[k] != 0});
    loggedSignals_[u] = signals;
  }
}

asbuilt::Positions unpowered(const asbuilt::AsBuilt& circuit) {
  const size_t n = circuit.devices.size();
  const Senses nothing{std::vector<char>(n), std::vector<char>(n), std::vector<char>(n),
                       std::vector<char>(n), std::vector<char>(n), std::vector<char>(n)};
  asbuilt::Positions positions(n);
  std::vector<LogicRun> logic;
  for (size_t u = 0; u < circuit.units.size(); ++u) {
    logic.emplace_back(circuit, int(u), 0);
    logic.back().evaluate(0, nothing);
  }
  for (size_t i = 0; i < n; ++i) {
    const auto& device = circuit.devices[i];
    if (std::holds_alternative<FusePart>(device.part) ||
        std::holds_alternative<equipment::TransformerPart>(device.part))
      positions.closed[i] = 1;
    if (std::holds_alternative<ContactPart>(device.part))
      positions.closed[i] = logic[size_t(device.unit)].value(circuit.element(device).closedBy);
  }
  return positions;
}

}  // namespace ww::operation
