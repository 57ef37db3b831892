// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/plan_joints.h"

#include <algorithm>
#include <set>

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
              sheet::UnitId unitB, const std::string& groupB) {
  Match match;
  std::set<std::string> used;
  for (const Terminal& terminal : a.terminals) {
    if (terminal.purpose.empty() || !inGroup(terminal, groupA)) continue;
    const Terminal* partner = nullptr;
    for (const std::string_view wanted : answers(a, terminal.purpose)) {
      for (const Terminal& other : b.terminals)
        if (partner == nullptr && other.purpose == wanted && inGroup(other, groupB)) partner = &other;
    }
    if (partner == nullptr || !used.insert(partner->id).second) continue;
    match.joints.push_back({{unitA, terminal.id}, {unitB, partner->id}, terminal.purpose});
    match.complete += complete(terminal.role, partner->role);
  }
  return match;
}

}  // namespace

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
      Match match = matchOf(*a.profile, a.unit, groupA, *b.profile, b.unit, groupB);
      const std::tuple worth{!between_.contains({a.unit, groupA, b.unit, groupB}), match.complete,
                             match.joints.size(), -taken(a, groupA, b) - taken(b, groupB, a)};
      if (worth > best.worth) best = {worth, groupA, groupB, std::move(match)};
    }
  ++taken_[{a.unit, best.groupA, b.profile->kind}];
  ++taken_[{b.unit, best.groupB, a.profile->kind}];
  between_.insert({a.unit, best.groupA, b.unit, best.groupB});
  return std::move(best.match.joints);
}

}  // namespace ww::verify
