// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/plan_joints.h"

#include <algorithm>
#include <set>

#include "verify/forbidden.h"

namespace ww::verify {

namespace {

using equipment::Profile;
using equipment::Role;
using equipment::Terminal;

bool has(const Profile& profile, std::string_view purpose) {
  return std::any_of(profile.terminals.begin(), profile.terminals.end(),
                     [&](const Terminal& terminal) { return terminal.purpose == purpose; });
}

/// What a screw of this purpose is joined with at another unit, best first.
std::vector<std::string_view> answers(const Profile& own, const std::string& purpose) {
  // A unit with a dry pair of its own does not bring its hot to another's.
  if (purpose == "hot" && !has(own, "pairA")) return {"hot", "pairA"};
  if (purpose == "heat1" && !has(own, "pairB")) return {"heat1", "defrostHeat", "valve", "pairB"};
  if (purpose == "heat1") return {"heat1", "defrostHeat", "valve"};
  if (purpose == "heat2" && has(own, "heat1")) return {"heat2"};
  if (purpose == "heat2") return {"heat1"};
  if (purpose == "defrostHeat") return {"heat1"};
  if (purpose == "valve") return {"valve", "heat1"};
  if (purpose == "pairA") return {"pairA", "hot"};
  if (purpose == "pairB") return {"pairB", "heat1"};
  return {purpose};
}

/// A call and the input that takes it, a hot and what it is there for.
bool complete(Role a, Role b) {
  const auto are = [&](Role x, Role y) { return (a == x && b == y) || (a == y && b == x); };
  return are(Role::callOut, Role::callIn) || are(Role::hotHeat, Role::dry) || are(Role::hotCool, Role::hot);
}

bool inGroup(const Terminal& terminal, const std::string& group) {
  return terminal.group.empty() || terminal.group == group;
}

struct Match {
  std::vector<Joint> joints;
  int complete = 0;
};

Match matchOf(const Profile& a, sheet::UnitId unitA, const std::string& groupA, const Profile& b,
              sheet::UnitId unitB, const std::string& groupB, const std::set<sheet::TerminalRef>& tied) {
  Match match;
  std::set<std::string> used;
  for (const Terminal& terminal : a.terminals) {
    if (terminal.purpose.empty() || !inGroup(terminal, groupA) || tied.contains({unitA, terminal.id}))
      continue;
    const Terminal* partner = nullptr;
    for (const std::string_view wanted : answers(a, terminal.purpose)) {
      for (const Terminal& other : b.terminals)
        if (partner == nullptr && other.purpose == wanted && inGroup(other, groupB) &&
            !tied.contains({unitB, other.id}))
          partner = &other;
    }
    if (partner == nullptr || !used.insert(partner->id).second) continue;
    const sheet::TerminalRef one{unitA, terminal.id}, two{unitB, partner->id};
    match.joints.push_back({one, two, one, two, terminal.purpose});
    match.complete += complete(terminal.role, partner->role);
  }
  return match;
}

}  // namespace

std::set<sheet::TerminalRef> tiedToCommon(const sheet::Sheet& sheet, const equipment::Library& library) {
  std::set<sheet::TerminalRef> tied;
  const asbuilt::AsBuilt circuit = asbuilt::compile(sheet, library);
  const std::vector<char> jumpers = jumpersIn(circuit);
  for (size_t i = 0; i < jumpers.size(); ++i) {
    if (!jumpers[i]) continue;
    const auto& unit = circuit.units[size_t(circuit.devices[i].unit)];
    const auto& element = circuit.element(circuit.devices[i]);
    const Terminal* other = unit.profile->terminal(element.b);
    if (other != nullptr && other->role == Role::common) tied.insert({unit.id, element.a});
  }
  return tied;
}

const Profile* Neighbours::profileOf(sheet::UnitId id) const {
  const sheet::Unit* unit = sheet_.units.find(id);
  return unit != nullptr ? library_.find(unit->profile) : nullptr;
}

/// The groups a cable can be for: the one that is landed already, else all.
Neighbours::Side Neighbours::sideOf(sheet::UnitId unit, const sheet::Cable& cable) const {
  Side side{unit, profileOf(unit), {}};
  if (side.profile == nullptr) return side;
  for (const sheet::Conductor* wire : conductorsOf(sheet_, cable.id))
    for (const sheet::Landing* end : {&wire->endA, &wire->endB}) {
      const auto* ref = std::get_if<sheet::TerminalRef>(end);
      const Terminal* terminal =
          ref != nullptr && ref->unit == unit ? side.profile->terminal(ref->terminal) : nullptr;
      if (terminal != nullptr && !terminal->group.empty()) return {unit, side.profile, {terminal->group}};
    }
  for (const Terminal& terminal : side.profile->terminals)
    if (!terminal.group.empty() &&
        std::find(side.groups.begin(), side.groups.end(), terminal.group) == side.groups.end())
      side.groups.push_back(terminal.group);
  if (side.groups.empty()) side.groups.emplace_back();
  return side;
}

int Neighbours::taken(const Side& side, const std::string& group, const Side& by) const {
  const auto found = taken_.find({side.unit, group, by.profile->kind});
  return found == taken_.end() ? 0 : found->second;
}

std::vector<Joint> Neighbours::joints(const sheet::Cable& cable) {
  const Side a = sideOf(cable.endA, cable), b = sideOf(cable.endB, cable);
  if (a.profile == nullptr || b.profile == nullptr) return {};
  struct Best {
    /// Not yet between these two, complete joints, joints, groups not yet taken.
    std::tuple<bool, int, size_t, int> worth{false, -1, 0, 0};
    std::string groupA, groupB;
    Match match;
  } best;
  for (const std::string& groupA : a.groups)
    for (const std::string& groupB : b.groups) {
      Match match = matchOf(*a.profile, a.unit, groupA, *b.profile, b.unit, groupB, tied_);
      const std::tuple worth{!between_.contains({a.unit, groupA, b.unit, groupB}), match.complete,
                             match.joints.size(), -taken(a, groupA, b) - taken(b, groupB, a)};
      if (worth > best.worth) best = {worth, groupA, groupB, std::move(match)};
    }
  ++taken_[{a.unit, best.groupA, b.profile->kind}];
  ++taken_[{b.unit, best.groupB, a.profile->kind}];
  between_.insert({a.unit, best.groupA, b.unit, best.groupB});
  splices(cable, best.match.joints);
  return std::move(best.match.joints);
}

bool Neighbours::serves(sheet::UnitId unit, const std::string& purpose) const {
  const Profile* profile = profileOf(unit);
  return profile != nullptr && has(*profile, purpose);
}

void Neighbours::splices(const sheet::Cable& cable, std::vector<Joint>& joints) {
  for (const bool endA : {true, false}) {
    const sheet::UnitId own = endA ? cable.endA : cable.endB;
    const sheet::UnitId middle = endA ? cable.endB : cable.endA;
    for (const Terminal& terminal : profileOf(own)->terminals) {
      const bool calls = terminal.role == Role::callOut;
      const sheet::TerminalRef screw{own, terminal.id};
      if (terminal.purpose.empty() || (!calls && terminal.role != Role::callIn) || tied_.contains(screw) ||
          serves(middle, terminal.purpose))
        continue;
      for (const sheet::Cable& next : sheet_.cables) {
        if (next.id == cable.id || (next.endA != middle && next.endB != middle)) continue;
        const sheet::UnitId beyond = next.endA == middle ? next.endB : next.endA;
        const Profile* profile = profileOf(beyond);
        if (profile == nullptr || beyond == own) continue;
        const auto partner =
            std::find_if(profile->terminals.begin(), profile->terminals.end(), [&](const Terminal& other) {
              return other.purpose == terminal.purpose && !tied_.contains({beyond, other.id}) &&
                     other.role == (calls ? Role::callIn : Role::callOut);
            });
        if (partner == profile->terminals.end()) continue;
        const sheet::TerminalRef far{beyond, partner->id};
        const sheet::Landing splice = sheet::Splice{middle, spliceName(middle, terminal.purpose)};
        joints.push_back(endA ? Joint{screw, far, screw, splice, terminal.purpose}
                              : Joint{far, screw, splice, screw, terminal.purpose});
        break;
      }
    }
  }
}

/// The splice that a conductor of that purpose lies on already, else the first free name.
std::string Neighbours::spliceName(sheet::UnitId at, const std::string& purpose) {
  std::string& name = spliced_[{at, purpose}];
  if (!name.empty()) return name;
  std::set<std::string> used;
  for (const auto& [where, other] : spliced_)
    if (where.first == at) used.insert(other);
  for (const sheet::Conductor& wire : sheet_.conductors)
    for (const auto& [end, far] : {std::pair(&wire.endA, &wire.endB), std::pair(&wire.endB, &wire.endA)}) {
      const auto* splice = std::get_if<sheet::Splice>(end);
      if (splice == nullptr || splice->unit != at) continue;
      used.insert(splice->name);
      const auto* ref = std::get_if<sheet::TerminalRef>(far);
      const Profile* profile = ref == nullptr ? nullptr : profileOf(ref->unit);
      const Terminal* terminal = profile == nullptr ? nullptr : profile->terminal(ref->terminal);
      if (terminal != nullptr && terminal->purpose == purpose) return name = splice->name;
    }
  for (int n = 1; name.empty(); ++n)
    if (const std::string next = "S" + std::to_string(n); !used.contains(next)) name = next;
  return name;
}

}  // namespace ww::verify
