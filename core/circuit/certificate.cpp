// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/arithmetic.h"
#include "circuit/solver.h"

#include <algorithm>
#include <limits>

namespace ww::circuit {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// What a sum is off by, beyond its rounding, as a part of what was summed.
double beyondRounding(double sum, double rounding, double whole) {
  if (sum <= rounding) return 0;
  return whole > 0 ? (sum - rounding) / whole : 1;
}

}  // namespace

/// Factors once more with the size of every term beside the sums.
template <class Scalar>
bool Solver<Scalar>::cancels() const {
  const Plan& plan = *plan_;
  std::fill(trial_.begin(), trial_.end(), Scalar{});
  std::fill(size_.begin(), size_.end(), 0.0);
  for (std::size_t branch = 0; branch < admittance_.size(); ++branch) {
    trial_[at(plan.ends_[branch].slot)] += admittance_[branch];
    size_[at(plan.ends_[branch].slot)] += magnitude(admittance_[branch]);
  }
  for (std::size_t position = 0; position < ohms_.size(); ++position) {
    const std::size_t first = at(plan.step_[position].slot);
    const std::size_t end = at(plan.step_[position + 1].slot);
    Scalar sum{};
    double terms = 0;
    for (std::size_t slot = first; slot < end; ++slot) {
      sum += trial_[slot];
      terms += size_[slot];
    }
    if (magnitude(sum) < 1e-8 * terms) return true;
    if (terms == 0) continue;
    const Scalar ohms = reciprocal(sum, square(sum));
    const int* target = plan.pair_.data() + plan.step_[position].pair;
    for (std::size_t slot = first; slot < end; ++slot) {
      const Scalar part = product(trial_[slot], ohms);
      const double partSize = magnitude(ohms) * size_[slot];
      for (std::size_t other = slot + 1; other < end; ++other, ++target) {
        trial_[at(*target)] += product(part, trial_[other]);
        size_[at(*target)] += partSize * size_[other];
      }
    }
  }
  return false;
}

template <class Scalar>
Certificate Solver<Scalar>::certificate() const {
  Certificate found;
  found.refused = refused_;
  found.resonant = lost_ || overflown_ || cancels();
  joinBranches();
  const std::size_t nodes = volts_.size();
  Scalar* sums = trial_.data();
  double* amps = size_.data();
  double* blur = amps + nodes;
  double* scale = blur + nodes;  // by part: the largest volts that took part in computing its own
  std::fill(sums, sums + nodes, Scalar{});
  std::fill(amps, amps + 3 * nodes, 0.0);
  const auto partOf = [&](std::size_t branch) { return part_[at(plan_->pattern_.branches[branch].a)]; };
  for (std::size_t branch = 0; branch < admittance_.size(); ++branch) {
    if (admittance_[branch] == Scalar{}) continue;
    const Plan::Ends& end = plan_->ends_[branch];
    double& most = scale[partOf(branch)];
    most =
        std::max({most, magnitude(volts_[at(end.a)]), magnitude(volts_[at(end.b)]), magnitude(emf_[branch])});
  }
  // Rounding of the volts themselves, seen through an admittance.
  constexpr double rounding = 64 * std::numeric_limits<double>::epsilon();
  Scalar power{};
  double handled = 0;
  double powerBlur = 0;
  for (std::size_t branch = 0; branch < admittance_.size(); ++branch) {
    const Plan::Ends& end = plan_->ends_[branch];
    if (end.a == end.b || admittance_[branch] == Scalar{}) continue;
    const Scalar a = volts_[at(end.a)];
    const Scalar b = volts_[at(end.b)];
    const Scalar through = current(static_cast<int>(branch));
    const double size = magnitude(through);
    const double floor = rounding * magnitude(admittance_[branch]) * scale[partOf(branch)];
    sums[end.a] += through;
    sums[end.b] -= through;
    for (int node : {end.a, end.b}) {
      amps[node] += size;
      blur[node] += floor;
    }
    power += product(a - b, conjugate(through));
    powerBlur += magnitude(a - b) * floor;
    handled += magnitude(emf_[branch]) * size;
  }
  for (std::size_t node = 0; node < nodes; ++node)
    found.kcl = std::max(found.kcl, beyondRounding(magnitude(sums[node]), blur[node], amps[node]));
  found.power = beyondRounding(magnitude(power), powerBlur, handled);
  return found;
}

template bool Solver<double>::cancels() const;
template bool Solver<Phasor>::cancels() const;
template Certificate Solver<double>::certificate() const;
template Certificate Solver<Phasor>::certificate() const;

}  // namespace ww::circuit
