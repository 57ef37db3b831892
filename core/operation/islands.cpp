// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/islands.h"

#include <algorithm>
#include <set>

#include "circuit/joints.h"

namespace ww::operation {

namespace {

using UnitIndex = std::map<sheet::UnitId, size_t>;  // place in the sheet

/// The unit an end is landed in; nothing for loose and capped ends.
std::optional<sheet::UnitId> landedIn(const sheet::Landing& landing) {
  if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing)) return terminal->unit;
  if (const auto* splice = std::get_if<sheet::Splice>(&landing)) return splice->unit;
  return std::nullopt;
}

UnitIndex indexOf(const sheet::Sheet& sheet) {
  UnitIndex index;
  for (const sheet::Unit& unit : sheet.units) index.emplace(unit.id, index.size());
  return index;
}

std::optional<size_t> homeOf(const UnitIndex& index, const sheet::Landing& landing) {
  const auto unit = landedIn(landing);
  const auto found = unit ? index.find(*unit) : index.end();
  return found == index.end() ? std::nullopt : std::optional(found->second);
}

/// Conductors between the commons of two transformers carry nothing where they are all that two groups of
/// units have with each other: each group hangs on the rest at one place.
class CommonsApart {
 public:
  CommonsApart(const sheet::Sheet& sheet, const UnitIndex& index, const asbuilt::AsBuilt& circuit)
      : sheet_(sheet), index_(index), circuit_(circuit), groups_(sheet.units.size()) {
    findCommons();
    for (const auto& wire : sheet.conductors) {
      const auto a = homeOf(index, wire.endA), b = homeOf(index, wire.endB);
      if (!a || !b || *a == *b) continue;
      if (isLink(wire))
        links_.push_back({*a, *b, &wire});
      else
        groups_.join(int(*a), int(*b));
    }
  }

  /// Units joined by anything that may carry, and by links that may.
  circuit::Joints groups() {
    circuit::Joints whole = groups_;  // what the links make one
    for (const Link& link : links_) whole.join(int(link.a), int(link.b));
    std::map<int, std::vector<size_t>> members;
    for (size_t i = 0; i < sheet_.units.size(); ++i) members[whole.root(int(i))].push_back(i);
    for (const auto& [root, units] : members)
      if (!hangsAtOnePlace(units))
        for (const size_t unit : units) groups_.join(root, int(unit));
    return groups_;
  }
  /// Links between two groups, which carry nothing.
  std::set<sheet::ConductorId> idle(const circuit::Joints& groups) const {
    std::set<sheet::ConductorId> idle;
    for (const Link& link : links_)
      if (!groups.joined(int(link.a), int(link.b))) idle.insert(link.wire->id);
    return idle;
  }

 private:
  struct Link {
    size_t a, b;
    const sheet::Conductor* wire;
  };

  /// By unit of the sheet: the common side of its first transformer; -1 without one.
  void findCommons() {
    common_.assign(sheet_.units.size(), -1);
    bonds_.resize(sheet_.units.size());
    proves_.assign(sheet_.units.size(), 0);
    const auto placeOf = [&](int unit) { return index_.at(circuit_.units[size_t(unit)].id); };
    for (const auto& device : circuit_.devices)
      if (std::holds_alternative<equipment::TransformerPart>(device.part))
        if (int& common = common_[placeOf(device.unit)]; common < 0) common = device.b;
    for (const auto& bonding : circuit_.bondings) bonds_[placeOf(bonding.unit)].push_back(bonding.a);
    for (size_t u = 0; u < circuit_.units.size(); ++u) {
      const auto& nodes = circuit_.units[u].profile->logic.nodes;
      proves_[placeOf(int(u))] = std::any_of(nodes.begin(), nodes.end(),
                                             [](const auto& node) { return node.op == equipment::Op::duty; });
    }
  }

  bool isCommon(const sheet::Landing& end) const {
    const auto* terminal = std::get_if<sheet::TerminalRef>(&end);
    if (terminal == nullptr) return false;
    const int common = common_[index_.at(terminal->unit)];
    return common >= 0 && circuit_.node(*terminal) == common;
  }
  bool isLink(const sheet::Conductor& wire) const { return isCommon(wire.endA) && isCommon(wire.endB); }

  /// Every group of the units meets links at one node alone; bonds lead elsewhere only where no other group
  /// has any. What looks at the duties of others must stay with them.
  bool hangsAtOnePlace(const std::vector<size_t>& units) const {
    std::map<int, std::set<int>> linked, bonded;  // group -> nodes
    for (const size_t unit : units) {
      if (proves_[unit]) return false;
      const int group = groups_.root(int(unit));
      linked[group];
      bonded[group].insert(bonds_[unit].begin(), bonds_[unit].end());
    }
    for (const Link& link : links_)
      for (const size_t unit : {link.a, link.b})
        if (const auto group = linked.find(groups_.root(int(unit))); group != linked.end())
          group->second.insert(common_[unit]);
    const auto atOne = [](const auto& entry) { return entry.second.size() <= 1; };
    if (!std::all_of(linked.begin(), linked.end(), atOne)) return false;
    for (const size_t unit : units)
      if (const auto& places = linked[groups_.root(int(unit))];
          !places.empty() && common_[unit] >= 0 && !places.contains(common_[unit]))
        return false;  // volts are told against another common
    const auto bonds =
        std::count_if(bonded.begin(), bonded.end(), [](const auto& entry) { return !entry.second.empty(); });
    return bonds <= 1 || std::all_of(bonded.begin(), bonded.end(), [&](const auto& entry) {
             return entry.second.empty() || entry.second == linked.at(entry.first);
           });
  }

  const sheet::Sheet& sheet_;
  const UnitIndex& index_;
  const asbuilt::AsBuilt& circuit_;
  circuit::Joints groups_;
  std::vector<Link> links_;
  std::vector<int> common_;
  std::vector<std::vector<int>> bonds_;
  std::vector<char> proves_;
};

/// Each group of units as a sheet of its own; the conductors left out lie in none.
std::vector<sheet::Sheet> split(const sheet::Sheet& sheet, const UnitIndex& index,
                                const circuit::Joints& joints, const std::set<sheet::ConductorId>& leftOut) {
  const auto& units = sheet.units.rows();
  std::map<int, size_t> number;  // root -> island
  std::vector<size_t> islandOf;  // by unit
  for (size_t i = 0; i < units.size(); ++i)
    islandOf.push_back(number.try_emplace(joints.root(int(i)), number.size()).first->second);
  struct Rows {
    std::vector<sheet::Unit> units;
    std::vector<sheet::Cable> cables;
    std::vector<sheet::Conductor> conductors;
    std::set<sheet::CableId> known;
  };
  std::vector<Rows> rows(number.size());
  for (size_t i = 0; i < units.size(); ++i) rows[islandOf[i]].units.push_back(units[i]);
  std::map<sheet::CableId, const sheet::Cable*> cables;
  for (const auto& cable : sheet.cables) cables[cable.id] = &cable;
  for (const auto& wire : sheet.conductors) {
    if (leftOut.contains(wire.id)) continue;
    const auto cable = wire.cable ? cables.find(*wire.cable) : cables.end();
    auto unit = homeOf(index, wire.endA);
    if (!unit) unit = homeOf(index, wire.endB);
    if (!unit && cable != cables.end() && index.contains(cable->second->endA))
      unit = index.at(cable->second->endA);
    if (!unit) continue;
    Rows& mine = rows[islandOf[*unit]];
    mine.conductors.push_back(wire);
    if (cable != cables.end() && mine.known.insert(cable->first).second)
      mine.cables.push_back(*cable->second);
  }
  std::vector<sheet::Sheet> islands;
  for (Rows& mine : rows) {
    sheet::Sheet island;
    island.units = sheet::Table<sheet::Unit>(std::move(mine.units));
    island.cables = sheet::Table<sheet::Cable>(std::move(mine.cables));
    island.conductors = sheet::Table<sheet::Conductor>(std::move(mine.conductors));
    island.settings = sheet.settings;
    island.nextId = sheet.nextId;
    islands.push_back(std::move(island));
  }
  return islands;
}

}  // namespace

std::vector<sheet::Sheet> islandsOf(const sheet::Sheet& sheet, const asbuilt::AsBuilt& circuit) {
  const UnitIndex index = indexOf(sheet);
  CommonsApart apart(sheet, index, circuit);
  const circuit::Joints groups = apart.groups();
  return split(sheet, index, groups, apart.idle(groups));
}

}  // namespace ww::operation
