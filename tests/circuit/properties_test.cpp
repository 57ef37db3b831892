// SPDX-License-Identifier: GPL-3.0-or-later
// What every linear network of passive branches obeys, on random ones.
#include "circuit/solver.h"
#include "support/random_network.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

using namespace ww::circuit;
using ww::oracle::Random;

namespace {

constexpr int kSeeds = 60;

struct Network {
  int nodes = 0;
  std::vector<ww::oracle::Branch> branches;
};

Network drawn(std::uint64_t seed) {
  Random random(seed);
  Network network{3 + random.below(40), {}};
  network.branches = ww::oracle::randomWiring(random, network.nodes, random.below(network.nodes));
  ww::oracle::electrify(random, network.branches, false);
  return network;
}

Solver<Phasor> solved(const Network& network, const std::vector<char>* emfOn = nullptr) {
  Pattern pattern{network.nodes, {}};
  for (const auto& branch : network.branches) pattern.branches.push_back({branch.a, branch.b});
  Solver<Phasor> solver(makePlan(std::move(pattern)));
  for (std::size_t i = 0; i < network.branches.size(); ++i) {
    const bool on = emfOn == nullptr || (*emfOn)[i];
    solver.setBranch(static_cast<int>(i), Phasor(network.branches[i].admittance),
                     on ? Phasor(network.branches[i].emf) : Phasor{});
  }
  solver.solve();
  return solver;
}

TEST(Properties, Reciprocity) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    auto solver = solved(drawn(seed));
    const int n = solver.plan().nodes();
    std::vector<Phasor> there(static_cast<std::size_t>(n)), back(there);
    // Volts at one port for an ampere into another are the same the other way round.
    solver.solvePort(0, n - 1, there);
    solver.solvePort(1, n / 2, back);
    const Phasor one = there[1] - there[static_cast<std::size_t>(n / 2)];
    const Phasor other = back[0] - back[static_cast<std::size_t>(n - 1)];
    EXPECT_NEAR(std::abs(one - other), 0, 1e-9 * std::abs(one) + 1e-9);
  }
}

TEST(Properties, Superposition) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    const Network network = drawn(seed);
    const auto whole = solved(network);
    const auto half = [&](bool even) {
      std::vector<char> on(network.branches.size());
      for (std::size_t i = 0; i < on.size(); ++i) on[i] = (i % 2 == 0) == even;
      return solved(network, &on);
    };
    const auto one = half(true), other = half(false);
    for (int node = 1; node < network.nodes; ++node) {
      if (!whole.readable(node, 0)) continue;
      const Phasor sum = one.voltage(node, 0) + other.voltage(node, 0);
      EXPECT_NEAR(std::abs(sum - whole.voltage(node, 0)), 0, 1e-9 * (1 + std::abs(sum)));
    }
  }
}

TEST(Properties, PowerBalance) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    const Network network = drawn(seed);
    const auto solver = solved(network);
    Phasor given{}, burnt{};
    double handled = 0;
    for (std::size_t i = 0; i < network.branches.size(); ++i) {
      const int branch = static_cast<int>(i);
      const Phasor amps = solver.current(branch);
      if (amps == Phasor{}) continue;
      const Phasor power = -solver.emf(branch) * std::conj(amps);
      given += power;
      handled += std::abs(power);
      burnt += std::norm(amps) / solver.admittance(branch);
    }
    EXPECT_NEAR(std::abs(given - burnt), 0, 1e-9 * handled + 1e-9);
    EXPECT_GE(burnt.real(), -1e-9 * handled) << "a passive network makes nothing";
  }
}

/// At most two branches between any pair: two sum to the same bits in either order, three need not.
Network withoutTriples(Network network) {
  std::vector<ww::oracle::Branch> kept;
  for (const auto& branch : network.branches) {
    const auto same = [&](const auto& other) {
      return std::minmax(other.a, other.b) == std::minmax(branch.a, branch.b);
    };
    if (std::count_if(kept.begin(), kept.end(), same) < 2) kept.push_back(branch);
  }
  network.branches = std::move(kept);
  return network;
}

TEST(Properties, ShuffledBranchesGiveTheSameBits) {
  for (std::uint64_t seed = 1; seed <= kSeeds; ++seed) {
    SCOPED_TRACE(seed);
    const Network network = withoutTriples(drawn(seed));
    const auto solver = solved(network);
    Network shuffled = network;
    std::mt19937_64 engine(seed);
    std::shuffle(shuffled.branches.begin(), shuffled.branches.end(), engine);
    const auto again = solved(shuffled);
    for (int node = 0; node < network.nodes; ++node) {
      const Phasor one = solver.voltage(node), other = again.voltage(node);
      ASSERT_EQ(one.real(), other.real()) << node;
      ASSERT_EQ(one.imag(), other.imag()) << node;
    }
  }
}

}  // namespace
