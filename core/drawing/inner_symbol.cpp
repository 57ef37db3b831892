// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <map>
#include <set>

#include "drawing/inner.h"

namespace ww::drawing {

namespace {

using equipment::LogicNode;
using equipment::Op;

bool isHot(equipment::Role role) {
  return role == equipment::Role::hot || role == equipment::Role::hotCool || role == equipment::Role::hotHeat;
}

/// Reads expressions as they are at rest: nothing called; energised is what the hot side reaches through
/// fuses and contacts that are closed.
class AtRest {
 public:
  explicit AtRest(const equipment::Profile& profile) : profile_(profile) {}

  bool closed(const equipment::Element& element) {
    return element.closedBy >= 0 ? holds(element.closedBy) : signal(element.id);
  }

 private:
  bool signal(const std::string& name) {
    // What depends on its own past is not on at rest. Each is looked at once, however often it is named.
    if (const auto known = known_.find(name); known != known_.end()) return known->second;
    if (!busy_.insert(name).second) return false;
    bool on = false;
    for (const equipment::Statement& statement : profile_.logic.statements)
      if (std::find(statement.names.begin(), statement.names.end(), name) != statement.names.end())
        on = statement.names.size() == 1 && holds(statement.expression);
    busy_.erase(name);
    known_[name] = on;
    return on;
  }

  /// Whether an input is fed without any call.
  bool fed(const std::string& name) {
    const equipment::Element* input = profile_.element(name);
    if (const auto known = known_.find("seen " + name); known != known_.end()) return known->second;
    if (input == nullptr || !busy_.insert("seen " + name).second) return false;
    std::vector<std::string> reached;
    for (const equipment::Terminal& terminal : profile_.terminals)
      if (isHot(terminal.role)) reached.push_back(terminal.id);
    for (const equipment::Element& element : profile_.elements)
      if (std::holds_alternative<equipment::TransformerPart>(element.part)) reached.push_back(element.a);
    const auto has = [&](const std::string& node) {
      return std::find(reached.begin(), reached.end(), node) != reached.end();
    };
    for (size_t i = 0; i < reached.size() && !has(input->a); ++i)
      for (const equipment::Element& element : profile_.elements) {
        const std::string node = reached[i];
        if ((element.a != node && element.b != node) || has(element.a == node ? element.b : element.a))
          continue;
        const bool through =
            std::holds_alternative<equipment::FusePart>(element.part) ||
            (std::holds_alternative<equipment::ContactPart>(element.part) && closed(element));
        if (through) reached.push_back(element.a == node ? element.b : element.a);
        if (has(input->a)) break;
      }
    busy_.erase("seen " + name);
    known_["seen " + name] = has(input->a);
    return has(input->a);
  }

  bool setting(const LogicNode& node) const {
    const equipment::Setting* known = profile_.setting(node.name);
    return known != nullptr && known->standard == node.value;
  }

  bool holds(int index) {
    const auto at = static_cast<size_t>(index);
    if (index < 0 || at >= profile_.logic.nodes.size()) return false;
    const LogicNode& node = profile_.logic.nodes[at];
    const auto argument = [&](size_t i) { return i < node.args.size() && holds(node.args[i]); };
    switch (node.op) {
      case Op::constant: return node.number != 0;
      case Op::signal: return signal(node.name);
      case Op::seen: return fed(node.name);
      case Op::live:
      case Op::line: return true;
      case Op::world: {
        const auto fact = profile_.world.find(node.name);
        return fact != profile_.world.end() && fact->second;
      }
      case Op::setting: return setting(node);
      case Op::negation: return !argument(0);
      case Op::conjunction:
        return std::all_of(node.args.begin(), node.args.end(), [&](int each) { return holds(each); });
      case Op::disjunction:
        return std::any_of(node.args.begin(), node.args.end(), [&](int each) { return holds(each); });
      case Op::onDelay:
      case Op::offDelay: return argument(0);
      case Op::minOn:
      case Op::minOff: return true;
      default: return false;
    }
  }

  const equipment::Profile& profile_;
  std::set<std::string> busy_;
  std::map<std::string, bool> known_;
};

}  // namespace

Symbol symbolOf(const equipment::Profile& profile, const equipment::Element& element) {
  struct Visitor {
    const equipment::Profile& profile;
    const equipment::Element& element;
    Symbol operator()(const equipment::TransformerPart&) const { return Symbol::transformer; }
    Symbol operator()(const equipment::FusePart&) const { return Symbol::fuse; }
    Symbol operator()(const equipment::CoilPart&) const { return Symbol::coil; }
    Symbol operator()(const equipment::ThermalPart&) const { return Symbol::thermal; }
    Symbol operator()(const equipment::InputPart&) const { return Symbol::input; }
    Symbol operator()(const equipment::ContactPart&) const {
      return AtRest(profile).closed(element) ? Symbol::breakContact : Symbol::makeContact;
    }
    Symbol operator()(const equipment::SupplyPart&) const { return Symbol::supply; }
    Symbol operator()(const equipment::ResistorPart& part) const {
      return part.beta > 0 ? Symbol::sensor : Symbol::resistor;
    }
    Symbol operator()(const equipment::SolidStatePart&) const { return Symbol::electronicContact; }
    Symbol operator()(const equipment::PilePart&) const { return Symbol::pile; }
    Symbol operator()(const equipment::DiodePart&) const { return Symbol::diode; }
    Symbol operator()(const equipment::HalfWaveRelayPart&) const { return Symbol::rectifiedCoil; }
  };
  return std::visit(Visitor{profile, element}, element.part);
}

}  // namespace ww::drawing
