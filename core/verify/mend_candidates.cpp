// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/mend_candidates.h"

#include <algorithm>
#include <array>
#include <set>

#include "equipment/part.h"
#include "verify/forbidden.h"
#include "verify/lookup.h"
#include "verify/plan_joints.h"
#include "verify/purpose.h"

namespace ww::verify {

namespace {

using equipment::Role;
using sheet::Conductor;
using sheet::ConductorId;
using sheet::Landing;
using sheet::TerminalRef;

constexpr double kClass2VoltAmps = 100;
constexpr int kMostAwg = 14;  // thicker ones do not fit the screws: common practice, no source

bool isFree(const Landing& landing) {
  return std::holds_alternative<sheet::Loose>(landing) || std::holds_alternative<sheet::Capped>(landing);
}

class Generator {
 public:
  Generator(const sheet::Sheet& sheet, const equipment::Library& library, const SheetCheck& check)
      : sheet_(sheet), library_(library), neighbours_(sheet, library) {
    for (const Finding& finding : check.findings) {
      implicate(finding);
      orphan_ |= finding.rule == "stage-orphan";
      if (finding.rule == "foreign-source") foreign_.insert(finding.places.front().unit);
    }
  }

  std::vector<Candidate> all() {
    for (const Conductor& wire : sheet_.conductors) {
      if (wire.isJumper()) {
        add({.kind = Edit::Kind::offJumper, .end = {wire.id, 'A'}, .from = wire.endA, .to = wire.endB}, 1);
      } else {
        moves(wire, 'A');
        moves(wire, 'B');
        takeOff(wire);
        land(wire);
      }
    }
    swaps();
    for (const sheet::Unit& unit : sheet_.units) {
      jumpers(unit);
      settings(unit);
    }
    gauges();
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Candidate& a, const Candidate& b) { return a.rank < b.rank; });
    return std::move(found_);
  }

 private:
  void add(Edit edit, int rank) { found_.push_back({std::move(edit), rank}); }

  void implicate(const Place& place) {
    if (place.conductor != ConductorId{}) conductors_.insert(place.conductor);
    if (place.unit == sheet::UnitId{}) return;
    if (place.terminal.empty())
      units_.insert(place.unit);
    else
      terminals_.insert({place.unit, place.terminal});
  }

  void implicate(const Finding& finding) {
    for (const Place& place : finding.places) implicate(place);
    for (const Argument& argument : finding.arguments)
      if (const auto* path = std::get_if<Path>(&argument.figure))
        for (const Place& place : *path) implicate(place);
  }

  const equipment::Profile* profileOf(sheet::UnitId id) const {
    return verify::profileOf(sheet_, library_, id);
  }

  const equipment::Terminal* terminalOf(const Landing& landing) const {
    return verify::terminalOf(sheet_, library_, landing);
  }

  /// Both ends on screws that serve the same purpose, or both free.
  bool liesWell(const Conductor& wire) const {
    if (isFree(wire.endA) && isFree(wire.endB)) return true;
    const auto* a = terminalOf(wire.endA);
    const auto* b = terminalOf(wire.endB);
    if (a == nullptr || b == nullptr) return false;
    for (const Landing* end : {&wire.endA, &wire.endB})
      if (neighbours_.tied().contains(std::get<TerminalRef>(*end))) return false;
    const auto unitA = sheet::unitOfEnd(sheet_, wire, true);
    const auto* cable = wire.cable ? sheet_.cables.find(*wire.cable) : nullptr;
    if (cable != nullptr && (unitA != cable->endA || sheet::unitOfEnd(sheet_, wire, false) != cable->endB))
      return false;
    return a->purpose.empty() || b->purpose.empty() ||
           (samePurpose(a->purpose, b->purpose) && hotWell(*a, *b));
  }

  /// The hot that heating is switched from, of a control with two, does not lie on another unit's hot.
  static bool hotWell(const equipment::Terminal& a, const equipment::Terminal& b) {
    return !(a.role == Role::hotHeat && b.role == Role::hot) &&
           !(b.role == Role::hotHeat && a.role == Role::hot);
  }

  int rankOf(const Conductor& wire) const {
    if (!liesWell(wire)) return 1;
    if (conductors_.contains(wire.id)) return 2;
    for (const Landing* landing : {&wire.endA, &wire.endB})
      if (const auto* ref = std::get_if<TerminalRef>(landing); ref != nullptr && terminals_.contains(*ref))
        return 2;
    return 3;
  }

  /// Screws of a unit that a conductor may be brought to.
  template <class Use>
  void screwsOf(sheet::UnitId id, Use use) const {
    const auto* profile = profileOf(id);
    if (profile == nullptr) return;
    for (const auto& terminal : profile->terminals)
      if (!standsApart(terminal.role)) use(TerminalRef{id, terminal.id}, terminal);
  }

  /// Not at circuits that stand apart, unless a finding says of their unit that something foreign lies there.
  bool mayBeTouched(const Landing& landing) const {
    const auto* terminal = terminalOf(landing);
    return terminal == nullptr || !standsApart(terminal->role) ||
           foreign_.contains(std::get<TerminalRef>(landing).unit);
  }

  std::optional<sheet::UnitId> cableUnit(const Conductor& wire, char end) const {
    const auto* cable = wire.cable ? sheet_.cables.find(*wire.cable) : nullptr;
    if (cable == nullptr) return std::nullopt;
    return end == 'A' ? cable->endA : cable->endB;
  }

  static bool feeds(const equipment::Terminal* terminal) {
    return terminal != nullptr && (terminal->purpose == "hot" || terminal->purpose == "common");
  }

  /// A conductor from hot or common to a screw that is there for something else shorts, or calls for ever.
  static bool shorts(const equipment::Terminal* a, const equipment::Terminal* b) {
    return a != nullptr && b != nullptr && !a->purpose.empty() && !b->purpose.empty() &&
           (feeds(a) || feeds(b)) && a->purpose != b->purpose;
  }

  void moves(const Conductor& wire, char end) {
    const Landing& here = landingOf(wire, end);
    const Landing& there = landingOf(wire, end == 'A' ? 'B' : 'A');
    const auto unit = cableUnit(wire, end);
    if (!unit || isFree(there) || !mayBeTouched(here) || !mayBeTouched(there)) return;
    const int rank = rankOf(wire);
    const auto* partner = terminalOf(there);
    const bool lies = rank > 1 && feeds(partner);  // on another hot at most, where a unit has several
    const auto bring = [&](const TerminalRef& ref, const equipment::Terminal& terminal) {
      if (here == Landing(ref) || shorts(&terminal, partner)) return;
      if (lies && terminal.purpose != partner->purpose) return;
      add({.kind = Edit::Kind::move, .end = {wire.id, end}, .from = here, .to = ref},
          rank == 1 && said(ref, partner) ? 0 : rank);
    };
    screwsOf(*unit, bring);
    for (const sheet::Splice& splice : splicesIn(*unit))
      if (!lies && here != Landing(splice))
        add({.kind = Edit::Kind::move, .end = {wire.id, end}, .from = here, .to = splice}, rank);
    if (partner == nullptr || !standsApart(partner->role)) return;
    // Back to its own kind, which nothing else may be brought to.
    for (const auto& terminal : profileOf(*unit)->terminals)
      if (standsApart(terminal.role) && said(TerminalRef{*unit, terminal.id}, partner))
        bring({*unit, terminal.id}, terminal);
  }

  /// Splices in a unit on which other ends lie.
  std::set<sheet::Splice> splicesIn(sheet::UnitId unit) const {
    std::set<sheet::Splice> splices;
    for (const Conductor& wire : sheet_.conductors)
      for (const Landing* landing : {&wire.endA, &wire.endB})
        if (const auto* splice = std::get_if<sheet::Splice>(landing);
            splice != nullptr && splice->unit == unit)
          splices.insert(*splice);
    return splices;
  }

  void takeOff(const Conductor& wire) {
    const int ends = int(!isFree(wire.endA)) + int(!isFree(wire.endB));
    if (ends == 0 || !mayBeTouched(wire.endA) || !mayBeTouched(wire.endB)) return;
    add({.kind = Edit::Kind::takeOff,
         .end = {wire.id, 'A'},
         .from = wire.endA,
         .to = wire.endB,
         .ends = ends},
        rankOf(wire));
  }

  /// A spare, or a conductor that hangs loose at one end, between two screws of the same purpose.
  void land(const Conductor& wire) {
    const auto a = cableUnit(wire, 'A');
    const auto b = cableUnit(wire, 'B');
    if (!a || !b || (!isFree(wire.endA) && !isFree(wire.endB))) return;
    asJoined(wire);
    if (!mayBeTouched(wire.endA) || !mayBeTouched(wire.endB)) return;
    screwsOf(*a, [&](const TerminalRef& from, const equipment::Terminal& one) {
      screwsOf(*b, [&](const TerminalRef& to, const equipment::Terminal& two) {
        if (!one.purpose.empty() && samePurpose(one.purpose, two.purpose))
          add({.kind = Edit::Kind::land, .end = {wire.id, 'A'}, .from = from, .to = to}, 1);
      });
    });
  }

  /// Between screws that belong on one conductor though they serve different purposes (the hot of a control
  /// and a boiler's dry pair) or stand apart.
  void asJoined(const Conductor& wire) {
    for (const Joint& joint : Neighbours(neighbours_).joints(*sheet_.cables.find(*wire.cable))) {
      const auto* one = terminalOf(joint.a);
      const auto* two = terminalOf(joint.b);
      if (!standsApart(one->role) && !standsApart(two->role)) continue;
      const bool freeA = isFree(wire.endA), freeB = isFree(wire.endB);
      if (freeA && freeB)
        add({.kind = Edit::Kind::land, .end = {wire.id, 'A'}, .from = joint.a, .to = joint.b}, 1);
      else if (freeB && wire.endA == Landing(joint.a))
        add({.kind = Edit::Kind::move, .end = {wire.id, 'B'}, .from = wire.endB, .to = joint.b}, 0);
      else if (freeA && wire.endB == Landing(joint.b))
        add({.kind = Edit::Kind::move, .end = {wire.id, 'A'}, .from = wire.endA, .to = joint.a}, 0);
    }
  }

  struct Lying {
    End end;
    Landing where;
    int rank;
    const equipment::Terminal* partner;  ///< at the other end
  };

  bool said(const Landing& where, const equipment::Terminal* partner) const {
    const auto* terminal = terminalOf(where);
    return terminal != nullptr && partner != nullptr && !terminal->purpose.empty() &&
           samePurpose(terminal->purpose, partner->purpose);
  }

  int swapRank(const Lying& one, const Lying& two) const {
    const int rank = std::max(one.rank, two.rank);
    return rank == 1 && (said(one.where, two.partner) || said(two.where, one.partner)) ? 0 : rank;
  }

  void swaps() {
    std::map<sheet::UnitId, std::vector<Lying>> ends;
    for (const Conductor& wire : sheet_.conductors) {
      if (wire.isJumper() || (isFree(wire.endA) && isFree(wire.endB))) continue;
      for (const char end : {'A', 'B'})
        if (const auto unit = cableUnit(wire, end); unit && mayBeTouched(landingOf(wire, end)))
          ends[*unit].push_back({{wire.id, end},
                                 landingOf(wire, end),
                                 rankOf(wire),
                                 terminalOf(landingOf(wire, end == 'A' ? 'B' : 'A'))});
    }
    for (const auto& [unit, lying] : ends)
      for (size_t i = 0; i < lying.size(); ++i)
        for (size_t k = i + 1; k < lying.size(); ++k)
          if (lying[i].where != lying[k].where && lying[i].end.conductor != lying[k].end.conductor &&
              !shorts(terminalOf(lying[i].where), lying[k].partner) &&
              !shorts(terminalOf(lying[k].where), lying[i].partner))
            add({.kind = Edit::Kind::swap,
                 .end = lying[i].end,
                 .other = lying[k].end,
                 .from = lying[i].where,
                 .to = lying[k].where},
                swapRank(lying[i], lying[k]));
  }

  /// Between screws that are not joined by one already; never at hot, which would run something for ever.
  void jumpers(const sheet::Unit& unit) {
    const int rank = units_.contains(unit.id) ? 2 : 3;
    screwsOf(unit.id, [&](const TerminalRef& from, const equipment::Terminal& one) {
      screwsOf(unit.id, [&](const TerminalRef& to, const equipment::Terminal& two) {
        if (from.terminal >= to.terminal) return;
        const bool hot = one.role == Role::hot || two.role == Role::hot;
        const bool common = one.role == Role::common || two.role == Role::common;
        if (hot || common) return;
        add({.kind = Edit::Kind::jumper, .from = from, .to = to}, rank);
      });
    });
  }

  void settings(const sheet::Unit& unit) {
    const auto* profile = profileOf(unit.id);
    if (profile == nullptr) return;
    for (const auto& setting : profile->settings) {
      const std::string now = asbuilt::settingOf(sheet_, unit, *profile, setting.key);
      const bool part = namesPart(*profile, setting.key);
      for (const std::string& choice : setting.choices) {
        if (choice == now || choice == "jumper" || (part && !mayBeFitted(now, choice))) continue;
        add({.kind = part ? Edit::Kind::part : Edit::Kind::setting,
             .unit = unit.id,
             .key = setting.key,
             .value = choice},
            orphan_ && setting.key == "compressorStages" ? 0 : 2);
      }
    }
    tap(unit);
  }

  /// A primary tap that does not suit the line.
  void tap(const sheet::Unit& unit) {
    const auto now = sheet_.settings.find(unit.tag, "tap");
    const auto line = sheet_.settings.find("", settings::kLineVolts);
    if (!now || now == line.value_or("120")) return;
    add({.kind = Edit::Kind::setting, .unit = unit.id, .key = "tap", .value = line.value_or("120")}, 1);
  }

  bool mayBeFitted(const std::string& now, const std::string& choice) const {
    const auto is = library_.parts.find(now);
    const auto part = library_.parts.find(choice);
    if (is == library_.parts.end() || part == library_.parts.end()) return false;
    if (const auto* fuse = std::get_if<equipment::FusePart>(&part->second)) {
      const auto* present = std::get_if<equipment::FusePart>(&is->second);
      return present != nullptr && fuse->rating <= present->rating;
    }
    if (const auto* transformer = std::get_if<equipment::TransformerPart>(&part->second))
      return transformer->rating.si() <= kClass2VoltAmps;
    return true;
  }

  void gauges() {
    for (const sheet::Cable& cable : sheet_.cables)
      for (const double awg : {20.0, 18.0, 16.0, double(kMostAwg)})
        if (cable.gauge.system == quantity::Gauge::System::awg && awg < cable.gauge.value)
          add({.kind = Edit::Kind::gauge, .cable = cable.id, .gauge = {quantity::Gauge::System::awg, awg}},
              2);
  }

  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  const Neighbours neighbours_;
  std::set<ConductorId> conductors_;
  std::set<TerminalRef> terminals_;
  std::set<sheet::UnitId> units_, foreign_;
  bool orphan_ = false;  ///< a second stage is never called: the control may count one alone
  std::vector<Candidate> found_;
};

}  // namespace

std::vector<Candidate> candidatesOf(const sheet::Sheet& sheet, const equipment::Library& library,
                                    const SheetCheck& check) {
  return Generator(sheet, library, check).all();
}

}  // namespace ww::verify
