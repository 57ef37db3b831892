// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <complex>
#include <limits>
#include <map>
#include <numbers>
#include <numeric>
#include <string>
#include <utility>
#include <vector>

#include "asbuilt/as_built.h"
#include "operation/logic_run.h"
#include "support/spice.h"

namespace ww::testing {

/// The relays of an installation carried from event to event once more, written for the tests alone: its own
/// deck, its own pull-in, drop-out, lock-out, melting and warming, and ngspice for every volt. Only the
/// sentences of the profiles' logic are evaluated by the program's own LogicRun. Copying it copies the
/// moment.
class SpiceRelays {
 public:
  using Phasor = std::complex<double>;
  using Millis = operation::Millis;
  /// settled: nothing moves any more; quick: moves without end within moments; slow: still tries again after
  /// two hours.
  enum class End { settled, quick, slow };

  explicit SpiceRelays(const asbuilt::AsBuilt& circuit) : circuit_(&circuit) {
    const size_t n = circuit.devices.size();
    closed.assign(n, 0);
    in = on = late = gone_ = closed;
    warmth_.assign(n, 0);
    draws_.assign(n, 0);
    due_.assign(n, kNever);
    senses_ = {closed, closed, closed, closed, closed, closed};
    const auto isControl = [&](size_t u) {
      return circuit.units[u].profile->kind == equipment::Kind::roomControl;
    };
    int controls = 0, number = 0;
    for (size_t u = 0; u < circuit.units.size(); ++u) controls += isControl(u);
    for (size_t u = 0; u < circuit.units.size(); ++u)
      logic_.emplace_back(circuit, int(u), isControl(u) && controls > 1 ? ++number : 0);
  }

  End powerUp() {
    for (auto& unit : logic_) {
      unit.setFacts({});
      unit.powerUp(0);
      unit.evaluate(0, senses_);
    }
    each<equipment::FusePart>([&](size_t i, const auto&) { closed[i] = 1; });
    each<equipment::TransformerPart>([&](size_t i, const auto&) { closed[i] = 1; });
    each<equipment::ContactPart>([&](size_t i, const auto&) { closed[i] = wanted(i); });
    return run("rest");
  }

  End run(const std::string& call) {
    operation::Facts facts;
    facts.call = call;
    for (auto& unit : logic_) unit.setFacts(facts);
    std::fill(late.begin(), late.end(), 0);
    std::map<std::string, std::vector<Millis>> seenAt;
    const Millis start = now_;
    for (int events = 0; events < 5000; ++events) {
      restless_ = false;
      instant();
      if (restless_) return End::quick;
      auto& times = seenAt[signature()];
      times.push_back(now_);
      if (times.size() >= 10 && now_ - times[times.size() - 10] < 10'000) return End::quick;
      const Millis next = nextEvent();
      if (next == kNever) return End::settled;
      if (next - start > 2 * 3600 * 1000) return End::slow;
      warm(double(next - now_) / 1000);
      now_ = next;
    }
    return End::slow;
  }

  /// Magnitude across every device, by device index, as things stand; with every coil at inrush if asked.
  /// Empty when a supply finds no operating point then.
  std::vector<double> volts(bool allAtInrush = false) const {
    auto states = in;
    if (allAtInrush) std::fill(states.begin(), states.end(), 0);
    const Solved& state = solved(states, on);
    return state.settled ? state.volts : std::vector<double>();
  }

  std::vector<char> closed;  ///< contacts and fuses, by device index
  std::vector<char> in;      ///< coils pulled in
  std::vector<char> on;      ///< supplies above their lock-out
  std::vector<char> late;    ///< coils in only after others

  /// A supply is out because it found no operating point.
  bool collapsed() const {
    return std::any_of(gone_.begin(), gone_.end(), [](char out) { return out != 0; });
  }

 private:
  static constexpr Millis kNever = std::numeric_limits<Millis>::max();

  struct Solved {
    bool settled = false;
    std::vector<double> volts, amps;  ///< by device; amps of fuses alone
  };

  template <class Part, class Do>
  void each(Do&& act) const {
    for (size_t i = 0; i < circuit_->devices.size(); ++i)
      if (const auto* part = std::get_if<Part>(&circuit_->devices[i].part)) act(i, *part);
  }
  char wanted(size_t contact) const {
    const auto& device = circuit_->devices[contact];
    return logic_[size_t(device.unit)].value(circuit_->element(device).closedBy);
  }

  // --- one electric state, by ngspice ---

  /// Lines of a deck for one impedance, resistance first.
  static std::string impedance(const std::string& id, const std::string& a, const std::string& b, Phasor z,
                               double hertz) {
    const double x = z.imag();
    if (std::abs(x) <= 1e-12 * std::abs(z))
      return "R" + id + " " + a + " " + b + " " + spice::number(z.real()) + "\n";
    return "R" + id + " " + a + " m" + id + " " + spice::number(z.real()) + "\nL" + id + " m" + id + " " + b +
           " " + spice::number(x / (2 * std::numbers::pi * hertz)) + "\n";
  }

  /// What an element is at the supply frequency; zero: not there.
  Phasor ohms(size_t i, const std::vector<char>& pulledIn) const {
    const auto& part = circuit_->devices[i].part;
    if (const auto* p = std::get_if<equipment::FusePart>(&part)) return closed[i] ? p->resistance.si() : 0;
    if (const auto* p = std::get_if<equipment::ContactPart>(&part)) return closed[i] ? p->closed.si() : 0;
    if (const auto* p = std::get_if<equipment::ThermalPart>(&part)) return p->resistance.si();
    if (const auto* p = std::get_if<equipment::InputPart>(&part)) return p->resistance.si();
    if (const auto* p = std::get_if<equipment::ResistorPart>(&part)) return p->resistance.si();
    if (const auto* p = std::get_if<equipment::CoilPart>(&part)) {
      const auto& load = pulledIn[i] ? p->sealed : p->inrush;
      const double size = 24 * 24 / load.power.si(), pf = load.powerFactor;
      return {size * pf, size * std::sqrt(1 - pf * pf) * circuit_->frequency / 60};
    }
    return 0;
  }

  struct Deck {
    std::string text;
    std::vector<std::string> node;
    std::vector<int> part;  ///< by node: the same number where elements join them
  };

  Deck deck(const std::vector<char>& pulledIn, const std::vector<char>& supplied) const {
    std::vector<int> part(circuit_->nodeNames.size());
    std::iota(part.begin(), part.end(), 0);
    const auto root = [&](int node) {
      while (part[size_t(node)] != node) node = part[size_t(node)];
      return node;
    };
    std::vector<char> used(part.size(), 0);
    Deck deck{"* relays\n", {}, {}};
    for (size_t k = 0; k < part.size(); ++k) deck.node.push_back("n" + std::to_string(k));
    const auto join = [&](int a, int b) {
      used[size_t(a)] = used[size_t(b)] = 1;
      part[size_t(root(a))] = root(b);
    };
    const auto put = [&](const std::string& id, int a, int b, Phasor z) {
      if (z == Phasor() || a == b) return;
      deck.text += impedance(id, deck.node[size_t(a)], deck.node[size_t(b)], z, circuit_->frequency);
      join(a, b);
    };
    for (size_t i = 0; i < circuit_->devices.size(); ++i) {
      const auto& device = circuit_->devices[i];
      const std::string id = "d" + std::to_string(i);
      if (const auto* p = std::get_if<equipment::TransformerPart>(&device.part)) {
        const double v = p->rated.si();
        const double tap = circuit_->units[size_t(device.unit)].tapRatio;
        deck.text += "V" + id + " " + deck.node[size_t(device.a)] + " e" + id + " dc 0 ac " +
                     spice::number(v * (1 + p->regulation) * tap) + " 0\n";
        deck.text += impedance(
            id, "e" + id, deck.node[size_t(device.b)],
            std::polar(p->regulation * v * v / p->rating.si(), p->angleDegrees * std::numbers::pi / 180),
            circuit_->frequency);
        join(device.a, device.b);
      } else if (const auto* pile = std::get_if<equipment::PilePart>(&device.part)) {
        // Direct volts in a loop of resistances: the phasor shows the same.
        deck.text += "V" + id + " " + deck.node[size_t(device.a)] + " e" + id + " dc 0 ac " +
                     spice::number(pile->open.si()) + " 0\n";
        deck.text +=
            impedance(id, "e" + id, deck.node[size_t(device.b)], pile->resistance.si(), circuit_->frequency);
        join(device.a, device.b);
      } else if (std::holds_alternative<equipment::SupplyPart>(device.part)) {
        if (supplied[i] && draws_[i] > 0) put(id, device.a, device.b, Phasor(200, 200));
      } else {
        put(id, device.a, device.b, ohms(i, pulledIn));
      }
    }
    for (size_t w = 0; w < circuit_->wires.size(); ++w) {
      const auto& wire = circuit_->wires[w];
      double squareMillimetres = wire.gauge.value;
      if (wire.gauge.system == quantity::Gauge::System::awg) {
        const double diameter = 0.127 * std::pow(92.0, (36 - wire.gauge.value) / 39);  // ASTM B258
        squareMillimetres = std::numbers::pi / 4 * diameter * diameter;
      }
      put("w" + std::to_string(w), wire.a, wire.b, wire.length.si() / 58 / squareMillimetres);
    }
    for (size_t b = 0; b < circuit_->bondings.size(); ++b)
      if (circuit_->bondings[b].known)
        put("b" + std::to_string(b), circuit_->bondings[b].a, circuit_->bondings[b].b, 0.12);
    for (size_t k = 0; k < part.size(); ++k) deck.part.push_back(root(int(k)));
    for (size_t k = 0; k < part.size(); ++k)
      if (used[k] && root(int(k)) == int(k))
        deck.text += "Rg" + std::to_string(k) + " n" + std::to_string(k) + " 0 1e9\n";
    deck.text += ".options noopac\n.end\n";
    return deck;
  }

  Solved solve(const std::vector<char>& pulledIn, const std::vector<char>& supplied) const {
    auto& simulator = spice::Simulator::instance();
    const Deck deck = this->deck(pulledIn, supplied);
    const std::vector<double> none(circuit_->devices.size(), 0);
    const Solved unsettled{false, none, none};
    Solved result;
    if (!simulator.load(deck.text)) return unsettled;
    // Between parts that nothing joins there are no volts that could drive a current.
    const auto across = [&](int a, int b) -> Phasor {
      if (deck.part[size_t(a)] != deck.part[size_t(b)]) return {};
      const auto va = simulator.volts(deck.node[size_t(a)]), vb = simulator.volts(deck.node[size_t(b)]);
      return va && vb ? *va - *vb : Phasor();
    };
    // Supplies: their impedance follows the volts until both agree.
    std::vector<double> before(circuit_->devices.size(), 0);
    for (int round = 0; round < 80 && !result.settled; ++round) {
      bool vanished = false;
      if (!simulator.runAc(circuit_->frequency)) return unsettled;
      result.settled = true;
      each<equipment::SupplyPart>([&](size_t i, const equipment::SupplyPart& part) {
        const auto& device = circuit_->devices[i];
        if (!supplied[i] || draws_[i] <= 0 || device.a == device.b) return;
        const double v = std::abs(across(device.a, device.b));
        vanished |= v < 1;
        if (std::abs(v - before[i]) <= 1e-9 * v) return;
        result.settled = false;
        before[i] = v;
        const double pf = part.powerFactor, size = v * v / draws_[i];
        const std::string id = "d" + std::to_string(i);
        simulator.command("alter r" + id + " = " + spice::number(size * pf));
        simulator.command(
            "alter l" + id + " = " +
            spice::number(size * std::sqrt(1 - pf * pf) / (2 * std::numbers::pi * circuit_->frequency)));
      });
      if (vanished) return unsettled;
    }
    for (size_t i = 0; i < circuit_->devices.size(); ++i) {
      const auto& device = circuit_->devices[i];
      const double v = std::abs(across(device.a, device.b));
      result.volts.push_back(v);
      const auto* fuse = std::get_if<equipment::FusePart>(&device.part);
      result.amps.push_back(fuse != nullptr && closed[i] ? v / fuse->resistance.si() : 0);
    }
    return result;
  }

  /// The same state is never solved twice.
  const Solved& solved(const std::vector<char>& pulledIn, const std::vector<char>& supplied) const {
    std::string key;
    for (size_t i = 0; i < closed.size(); ++i)
      key += char('0' + closed[i] + 2 * pulledIn[i] + 4 * supplied[i]) + std::to_string(int(4 * draws_[i]));
    const auto [at, fresh] = known_.try_emplace(key);
    if (fresh) at->second = solve(pulledIn, supplied);
    return at->second;
  }

  // --- what moves ---

  void instant() {
    for (size_t i = 0; i < due_.size(); ++i)
      if (due_[i] <= now_) {
        closed[i] = !closed[i];
        due_[i] = kNever;
      }
    bool again = true;
    for (int round = 0; round < 50 && again; ++round) {
      electrics();
      sense();
      for (auto& unit : logic_) restless_ |= !unit.evaluate(now_, senses_);
      again = reload();
    }
    each<equipment::ContactPart>([&](size_t i, const equipment::ContactPart& part) {
      if ((wanted(i) != 0) == (closed[i] != 0))
        due_[i] = kNever;
      else if (due_[i] == kNever)
        due_[i] = now_ + std::max<Millis>(1, std::llround(part.operating.si() * 1000));
    });
  }

  void electrics() {
    bool afterOthers = false;
    for (int guard = 0; guard < 60; ++guard) {
      const Solved& state = solved(in, on);
      if (!state.settled) {
        withoutOperatingPoint();
        continue;
      }
      if (letGo(state)) continue;
      if (pullIn(state, afterOthers)) {
        afterOthers = true;
        continue;
      }
      if (melt(state)) continue;
      if (!lockOut(state)) return;
      afterOthers = false;
    }
    restless_ = true;
  }

  /// Without the supplies: a fuse melts, or the supply with the fewest volts lets go. It is a collapse when
  /// that one would have volts enough as long as it drew nothing.
  void withoutOperatingPoint() {
    const Solved& bare = solved(in, std::vector<char>(on.size(), 0));
    if (melt(bare)) return;
    size_t weakest = on.size();
    each<equipment::SupplyPart>([&](size_t i, const auto&) {
      if (on[i] && (weakest == on.size() || bare.volts[i] < bare.volts[weakest])) weakest = i;
    });
    if (weakest == on.size()) return;
    on[weakest] = 0;
    const auto& part = std::get<equipment::SupplyPart>(circuit_->devices[weakest].part);
    gone_[weakest] = bare.volts[weakest] >= part.outBelow.si();
  }

  bool letGo(const Solved& state) {
    bool any = false;
    each<equipment::CoilPart>([&](size_t i, const equipment::CoilPart& part) {
      if (!in[i] || state.volts[i] >= part.dropOut.si()) return;
      in[i] = late[i] = 0;
      any = true;
    });
    return any;
  }

  bool pullIn(const Solved& state, bool afterOthers) {
    bool any = false;
    each<equipment::CoilPart>([&](size_t i, const equipment::CoilPart& part) {
      if (in[i] || state.volts[i] < part.pullInTypical.si()) return;
      in[i] = 1;
      late[i] = afterOthers;
      any = true;
    });
    return any;
  }

  /// Seconds a cold fuse carries these amps: a minute just above 1.35 times its rating, I^2 t from 1.85 times
  /// on, and a straight line between the two on logarithmic scales (from memory).
  static double carrying(const equipment::FusePart& part, double amps) {
    const double least = 1.35 * part.rating.si(), quick = 1.85 * part.rating.si();
    if (amps <= least) return 1e30;
    const double byHeat = part.meltingAmpSquaredSeconds / (amps * amps);
    if (amps >= quick) return byHeat;
    const double end = std::log(part.meltingAmpSquaredSeconds / (quick * quick)), start = std::log(60.0);
    const double line =
        start + (end - start) * (std::log(amps) - std::log(least)) / (std::log(quick) - std::log(least));
    return std::max(byHeat, std::exp(line));
  }

  bool melt(const Solved& state) {
    bool any = false;
    each<equipment::FusePart>([&](size_t i, const equipment::FusePart& part) {
      if (!closed[i] || (1 - warmth_[i]) * carrying(part, state.amps[i]) > 0.6) return;
      closed[i] = 0;
      any = true;
    });
    return any;
  }

  bool lockOut(const Solved& state) {
    bool any = false;
    each<equipment::SupplyPart>([&](size_t i, const equipment::SupplyPart& part) {
      const bool stays = state.volts[i] >= (on[i] ? part.outBelow.si() : part.backAt.si());
      if (stays == (on[i] != 0)) return;
      on[i] = stays;
      if (draws_[i] == 0) draws_[i] = part.power.si();
      if (stays) gone_[i] = 0;
      if (stays) logic_[size_t(circuit_->devices[i].unit)].powerUp(now_);
      any = true;
    });
    return any;
  }

  void sense() {
    const Solved& state = solved(in, on);
    each<equipment::InputPart>([&](size_t i, const equipment::InputPart& part) {
      if (state.volts[i] >= part.seenFrom.si()) senses_.seen[i] = 1;
      if (state.volts[i] < part.goneBelow.si()) senses_.seen[i] = 0;
    });
    each<equipment::CoilPart>([&](size_t i, const equipment::CoilPart& part) {
      senses_.pulledIn[i] = in[i];
      senses_.powered[i] = in[i] && state.volts[i] >= part.dropOut.si();
    });
    each<equipment::ThermalPart>(
        [&](size_t i, const auto&) { senses_.hot[i] = senses_.hot[i] ? warmth_[i] > 0 : warmth_[i] >= 1; });
    senses_.closed = closed;
    senses_.supplyOn = on;
  }

  /// Boards draw more for each relay they hold.
  bool reload() {
    bool any = false;
    each<equipment::SupplyPart>([&](size_t i, const equipment::SupplyPart& part) {
      const auto& device = circuit_->devices[i];
      double draws = part.power.si();
      for (const int relay : circuit_->element(device).relays)
        if (logic_[size_t(device.unit)].value(relay)) draws += part.perRelay.si();
      any |= on[i] && draws != draws_[i];
      draws_[i] = draws;
    });
    return any;
  }

  /// Share of the way from cold to closed per second; heat goes with the square of the volts.
  double warming(size_t i, const equipment::ThermalPart& part) const {
    const double v = solved(in, on).volts[i];
    return v < part.never.si() ? -1 / part.opening.si() : v * v / (24 * 24) / part.closing.si();
  }

  void warm(double seconds) {
    each<equipment::ThermalPart>([&](size_t i, const equipment::ThermalPart& part) {
      warmth_[i] = std::clamp(warmth_[i] + seconds * warming(i, part), 0.0, 1.0);
    });
    each<equipment::FusePart>([&](size_t i, const equipment::FusePart& part) {
      const double whole = closed[i] ? carrying(part, solved(in, on).amps[i]) : 1e30;
      warmth_[i] = std::clamp(warmth_[i] + (whole < 1e30 ? seconds / whole : -seconds / 5), 0.0, 1.0);
    });
  }

  Millis nextEvent() const {
    Millis next = *std::min_element(due_.begin(), due_.end());
    for (const auto& unit : logic_)
      if (const auto at = unit.due(now_)) next = std::min(next, *at);
    each<equipment::ThermalPart>([&](size_t i, const equipment::ThermalPart& part) {
      const double rate = warming(i, part), way = rate > 0 ? 1 - warmth_[i] : warmth_[i];
      if (way > 0) next = std::min(next, now_ + 1 + Millis(std::ceil(way / std::abs(rate) * 1000)));
    });
    each<equipment::FusePart>([&](size_t i, const equipment::FusePart& part) {
      const double whole = closed[i] ? carrying(part, solved(in, on).amps[i]) : 1e30;
      if (whole < 1e30) next = std::min(next, now_ + 1 + Millis(std::ceil((1 - warmth_[i]) * whole * 1000)));
    });
    return next;
  }

  std::string signature() const {
    std::string text;
    for (size_t i = 0; i < closed.size(); ++i)
      text += char('0' + closed[i] + 2 * in[i] + 4 * on[i] + 8 * senses_.seen[i] + 16 * (due_[i] != kNever));
    return text;
  }

  const asbuilt::AsBuilt* circuit_;
  std::vector<operation::LogicRun> logic_;
  operation::Senses senses_;
  std::vector<double> warmth_, draws_;
  std::vector<char> gone_;
  std::vector<Millis> due_;
  Millis now_ = 0;
  bool restless_ = false;
  mutable std::map<std::string, Solved> known_;
};

}  // namespace ww::testing
