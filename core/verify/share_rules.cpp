// SPDX-License-Identifier: GPL-3.0-or-later
// Two calls on one conductor, each on its half waves: which calls may, and whether each arrives as itself.
#include <algorithm>
#include <set>

#include "asbuilt/half_wave.h"
#include "verify/purpose.h"
#include "verify/rules.h"
#include "verify/share.h"

namespace ww::verify {

namespace {

using asbuilt::AsBuilt;
using asbuilt::Device;
using equipment::DiodePart;
using equipment::HalfWaveRelayPart;
using equipment::Kind;
using equipment::Role;
using equipment::SolidStatePart;
using equipment::TransformerPart;
using sheet::TerminalRef;

const equipment::Terminal& terminalAt(const AsBuilt& circuit, const TerminalRef& ref) {
  return *circuit.units[size_t(circuit.unitIndex(ref.unit))].profile->terminal(ref.terminal);
}

/// Screws that are one piece of metal with a node and answer the question.
template <class Is>
std::vector<TerminalRef> screwsAt(const AsBuilt& circuit, const Metal& metal, int node, Is&& is) {
  std::vector<TerminalRef> screws;
  for (const auto& [ref, other] : circuit.nodeOfTerminal)
    if (metal.joined(node, other) &&
        is(circuit.units[size_t(circuit.unitIndex(ref.unit))], terminalAt(circuit, ref)))
      screws.push_back(ref);
  return screws;
}

bool isControlCall(const asbuilt::PlacedUnit& unit, const equipment::Terminal& terminal) {
  return unit.profile->kind == Kind::roomControl && terminal.role == Role::callOut;
}

/// An element whose contact the relay closes, on the side away from hot.
std::vector<int> outputsOf(const AsBuilt& circuit, const Device& relay) {
  std::vector<int> outputs;
  const auto& profile = *circuit.units[size_t(relay.unit)].profile;
  for (const Device& device : circuit.devices) {
    const int expression = circuit.element(device).closedBy;
    if (device.unit != relay.unit || expression < 0) continue;
    const auto& node = profile.logic.nodes[size_t(expression)];
    if (node.op != equipment::Op::in || node.name != circuit.element(relay).id) continue;
    const auto* a = profile.terminal(circuit.element(device).a);
    outputs.push_back(a != nullptr && a->role == Role::hot ? device.b : device.a);
  }
  return outputs;
}

/// A call from the control's screw through a diode and a relay to a screw of the equipment.
struct Way {
  const Device* diode;
  const Device* relay;
  TerminalRef from, to;
  bool right;     ///< it arrives as what it was sent
  bool reversed;  ///< the relay's own two screws lie exchanged
};

class Sharing {
 public:
  explicit Sharing(const Inspection& in) : in_(in), circuit_(in.circuit), metal_(in.circuit) {}

  void judge() {
    std::vector<const Device*> diodes, relays;
    for (const Device& device : circuit_.devices) {
      if (std::holds_alternative<DiodePart>(device.part)) diodes.push_back(&device);
      if (std::holds_alternative<HalfWaveRelayPart>(device.part)) relays.push_back(&device);
    }
    for (const Device* diode : diodes) unfit(*diode, relays);
    for (const Device* diode : diodes)
      for (const Device* relay : relays) follow(*diode, *relay);
    swapped();
  }

 private:
  /// The side of a sender's diode on which its call lies: the other is the shared one.
  int callSide(const Device& diode) const {
    for (const Device& other : circuit_.devices)
      if (other.unit == diode.unit && &other != &diode && std::holds_alternative<DiodePart>(other.part) &&
          (other.a == diode.b || other.b == diode.b))
        return diode.a;
    return diode.b;
  }

  void add(const Unshareable& why, const Device& diode) {
    if (told_.insert({why.why, why.screw}).second)
      in_.add("share-unfit", {atTerminal(why.screw), atUnit(circuit_.units[size_t(diode.unit)].id)},
              {{"unfit", Word{idOf(why.why)}}});
  }

  void unfit(const Device& diode, const std::vector<const Device*>& relays) {
    const int call = callSide(diode);
    const int shared = call == diode.a ? diode.b : diode.a;
    if (const auto why = unshareable(circuit_, call)) add(*why, diode);
    const auto screws = screwsAt(circuit_, metal_, call, isControlCall);
    const auto sources = feeding(circuit_, call);
    if (screws.empty() || sources.empty()) return;
    for (const Device* relay : relays) {
      if (!metal_.joined(shared, relay->a) && !metal_.joined(shared, relay->b)) continue;
      const auto others = feedingUnit(relay->unit);
      const bool common = std::any_of(others.begin(), others.end(), [&](size_t source) {
        return std::find(sources.begin(), sources.end(), source) != sources.end();
      });
      if (!others.empty() && !common) add({Unshareable::Why::transformers, screws.front()}, diode);
    }
    strangers(shared, diode);
  }

  static bool isKit(const asbuilt::PlacedUnit& unit) {
    return std::any_of(unit.profile->elements.begin(), unit.profile->elements.end(), [](const auto& e) {
      return std::holds_alternative<DiodePart>(e.part) || std::holds_alternative<HalfWaveRelayPart>(e.part);
    });
  }

  /// Of these screws the one from which a conductor leads to a splice or to the kit itself.
  TerminalRef nearest(const std::vector<TerminalRef>& screws) const {
    const auto leads = [&](const sheet::Landing& landing) {
      const auto* ref = std::get_if<TerminalRef>(&landing);
      return std::holds_alternative<sheet::Splice>(landing) ||
             (ref != nullptr && isKit(circuit_.units[size_t(circuit_.unitIndex(ref->unit))]));
    };
    for (const TerminalRef& screw : screws)
      for (const auto& wire : in_.sheet.conductors)
        if ((wire.endA == sheet::Landing(screw) && leads(wire.endB)) ||
            (wire.endB == sheet::Landing(screw) && leads(wire.endA)))
          return screw;
    return screws.front();
  }

  /// Anything else on the shared conductor gets half waves too.
  void strangers(int shared, const Device& diode) {
    const auto found =
        screwsAt(circuit_, metal_, shared, [](const auto& unit, const auto&) { return !isKit(unit); });
    if (!found.empty() && strange_.insert(nearest(found)).second)
      in_.add("share-unfit", {atTerminal(nearest(found)), atUnit(circuit_.units[size_t(diode.unit)].id)},
              {{"unfit", Word{"joined"}}});
  }

  /// Transformers at the hot screw of a unit.
  std::vector<size_t> feedingUnit(int unit) const {
    for (const auto& [ref, node] : circuit_.nodeOfTerminal)
      if (circuit_.unitIndex(ref.unit) == unit && terminalAt(circuit_, ref).role == Role::hot)
        return feeding(circuit_, node);
    return {};
  }

  /// The relay comes in on some call: the way to it and back is whole.
  bool comesIn(const Device& relay) const {
    const auto index = size_t(&relay - circuit_.devices.data());
    return std::any_of(in_.solution.calls.begin(), in_.solution.calls.end(),
                       [&](const auto& call) { return call.positions.pulledIn[index] != 0; });
  }

  void follow(const Device& diode, const Device& relay) {
    const bool upright = metal_.joined(diode.b, relay.a) && callSide(diode) == diode.a;
    const bool mirrored = metal_.joined(diode.a, relay.b) && callSide(diode) == diode.b;
    if ((!upright && !mirrored) || !comesIn(relay)) return;
    const auto sent = screwsAt(circuit_, metal_, callSide(diode), isControlCall);
    for (const int output : outputsOf(circuit_, relay)) {
      const auto arrives = screwsAt(circuit_, metal_, output, [&](const auto& unit, const auto& terminal) {
        return unit.id != circuit_.units[size_t(relay.unit)].id && !terminal.purpose.empty();
      });
      if (sent.empty() || arrives.empty()) continue;
      const std::string& purpose = terminalAt(circuit_, sent.front()).purpose;
      const bool right = std::any_of(arrives.begin(), arrives.end(), [&](const TerminalRef& screw) {
        return samePurpose(purpose, terminalAt(circuit_, screw).purpose);
      });
      ways_.push_back({&diode, &relay, sent.front(), arrives.front(), right, sharedIsCommon(relay)});
    }
  }

  /// The common screw of the relay's unit lies on the shared conductor.
  bool sharedIsCommon(const Device& relay) const {
    const int common = circuit_.commonNode(relay.unit);
    return std::any_of(circuit_.devices.begin(), circuit_.devices.end(), [&](const Device& device) {
      return std::holds_alternative<DiodePart>(device.part) && common >= 0 &&
             metal_.joined(common, callSide(device) == device.a ? device.b : device.a);
    });
  }

  /// Told once a receiver, when what was sent as one of its calls arrives as the other.
  void swapped() {
    std::set<int> units;
    for (const Way& way : ways_) {
      const bool other = std::any_of(ways_.begin(), ways_.end(), [&](const Way& w) {
        return w.relay->unit == way.relay->unit && w.relay != way.relay &&
               samePurpose(terminalAt(circuit_, w.to).purpose, terminalAt(circuit_, way.from).purpose);
      });
      if (way.right || !other || !units.insert(way.relay->unit).second) continue;
      // First the control, where it begins: what runs wrongly for it stands behind.
      std::vector<Place> places{atTerminal(way.from), atUnit(circuit_.units[size_t(way.relay->unit)].id)};
      std::vector<Argument> arguments{{"from", atTerminal(way.from)}, {"to", atTerminal(way.to)}};
      if (way.reversed) arguments.push_back({"reversed", Word{"yes"}});
      for (const Device* device : {way.diode, way.relay})
        for (const int node : {device->a, device->b})
          if (const auto& screw = circuit_.nodeTerminals[size_t(node)]) implicated(*screw, places);
      in_.add("share-swapped", std::move(places), std::move(arguments));
    }
  }

  static void implicated(const TerminalRef& screw, std::vector<Place>& places) {
    const Place place = atTerminal(screw);
    if (std::find(places.begin(), places.end(), place) == places.end()) places.push_back(place);
  }

  const Inspection& in_;
  const AsBuilt& circuit_;
  const Metal metal_;
  std::vector<Way> ways_;
  std::set<std::pair<Unshareable::Why, TerminalRef>> told_;
  std::set<TerminalRef> strange_;
};

}  // namespace

const char* idOf(Unshareable::Why why) {
  switch (why) {
    case Unshareable::Why::electronic: return "electronic";
    case Unshareable::Why::valve: return "valve";
    case Unshareable::Why::transformers: break;
  }
  return "transformers";
}

std::vector<size_t> feeding(const AsBuilt& circuit, int node) {
  std::vector<char> closed(circuit.devices.size());
  for (size_t i = 0; i < closed.size(); ++i) closed[i] = equipment::isContact(circuit.devices[i].part);
  const Metal metal(circuit, &closed);
  std::vector<size_t> sources;
  for (size_t i = 0; i < circuit.devices.size(); ++i) {
    const Device& device = circuit.devices[i];
    if (std::holds_alternative<TransformerPart>(device.part) &&
        (metal.joined(node, device.a) || metal.joined(node, device.b)))
      sources.push_back(i);
  }
  return sources;
}

std::optional<Unshareable> unshareable(const AsBuilt& circuit, int node) {
  const Metal metal(circuit);
  const auto screws = screwsAt(circuit, metal, node, isControlCall);
  for (const TerminalRef& screw : screws) {
    if (terminalAt(circuit, screw).purpose == "reversingValve")
      return Unshareable{Unshareable::Why::valve, screw};
    const int unit = circuit.unitIndex(screw.unit);
    for (const Device& device : circuit.devices)
      if (device.unit == unit && std::holds_alternative<SolidStatePart>(device.part) &&
          (device.a == circuit.node(screw) || device.b == circuit.node(screw)))
        return Unshareable{Unshareable::Why::electronic, screw};
  }
  return std::nullopt;
}

void shareRules(const Inspection& in) {
  if (!asbuilt::halfWaveRelays(in.circuit).empty()) Sharing(in).judge();
}

}  // namespace ww::verify
