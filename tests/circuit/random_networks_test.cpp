// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/solver.h"
#include "support/dense_oracle.h"
#include "support/random_network.h"

#include <gtest/gtest.h>

using namespace ww::circuit;
using ww::oracle::Long;
using ww::oracle::Random;

namespace {

double scalar(const Long& value, double) { return static_cast<double>(value.real()); }
Phasor scalar(const Long& value, Phasor) { return Phasor(value); }

std::shared_ptr<const Plan> planOf(int nodes, const std::vector<ww::oracle::Branch>& branches) {
  Pattern pattern{nodes, {}};
  for (const auto& branch : branches) pattern.branches.push_back({branch.a, branch.b});
  return makePlan(std::move(pattern));
}

template <class Scalar>
void load(Solver<Scalar>& solver, const std::vector<ww::oracle::Branch>& branches) {
  for (std::size_t i = 0; i < branches.size(); ++i)
    solver.setBranch(static_cast<int>(i), scalar(branches[i].admittance, Scalar{}),
                     scalar(branches[i].emf, Scalar{}));
}

/// Every node against the first of its part, and every pair's quality.
template <class Scalar>
void compare(const Solver<Scalar>& solver, const ww::oracle::Solution& truth) {
  const int nodes = solver.plan().nodes();
  for (int node = 0; node < nodes; ++node) {
    const int first = truth.part[static_cast<std::size_t>(node)];
    const Scalar want = scalar(truth.volts[static_cast<std::size_t>(node)], Scalar{});
    ASSERT_NEAR(std::abs(solver.voltage(node, first) - want), 0, 1e-8 * (1 + std::abs(want)));
    for (int other = 0; other < nodes; ++other)
      ASSERT_EQ(solver.readable(node, other), first == truth.part[static_cast<std::size_t>(other)]);
  }
}

template <class Scalar>
class RandomNetworks : public testing::Test {
 public:
  static constexpr bool direct = std::is_same_v<Scalar, double>;
};
using Scalars = testing::Types<double, Phasor>;
TYPED_TEST_SUITE(RandomNetworks, Scalars);

TYPED_TEST(RandomNetworks, AgreeWithTheTextbook) {
  for (std::uint64_t seed = 1; seed <= 150; ++seed) {
    SCOPED_TRACE(seed);
    Random random(seed);
    const int nodes = 2 + random.below(40);
    auto branches = ww::oracle::randomWiring(random, nodes, random.below(nodes));
    ww::oracle::electrify(random, branches, TestFixture::direct);
    Solver<TypeParam> solver(planOf(nodes, branches));
    load(solver, branches);
    solver.solve();
    compare(solver, ww::oracle::solve(nodes, branches));
    const Certificate certificate = solver.certificate();
    ASSERT_TRUE(certificate.tight()) << certificate.kcl << " " << certificate.power;
    if (this->HasFatalFailure()) return;
  }
}

TYPED_TEST(RandomNetworks, AgreeAfterAnyOpening) {
  for (std::uint64_t seed = 1; seed <= 20; ++seed) {
    SCOPED_TRACE(seed);
    Random random(1000 + seed);
    const int nodes = 5 + random.below(30);
    auto branches = ww::oracle::randomWiring(random, nodes, nodes / 2);
    ww::oracle::electrify(random, branches, TestFixture::direct);
    const auto whole = branches;
    Solver<TypeParam> solver(planOf(nodes, branches));
    load(solver, branches);
    for (int step = 0; step < 25; ++step) {
      const int which = random.below(static_cast<int>(branches.size()));
      auto& branch = branches[static_cast<std::size_t>(which)];
      branch.admittance = random.chance(0.7) ? Long{} : whole[static_cast<std::size_t>(which)].admittance;
      solver.setBranch(which, scalar(branch.admittance, TypeParam{}), scalar(branch.emf, TypeParam{}));
      solver.solve();
      compare(solver, ww::oracle::solve(nodes, branches));
      ASSERT_TRUE(solver.certificate().tight());
      if (this->HasFatalFailure()) return;
    }
  }
}

TYPED_TEST(RandomNetworks, PortsAgreeWithAnInjectedAmpere) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE(seed);
    Random random(2000 + seed);
    const int nodes = 3 + random.below(30);
    auto branches = ww::oracle::randomWiring(random, nodes, random.below(nodes));
    ww::oracle::electrify(random, branches, TestFixture::direct);
    Solver<TypeParam> solver(planOf(nodes, branches));
    load(solver, branches);
    solver.solve();
    const int a = random.below(nodes);
    const int b = (a + 1 + random.below(nodes - 1)) % nodes;
    auto dead = branches;
    for (auto& branch : dead) branch.emf = {};
    std::vector<Long> amps(static_cast<std::size_t>(nodes));
    amps[static_cast<std::size_t>(a)] = 1;
    amps[static_cast<std::size_t>(b)] = -1;
    const auto truth = ww::oracle::solve(nodes, dead, amps);
    std::vector<TypeParam> volts(static_cast<std::size_t>(nodes));
    solver.solvePort(a, b, volts);
    for (std::size_t node = 0; node < volts.size(); ++node) {
      const TypeParam want = scalar(truth.volts[node], TypeParam{});
      const TypeParam got = volts[node] - volts[static_cast<std::size_t>(truth.part[node])];
      ASSERT_NEAR(std::abs(got - want), 0, 1e-8 * (1 + std::abs(want)));
    }
    const auto port = solver.thevenin(a, b);
    const TypeParam across = volts[static_cast<std::size_t>(a)] - volts[static_cast<std::size_t>(b)];
    ASSERT_NEAR(std::abs(port.impedance - across), 0, 1e-9 * std::abs(across));
    ASSERT_EQ(port.openVolts, solver.voltage(a, b));
  }
}

TYPED_TEST(RandomNetworks, AMeterReadsWhatABranchInItsPlaceWould) {
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE(seed);
    Random random(3000 + seed);
    const int nodes = 3 + random.below(20);
    auto branches = ww::oracle::randomWiring(random, nodes, random.below(nodes));
    ww::oracle::electrify(random, branches, TestFixture::direct);
    const int a = random.below(nodes);
    const int b = (a + 1 + random.below(nodes - 1)) % nodes;
    branches.push_back({a, b, {}, {}});
    Solver<TypeParam> solver(planOf(nodes, branches));
    load(solver, branches);
    solver.solve();
    const double ohms = random.logUniform(1, 1e7);
    const auto shown = solver.readThrough(a, b, ohms);
    solver.setBranch(static_cast<int>(branches.size()) - 1, 1 / ohms);
    solver.solve();
    const TypeParam want = solver.voltage(a, b);
    ASSERT_NEAR(std::abs(*shown.value - want), 0, 1e-10 * (1 + std::abs(want)));
  }
}

TYPED_TEST(RandomNetworks, TheSameEveryTime) {
  Random random(4000);
  auto branches = ww::oracle::randomWiring(random, 50, 40);
  ww::oracle::electrify(random, branches, TestFixture::direct);
  Solver<TypeParam> one(planOf(50, branches));
  load(one, branches);
  one.solve();
  Solver<TypeParam> other(planOf(50, branches));
  for (int round = 0; round < 3; ++round) {
    other.clear();
    load(other, branches);
    other.solve();
  }
  const Solver<TypeParam> copy = other;
  for (int node = 0; node < 50; ++node) {
    EXPECT_EQ(one.voltage(node), other.voltage(node));
    EXPECT_EQ(one.voltage(node), copy.voltage(node));
  }
}

TYPED_TEST(RandomNetworks, TheCertificateCatchesVoltsThatDoNotBelong) {
  // The volts of one solve held against branches changed since: every change that moves anything shows,
  // also inside an island far smaller than the rest.
  int caught = 0;
  for (std::uint64_t seed = 1; seed <= 40; ++seed) {
    SCOPED_TRACE(seed);
    Random random(5000 + seed);
    const int nodes = 20;
    auto branches = ww::oracle::randomWiring(random, nodes, 12);
    ww::oracle::electrify(random, branches, TestFixture::direct);
    branches.push_back({nodes, nodes + 1, 1e-6L, 1e-3L});  // an island with a nanoampere of its own
    branches.push_back({nodes, nodes + 1, 1e-6L, {}});
    Solver<TypeParam> solver(planOf(nodes + 2, branches));
    load(solver, branches);
    solver.solve();
    ASSERT_TRUE(solver.certificate().tight());
    const int island = static_cast<int>(branches.size()) - 1;
    solver.setBranch(island, 1e-6 * (1 + 1e-6));
    EXPECT_GT(solver.certificate().kcl, 1e-7);
    EXPECT_FALSE(solver.certificate().tight());
    solver.setBranch(island, 1e-6);
    const int which = random.below(island - 1);
    if (std::abs(solver.current(which)) < 1e-6) continue;
    solver.setBranch(which, 1.001 * solver.admittance(which), solver.emf(which));
    EXPECT_FALSE(solver.certificate().tight());
    ++caught;
  }
  EXPECT_GT(caught, 20);
}

}  // namespace
