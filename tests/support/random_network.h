// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "support/dense_oracle.h"

#include <cmath>
#include <cstdint>
#include <random>

// Seeded random networks of passive branches and EMFs.

namespace ww::oracle {

/// Numbers that are the same with every standard library.
class Random {
 public:
  explicit Random(std::uint64_t seed) : engine_(seed) {}
  int below(int limit) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(limit)); }
  double uniform(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53;
  }
  double logUniform(double low, double high) { return std::exp(uniform(std::log(low), std::log(high))); }
  bool chance(double probability) { return uniform(0, 1) < probability; }

 private:
  std::mt19937_64 engine_;
};

/// A tree with extra branches across it, some parallel, like the wiring between a few units.
inline std::vector<Branch> randomWiring(Random& random, int nodes, int extra) {
  std::vector<Branch> branches;
  for (int node = 1; node < nodes; ++node)
    branches.push_back({node, std::max(0, node - 1 - random.below(6)), {}, {}});
  for (int i = 0; i < extra; ++i) {
    const int a = random.below(nodes);
    branches.push_back({a, random.below(nodes), {}, {}});
  }
  return branches;
}

/// Ohmic or inductive admittances between 1e-6 and 50 S (only ohmic when `direct`), an EMF on some.
inline void electrify(Random& random, std::vector<Branch>& branches, bool direct) {
  for (Branch& branch : branches) {
    const double size = random.logUniform(1e-6, 50);
    const double angle = direct ? 0 : random.uniform(-1.4, 0);
    branch.admittance = Long(std::polar<double>(size, angle));
    branch.emf = {};
    if (!random.chance(0.2)) continue;
    branch.emf = Long(random.uniform(-30, 30), direct ? 0 : random.uniform(-30, 30));
  }
}

}  // namespace ww::oracle
