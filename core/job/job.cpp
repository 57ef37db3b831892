// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/job.h"

#include <algorithm>
#include <cmath>

#include "sheet/systems.h"

namespace ww::job {

std::optional<SheetState> currentSheetState(const Job& job) {
  if (job.asLeft) return SheetState::asLeft;
  if (job.planned) return SheetState::planned;
  if (job.asFound) return SheetState::asFound;
  return std::nullopt;
}

const sheet::Sheet* currentSheet(const Job& job) {
  if (job.asLeft) return &*job.asLeft;
  if (job.planned) return &*job.planned;
  return job.asFound ? &*job.asFound : nullptr;
}

bool surveyDue(const Job& job) {
  const auto drawn = [](const std::optional<sheet::Sheet>& sheet) {
    return sheet && (!sheet->units.empty() || !sheet->cables.empty() || !sheet->conductors.empty());
  };
  return job.surveys.empty() && job.state == State::draft && !drawn(job.asFound) && !drawn(job.planned) &&
         !drawn(job.asLeft);
}

std::vector<std::string> refusalsOf(const Job& job) {
  if (job.surveys.empty()) return {};
  return survey::verdictOf(job.surveys.back().answers).refusals;
}

std::string systemOf(const Job& job, const equipment::Library& library) {
  const sheet::Sheet* sheet = currentSheet(job);
  const auto refused = [&](const sheet::Unit& unit) {
    const auto* profile = library.find(unit.profile);
    return profile != nullptr && profile->kind == equipment::Kind::refused;
  };
  if (!refusalsOf(job).empty() ||
      (sheet != nullptr && std::any_of(sheet->units.begin(), sheet->units.end(), refused)))
    return kRefusedSystem;
  return sheet == nullptr ? std::string() : sheet::systemOf(*sheet, sheet::standardSystems(), library);
}

const Reading* standing(const Job& job, const std::string& step) {
  const auto superseded = [&](const Reading& reading) {
    return std::any_of(job.readings.begin(), job.readings.end(),
                       [&](const Reading& later) { return later.supersedes == reading.id; });
  };
  const auto newest = std::find_if(job.readings.rbegin(), job.readings.rend(), [&](const Reading& reading) {
    return reading.step == step && !superseded(reading);
  });
  return newest != job.readings.rend() && newest->struckBecause.empty() ? &*newest : nullptr;
}

std::vector<checklist::Observation> observationsOf(const Job& job) {
  std::vector<checklist::Observation> result;
  for (const Reading& reading : job.readings)
    if (reading.value && standing(job, reading.step) == &reading)
      result.push_back({reading.step, *reading.value});
  return result;
}

checklist::MeterFigures meterFiguresOf(const Job& job) {
  checklist::MeterFigures figures;
  if (!job.meters.empty()) figures.accuracyPercent = job.meters.back().accuracyPercent;
  return figures;
}

const Acceptance* acceptanceOf(const Job& job, const verify::Finding& finding) {
  if (finding.severity >= verify::Severity::fail) return nullptr;
  const std::string key = verify::keyOf(finding);
  const std::string_view severity = verify::idOf(finding.severity);
  for (const Acceptance& acceptance : job.acceptances)
    if (acceptance.finding == key && acceptance.severity == severity) return &acceptance;
  return nullptr;
}

std::optional<Job> withReading(Job job, Reading reading) {
  const auto same = [](const std::string& id) { return [&id](const Reading& r) { return r.id == id; }; };
  const auto begin = job.readings.begin();
  const auto end = job.readings.end();
  if (reading.id.empty() || std::any_of(begin, end, same(reading.id))) return std::nullopt;
  if (reading.value && !(std::abs(*reading.value) <= kMostReading)) return std::nullopt;  // NaN too
  if (!reading.skippedBecause.empty() && (reading.value || reading.openLine)) return std::nullopt;
  if (!reading.supersedes.empty()) {
    const auto earlier = std::find_if(begin, end, same(reading.supersedes));
    if (earlier == end || earlier->step != reading.step) return std::nullopt;
  } else if (!reading.struckBecause.empty()) {
    return std::nullopt;
  }
  job.readings.push_back(std::move(reading));
  return job;
}

}  // namespace ww::job
