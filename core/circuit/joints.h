// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <vector>

namespace ww::circuit {

/// Which of some numbered things are joined, directly or through others (union-find). The root of a group is
/// its smallest number, whatever the order of joining.
class Joints {
 public:
  explicit Joints(std::size_t count = 0) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0); }

  /// One more, joined to nothing.
  void add() { parent_.push_back(int(parent_.size())); }
  std::size_t count() const { return parent_.size(); }
  void join(int a, int b) {
    a = shortened(a);
    b = shortened(b);
    parent_[std::size_t(std::max(a, b))] = std::min(a, b);
  }
  int root(int one) const {
    while (up(one) != one) one = up(one);
    return one;
  }
  bool joined(int a, int b) const { return root(a) == root(b); }

 private:
  int up(int one) const { return parent_[std::size_t(one)]; }
  /// The root; the way to it is halved for whoever comes next.
  int shortened(int one) {
    while (up(one) != one) one = parent_[std::size_t(one)] = up(up(one));
    return one;
  }

  std::vector<int> parent_;
};

}  // namespace ww::circuit
