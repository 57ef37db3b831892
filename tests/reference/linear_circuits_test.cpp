// SPDX-License-Identifier: GPL-3.0-or-later

// Three ways to solve the same random circuits of resistances, inductances, capacitances and sources: the
// star-mesh solver, dense elimination in extended precision, and ngspice (the program of that name, as a
// library). Agreement is |dv| <= 1e-6 |v| + 1 uV inside each part.

#include "support/three_ways.h"

#include <gtest/gtest.h>

using namespace ww::circuit;
using namespace ww::threeways;
using ww::spice::Simulator;

namespace {

void expectAgreement(const Circuit& circuit, bool direct) {
  Certificate certificate;
  const auto volts = ours(circuit, direct, certificate);
  const Truth truth = textbook(circuit, direct);
  EXPECT_TRUE(certificate.tight() || certificate.resonant);
  auto& spice = Simulator::instance();
  const std::string text = netlist(circuit, direct);
  ASSERT_TRUE(spice.load(text)) << spice.messages();
  ASSERT_TRUE(direct ? spice.runOp() : spice.runAc(hertz)) << text << spice.messages();
  for (int node = 0; node < circuit.nodes; ++node) {
    const auto at = static_cast<std::size_t>(node);
    const auto first = static_cast<std::size_t>(truth.part[at]);
    const auto there = spice.volts(name(node));
    const auto thereFirst = spice.volts(name(truth.part[at]));
    // A node that nothing but its leak touches is known to ngspice all the same.
    ASSERT_TRUE(there && thereFirst) << text << spice.messages();
    const Phasor want = truth.volts[at] - truth.volts[first];
    const double tolerance = 1e-6 * std::abs(want) + 1e-6;
    EXPECT_NEAR(std::abs(volts[at] - volts[first] - want), 0, tolerance) << "textbook, node " << node;
    EXPECT_NEAR(std::abs(*there - *thereFirst - want), 0, tolerance) << "ngspice, node " << node << "\n"
                                                                     << text;
  }
}

TEST(LinearCircuits, AlternatingThreeWays) {
  for (std::uint64_t seed = 1; seed <= 500; ++seed) {
    SCOPED_TRACE(seed);
    Random random(seed);
    expectAgreement(randomCircuit(random, false), false);
    if (HasFailure()) return;
  }
}

TEST(LinearCircuitsLong, AlternatingThreeWays) {
  for (std::uint64_t seed = 100000; seed < 110000; ++seed) {
    SCOPED_TRACE(seed);
    Random random(seed);
    expectAgreement(randomCircuit(random, false), false);
    if (HasFailure()) return;
  }
}

TEST(LinearCircuits, DirectThreeWays) {
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    SCOPED_TRACE(seed);
    Random random(10000 + seed);
    auto circuit = randomCircuit(random, true);
    for (Element& element : circuit.elements) element.henries = 0;
    expectAgreement(circuit, true);
    if (HasFailure()) return;
  }
}

TEST(LinearCircuits, AnIslandThatNothingTiesDownHasNoVoltsThere) {
  // ngspice needs a path to node 0; we read the island from its own reference.
  auto& spice = Simulator::instance();
  ASSERT_TRUE(
      spice.load("island\n.options noopac\nv1 n1 0 dc 0 ac 24\nr1 n1 0 10\nv2 n2 n3 dc 0 ac 9\nr2 n2 n3 3\n"))
      << spice.messages();
  const bool ran = spice.runAc(hertz);
  const auto n2 = spice.volts("n2");
  const auto n3 = spice.volts("n3");
  if (ran && n2 && n3) {
    EXPECT_NEAR(std::abs(*n2 - *n3), 9, 1e-6);
  }

  Solver<Phasor> solver(makePlan({4, {{1, 0}, {1, 0}, {2, 3}, {2, 3}}}));
  solver.setBranch(0, 1e9, 24);
  solver.setBranch(1, 0.1);
  solver.setBranch(2, 1e9, 9);
  solver.setBranch(3, 1.0 / 3);
  solver.solve();
  EXPECT_EQ(solver.quality(2, 0), Quality::floating);
  EXPECT_NEAR(std::abs(*solver.read(2, 3).value), 9, 1e-7);
}

TEST(LinearCircuits, ASimulatorThatIsGivenNonsenseSaysSo) {
  auto& spice = Simulator::instance();
  EXPECT_FALSE(spice.load("nonsense\nr1 n1 0 banana\n") && spice.runAc(hertz) && spice.volts("n1"));
  ASSERT_TRUE(spice.load("sense\n.options noopac\nv1 n1 0 dc 0 ac 24\nr1 n1 n2 2\nr2 n2 0 6\n"));
  ASSERT_TRUE(spice.runAc(hertz)) << spice.messages();
  EXPECT_NEAR(spice.volts("n2").value().real(), 18, 1e-12);
  EXPECT_FALSE(spice.volts("n3"));
  EXPECT_NEAR(spice.amps("v1").value().real(), -3, 1e-12);
}

}  // namespace
