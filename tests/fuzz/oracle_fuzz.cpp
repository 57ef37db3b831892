// SPDX-License-Identifier: GPL-3.0-or-later

// Three ways to the same volts on any circuit that bytes can spell: the star-mesh solver, dense elimination
// in extended precision, and ngspice. Circuits that resonate are left to the first two.

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "support/fuzz_bytes.h"
#include "support/three_ways.h"

using namespace ww::threeways;

namespace {

class Bytes : public ww::testing::FuzzBytes {
 public:
  using FuzzBytes::FuzzBytes;
  /// Between low and high on a logarithmic scale of 256 steps.
  double between(double low, double high) { return low * std::pow(high / low, byte() / 255.0); }
};

Circuit spelled(Bytes bytes) {
  Circuit circuit{2 + bytes.byte() % 14, {}};
  for (int left = 40; left > 0 && !bytes.empty(); --left) {
    Element element;
    element.a = bytes.byte() % circuit.nodes;
    element.b = bytes.byte() % circuit.nodes;
    const int kind = bytes.byte();
    if (element.a == element.b) continue;
    switch (kind % 8) {
      case 0: element.farads = bytes.between(1e-10, 1e-6); break;
      case 1:
      case 2:
        element.ohms = bytes.between(2, 200);
        element.henries = bytes.between(0.01, 1);
        break;
      case 3: element.ohms = bytes.between(10, 1e6); break;
      default: element.ohms = bytes.between(0.01, 10); break;
    }
    if (element.ohms > 0 && kind >= 128)
      element.emf = std::polar(bytes.between(0.1, 40), bytes.byte() * std::numbers::pi / 128);
    element.present = kind % 16 != 15;
    circuit.elements.push_back(element);
  }
  return circuit;
}

void require(bool holds, const char* what, int node) {
  if (holds) return;
  std::fprintf(stderr, "%s disagrees at node %d\n", what, node);
  std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const Circuit circuit = spelled(Bytes(data, size));
  if (circuit.elements.empty()) return 0;
  Certificate certificate;
  const auto volts = ours(circuit, false, certificate);
  if (certificate.resonant) return 0;
  require(certificate.tight(), "certificate", -1);
  const Truth truth = textbook(circuit, false);
  const auto agree = [&](const std::vector<Phasor>& found, const char* what) {
    for (std::size_t at = 0; at < found.size(); ++at) {
      const auto first = static_cast<std::size_t>(truth.part[at]);
      const Phasor want = truth.volts[at] - truth.volts[first];
      require(std::abs(found[at] - found[first] - want) <= 1e-6 * std::abs(want) + 1e-6, what,
              static_cast<int>(at));
    }
  };
  agree(volts, "star-mesh");
  auto& simulator = ww::spice::Simulator::instance();
  require(simulator.load(netlist(circuit, false)) && simulator.runAc(hertz), "ngspice refuses", -1);
  std::vector<Phasor> theirs;
  for (int node = 0; node < circuit.nodes; ++node) {
    const auto there = simulator.volts(name(node));
    require(there.has_value(), "ngspice has no volts", node);
    theirs.push_back(*there);
  }
  agree(theirs, "ngspice");
  return 0;
}
