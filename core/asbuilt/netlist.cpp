// SPDX-License-Identifier: GPL-3.0-or-later
#include "asbuilt/netlist.h"

#include <algorithm>
#include <cctype>
#include <cstdio>
#include <numbers>
#include <set>

namespace ww::asbuilt {

namespace {

using circuit::Phasor;
using circuit::Quality;

constexpr double kLeakOhms = 1e9;
constexpr double kNoReactance = 1e-12;  // of the resistance: rounding, not a part

std::string digits(double value) {
  char buffer[40];
  std::snprintf(buffer, sizeof buffer, "%.17g", value);
  return buffer;
}

/// Letters and digits of ASCII, the rest "_": what every SPICE reads.
std::string plain(const std::string& wanted) {
  std::string text;
  for (const char c : wanted)
    text +=
        std::isalnum(static_cast<unsigned char>(c)) ? char(std::tolower(static_cast<unsigned char>(c))) : '_';
  return text;
}

class Deck {
 public:
  Deck(const AsBuilt& circuit, const circuit::Solver<Phasor>& solver) : circuit_(circuit), solver_(solver) {}

  Netlist write(const std::string& title) {
    result_.text = "* " + title + "\n";
    nameNodes();
    for (const Device& device : circuit_.devices)
      branch(device.branch, circuit_.units[size_t(device.unit)].tag + "_" + circuit_.element(device).id,
             device.a, device.b);
    for (const Wire& wire : circuit_.wires)
      branch(wire.branch, "wire_" + std::to_string(number(wire.conductor)), wire.a, wire.b);
    for (const Bonding& bonding : circuit_.bondings)
      branch(bonding.branch, circuit_.units[size_t(bonding.unit)].tag + "_bond", bonding.a, bonding.b);
    const auto& all = solver_.plan().pattern().branches;
    for (size_t b = circuit_.plan->pattern().branches.size(); b < all.size(); ++b)
      branch(int(b), "bridge", all[b].a, all[b].b);
    for (const Device& device : circuit_.devices) halfWave(device);
    leaks();
    finish();
    return std::move(result_);
  }

 private:
  const std::string& name(int node) const { return result_.nodeNames[size_t(node)]; }

  /// SPICE folds case, so a name that another node has already taken gets its number.
  void nameNodes() {
    ground_ = -1;
    for (const Device& device : circuit_.devices)
      if (ground_ < 0 && std::holds_alternative<equipment::TransformerPart>(device.part)) ground_ = device.b;
    if (ground_ < 0) ground_ = 0;
    for (size_t node = 0; node < circuit_.nodeNames.size(); ++node)
      result_.nodeNames.push_back(int(node) == ground_ ? "0" : fresh(circuit_.nodeNames[node]));
  }

  std::string fresh(const std::string& wanted) {
    const std::string text = plain(wanted);
    std::string name = text;
    for (int number = 2; !taken_.insert(name).second; ++number) name = text + "_" + std::to_string(number);
    return name;
  }

  void branch(int index, const std::string& label, int a, int b) {
    const Phasor admittance = solver_.admittance(index);
    if (admittance == Phasor{} || a == b) return;
    const std::string part = std::to_string(index) + "_" + plain(label);
    const Phasor impedance = 1.0 / admittance;
    std::string from = name(a);
    if (const Phasor volts = solver_.emf(index); volts != Phasor{}) {
      const std::string inner = fresh("e" + part);
      line("V" + part, from, inner,
           "dc 0 ac " + digits(std::abs(volts)) + " " + digits(std::arg(volts) * 180 / std::numbers::pi));
      from = inner;
    }
    const double omega = 2 * std::numbers::pi * circuit_.frequency;
    const double x = impedance.imag();
    const bool reactive = std::abs(x) > kNoReactance * std::abs(impedance);
    const std::string middle = reactive ? fresh("m" + part) : name(b);
    line("R" + part, from, middle, digits(impedance.real()));
    if (reactive && x > 0) line("L" + part, middle, name(b), digits(x / omega));
    if (reactive && x < 0) line("C" + part, middle, name(b), digits(-1 / (omega * x)));
    touched_.insert(a);
    touched_.insert(b);
  }

  /// Told and left out: the contacts that such a relay closes are in the deck as the switches they are.
  void halfWave(const Device& device) {
    const bool diode = std::holds_alternative<equipment::DiodePart>(device.part);
    if (!diode && !std::holds_alternative<equipment::HalfWaveRelayPart>(device.part)) return;
    result_.text +=
        "* left out, works by half waves: " + std::string(diode ? "diode " : "relay behind a diode ") +
        plain(circuit_.units[size_t(device.unit)].tag + "_" + circuit_.element(device).id) + " from " +
        plain(circuit_.nodeNames[size_t(device.a)]) + " to " + plain(circuit_.nodeNames[size_t(device.b)]) +
        "\n";
  }

  void line(const std::string& element, const std::string& a, const std::string& b,
            const std::string& value) {
    result_.text += element + " " + a + " " + b + " " + value + "\n";
  }

  void leaks() {
    std::vector<int> tied{ground_};
    for (const int node : touched_) {
      const bool known = std::any_of(tied.begin(), tied.end(), [&](int t) {
        return t == node || solver_.quality(t, node) != Quality::floating;
      });
      if (known) continue;
      tied.push_back(node);
      line("Rleak" + std::to_string(node), name(node), "0", digits(kLeakOhms));
    }
  }

  void finish() {
    for (size_t node = 0; node < result_.nodeNames.size(); ++node)
      if (!touched_.contains(int(node))) result_.nodeNames[node].clear();
    const std::string hertz = digits(circuit_.frequency);
    result_.text += ".options noopac\n.ac lin 1 " + hertz + " " + hertz + "\n";
    for (const auto& node : result_.nodeNames)
      if (!node.empty() && node != "0")
        result_.text.append(".print ac vm(").append(node).append(") vp(").append(node).append(")\n");
    result_.text += ".end\n";
  }

  const AsBuilt& circuit_;
  const circuit::Solver<Phasor>& solver_;
  Netlist result_;
  std::set<std::string> taken_{"0"};  ///< names of nodes
  std::set<int> touched_;
  int ground_ = 0;
};

}  // namespace

Netlist spice(const AsBuilt& circuit, const circuit::Solver<Phasor>& solver, const std::string& title) {
  return Deck(circuit, solver).write(title);
}

}  // namespace ww::asbuilt
