// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "asbuilt/netlist.h"
#include "support/spice.h"

// A solved state against ngspice, node by node.
namespace ww::testing {

using circuit::Quality;
using Volts = std::vector<std::optional<std::complex<double>>>;

/// Nodes of a deck that hang together, by what its lines say; leaks left out.
class DeckParts {
 public:
  explicit DeckParts(const std::string& deck) {
    std::istringstream lines(deck);
    for (std::string line; std::getline(lines, line);) {
      std::istringstream words(line);
      std::string element, a, b, value;
      if (!(words >> element >> a >> b >> value) || std::string("RLCV").find(element[0]) == std::string::npos)
        continue;
      if (element.rfind("Rleak", 0) == 0)
        leaks_.emplace_back(a, std::stod(value));
      else
        parent_[root(a)] = root(b);
    }
  }
  bool together(const std::string& a, const std::string& b) { return root(a) == root(b); }
  const std::vector<std::pair<std::string, double>>& leaks() const { return leaks_; }

 private:
  std::string root(const std::string& node) {
    auto at = parent_.try_emplace(node, node).first;
    while (at->second != at->first) at = parent_.find(at->second);
    return at->first;
  }
  std::map<std::string, std::string> parent_;
  std::vector<std::pair<std::string, double>> leaks_;
};

/// Volts agree to a millionth and a microvolt. Both sides carry the same explicit leaks.
inline bool near(std::complex<double> ours, std::complex<double> theirs) {
  return std::abs(ours - theirs) <= 1e-6 * std::abs(ours) + 1e-6;
}

/// Amperes that the leak of an island may seem to carry: ngspice's rounding of the amperes on the island. A
/// path that is there would carry 1e-8 A and more.
constexpr double kLeakOfOneSource = 1e-15, kLeakOfSeveralSources = 1e-12;

/// Node by node: solid means the same volts, floating means that no line of the deck joins the two and that
/// the leak which ties the island down carries nothing.
inline void compareNodes(const asbuilt::AsBuilt& circuit, const circuit::Solver<circuit::Phasor>& solver,
                         const asbuilt::Netlist& deck, const Volts& theirs, const std::string& what,
                         double leak = kLeakOfOneSource) {
  DeckParts parts(deck.text);
  int compared = 0;
  for (size_t a = 0; a < theirs.size(); ++a)
    for (size_t b = a + 1; b < theirs.size(); ++b) {
      if (deck.nodeNames[a].empty() || deck.nodeNames[b].empty()) continue;
      const bool joined = solver.quality(int(a), int(b)) != Quality::floating;
      ASSERT_EQ(joined, parts.together(deck.nodeNames[a], deck.nodeNames[b]))
          << what << ": " << circuit.nodeNames[a] << " to " << circuit.nodeNames[b];
      if (!joined) continue;
      ASSERT_TRUE(theirs[a] && theirs[b]) << what << ": " << circuit.nodeNames[a];
      ASSERT_TRUE(near(solver.voltage(int(a), int(b)), *theirs[a] - *theirs[b]))
          << what << ": " << circuit.nodeNames[a] << " to " << circuit.nodeNames[b];
      ++compared;
    }
  EXPECT_GT(compared, 0) << what;
  for (const auto& [node, ohms] : parts.leaks()) {
    const auto volts = spice::Simulator::instance().volts(node);
    EXPECT_LE(std::abs(volts.value_or(0)) / ohms, leak) << what << ": the island of " << node;
  }
}

/// Exports the solved state, has ngspice solve it, and compares; the deck and its volts stay behind.
inline void compareWithSpice(const asbuilt::AsBuilt& circuit, const circuit::Solver<circuit::Phasor>& solver,
                             const std::string& what, asbuilt::Netlist& deck, Volts& theirs,
                             double leak = kLeakOfOneSource) {
  deck = asbuilt::spice(circuit, solver, what);
  auto& simulator = spice::Simulator::instance();
  ASSERT_TRUE(simulator.load(deck.text)) << what << "\n" << simulator.messages();
  ASSERT_TRUE(simulator.runAc(circuit.frequency)) << what << "\n" << simulator.messages();
  theirs.clear();
  for (const auto& name : deck.nodeNames)
    theirs.push_back(name.empty() ? std::nullopt : simulator.volts(name));
  ASSERT_NO_FATAL_FAILURE(compareNodes(circuit, solver, deck, theirs, what, leak));
}

}  // namespace ww::testing
