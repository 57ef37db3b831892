// SPDX-License-Identifier: GPL-3.0-or-later

// Three ways to solve the same random circuits of resistances, inductances, capacitances and sources: the
// star-mesh solver, dense elimination in extended precision, and ngspice (the program of that name, as a
// library). Agreement is |dv| <= 1e-6 |v| + 1 uV inside each part.

#include "circuit/solver.h"
#include "support/dense_oracle.h"
#include "support/random_network.h"
#include "support/spice.h"

#include <gtest/gtest.h>

#include <numbers>

using namespace ww::circuit;
using ww::oracle::Long;
using ww::oracle::Random;
using ww::spice::number;
using ww::spice::Simulator;

namespace {

constexpr double hertz = 60;
constexpr double omega = 2 * std::numbers::pi * hertz;
constexpr double leak = 1e-7;  // at 1e-9 S the rounding of ngspice comes through: it forms 100 S + leak

/// Ohms and henries in series, or farads, with a source in series.
struct Element {
  int a = 0;
  int b = 0;
  double ohms = 0;
  double henries = 0;
  double farads = 0;
  Phasor emf;
  bool present = true;
};

struct Circuit {
  int nodes = 0;
  std::vector<Element> elements;
};

Phasor admittance(const Element& element, bool direct) {
  if (!element.present) return {};
  if (direct) return element.farads > 0 ? 0 : 1 / element.ohms;
  if (element.farads > 0) return {0, omega * element.farads};
  return 1.0 / Phasor{element.ohms, omega * element.henries};
}

Circuit randomCircuit(Random& random, bool direct) {
  Circuit circuit{3 + random.below(30), {}};
  const auto wiring = ww::oracle::randomWiring(random, circuit.nodes, random.below(circuit.nodes));
  for (const auto& branch : wiring) {
    if (branch.a == branch.b) continue;
    Element element;
    element.a = branch.a;
    element.b = branch.b;
    switch (random.below(6)) {
      case 0:
      case 1: element.ohms = random.logUniform(0.01, 10); break;
      case 2: element.ohms = random.logUniform(10, 1e6); break;
      case 3: element.farads = random.logUniform(1e-10, 1e-6); break;
      default:
        element.ohms = random.logUniform(2, 200);
        element.henries = random.logUniform(0.01, 1);
        break;
    }
    if (element.ohms > 0 && random.chance(0.2))
      element.emf = direct ? random.uniform(5, 40) : std::polar(random.uniform(5, 40), random.uniform(-3, 3));
    element.present = !random.chance(0.12);
    circuit.elements.push_back(element);
  }
  return circuit;
}

std::string name(int node) { return node == 0 ? "0" : "n" + std::to_string(node); }

std::string netlist(const Circuit& circuit, bool direct) {
  std::string text = "random circuit\n.options noopac\n";
  int index = 0;
  const auto line = [&](const char* kind, const std::string& a, const std::string& b,
                        const std::string& rest) {
    text += kind + std::to_string(index) + " " + a + " " + b + " " + rest + "\n";
  };
  for (const Element& element : circuit.elements) {
    ++index;
    if (!element.present) continue;
    std::string from = name(element.a);
    const std::string to = name(element.b);
    if (element.emf != Phasor{}) {  // raises a over b: from b's side to a
      const std::string inner = "e" + std::to_string(index);
      line("v", from, inner,
           direct ? "dc " + number(element.emf.real())
                  : "dc 0 ac " + number(std::abs(element.emf)) + " " +
                        number(std::arg(element.emf) * 180 / std::numbers::pi));
      from = inner;
    }
    if (element.farads > 0) {
      line("c", from, to, number(element.farads));
    } else if (element.henries > 0) {
      const std::string inner = "m" + std::to_string(index);
      line("r", from, inner, number(element.ohms));
      line("l", inner, to, number(element.henries));
    } else {
      line("r", from, to, number(element.ohms));
    }
  }
  for (int node = 1; node < circuit.nodes; ++node)
    text += "rleak" + std::to_string(node) + " " + name(node) + " 0 " + number(1 / leak) + "\n";
  return text;
}

/// The volts of every node over node 0, with a leak from each to it.
std::vector<Phasor> ours(const Circuit& circuit, bool direct, Certificate& certificate) {
  Pattern pattern{circuit.nodes, {}};
  for (const Element& element : circuit.elements)
    pattern.branches.push_back({element.a, element.b, element.farads > 0});
  for (int node = 1; node < circuit.nodes; ++node) pattern.branches.push_back({node, 0});
  Solver<Phasor> solver(makePlan(pattern));
  int branch = 0;
  for (const Element& element : circuit.elements)
    solver.setBranch(branch++, admittance(element, direct), element.emf);
  for (int node = 1; node < circuit.nodes; ++node) solver.setBranch(branch++, leak);
  solver.solve();
  certificate = solver.certificate();
  std::vector<Phasor> volts;
  for (int node = 0; node < circuit.nodes; ++node) volts.push_back(solver.voltage(node, 0));
  return volts;
}

struct Truth {
  std::vector<Phasor> volts;
  std::vector<int> part;  ///< without the leaks
};

Truth textbook(const Circuit& circuit, bool direct) {
  std::vector<ww::oracle::Branch> branches;
  for (const Element& element : circuit.elements)
    branches.push_back({element.a, element.b, Long(admittance(element, direct)), Long(element.emf)});
  Truth truth{{}, ww::oracle::solve(circuit.nodes, branches).part};
  for (int node = 1; node < circuit.nodes; ++node) branches.push_back({node, 0, leak, {}});
  for (const Long& volts : ww::oracle::solve(circuit.nodes, branches).volts)
    truth.volts.push_back(Phasor(volts));
  return truth;
}

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
