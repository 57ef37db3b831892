// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/plan.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

namespace ww::verify {

namespace {

using sheet::Insulation;

struct Custom {
  std::string_view purpose;
  Insulation colour;
};
/// In the order in which purposes are served; the colours are common practice, no source.
constexpr std::array<Custom, 10> kCustoms{{{"hot", Insulation::rd},
                                           {"compressor1", Insulation::ye},
                                           {"blower", Insulation::gn},
                                           {"heat1", Insulation::wh},
                                           {"reversingValve", Insulation::og},
                                           {"defrostHeat", Insulation::wh},
                                           {"heat2", Insulation::wh},
                                           {"compressor2", Insulation::bk},
                                           {"occupied", Insulation::og},
                                           {"common", Insulation::bu}}};

size_t rankOf(std::string_view purpose) {
  const auto found = std::find_if(kCustoms.begin(), kCustoms.end(),
                                  [&](const Custom& custom) { return custom.purpose == purpose; });
  return static_cast<size_t>(found - kCustoms.begin());
}

/// One joint between the two units of a cable.
struct Joint {
  sheet::TerminalRef a, b;
  std::string purpose;
  bool served = false;
};

class Planner {
 public:
  Planner(const sheet::Sheet& sheet, const equipment::Library& library) : sheet_(sheet), library_(library) {}

  Plan plan() {
    for (const sheet::Cable& cable : sheet_.cables) planCable(cable);
    missingCables();
    std::sort(plan_.landings.begin(), plan_.landings.end(),
              [](const Proposal& a, const Proposal& b) { return a.conductor < b.conductor; });
    return std::move(plan_);
  }

 private:
  const equipment::Profile* profileOf(sheet::UnitId id) const {
    const sheet::Unit* unit = sheet_.units.find(id);
    return unit ? library_.find(unit->profile) : nullptr;
  }

  bool offered(std::string_view duty) const {
    return std::any_of(sheet_.units.begin(), sheet_.units.end(), [&](const sheet::Unit& unit) {
      const equipment::Profile* profile = library_.find(unit.profile);
      return profile && profile->offers(duty);
    });
  }

  /// Whether anything placed uses a conductor of that purpose.
  bool wanted(const std::string& purpose) const {
    if (rankOf(purpose) == kCustoms.size()) return false;
    if (purpose == "compressor2" || purpose == "reversingValve") return offered(purpose);
    return true;
  }

  /// The terminal at the other unit that serves a purpose: the same, or the first heat stage for auxiliary
  /// heat and for the heat that a defrost calls.
  static const equipment::Terminal* partner(const equipment::Profile& from, const equipment::Profile& profile,
                                            const std::string& purpose) {
    const auto find = [&](std::string_view wantedPurpose) -> const equipment::Terminal* {
      for (const equipment::Terminal& terminal : profile.terminals)
        if (terminal.purpose == wantedPurpose) return &terminal;
      return nullptr;
    };
    // A unit that has a first stage of its own means the second one by heat2.
    const bool stages = std::any_of(from.terminals.begin(), from.terminals.end(),
                                    [](const auto& terminal) { return terminal.purpose == "heat1"; });
    if (const auto* same = find(purpose); purpose == "heat2" ? stages : same != nullptr) return same;
    if (purpose == "heat2" || purpose == "defrostHeat") return find("heat1");
    if (purpose == "heat1") return find("defrostHeat");
    return nullptr;
  }

  std::vector<Joint> jointsOf(const sheet::Cable& cable) const {
    std::vector<Joint> joints;
    const equipment::Profile* a = profileOf(cable.endA);
    const equipment::Profile* b = profileOf(cable.endB);
    if (!a || !b) return joints;
    for (const equipment::Terminal& terminal : a->terminals) {
      if (!wanted(terminal.purpose)) continue;
      const equipment::Terminal* other = partner(*a, *b, terminal.purpose);
      const bool doubled = other && std::any_of(joints.begin(), joints.end(), [&](const Joint& joint) {
                             return joint.b.terminal == other->id;
                           });
      if (other && !doubled)
        joints.push_back({{cable.endA, terminal.id}, {cable.endB, other->id}, terminal.purpose});
    }
    std::stable_sort(joints.begin(), joints.end(),
                     [](const Joint& x, const Joint& y) { return rankOf(x.purpose) < rankOf(y.purpose); });
    return joints;
  }

  static Joint* jointAt(std::vector<Joint>& joints, const sheet::Landing& landing, bool endA) {
    const auto* ref = std::get_if<sheet::TerminalRef>(&landing);
    if (!ref) return nullptr;
    for (Joint& joint : joints)
      if ((endA ? joint.a : joint.b) == *ref) return &joint;
    return nullptr;
  }

  void propose(const sheet::Conductor& wire, Joint& joint) {
    joint.served = true;
    const bool looseA = std::holds_alternative<sheet::Loose>(wire.endA);
    const bool looseB = std::holds_alternative<sheet::Loose>(wire.endB);
    if (!looseA && !looseB) return;
    plan_.landings.push_back({wire.id, looseA ? sheet::Landing(joint.a) : wire.endA,
                              looseB ? sheet::Landing(joint.b) : wire.endB, joint.purpose});
  }

  void planCable(const sheet::Cable& cable) {
    std::vector<Joint> joints = jointsOf(cable);
    std::vector<const sheet::Conductor*> free;
    for (const sheet::Conductor* wire : conductorsOf(sheet_, cable.id)) {
      Joint* joint = jointAt(joints, wire->endA, true);
      if (!joint) joint = jointAt(joints, wire->endB, false);
      if (joint && !joint->served)
        propose(*wire, *joint);
      else if (std::holds_alternative<sheet::Loose>(wire->endA) &&
               std::holds_alternative<sheet::Loose>(wire->endB))
        free.push_back(wire);
    }
    // With too few conductors the most needed joints share them; colour decides only among those.
    std::vector<Joint*> turn;
    for (Joint& joint : joints)
      if (!joint.served && turn.size() < free.size()) turn.push_back(&joint);
    for (Joint* joint : turn) serve(*joint, free, true);
    for (Joint* joint : turn) serve(*joint, free, false);
    for (const Joint& joint : joints)
      if (!joint.served)
        plan_.wanting.push_back({cable.id, joint.a, joint.b, joint.purpose, Wanting::Why::noConductor});
    for (const sheet::Conductor* wire : free)
      plan_.landings.push_back({wire->id, sheet::Capped{}, sheet::Capped{}, {}});
  }

  /// A control and an outdoor unit each want a cable to an indoor unit.
  void missingCables() {
    std::vector<const sheet::Unit*> indoor, around;
    for (const sheet::Unit& unit : sheet_.units) {
      const equipment::Profile* profile = library_.find(unit.profile);
      if (profile == nullptr) continue;
      if (profile->column == equipment::Column::indoor) indoor.push_back(&unit);
      if (profile->column == equipment::Column::control || profile->column == equipment::Column::outdoor)
        around.push_back(&unit);
    }
    for (const sheet::Unit* unit : around) {
      const bool reached = std::any_of(sheet_.cables.begin(), sheet_.cables.end(), [&](const auto& cable) {
        return cable.endA == unit->id || cable.endB == unit->id;
      });
      if (reached || indoor.empty()) continue;
      const bool control = library_.find(unit->profile)->column == equipment::Column::control;
      sheet::Cable cable;
      cable.endA = control ? unit->id : indoor.front()->id;
      cable.endB = control ? indoor.front()->id : unit->id;
      for (const Joint& joint : jointsOf(cable))
        plan_.wanting.push_back({{}, joint.a, joint.b, joint.purpose, Wanting::Why::noCable});
    }
  }

  void serve(Joint& joint, std::vector<const sheet::Conductor*>& free, bool byCustom) {
    if (joint.served || free.empty()) return;
    const Insulation colour = kCustoms[rankOf(joint.purpose)].colour;
    const auto wire = byCustom ? std::find_if(free.begin(), free.end(),
                                              [&](const sheet::Conductor* each) {
                                                return each->colour.body == colour && !each->colour.tracer;
                                              })
                               : free.begin();
    if (wire == free.end()) return;
    propose(**wire, joint);
    free.erase(wire);
  }

  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  Plan plan_;
};

}  // namespace

Plan plan(const sheet::Sheet& sheet, const equipment::Library& library) {
  return Planner(sheet, library).plan();
}

std::vector<EndProposal> proposedLandings(const sheet::Sheet& sheet, const equipment::Library& library) {
  std::vector<EndProposal> ends;
  for (const Proposal& proposal : plan(sheet, library).landings) {
    const sheet::Conductor* wire = sheet.conductors.find(proposal.conductor);
    if (std::holds_alternative<sheet::Loose>(wire->endA))
      if (const auto* ref = std::get_if<sheet::TerminalRef>(&proposal.endA))
        ends.push_back({wire->id, 'A', *ref});
    if (std::holds_alternative<sheet::Loose>(wire->endB))
      if (const auto* ref = std::get_if<sheet::TerminalRef>(&proposal.endB))
        ends.push_back({wire->id, 'B', *ref});
  }
  return ends;
}

sheet::Sheet landed(sheet::Sheet sheet, const Plan& plan) {
  std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  for (sheet::Conductor& wire : rows) {
    const auto proposal = std::find_if(plan.landings.begin(), plan.landings.end(),
                                       [&](const Proposal& each) { return each.conductor == wire.id; });
    if (proposal == plan.landings.end()) continue;
    wire.endA = proposal->endA;
    wire.endB = proposal->endB;
  }
  sheet.conductors = sheet::Table<sheet::Conductor>(std::move(rows));
  return sheet;
}

}  // namespace ww::verify
