// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/solver.h"

#include "circuit/arithmetic.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace ww::circuit {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

// Sums outside this range (of |sum| squared) are no sums: nothing there, or a resonance beyond doubles.
constexpr double leastSquare = 1e-200;
constexpr double greatestSquare = 1e200;

}  // namespace

template <class Scalar>
Solver<Scalar>::Solver(std::shared_ptr<const Plan> plan)
    : plan_(std::move(plan)),
      admittance_(at(plan_->branches())),
      emf_(at(plan_->branches())),
      slots_(at(plan_->slots() + 1)),
      trunk_(at(plan_->slots() - plan_->lateSlot())),
      driven_(at(plan_->nodes())),
      ohms_(at(plan_->nodes())),
      volts_(at(plan_->nodes())),
      port_(at(plan_->nodes())),
      solidPart_(at(plan_->nodes())),
      part_(at(plan_->nodes())),
      root_(at(plan_->nodes())),
      trial_(at(std::max(plan_->slots() + 1, plan_->nodes()))),
      size_(at(std::max(plan_->slots() + 1, 3 * plan_->nodes()))) {}

template <class Scalar>
void Solver<Scalar>::clear() {
  std::fill(admittance_.begin(), admittance_.end(), Scalar{});
  std::fill(emf_.begin(), emf_.end(), Scalar{});
  solved_ = refused_ = trunkKnown_ = false;
}

template <class Scalar>
void Solver<Scalar>::setOddBranch(std::size_t branch, Scalar admittance, Scalar emf) {
  const bool tooLarge = !(square(admittance) <= 1.01e30) || !(square(emf) <= 1.01e30);
  refused_ = refused_ || tooLarge;
  admittance_[branch] = Scalar{};
  emf_[branch] = tooLarge ? Scalar{} : emf;
}

template <class Scalar>
void Solver<Scalar>::solve() {
  factorAll();
  overflown_ = !substitute(volts_);
  if (overflown_) std::fill(volts_.begin(), volts_.end(), Scalar{});
}

template <class Scalar>
void Solver<Scalar>::solveLate() {
  const auto from = at(plan_->lateFrom_);
  if (from == volts_.size()) return solve();
  factorAll();
  overflown_ = !substitute(volts_, from);
  if (overflown_) std::fill(volts_.begin(), volts_.end(), Scalar{});
}

template <class Scalar>
void Solver<Scalar>::add(std::size_t branch) {
  const Plan::Ends& end = plan_->ends_[branch];
  Slot& slot = slots_[at(end.slot)];
  slot.share += admittance_[branch];
  if (emf_[branch] == Scalar{}) return;
  const Scalar amps = product(admittance_[branch], emf_[branch]);
  slot.drive += end.a < end.b ? amps : -amps;
}

template <class Scalar>
void Solver<Scalar>::stampTrunk() {
  std::fill(slots_.begin(), slots_.end(), Slot{});
  const int late = plan_->lateSlot();
  for (std::size_t branch = 0; branch < admittance_.size(); ++branch)
    if (plan_->ends_[branch].slot < late) add(branch);
}

template <class Scalar>
void Solver<Scalar>::factorAll() {
  const auto from = at(plan_->lateFrom_);
  const auto late = slots_.begin() + plan_->lateSlot();
  ++solves_;
  taken_ += trunkKnown_ ? plan_->slots() - plan_->lateSlot() : plan_->slots();
  if (trunkKnown_) {
    std::copy(trunk_.begin(), trunk_.end(), late);
  } else {
    stampTrunk();
    lost_ = false;
    factor(0, from);
    trunkLost_ = lost_;
    std::copy(late, late + static_cast<std::ptrdiff_t>(trunk_.size()), trunk_.begin());
    trunkKnown_ = true;
    trunkRooted_ = false;
  }
  for (const int branch : plan_->lateBranches_) add(at(branch));
  lost_ = trunkLost_;
  factor(from, ohms_.size());
  partsKnown_ = false;
  solved_ = true;
}

/// Star to mesh, node by node: with s_j the share of neighbour j in the node's sum, the mesh branch between
/// two neighbours gains the admittance s_j y_l and the EMF difference between its two legs.
template <class Scalar>
void Solver<Scalar>::factor(std::size_t from, std::size_t to) {
  const Plan::Step* step = plan_->step_.data();
  const int* pair = plan_->pair_.data();
  for (std::size_t position = from; position < to; ++position) {
    Slot* const first = slots_.data() + step[position].slot;
    Slot* const end = slots_.data() + step[position + 1].slot;
    Scalar sum{};
    Scalar drive{};
    for (const Slot* slot = first; slot < end; ++slot) {
      sum += slot->share;
      drive += slot->drive;
    }
    const double size = square(sum);
    if (!(size >= leastSquare && size <= greatestSquare)) {
      ohms_[position] = driven_[position] = Scalar{};
      setAside(first, end);
      continue;
    }
    const Scalar ohms = reciprocal(sum, size);
    ohms_[position] = ohms;
    driven_[position] = product(drive, ohms);
    if (end - first == 1) {
      first->share = Scalar{1};
      continue;
    }
    const int* target = pair + step[position].pair;
    for (Slot* slot = first; slot < end; ++slot) {
      if (slot->share == Scalar{}) {
        target += end - slot - 1;
        continue;
      }
      const Scalar share = slot->share = product(slot->share, ohms);
      const Scalar volts = product(slot->drive, ohms);
      for (const Slot* other = slot + 1; other < end; ++other) {
        Slot& mesh = slots_[at(*target++)];
        mesh.share += product(share, other->share);
        mesh.drive += product(share, other->drive) - product(volts, other->share);
      }
    }
  }
}

/// A node whose admittances to later nodes sum to nothing is a reference. Terms that cancelled are a
/// resonance; the node then stands apart, so that nothing infinite spreads.
template <class Scalar>
void Solver<Scalar>::setAside(Slot* first, const Slot* end) {
  for (; first < end; ++first) {
    if (first->share != Scalar{}) lost_ = true;
    first->share = Scalar{};
  }
}

/// From the volts each node has over the mean of its later neighbours to volts over the reference, down to
/// that position; false where they are no numbers.
template <class Scalar>
bool Solver<Scalar>::substitute(std::vector<Scalar>& volts, std::size_t from) const {
  const int* column = plan_->column_.data();
  const std::vector<Scalar>& driven = &volts == &volts_ ? driven_ : volts;
  double finite = 0;
  for (std::size_t position = volts.size(); position-- > from;) {
    const std::size_t end = at(plan_->step_[position + 1].slot);
    Scalar sum = driven[position];
    for (std::size_t slot = at(plan_->step_[position].slot); slot < end; ++slot)
      sum += product(slots_[slot].share, volts[at(column[slot])]);
    volts[position] = sum;
    finite += finiteness(sum);
  }
  return finite == 0;
}

/// A node hangs together with the first later neighbour that has a share in it, and stands alone where it is
/// a reference. What leads to a late node stops there.
template <class Scalar>
void Solver<Scalar>::followShares(std::size_t from, std::size_t to) const {
  for (std::size_t position = to; position-- > from;) {
    std::size_t slot = at(plan_->step_[position].slot);
    const std::size_t end = at(plan_->step_[position + 1].slot);
    while (slot < end && slots_[slot].share == Scalar{}) ++slot;
    const int next = slot == end ? static_cast<int>(position) : plan_->column_[slot];
    root_[position] = at(next) >= to || at(next) == position ? next : root_[at(next)];
  }
}

template <class Scalar>
void Solver<Scalar>::joinBranches() const {
  const auto root = [](std::vector<int>& parent, int node) {
    while (parent[at(node)] != node) node = parent[at(node)] = parent[at(parent[at(node)])];
    return node;
  };
  const auto join = [&](std::vector<int>& parent, bool capacitive) {
    const auto& branches = plan_->pattern().branches;
    for (std::size_t i = 0; i < branches.size(); ++i) {
      if (branches[i].capacitive != capacitive || admittance_[i] == Scalar{}) continue;
      const int a = root(parent, branches[i].a);
      const int b = root(parent, branches[i].b);
      parent[at(std::max(a, b))] = std::min(a, b);
    }
    for (int& up : parent) up = parent[at(up)];  // a parent has a smaller number, so one pass is enough
  };
  for (int node = 0; node < plan_->nodes(); ++node) solidPart_[at(node)] = node;
  join(solidPart_, false);
  std::copy(solidPart_.begin(), solidPart_.end(), part_.begin());
  join(part_, true);
}

/// The shares know it already where nothing is capacitive and nothing was set aside for a resonance.
template <class Scalar>
void Solver<Scalar>::findParts() const {
  joined_ = plan_->ghosts_ || lost_;
  partsKnown_ = true;
  if (joined_) return joinBranches();
  const auto late = at(plan_->lateFrom_);
  followShares(late, root_.size());
  if (!trunkRooted_) followShares(0, late);
  trunkRooted_ = true;
}

template <class Scalar>
Quality Solver<Scalar>::quality(int a, int b) const {
  if (!solved_) return Quality::floating;
  if (!partsKnown_) findParts();
  if (!joined_) {
    const auto root = [&](int node) { return root_[at(root_[place(node)])]; };
    return root(a) == root(b) ? Quality::solid : Quality::floating;
  }
  if (solidPart_[at(a)] == solidPart_[at(b)]) return Quality::solid;
  return part_[at(a)] == part_[at(b)] ? Quality::ghost : Quality::floating;
}

template <class Scalar>
Reading<Scalar> Solver<Scalar>::read(int a, int b) const {
  const Quality found = quality(a, b);
  if (found == Quality::floating || overflown_) return {std::nullopt, found};
  return {voltage(a, b), found};
}

template <class Scalar>
Scalar Solver<Scalar>::current(int branch) const {
  const Plan::Ends& end = plan_->ends_[at(branch)];
  if (end.a == end.b) return Scalar{} - product(admittance_[at(branch)], emf_[at(branch)]);
  return product(admittance_[at(branch)], volts_[at(end.a)] - volts_[at(end.b)] - emf_[at(branch)]);
}

template <class Scalar>
void Solver<Scalar>::solvePort(int a, int b, std::span<Scalar> volts) {
  assert(volts.size() == volts_.size());
  std::fill(volts.begin(), volts.end(), Scalar{});
  if (!readable(a, b) || a == b) return;
  std::fill(port_.begin(), port_.end(), Scalar{});
  port_[place(a)] = Scalar{1};
  port_[place(b)] = Scalar{-1};
  for (std::size_t position = 0; position < port_.size(); ++position) {
    const Scalar amps = port_[position];
    if (amps == Scalar{}) continue;
    const std::size_t end = at(plan_->step_[position + 1].slot);
    for (std::size_t slot = at(plan_->step_[position].slot); slot < end; ++slot)
      port_[at(plan_->column_[slot])] += product(slots_[slot].share, amps);
    port_[position] = product(amps, ohms_[position]);
  }
  if (!substitute(port_)) return;
  for (int node = 0; node < plan_->nodes(); ++node) volts[at(node)] = port_[place(node)];
}

/// The sum of (forward-substituted amps) squared over the node sums, along the two paths that a and b have to
/// their reference in the elimination tree; no other node takes part.
template <class Scalar>
Scalar Solver<Scalar>::portImpedance(int a, int b) {
  const Plan& plan = *plan_;
  const auto parent = [&](std::size_t position) {
    const std::size_t slot = at(plan.step_[position].slot);
    return slot == at(plan.step_[position + 1].slot) ? ohms_.size() : at(plan.column_[slot]);
  };
  std::size_t one = place(a);
  std::size_t other = place(b);
  for (std::size_t up = one; up < ohms_.size(); up = parent(up)) port_[up] = Scalar{};
  for (std::size_t up = other; up < ohms_.size(); up = parent(up)) port_[up] = Scalar{};
  port_[one] = Scalar{1};
  port_[other] = Scalar{-1};
  Scalar impedance{};
  while (std::min(one, other) < ohms_.size()) {
    const std::size_t position = std::min(one, other);
    const Scalar amps = port_[position];
    impedance += product(product(amps, amps), ohms_[position]);
    const std::size_t end = at(plan.step_[position + 1].slot);
    for (std::size_t slot = at(plan.step_[position].slot); slot < end; ++slot)
      port_[at(plan.column_[slot])] += product(slots_[slot].share, amps);
    if (other == position) other = parent(other);
    if (one == position) one = parent(one);
  }
  return impedance;
}

template <class Scalar>
void Solver<Scalar>::portOhms(std::span<const Branch> ports, std::span<Scalar> ohms) {
  assert(ohms.size() == ports.size() * ports.size());
  std::size_t first = ohms_.size();
  for (const Branch& port : ports) first = std::min({first, place(port.a), place(port.b)});
  const std::size_t width = ohms_.size() - first;
  if (ports_.size() < ports.size() * width) ports_.resize(ports.size() * width);
  for (std::size_t i = 0; i < ports.size(); ++i) {
    Scalar* const amps = ports_.data() + i * width;
    std::fill(amps, amps + width, Scalar{});
    if (ports[i].a == ports[i].b) continue;
    amps[place(ports[i].a) - first] = Scalar{1};
    amps[place(ports[i].b) - first] = Scalar{-1};
    for (std::size_t position = first; position < ohms_.size(); ++position) {
      const Scalar here = amps[position - first];
      if (here == Scalar{}) continue;
      const std::size_t end = at(plan_->step_[position + 1].slot);
      for (std::size_t slot = at(plan_->step_[position].slot); slot < end; ++slot)
        amps[at(plan_->column_[slot]) - first] += product(slots_[slot].share, here);
    }
  }
  for (std::size_t i = 0; i < ports.size(); ++i) {
    Scalar* const amps = ports_.data() + i * width;
    for (std::size_t j = 0; j < i; ++j) {
      Scalar sum{};  // the rows before have been made volts
      for (std::size_t k = 0; k < width; ++k) sum += product(amps[k], ports_[j * width + k]);
      ohms[i * ports.size() + j] = ohms[j * ports.size() + i] = sum;
    }
    Scalar own{};
    for (std::size_t k = 0; k < width; ++k) {
      const Scalar volts = product(amps[k], ohms_[first + k]);
      own += product(amps[k], volts);
      amps[k] = volts;
    }
    ohms[i * ports.size() + i] = own;
  }
}

template <class Scalar>
Port<Scalar> Solver<Scalar>::thevenin(int a, int b) {
  const Quality found = quality(a, b);
  if (found == Quality::floating || a == b) return {found, {}, {}};
  const Scalar impedance = portImpedance(a, b);
  if (overflown_ || finiteness(impedance) != 0) return {Quality::floating, {}, {}};
  return {found, voltage(a, b), impedance};
}

template <class Scalar>
Reading<Scalar> Solver<Scalar>::readThrough(int a, int b, Scalar meterImpedance) {
  const Port<Scalar> port = thevenin(a, b);
  if (port.quality == Quality::floating) return {std::nullopt, quality(a, b)};
  if (finiteness(meterImpedance) != 0) return {port.openVolts, port.quality};
  const Scalar loop = meterImpedance + port.impedance;
  const double size = square(loop);
  if (!(size >= leastSquare && size <= greatestSquare)) return {std::nullopt, port.quality};
  return {product(port.openVolts, product(meterImpedance, reciprocal(loop, size))), port.quality};
}

template class Solver<double>;
template class Solver<Phasor>;

}  // namespace ww::circuit
