// SPDX-License-Identifier: GPL-3.0-or-later
// Fuses and primary links: what they carry warms them over time.
#include <algorithm>

#include "operation/machine_parts.h"

namespace ww::operation {

namespace {

constexpr double kQuickSeconds = 0.6;        // supplies and contacts stand as they were for so long
constexpr double kCoolingSeconds = 5;        // from hot to cold when it carries what it can: from memory
constexpr double kLinkCoolingSeconds = 600;  // a winding cools slowly: from memory

double cooling(const equipment::Part& part) {
  return std::holds_alternative<FusePart>(part) ? kCoolingSeconds : kLinkCoolingSeconds;
}

}  // namespace

/// From cold, with what flows now; infinite where it holds, and for what is neither fuse nor link.
double Machine::meltingSeconds(size_t device) const {
  constexpr double never = std::numeric_limits<double>::infinity();
  if (!positions_.closed[device]) return never;
  if (const auto* fuse = part<FusePart>(device)) return equipment::meltingSeconds(*fuse, amps(int(device)));
  const auto* source = part<TransformerPart>(device);
  if (source == nullptr || !source->inherentlyLimited) return never;
  const double rated = source->rating.si() / source->rated.si();
  return amps(int(device)) > source->linkHoldsTo * rated ? source->linkOpensAfter.si() : never;
}

bool Machine::meltQuickFuses() {
  bool any = false;
  for (const size_t i : roster_->fuses) {
    const double seconds = meltingSeconds(i);
    if (!(seconds * (1 - warmth_[i]) <= kQuickSeconds)) continue;
    melt(i);
    any = true;
  }
  return any;
}

/// Those that have warmed up to melting.
bool Machine::meltDueFuses() {
  bool any = false;
  for (const size_t i : roster_->melting) {
    const double seconds = warmth_[i] >= 1 ? meltingSeconds(i) : std::numeric_limits<double>::infinity();
    if (!std::isfinite(seconds)) continue;
    melt(i);
    any = true;
  }
  return any;
}

void Machine::melt(size_t device) {
  const double after = overSeconds_[device] + meltingSeconds(device) * (1 - warmth_[device]);
  melted_[device] = {amps(int(device)), after, causeOf(device)};
  positions_.closed[device] = 0;
  warmth_[device] = 0;
  log(device, false);
}

/// Asks the circuit: with the coils that stand at inrush taken as pulled in, would it hold? And with every
/// sound load away, would it still melt?
MeltCause Machine::causeOf(size_t device) {
  const auto wouldMelt = [&](const asbuilt::Positions& positions, const asbuilt::Conditions& conditions) {
    circuit::Solver<circuit::Phasor> trial(solver_.sharedPlan());
    asbuilt::Positions held = positions;
    solveLettingGo(*circuit_, asbuilt::Stamp(*circuit_, conditions), held, trial);
    const double amps = std::abs(trial.current(circuit_->devices[device].branch));
    const auto* fuse = part<FusePart>(device);
    if (fuse != nullptr) return std::isfinite(equipment::meltingSeconds(*fuse, amps));
    const auto& source = *part<TransformerPart>(device);
    return amps > source.linkHoldsTo * source.rating.si() / source.rated.si();
  };
  asbuilt::Conditions bare = conditions_;
  for (size_t i = 0; i < circuit_->devices.size(); ++i) {
    const bool load = part<CoilPart>(i) != nullptr || part<ThermalPart>(i) != nullptr ||
                      part<InputPart>(i) != nullptr || part<SupplyPart>(i) != nullptr;
    if (load && !holds_[i].dead) bare.overrides.push_back(asbuilt::openAt(circuit_->devices[i].branch));
  }
  if (wouldMelt(positions_, bare)) return MeltCause::shortCircuit;
  asbuilt::Positions sealed = positions_;
  for (const size_t i : roster_->coils) sealed.pulledIn[i] = 1;
  return wouldMelt(sealed, conditions_) ? MeltCause::overload : MeltCause::hum;
}

void Machine::warmFuses(double seconds) {
  for (const size_t i : roster_->melting) {
    const double melting = meltingSeconds(i);
    const double rate = std::isfinite(melting) ? 1 / melting : -1 / cooling(circuit_->devices[i].part);
    warmth_[i] = std::clamp(warmth_[i] + rate * seconds, 0.0, 1.0);
    if (rate > 0) overSeconds_[i] += seconds;
    if (warmth_[i] == 0) overSeconds_[i] = 0;
  }
}

std::optional<Millis> Machine::meltingDue(size_t device) const {
  const double seconds = meltingSeconds(device);
  if (!std::isfinite(seconds)) return std::nullopt;
  // Rounded up, so that it has certainly melted.
  return now_ + 1 + static_cast<Millis>(std::ceil((1 - warmth_[device]) * seconds * 1000));
}

}  // namespace ww::operation
