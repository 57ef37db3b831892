// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "equipment/profile_draft.h"
#include "equipment/words.h"
#include "quantity/text.h"

namespace ww::equipment {

namespace {

using quantity::cited;

std::vector<std::string> elementsThat(const Profile& profile, bool (*are)(const Part&)) {
  std::vector<std::string> ids;
  for (const Element& element : profile.elements)
    if (are(element.part)) ids.push_back(element.id);
  return ids;
}

template <class P>
bool isOne(const Part& part) {
  return std::holds_alternative<P>(part);
}

std::vector<std::string> signalsOf(const Logic& logic) {
  std::vector<std::string> names;
  for (const Statement& statement : logic.statements)
    names.insert(names.end(), statement.names.begin(), statement.names.end());
  return names;
}

bool isAmong(const std::string& name, const std::vector<std::string>& names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// The names of one unit that its logic may use.
class Names {
 public:
  explicit Names(Draft& draft)
      : draft_(draft),
        signals_(signalsOf(draft.profile.logic)),
        inputs_(elementsThat(draft.profile, isOne<InputPart>)),
        coils_(elementsThat(draft.profile, isRelay)),
        thermals_(elementsThat(draft.profile, isOne<ThermalPart>)),
        contacts_(elementsThat(draft.profile, isContact)),
        supplies_(elementsThat(draft.profile, isSupply)) {
    for (const auto& [fact, holds] : draft.profile.world) facts_.push_back(fact);
  }

  void check(LogicNode& node, const std::string& where) {
    switch (node.op) {
      case Op::signal: return require(node.name, signals_, "signal", where);
      case Op::seen: return require(node.name, inputs_, "input", where);
      case Op::in:
      case Op::powered: return require(node.name, coils_, "coil", where);
      case Op::hot: return require(node.name, thermals_, "thermal", where);
      case Op::shut: return require(node.name, contacts_, "contact", where);
      case Op::live: return supply(node, where);
      case Op::world: return require(node.name, facts_, "world", where);
      case Op::call:
        return require(node.name, std::vector<std::string>(kCalls.begin(), kCalls.end()), "call", where);
      case Op::duty:
        return require(node.name, std::vector<std::string>(kDuties.begin(), kDuties.end()), "duty", where);
      case Op::setting: return setting(node, where);
      default: return;
    }
  }

 private:
  void require(const std::string& name, const std::vector<std::string>& known, std::string kind,
               const std::string& where) {
    if (!isAmong(name, known) && !draft_.broken.contains(name))
      draft_.complain(where, "logic-unknown-name",
                      {{"name", cited(name)}, {"kind", std::move(kind)}, {"known", quantity::joined(known)}});
  }
  void supply(LogicNode& node, const std::string& where) {
    if (!node.name.empty()) return require(node.name, supplies_, "supply", where);
    if (supplies_.size() == 1)
      node.name = supplies_.front();
    else if (draft_.broken.empty())
      draft_.complain(where, "logic-which-supply", {{"known", quantity::joined(supplies_)}});
  }
  void setting(const LogicNode& node, const std::string& where) {
    const Setting* setting = draft_.profile.setting(node.name);
    if (!setting) {
      std::vector<std::string> keys;
      for (const Setting& known : draft_.profile.settings) keys.push_back(known.key);
      return require(node.name, keys, "setting", where);
    }
    if (!setting->choices.empty()) require(node.value, setting->choices, "choice", where);
  }

  Draft& draft_;
  std::vector<std::string> signals_, inputs_, coils_, thermals_, contacts_, supplies_, facts_;
};

/// An inner node with one end on it is a slip of the pen: nothing flows there.
void checkNodes(Draft& draft) {
  std::map<std::string, int> ends;
  for (const auto& nodes : draft.profile.joined)
    for (const std::string& node : nodes) ++ends[node];
  for (const Element& element : draft.profile.elements) {
    ++ends[element.a];
    ++ends[element.b];
  }
  for (size_t i = 0; i < draft.profile.elements.size(); ++i) {
    const Element& element = draft.profile.elements[i];
    for (const std::string& node : {element.a, element.b})
      if (ends[node] < 2 && !draft.profile.terminal(node))
        draft.complain("/elements/" + std::to_string(i), "dangling-node", {{"node", cited(node)}});
  }
}

void checkCommon(Draft& draft) {
  const auto& terminals = draft.profile.terminals;
  const bool has = std::any_of(terminals.begin(), terminals.end(),
                               [](const Terminal& terminal) { return terminal.role == Role::common; });
  if (draft.profile.needsCommon && !has) draft.complain("/needsCommon", "no-common-terminal");
}

}  // namespace

void checkWhole(Draft& draft) {
  Names names(draft);
  for (size_t i = 0; i < draft.profile.logic.nodes.size(); ++i)
    names.check(draft.profile.logic.nodes[i], draft.nodeWhere[i]);
  checkNodes(draft);
  checkCommon(draft);
  for (const std::string& loop : combinationalLoops(draft.profile.logic))
    draft.complain("/logic", "logic-loop", {{"loop", loop}});
}

}  // namespace ww::equipment
