// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/survey_facts.h"

#include <algorithm>

#include "equipment/demand.h"

namespace ww::job {

namespace {

bool hasRole(const equipment::Profile& profile, equipment::Role role) {
  return std::any_of(profile.terminals.begin(), profile.terminals.end(),
                     [&](const equipment::Terminal& terminal) { return terminal.role == role; });
}

}  // namespace

std::vector<verify::Finding> refusalFindings(const Job& job) {
  std::vector<verify::Finding> findings;
  for (const std::string& refusal : refusalsOf(job))
    findings.push_back(
        {"survey-refused", verify::severityOf("survey-refused"), {}, {{"refusal", verify::Word{refusal}}}});
  return findings;
}

survey::Answers impliedBy(const sheet::Sheet& sheet, const equipment::Library& library) {
  survey::Answers answers = survey::customary();
  bool thermopile = false, dryPair = false;
  for (const sheet::Unit& unit : sheet.units) {
    const equipment::Profile* profile = library.find(unit.profile);
    if (profile == nullptr) continue;
    if (profile->kind == equipment::Kind::refused) return survey::refusedWith(profile->refusal);
    if (equipment::takesDemand(*profile)) answers["inverter"] = "interface";
    thermopile = thermopile || hasRole(*profile, equipment::Role::millivolt);
    // A boiler's or burner's own pair, which feeds itself; end switches are dry and feed nothing.
    dryPair =
        dryPair || (profile->kind == equipment::Kind::boiler && hasRole(*profile, equipment::Role::dry));
  }
  if (thermopile || dryPair)
    answers["apart"] = thermopile && dryPair ? "both" : thermopile ? "thermopile" : "dryPair";
  return answers;
}

}  // namespace ww::job
