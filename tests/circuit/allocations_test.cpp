// SPDX-License-Identifier: GPL-3.0-or-later
#include "circuit/power_port.h"
#include "support/random_network.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <new>

// The address sanitizer brings its own new and delete; there is nothing to count then.
#ifndef __SANITIZE_ADDRESS__

using namespace ww::circuit;

namespace {
long allocations = 0;
}

// Out of line, so that no compiler sees half of the pair and takes free() for a mismatch.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size)) return memory;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* memory) noexcept { std::free(memory); }
[[gnu::noinline]] void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace {

TEST(Allocations, SolvingAllocatesNothing) {
  ww::oracle::Random random(6);
  Pattern pattern{72, {}};
  for (const auto& branch : ww::oracle::randomWiring(random, pattern.nodes, 24))
    pattern.branches.push_back({branch.a, branch.b});
  const auto plan = makePlan(pattern);
  Solver<Phasor> solver(plan);
  std::vector<Phasor> volts(static_cast<std::size_t>(plan->nodes()));
  const long before = allocations;
  for (int branch = 0; branch < plan->branches(); ++branch) solver.setBranch(branch, {0.1, -0.2}, 1);
  solver.solve();
  solver.solvePort(3, 0, volts);
  const auto port = solver.thevenin(5, 2);
  const auto shown = solver.readThrough(5, 2, 1e7);
  const bool tight = solver.certificate().tight();
  EXPECT_EQ(allocations, before);
  EXPECT_EQ(port.quality, Quality::solid);
  EXPECT_TRUE(shown.value);
  EXPECT_TRUE(tight);
}

TEST(Allocations, LoadsOfConstantPowerAllocateNothingOnceTheyHaveBeenThere) {
  ww::oracle::Random random(7);
  Pattern pattern{40, {}};
  for (const auto& branch : ww::oracle::randomWiring(random, pattern.nodes, 12))
    pattern.branches.push_back({branch.a, branch.b});
  const int first = static_cast<int>(pattern.branches.size());
  for (const int node : {5, 9, 20}) pattern.branches.push_back({node, 0});
  pattern.late = {0, 5, 9, 20};
  Solver<Phasor> solver(makePlan(pattern));
  for (int branch = 0; branch < first; ++branch) solver.setBranch(branch, {2, -1}, branch == 0 ? 27 : 0);
  const std::vector<PowerPort> ports{{first, 0.5, 0}, {first + 1, 0.2, 0}, {first + 2, 0.1, 0}};
  ASSERT_EQ(solveWithConstantPower(solver, ports), PowerOutcome::settled);
  const long before = allocations;
  for (int k = 0; k < 10; ++k) {
    solver.setBranch(3, {1.0 + k, -1});
    solveWithConstantPower(solver, ports);
  }
  EXPECT_EQ(allocations, before);
}

}  // namespace

#endif
