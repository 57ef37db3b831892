// SPDX-License-Identifier: GPL-3.0-or-later
// How a run ends when it does not come to rest.
#include <algorithm>

#include "operation/machine_parts.h"

namespace ww::operation {

namespace {

constexpr Millis kChatterPeriod = 2000;  // slower than this a person sees attempts, not chatter
constexpr int kChatterRounds = 8;        // so often the same within moments is no start that flutters

}  // namespace

Machine::Moment Machine::moment() {
  const Moment moment{prints_.size(), events_.size(), now_};
  for (const size_t i : roster_->moving)
    prints_.push_back(positions_.closed[i] | positions_.pulledIn[i] << 1 | positions_.supplyOn[i] << 2 |
                      senses_.seen[i] << 3 | senses_.hot[i] << 4);
  for (const size_t i : roster_->contacts)
    prints_.push_back(contactDue_[i] == kNever ? -1 : contactDue_[i] - now_);
  for (const auto& unit : logic_) unit.appendPrint(now_, prints_);
  for (const auto* warm : {&roster_->thermals, &roster_->melting})
    for (const size_t i : *warm) prints_.push_back(std::llround(warmth_[i] * 1000));
  return moment;
}

/// How much the present moment, the last taken, is like one before: in full; briefly, where only warmth is
/// another, which changes slowly, and clocks that strike much later; or not.
Machine::Likeness Machine::likeness(const Moment& present, const Moment& before) const {
  const Millis* one = prints_.data() + present.print;
  const Millis* other = prints_.data() + before.print;
  const size_t words = prints_.size() - present.print;
  const size_t warm = words - roster_->thermals.size() - roster_->melting.size();
  const size_t logic = roster_->moving.size() + roster_->contacts.size();
  Likeness found = Likeness::full;
  const auto strikesSoon = [](Millis word) { return word >= printOfTime(kChatterPeriod); };
  for (size_t i = 0; i < words; ++i) {
    if (one[i] == other[i]) continue;
    if (i < logic) return Likeness::other;
    found = Likeness::brief;
    if (i >= warm) return found;
    if (strikesSoon(one[i]) || strikesSoon(other[i])) return Likeness::other;
  }
  return found;
}

/// Whether the installation, timers included, has stood like this before in this run; or so often within
/// moments, but for the clocks that run on, that it will go on until one of them strikes.
std::optional<RunEnd> Machine::repeated() {
  const Moment present = moment();
  int rounds = 0;
  Millis latest = 0;
  for (size_t i = moments_.size(); i-- > 0;) {
    const Moment& before = moments_[i];
    const Likeness like = likeness(present, before);
    if (like == Likeness::other) continue;
    if (latest == 0) latest = now_ - before.at;
    const bool quick = now_ - before.at <= ++rounds * kChatterPeriod;
    const bool same = like == Likeness::full;
    if (!same && !(quick && rounds == kChatterRounds)) continue;
    period_ = same ? now_ - before.at : latest;
    return markMoved(before.events) && quick ? RunEnd::chatter : RunEnd::periodic;
  }
  moments_.push_back(present);
  return std::nullopt;
}

/// Marks what moved since that event; true when a coil, a contact or a supply is among it.
bool Machine::markMoved(size_t from) {
  bool any = false;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const auto& device = circuit_->devices[i];
    const bool electric = equipment::isRelay(device.part) || equipment::isContact(device.part) ||
                          equipment::isSupply(device.part);
    for (size_t e = from; e < events_.size(); ++e)
      if (device.unit == events_[e].unit && *roster_->name[i] == events_[e].name) {
        moved_[i] = 1;
        any |= electric;
      }
  }
  return any;
}

/// Lets each coil of the round in turn be quicker than the others. Where one order comes to rest it was the
/// exact tie that made the round; every such end is kept, and the first is taken.
bool Machine::tryOrders() {
  if (quickest_ >= 0) return false;
  std::optional<Machine> first;
  std::vector<RaceOutcome> outcomes;
  for (size_t coil = 0; coil < circuit_->devices.size(); ++coil) {
    if (part<CoilPart>(coil) == nullptr || !moved_[coil]) continue;
    Machine trial = *this;
    trial.quickest_ = int(coil);
    trial.moments_.clear();
    trial.prints_.clear();
    for (size_t i = 0; i < contactDue_.size(); ++i)
      if (contactDue_[i] != kNever) trial.contactDue_[i] = now_ + trial.operatingTime(i);
    if (trial.advance() != RunEnd::settled) continue;
    const auto same = [&](const RaceOutcome& o) { return o.positions == trial.positions_; };
    if (std::none_of(outcomes.begin(), outcomes.end(), same))
      outcomes.push_back({int(coil), trial.positions_, trial.runningDuties()});
    if (!first) first = std::move(trial);
  }
  if (!first) return false;
  first->quickest_ = -1;
  first->moved_ = moved_;
  first->period_ = 0;
  first->outcomes_ = std::move(outcomes);
  *this = std::move(*first);
  return true;
}

std::vector<std::pair<int, int>> Machine::runningDuties() const {
  std::vector<std::pair<int, int>> running;
  for (size_t unit = 0; unit < logic_.size(); ++unit) {
    const auto& duties = circuit_->units[unit].profile->duties;
    for (size_t duty = 0; duty < duties.size(); ++duty)
      if (logic_[unit].value(duties[duty].running)) running.emplace_back(int(unit), int(duty));
  }
  return running;
}

/// From the logic's wish to the contact's move. A contact of the coil that is to be quickest needs next to
/// none.
Millis Machine::operatingTime(size_t contact) const {
  const auto& device = circuit_->devices[contact];
  if (quickest_ >= 0 && circuit_->devices[size_t(quickest_)].unit == device.unit &&
      logic_[size_t(device.unit)].listensTo(roster_->closedBy[contact], quickest_))
    return 1;
  if (const auto* output = part<SolidStatePart>(contact))
    return std::max<Millis>(1, millis(output->operating));
  const auto* mechanical = part<ContactPart>(contact);
  return mechanical ? std::max<Millis>(1, millis(mechanical->operating)) : 1;
}

}  // namespace ww::operation
