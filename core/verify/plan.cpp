// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/plan.h"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>
#include <utility>

#include "verify/plan_joints.h"

namespace ww::verify {

namespace {

using sheet::Insulation;

struct Custom {
  std::string_view purpose;
  Insulation colour;
};
/// In the order in which purposes are served; the colours are common practice, no source.
constexpr std::array<Custom, 16> kCustoms{{{"hot", Insulation::rd},
                                           {"valve", Insulation::rd},
                                           {"damper", Insulation::rd},
                                           {"compressor1", Insulation::ye},
                                           {"blower", Insulation::gn},
                                           {"heat1", Insulation::wh},
                                           {"reversingValve", Insulation::og},
                                           {"defrostHeat", Insulation::wh},
                                           {"heat2", Insulation::wh},
                                           {"compressor2", Insulation::bk},
                                           {"pairA", Insulation::rd},
                                           {"pairB", Insulation::wh},
                                           {"sensorA", Insulation::rd},
                                           {"sensorB", Insulation::wh},
                                           {"occupied", Insulation::og},
                                           {"common", Insulation::bu}}};

size_t rankOf(std::string_view purpose) {
  const auto found = std::find_if(kCustoms.begin(), kCustoms.end(),
                                  [&](const Custom& custom) { return custom.purpose == purpose; });
  return static_cast<size_t>(found - kCustoms.begin());
}

class Planner {
 public:
  Planner(const sheet::Sheet& sheet, const equipment::Library& library)
      : sheet_(sheet), library_(library), neighbours_(sheet, library) {}

  Plan plan() {
    for (const sheet::Cable& cable : sheet_.cables) planCable(cable);
    missingCables();
    std::sort(plan_.landings.begin(), plan_.landings.end(),
              [](const Proposal& a, const Proposal& b) { return a.conductor < b.conductor; });
    return std::move(plan_);
  }

 private:
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

  /// A unit of a kit through which two calls share a conductor.
  static bool shares(const equipment::Profile& profile) {
    return std::any_of(profile.elements.begin(), profile.elements.end(),
                       [](const equipment::Element& element) {
                         return std::holds_alternative<equipment::DiodePart>(element.part) ||
                                std::holds_alternative<equipment::HalfWaveRelayPart>(element.part);
                       });
  }

  /// The unit of such a kit at the other end of a cable of this unit; null: none.
  const equipment::Profile* kitBeside(sheet::UnitId unit) const {
    for (const sheet::Cable& cable : sheet_.cables) {
      if (cable.endA != unit && cable.endB != unit) continue;
      const auto* other = neighbours_.profileOf(cable.endA == unit ? cable.endB : cable.endA);
      if (other != nullptr && shares(*other)) return other;
    }
    return nullptr;
  }

  /// A call that goes by a kit at both its ends needs no conductor of its own.
  bool goesShared(const Joint& joint) const {
    const auto takes = [&](sheet::UnitId unit) {
      const auto* kit = kitBeside(unit);
      return kit != nullptr &&
             std::any_of(kit->terminals.begin(), kit->terminals.end(), [&](const auto& terminal) {
               const bool call =
                   terminal.role == equipment::Role::callIn || terminal.role == equipment::Role::callOut;
               return call && terminal.purpose == joint.purpose;
             });
    };
    return takes(joint.a.unit) && takes(joint.b.unit);
  }

  /// Where the shared conductor ends in a unit: its own screw for it, or a splice on the way there.
  std::optional<sheet::Landing> sharedEnd(sheet::UnitId unit) const {
    const auto* profile = neighbours_.profileOf(unit);
    if (profile != nullptr && shares(*profile))
      for (const auto& terminal : profile->terminals)
        if (terminal.role == equipment::Role::tie) return sheet::TerminalRef{unit, terminal.id};
    return kitBeside(unit) != nullptr ? std::optional<sheet::Landing>(sheet::Splice{unit, "X"})
                                      : std::nullopt;
  }

  /// One free conductor of a cable on the way from one unit of a kit to the other is the shared one.
  void planShared(const sheet::Cable& cable, std::vector<const sheet::Conductor*>& free) {
    const auto a = sharedEnd(cable.endA), b = sharedEnd(cable.endB);
    if (!a || !b || free.empty()) return;
    for (const sheet::Conductor* wire : conductorsOf(sheet_, cable.id))
      if (wire->endA == *a || wire->endB == *b) return;
    plan_.landings.push_back({free.front()->id, *a, *b, {}});
    free.erase(free.begin());
  }

  /// What is wanted of the joints, in order of need.
  std::vector<Joint> jointsOf(const sheet::Cable& cable) {
    std::vector<Joint> joints = neighbours_.joints(cable);
    std::erase_if(joints, [&](const Joint& joint) { return !wanted(joint.purpose) || goesShared(joint); });
    std::stable_sort(joints.begin(), joints.end(),
                     [](const Joint& x, const Joint& y) { return rankOf(x.purpose) < rankOf(y.purpose); });
    return joints;
  }

  static bool isSpareAtOneEnd(const sheet::Conductor& wire) {
    const auto capped = [](const sheet::Landing& end) { return std::holds_alternative<sheet::Capped>(end); };
    const auto loose = [](const sheet::Landing& end) { return std::holds_alternative<sheet::Loose>(end); };
    return (capped(wire.endA) && loose(wire.endB)) || (loose(wire.endA) && capped(wire.endB));
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
      else if (isSpareAtOneEnd(*wire))
        plan_.landings.push_back({wire->id, sheet::Capped{}, sheet::Capped{}, {}});
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
    planShared(cable, free);
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
  Neighbours neighbours_;
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
