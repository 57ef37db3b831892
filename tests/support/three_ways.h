// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// Random circuits of resistances, inductances, capacitances and sources for three ways to solve them: the
// star-mesh solver, dense elimination in extended precision, and ngspice.

#include "circuit/solver.h"
#include "support/dense_oracle.h"
#include "support/random_network.h"
#include "support/spice.h"

#include <numbers>

namespace ww::threeways {

using circuit::Certificate;
using circuit::makePlan;
using circuit::Pattern;
using circuit::Phasor;
using circuit::Solver;
using oracle::Long;
using oracle::Random;
using spice::number;

inline constexpr double hertz = 60;
inline constexpr double omega = 2 * std::numbers::pi * hertz;
inline constexpr double leak =
    1e-7;  // at 1e-9 S the rounding of ngspice comes through: it forms 100 S + leak

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

inline Phasor admittance(const Element& element, bool direct) {
  if (!element.present) return {};
  if (direct) return element.farads > 0 ? 0 : 1 / element.ohms;
  if (element.farads > 0) return {0, omega * element.farads};
  return 1.0 / Phasor{element.ohms, omega * element.henries};
}

inline Circuit randomCircuit(Random& random, bool direct) {
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

inline std::string name(int node) { return node == 0 ? "0" : "n" + std::to_string(node); }

inline std::string netlist(const Circuit& circuit, bool direct) {
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
inline std::vector<Phasor> ours(const Circuit& circuit, bool direct, Certificate& certificate) {
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

inline Truth textbook(const Circuit& circuit, bool direct) {
  std::vector<ww::oracle::Branch> branches;
  for (const Element& element : circuit.elements)
    branches.push_back({element.a, element.b, Long(admittance(element, direct)), Long(element.emf)});
  Truth truth{{}, ww::oracle::solve(circuit.nodes, branches).part};
  for (int node = 1; node < circuit.nodes; ++node) branches.push_back({node, 0, leak, {}});
  for (const Long& volts : ww::oracle::solve(circuit.nodes, branches).volts)
    truth.volts.push_back(Phasor(volts));
  return truth;
}

}  // namespace ww::threeways
