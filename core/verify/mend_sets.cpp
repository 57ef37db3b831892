// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/mend_sets.h"

#include <algorithm>
#include <optional>

#include "verify/lookup.h"
#include "verify/plan.h"

namespace ww::verify {

namespace {

using sheet::Conductor;
using sheet::Landing;
using sheet::TerminalRef;

struct Lying {
  End end;
  Landing here, there;
};

/// Every end of a conductor in a cable that `which` holds for.
template <class Which>
std::vector<Lying> endsWhere(const sheet::Sheet& sheet, Which which) {
  std::vector<Lying> ends;
  for (const Conductor& wire : sheet.conductors)
    for (const char end : {'A', 'B'}) {
      if (wire.isJumper()) continue;
      const Lying lying{{wire.id, end}, landingOf(wire, end), landingOf(wire, end == 'A' ? 'B' : 'A')};
      if (which(lying)) ends.push_back(lying);
    }
  return ends;
}

Edit moved(const Lying& lying, const Landing& to) {
  return {.kind = Edit::Kind::move, .end = lying.end, .from = lying.here, .to = to};
}

/// The far ends of the two conductors at the float's screws, on a splice with the call and on its screw.
void intoHot(const sheet::Sheet& sheet, const equipment::Library& library, const Lying& spliced,
             const Lying& screwed, std::vector<EditSet>& sets) {
  const auto* splice = std::get_if<sheet::Splice>(&spliced.here);
  const auto* screw = std::get_if<TerminalRef>(&screwed.here);
  if (splice == nullptr || screw == nullptr || splice->unit != screw->unit) return;
  const auto calls = endsWhere(
      sheet, [&](const Lying& lying) { return lying.here == spliced.here && lying.end != spliced.end; });
  const auto hots = endsWhere(sheet, [&](const Lying& lying) {
    const auto* here = terminalOf(sheet, library, lying.here);
    const auto* there = std::get_if<TerminalRef>(&lying.there);
    const auto* control = there == nullptr ? nullptr : profileOf(sheet, library, there->unit);
    return here != nullptr && here->role == equipment::Role::hot && control != nullptr &&
           control->kind == equipment::Kind::roomControl &&
           std::get<TerminalRef>(lying.here).unit == screw->unit;
  });
  if (calls.size() != 1) return;
  for (const Lying& hot : hots)
    sets.push_back({moved(calls.front(), screwed.here), moved(hot, spliced.here), moved(screwed, hot.here)});
}

/// Where the conductors of a control would lie on another one: on its screw of the same name and purpose,
/// else where the plan has them; nothing where one has no place there.
std::optional<EditSet> exchanged(const sheet::Sheet& sheet, const equipment::Library& library,
                                 const sheet::Unit& control, const equipment::Profile& other) {
  EditSet edits{{.kind = Edit::Kind::exchange, .unit = control.id, .value = other.id}};
  sheet::Sheet loosened = edited(sheet, edits);
  const auto atControl = endsWhere(sheet, [&](const Lying& lying) {
    const auto* ref = std::get_if<TerminalRef>(&lying.here);
    if (ref == nullptr || ref->unit != control.id) return false;
    const auto* now = terminalOf(sheet, library, lying.here);
    const auto* then = other.terminal(ref->terminal);
    return now == nullptr || then == nullptr || now->role != then->role || now->purpose != then->purpose;
  });
  for (const Conductor& wire : sheet.conductors) {
    if (!wire.isJumper()) continue;
    for (const Landing* end : {&wire.endA, &wire.endB})
      if (const auto* ref = std::get_if<TerminalRef>(end);
          ref != nullptr && ref->unit == control.id && other.terminal(ref->terminal) == nullptr)
        return std::nullopt;
  }
  for (const Lying& lying : atControl) loosened = edited(loosened, moved(lying, sheet::Loose{}));
  const auto proposed = proposedLandings(loosened, library);
  for (const Lying& lying : atControl) {
    const auto place = std::find_if(proposed.begin(), proposed.end(), [&](const EndProposal& each) {
      return End{each.conductor, each.end} == lying.end;
    });
    if (place == proposed.end()) return std::nullopt;
    if (Landing(place->terminal) != lying.here) edits.push_back(moved(lying, place->terminal));
  }
  return edits;
}

}  // namespace

std::vector<EditSet> floatsIntoHot(const sheet::Sheet& sheet, const equipment::Library& library,
                                   const SheetCheck& check) {
  std::vector<EditSet> sets;
  for (const Finding& finding : check.findings) {
    if (finding.rule != "condensate-heat-side" && finding.rule != "float-side") continue;
    const sheet::UnitId guard = finding.places.front().unit;
    // The far ends: where the conductors of its screws come from.
    const auto ends = endsWhere(sheet, [&](const Lying& lying) {
      const auto* there = std::get_if<TerminalRef>(&lying.there);
      return there != nullptr && there->unit == guard;
    });
    if (ends.size() != 2 || ends[0].there == ends[1].there) continue;
    intoHot(sheet, library, ends[0], ends[1], sets);
    intoHot(sheet, library, ends[1], ends[0], sets);
  }
  return sets;
}

std::vector<EditSet> stagesCounted(const sheet::Sheet& sheet, const equipment::Library& library,
                                   const SheetCheck& check) {
  if (std::none_of(check.findings.begin(), check.findings.end(),
                   [](const Finding& finding) { return finding.rule == "stage-orphan"; }))
    return {};
  EditSet landings;
  sheet::Sheet loosened = sheet;
  for (Conductor wire : sheet.conductors)
    if (std::holds_alternative<sheet::Capped>(wire.endA) &&
        std::holds_alternative<sheet::Capped>(wire.endB)) {
      wire.endA = wire.endB = sheet::Loose{};
      loosened.conductors.put(std::move(wire));
    }
  for (const Proposal& proposal : plan(loosened, library).landings)
    if (proposal.purpose == "compressor2")
      landings.push_back({.kind = Edit::Kind::land,
                          .end = {proposal.conductor, 'A'},
                          .from = proposal.endA,
                          .to = proposal.endB});
  std::vector<EditSet> sets;
  for (const sheet::Unit& unit : sheet.units) {
    const auto* profile = library.find(unit.profile);
    if (profile == nullptr || profile->kind != equipment::Kind::roomControl || landings.empty()) continue;
    if (asbuilt::settingOf(sheet, unit, *profile, "compressorStages") != "1") continue;
    sets.push_back({{.kind = Edit::Kind::setting, .unit = unit.id, .key = "compressorStages", .value = "2"}});
    sets.back().insert(sets.back().end(), landings.begin(), landings.end());
  }
  return sets;
}

std::vector<EditSet> controlsExchanged(const sheet::Sheet& sheet, const equipment::Library& library) {
  std::vector<EditSet> sets;
  for (const sheet::Unit& unit : sheet.units) {
    const auto* now = library.find(unit.profile);
    if (now == nullptr || now->kind != equipment::Kind::roomControl) continue;
    for (const auto& [id, other] : library.profiles) {
      if (id == unit.profile || other->kind != equipment::Kind::roomControl || !other->refusal.empty())
        continue;
      if (auto edits = exchanged(sheet, library, unit, *other)) sets.push_back(std::move(*edits));
    }
  }
  return sets;
}

}  // namespace ww::verify
