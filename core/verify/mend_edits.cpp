// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/mend_edits.h"

#include <algorithm>
#include <set>

#include "verify/plan.h"

namespace ww::verify {

namespace {

using sheet::Landing;

const Landing& landingOf(const sheet::Conductor& wire, char end) {
  return end == 'A' ? wire.endA : wire.endB;
}

struct EndAt {
  sheet::ConductorId conductor{};
  char end = 'A';
  sheet::UnitId unit{};
  Landing landing;
};

std::vector<EndAt> endsOf(const sheet::Sheet& sheet) {
  std::vector<EndAt> ends;
  for (const sheet::Conductor& wire : sheet.conductors) {
    if (wire.isJumper()) continue;
    for (const char end : {'A', 'B'})
      if (const auto unit = sheet::unitOfEnd(sheet, wire, end == 'A'))
        ends.push_back({wire.id, end, *unit, landingOf(wire, end)});
  }
  return ends;
}

bool idle(const Landing& landing) {
  return std::holds_alternative<sheet::Capped>(landing) || std::holds_alternative<sheet::Loose>(landing);
}

/// A spare lands with both ends or not at all.
bool spare(const sheet::Conductor& wire) { return idle(wire.endA) && idle(wire.endB); }

/// Where the findings point: conductors by name or by the terminals named, and units.
class Suspicion {
 public:
  Suspicion(const sheet::Sheet& sheet, const SheetCheck& check) : sheet_(sheet) {
    for (const Finding& finding : check.findings) {
      if (finding.severity == Severity::note) continue;
      for (const Place& place : finding.places) suspect(place);
      for (const Argument& argument : finding.arguments) {
        if (const auto* place = std::get_if<Place>(&argument.figure)) suspect(*place);
        if (const auto* path = std::get_if<Path>(&argument.figure))
          for (const Place& place : *path) suspect(place);
      }
    }
    for (const sheet::Conductor& wire : sheet.conductors)
      if (idle(wire.endA) != idle(wire.endB)) conductors_.insert(wire.id);
  }

  bool named(const EndAt& end) const { return conductors_.count(end.conductor) || units_.count(end.unit); }

 private:
  void suspect(const Place& place) {
    if (place.conductor != sheet::ConductorId{}) conductors_.insert(place.conductor);
    if (place.unit == sheet::UnitId{}) return;
    units_.insert(place.unit);
    if (place.terminal.empty()) return;
    const Landing there = sheet::TerminalRef{place.unit, place.terminal};
    for (const sheet::Conductor& wire : sheet_.conductors)
      if (wire.endA == there || wire.endB == there) conductors_.insert(wire.id);
  }

  const sheet::Sheet& sheet_;
  std::set<sheet::ConductorId> conductors_;
  std::set<sheet::UnitId> units_;
};

void addMoves(const sheet::Sheet& sheet, const equipment::Library& library, const EndAt& end,
              std::vector<Edit>& edits) {
  const sheet::Unit* unit = sheet.units.find(end.unit);
  const equipment::Profile* profile = unit ? library.find(unit->profile) : nullptr;
  if (!profile) return;
  for (const equipment::Terminal& terminal : profile->terminals) {
    const Landing to = sheet::TerminalRef{end.unit, terminal.id};
    if (to != end.landing) edits.emplace_back(MoveEnd{end.conductor, end.end, end.landing, to});
  }
  if (std::holds_alternative<sheet::TerminalRef>(end.landing))
    edits.emplace_back(MoveEnd{end.conductor, end.end, end.landing, sheet::Capped{}});
}

void addSwaps(const std::vector<EndAt>& ends, const Suspicion& suspicion, Reach reach,
              std::vector<Edit>& edits) {
  for (size_t i = 0; i < ends.size(); ++i)
    for (size_t k = i + 1; k < ends.size(); ++k) {
      const EndAt &one = ends[i], &two = ends[k];
      if (one.unit != two.unit || one.landing == two.landing) continue;
      const bool near = suspicion.named(one) || suspicion.named(two);
      if (near != (reach == Reach::near)) continue;
      edits.emplace_back(SwapEnds{one.unit, one.conductor, two.conductor, one.end, two.end});
    }
}

void addSettings(const sheet::Sheet& sheet, const equipment::Library& library, std::vector<Edit>& edits) {
  for (const sheet::Unit& unit : sheet.units) {
    const equipment::Profile* profile = library.find(unit.profile);
    if (!profile) continue;
    for (const equipment::Setting& setting : profile->settings) {
      // A transformer or a fuse of another size is another part, not a setting to turn.
      if (setting.key == "transformer" || setting.key == "fuse") continue;
      const std::string now = sheet.settings.find(unit.tag, setting.key).value_or(setting.standard);
      for (const std::string& choice : setting.choices)
        if (choice != now) edits.emplace_back(SetValue{unit.id, setting.key, now, choice});
    }
  }
}

bool hot(equipment::Role role) {
  return role == equipment::Role::hot || role == equipment::Role::hotCool || role == equipment::Role::hotHeat;
}

void addJumpers(const sheet::Sheet& sheet, const equipment::Library& library, std::vector<Edit>& edits) {
  for (const sheet::Conductor& wire : sheet.conductors) {
    const auto* a = std::get_if<sheet::TerminalRef>(&wire.endA);
    const auto* b = std::get_if<sheet::TerminalRef>(&wire.endB);
    if (wire.isJumper() && a && b) edits.emplace_back(TakeJumperOut{wire.id, *a, *b});
  }
  for (const sheet::Unit& unit : sheet.units) {
    const equipment::Profile* profile = library.find(unit.profile);
    if (!profile) continue;
    const auto& terminals = profile->terminals;
    for (size_t i = 0; i < terminals.size(); ++i)
      for (size_t k = i + 1; k < terminals.size(); ++k)
        if (hot(terminals[i].role) && hot(terminals[k].role))
          edits.emplace_back(PutJumperIn{{unit.id, terminals[i].id}, {unit.id, terminals[k].id}});
  }
}

}  // namespace

std::vector<Edit> candidateEdits(const sheet::Sheet& sheet, const equipment::Library& library,
                                 const SheetCheck& check, Reach reach) {
  const Suspicion suspicion(sheet, check);
  const std::vector<EndAt> ends = endsOf(sheet);
  std::vector<Edit> edits;
  for (const EndAt& end : ends)
    if (suspicion.named(end) == (reach == Reach::near) && !spare(*sheet.conductors.find(end.conductor)))
      addMoves(sheet, library, end, edits);
  addSwaps(ends, suspicion, reach, edits);
  if (reach == Reach::far) return edits;
  addSettings(sheet, library, edits);
  addJumpers(sheet, library, edits);
  return edits;
}

std::vector<std::vector<Edit>> plannedEdits(const sheet::Sheet& sheet, const equipment::Library& library) {
  std::vector<std::vector<Edit>> result;
  std::vector<sheet::Conductor> rows = sheet.conductors.rows();
  for (sheet::Conductor& wire : rows)
    if (!wire.isJumper() && spare(wire)) wire.endA = wire.endB = sheet::Loose{};
  sheet::Sheet freed = sheet;
  freed.conductors = sheet::Table<sheet::Conductor>(std::move(rows));
  for (const Proposal& proposal : plan(freed, library).landings) {
    if (proposal.purpose.empty()) continue;
    const sheet::Conductor* wire = sheet.conductors.find(proposal.conductor);
    std::vector<Edit> edits;
    if (wire->endA != proposal.endA) edits.emplace_back(MoveEnd{wire->id, 'A', wire->endA, proposal.endA});
    if (wire->endB != proposal.endB) edits.emplace_back(MoveEnd{wire->id, 'B', wire->endB, proposal.endB});
    if (!edits.empty()) result.push_back(std::move(edits));
  }
  return result;
}

}  // namespace ww::verify
