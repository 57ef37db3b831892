// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

namespace ww::circuit {

/// A place in a pattern where an admittance may stand, from node a to node b. A capacitive branch joins its
/// two sides only as a ghost: what hangs on capacitance alone shows volts on a meter but carries no load.
struct Branch {
  int a = 0;
  int b = 0;
  bool capacitive = false;
};

/// Every branch that may ever be present; nodes are 0 .. nodes-1, parallels are allowed, and a branch with
/// both ends on one node is allowed and has no effect on the rest. Node numbers out of range are a
/// programming error.
struct Pattern {
  int nodes = 0;
  std::vector<Branch> branches;
  /// Nodes that are eliminated after all others. What stands between two of them may change from solve to
  /// solve at the price of the last steps alone.
  std::vector<int> late{};
};

class Plan;

/// Orders the nodes of a pattern by minimum degree (ties by node number), late ones last, and lays out a slot
/// for every admittance and every fill-in. The time is near-linear in what the elimination itself will cost.
std::shared_ptr<const Plan> makePlan(Pattern pattern);

template <class Scalar>
class Solver;

/// The elimination programme of one pattern: immutable, deterministic, to be shared by any number of solvers
/// and threads.
class Plan {
 public:
  int nodes() const { return pattern_.nodes; }
  int branches() const { return static_cast<int>(pattern_.branches.size()); }
  const Pattern& pattern() const { return pattern_; }
  /// Admittances held, fill-in included.
  int slots() const { return static_cast<int>(column_.size()); }
  /// Multiply-adds of one factorisation with every branch present: a work counter that knows no clock.
  std::int64_t operations() const;
  /// Whether a branch stands between two late nodes.
  bool isLate(int branch) const { return ends_[static_cast<std::size_t>(branch)].slot >= lateSlot(); }

 private:
  friend std::shared_ptr<const Plan> makePlan(Pattern pattern);
  template <class Scalar>
  friend class Solver;

  struct Ends {
    int slot;  ///< where the admittance is summed; one past the last slot for a branch on a single node
    int a;     ///< position in the elimination order
    int b;
  };
  struct Step {
    int slot;  ///< first slot of this node; its later neighbours follow in order of elimination
    int pair;  ///< first entry in pair_, the slots that receive the mesh of those neighbours
  };

  int lateSlot() const { return step_[static_cast<std::size_t>(lateFrom_)].slot; }

  Pattern pattern_;
  int lateFrom_ = 0;               ///< position of the first late node
  bool ghosts_ = false;            ///< some branch is capacitive
  std::vector<int> lateBranches_;  ///< those between two late nodes
  std::vector<int> position_;      ///< node -> place in the elimination order
  std::vector<Step> step_;         ///< by position, with one closing entry
  std::vector<int> column_;        ///< slot -> position of the later neighbour
  std::vector<int> pair_;          ///< (0,1) (0,2) .. (1,2) .. of the neighbours of each step
  std::vector<Ends> ends_;         ///< by branch
};

}  // namespace ww::circuit
