// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/plan.h"

#include <algorithm>
#include <cassert>
#include <set>
#include <unordered_map>
#include <utility>

namespace ww::circuit {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

std::uint64_t key(int a, int b) {
  const auto [low, high] = std::minmax(a, b);
  return static_cast<std::uint64_t>(low) << 32 | static_cast<std::uint64_t>(high);
}

/// The graph while its nodes are eliminated one by one. Neighbours already gone stay in the lists and are
/// passed over, so that a node with hundreds of neighbours costs no more than others.
class Elimination {
 public:
  explicit Elimination(const Pattern& pattern)
      : neighbours_(at(pattern.nodes)), degree_(at(pattern.nodes)), gone_(at(pattern.nodes)) {
    for (const Branch& branch : pattern.branches)
      if (branch.a != branch.b) join(branch.a, branch.b);
    // More than any node has neighbours, so that every late node waits behind all others.
    for (int node : pattern.late)
      if (degree_[at(node)] < pattern.nodes) degree_[at(node)] += pattern.nodes;
    for (int node = 0; node < pattern.nodes; ++node) waiting_.insert({degree_[at(node)], node});
  }

  bool done() const { return waiting_.empty(); }
  /// Only late nodes are left.
  bool late() const { return done() || waiting_.begin()->first >= static_cast<int>(degree_.size()); }

  /// Takes the node of least degree out, meshes its neighbours and returns both.
  std::pair<int, std::vector<int>> next() {
    const int node = waiting_.begin()->second;
    waiting_.erase(waiting_.begin());
    gone_[at(node)] = true;
    std::vector<int> later;
    for (int other : neighbours_[at(node)])
      if (!gone_[at(other)]) later.push_back(other);
    for (int other : later) waiting_.erase({degree_[at(other)], other});
    for (std::size_t i = 0; i < later.size(); ++i)
      for (std::size_t j = i + 1; j < later.size(); ++j) join(later[i], later[j]);
    for (int other : later) waiting_.insert({--degree_[at(other)], other});
    neighbours_[at(node)] = {};
    return {node, std::move(later)};
  }

 private:
  void join(int a, int b) {
    if (!edges_.insert({key(a, b), 0}).second) return;
    neighbours_[at(a)].push_back(b);
    neighbours_[at(b)].push_back(a);
    ++degree_[at(a)];
    ++degree_[at(b)];
  }

  std::vector<std::vector<int>> neighbours_;
  std::vector<int> degree_;
  std::vector<bool> gone_;
  std::unordered_map<std::uint64_t, char> edges_;
  std::set<std::pair<int, int>> waiting_;
};

}  // namespace

std::shared_ptr<const Plan> makePlan(Pattern pattern) {
  assert(pattern.nodes >= 0);
  auto plan = std::make_shared<Plan>();
  std::vector<std::vector<int>> later;  // by position, first as nodes, then as positions
  plan->position_.resize(at(pattern.nodes));
  for (Elimination elimination(pattern); !elimination.done();) {
    if (!elimination.late()) plan->lateFrom_ = static_cast<int>(later.size()) + 1;
    auto [node, others] = elimination.next();
    plan->position_[at(node)] = static_cast<int>(later.size());
    later.push_back(std::move(others));
  }
  std::unordered_map<std::uint64_t, int> slot;
  for (int position = 0; position < pattern.nodes; ++position) {
    auto& others = later[at(position)];
    for (int& other : others) other = plan->position_[at(other)];
    std::sort(others.begin(), others.end());
    plan->step_.push_back({static_cast<int>(plan->column_.size()), 0});
    for (int other : others) {
      slot[key(position, other)] = static_cast<int>(plan->column_.size());
      plan->column_.push_back(other);
    }
  }
  plan->step_.push_back({static_cast<int>(plan->column_.size()), 0});
  for (int position = 0; position < pattern.nodes; ++position) {
    plan->step_[at(position)].pair = static_cast<int>(plan->pair_.size());
    const auto& others = later[at(position)];
    for (std::size_t i = 0; i < others.size(); ++i)
      for (std::size_t j = i + 1; j < others.size(); ++j)
        plan->pair_.push_back(slot.at(key(others[i], others[j])));
  }
  plan->step_.back().pair = static_cast<int>(plan->pair_.size());
  for (const Branch& branch : pattern.branches) {
    assert(branch.a >= 0 && branch.a < pattern.nodes && branch.b >= 0 && branch.b < pattern.nodes);
    const int a = plan->position_[at(branch.a)];
    const int b = plan->position_[at(branch.b)];
    plan->ends_.push_back({a == b ? plan->slots() : slot.at(key(a, b)), a, b});
    plan->ghosts_ |= branch.capacitive;
  }
  for (int branch = 0; branch < static_cast<int>(plan->ends_.size()); ++branch)
    if (plan->isLate(branch)) plan->lateBranches_.push_back(branch);
  plan->pattern_ = std::move(pattern);
  return plan;
}

std::int64_t Plan::operations() const {
  return static_cast<std::int64_t>(pair_.size()) + 2 * static_cast<std::int64_t>(column_.size()) + nodes() +
         branches();
}

}  // namespace ww::circuit
