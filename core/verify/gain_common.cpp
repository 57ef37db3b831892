// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/gain_common.h"

#include <algorithm>

#include "verify/check.h"
#include "verify/edit.h"
#include "verify/lookup.h"
#include "verify/share.h"

namespace ww::verify {

namespace {

bool isFree(const sheet::Landing& landing) {
  return std::holds_alternative<sheet::Loose>(landing) || std::holds_alternative<sheet::Capped>(landing);
}

/// The control itself must start the fan: a heat pump, or electric heat that does not.
bool controlNeedsFan(const sheet::Sheet& sheet, const equipment::Library& library) {
  bool heatPump = false;
  bool electric = false;
  bool byControl = false;
  for (const sheet::Unit& unit : sheet.units) {
    const auto* profile = library.find(unit.profile);
    if (profile == nullptr) continue;
    for (const auto& duty : profile->duties) {
      heatPump |= duty.name == "reversingValve";
      electric |= duty.name == "electricHeat1";
    }
    byControl |= asbuilt::settingOf(sheet, unit, *profile, "fanWithHeat") == "control" ||
                 asbuilt::settingOf(sheet, unit, *profile, "interlock") == "off";
  }
  return heatPump || (electric && byControl);
}

std::string purposeOf(const sheet::Sheet& sheet, const equipment::Library& library,
                      const sheet::Landing& landing) {
  const auto* ref = std::get_if<sheet::TerminalRef>(&landing);
  const auto* profile = ref == nullptr ? nullptr : profileOf(sheet, library, ref->unit);
  const auto* terminal = profile == nullptr ? nullptr : profile->terminal(ref->terminal);
  return terminal == nullptr ? std::string() : terminal->purpose;
}

/// Two calls of the control lie, or would lie, in the cable and may share one of its conductors.
bool canShare(const sheet::Sheet& sheet, const equipment::Library& library, sheet::CableId cable) {
  const sheet::Sheet whole = landed(sheet, plan(sheet, library));
  const asbuilt::AsBuilt circuit = asbuilt::compile(whole, library);
  int calls = 0;
  for (const sheet::Conductor* wire : conductorsOf(whole, cable))
    for (const sheet::Landing* landing : {&wire->endA, &wire->endB}) {
      const auto* ref = std::get_if<sheet::TerminalRef>(landing);
      const auto* profile = ref == nullptr ? nullptr : profileOf(whole, library, ref->unit);
      const auto* terminal = profile == nullptr ? nullptr : profile->terminal(ref->terminal);
      const bool call = terminal != nullptr && profile->kind == equipment::Kind::roomControl &&
                        terminal->role == equipment::Role::callOut;
      calls += call && !unshareable(circuit, circuit.node(*ref));
    }
  return calls >= 2;
}

size_t stopsOf(const sheet::Sheet& sheet, const equipment::Library& library, bool* clean = nullptr) {
  const SheetCheck checked = check(sheet, operation::solveSheet(sheet, library));
  const auto at = [&](Severity severity) {
    return size_t(std::count_if(checked.findings.begin(), checked.findings.end(),
                                [&](const Finding& finding) { return finding.severity >= severity; }));
  };
  if (clean != nullptr) *clean = at(Severity::warn) == 0;
  return at(Severity::stop);
}

}  // namespace

std::vector<CommonWay> waysToCommon(const sheet::Sheet& sheet, const equipment::Library& library,
                                    const Wanting& missing) {
  using Kind = CommonWay::Kind;
  std::vector<CommonWay> ways;
  for (const sheet::Conductor* wire : conductorsOf(sheet, missing.cable))
    if (isFree(wire->endA) && isFree(wire->endB)) ways.push_back({Kind::spare, wire->id, {}});
  if (!controlNeedsFan(sheet, library))
    for (const sheet::Conductor* wire : conductorsOf(sheet, missing.cable))
      if (purposeOf(sheet, library, wire->endA) == "blower" &&
          purposeOf(sheet, library, wire->endB) == "blower")
        ways.push_back({Kind::fanConductor, wire->id, {"fan"}});
  ways.push_back({Kind::newCable, {}, {}});
  const auto* a = profileOf(sheet, library, missing.a.unit);
  const auto* b = profileOf(sheet, library, missing.b.unit);
  const bool control = (a != nullptr && a->kind == equipment::Kind::roomControl) ||
                       (b != nullptr && b->kind == equipment::Kind::roomControl);
  if (control && canShare(sheet, library, missing.cable)) ways.push_back({Kind::sharingKit, {}, {}});
  if (control)
    for (const Kind kind : {Kind::ownTransformer, Kind::isolationRelay}) ways.push_back({kind, {}, {}});
  return ways;
}

std::vector<sheet::ConductorId> harmfulBreaks(const sheet::Sheet& landed, const equipment::Library& library) {
  std::vector<sheet::ConductorId> harmful;
  const size_t before = stopsOf(landed, library);
  for (const sheet::Conductor& wire : landed.conductors) {
    if (wire.isJumper() || isFree(wire.endA) || isFree(wire.endB)) continue;
    sheet::Sheet broken = landed;
    sheet::Conductor open = wire;
    open.endA = open.endB = sheet::Capped{};
    broken.conductors.put(std::move(open));
    if (stopsOf(broken, library) > before) harmful.push_back(wire.id);
  }
  return harmful;
}

std::vector<SaferSetting> saferSettings(const sheet::Sheet& landed, const equipment::Library& library) {
  std::vector<SaferSetting> safer;
  const size_t before = harmfulBreaks(landed, library).size();
  if (before == 0) return safer;
  for (const sheet::Unit& unit : landed.units) {
    const auto* profile = library.find(unit.profile);
    if (profile == nullptr || profile->kind == equipment::Kind::roomControl) continue;
    for (const auto& setting : profile->settings) {
      if (landed.settings.find(unit.tag, setting.key) || namesPart(*profile, setting.key) ||
          setting.key.rfind("jumper", 0) == 0)
        continue;
      for (const std::string& choice : setting.choices) {
        if (choice == setting.standard || choice == "jumper") continue;
        const Edit edit{.kind = Edit::Kind::setting, .unit = unit.id, .key = setting.key, .value = choice};
        const sheet::Sheet tried = edited(landed, edit);
        bool clean = false;
        stopsOf(tried, library, &clean);
        if (!clean) continue;
        if (const size_t after = harmfulBreaks(tried, library).size(); after < before)
          safer.push_back({unit.id, setting.key, choice, before, after});
      }
    }
  }
  return safer;
}

}  // namespace ww::verify
