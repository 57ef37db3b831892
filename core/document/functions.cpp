// SPDX-License-Identifier: GPL-3.0-or-later
#include "document/functions.h"

#include <algorithm>

#include "checklist/sighting.h"
#include "operation/logic_run.h"

namespace ww::document {
namespace {

bool hasDuty(const std::vector<std::string>& duties, std::string_view name) {
  return std::any_of(duties.begin(), duties.end(),
                     [&](const std::string& duty) { return duty.compare(0, name.size(), name) == 0; });
}

/// Plain names follow from what the call runs, not from its own name: "Heat 2" may be a second compressor
/// stage, a second burner or the electric heat.
std::string wordOf(const operation::CallDemand& demand) {
  const std::string& call = demand.call;
  const bool compressor = hasDuty(demand.must, "compressor");
  const bool burner = hasDuty(demand.must, "burner") || hasDuty(demand.must, "boiler");
  const bool electric = hasDuty(demand.must, "electricHeat");
  if (call == "fan") return "fan";
  if (call == "defrost") return "defrost";
  if (call == "emergency") return "emergency-heat";
  if (call.rfind("cool", 0) == 0) return call == "cool1" ? "cooling" : "cooling-stage-2";
  if (call.starts_with(operation::kBelowChangeover))
    return hasDuty(demand.must, "compressor") && !burner ? "cooling-when-cold" : "heating-when-cold";
  if (call.starts_with(operation::kUnoccupied))
    return compressor ? "cooling-while-away" : burner ? "heating-while-away" : "shut-while-away";
  if (call.rfind("heat", 0) != 0) return {};
  if (electric && compressor) return "auxiliary-heat";
  if (compressor) return hasDuty(demand.must, "compressor2") ? "heat-pump-stage-2" : "heat-pump-heating";
  if (call != "heat1" && burner && !hasDuty(demand.must, "burner2")) return "auxiliary-heat";
  if (call == "heat1") return burner ? "heating" : "electric-heating";
  return "heating-stage-2";
}

Service serviceOf(const std::string& call) {
  const std::string name(operation::partsOf(call).call);
  if (name.rfind("cool", 0) == 0) return Service::cooling;
  if (name.rfind("heat", 0) == 0 || name == "emergency") return Service::heating;
  return Service::other;
}

/// A finding speaks of a call by its places or by an argument; one that names no call concerns them all.
bool concerns(const verify::Finding& finding, const std::string& call) {
  bool namesCall = false;
  for (const verify::Place& place : finding.places) {
    if (place.call == call) return true;
    namesCall = namesCall || !place.call.empty();
  }
  for (const verify::Argument& argument : finding.arguments)
    if (const auto* named = std::get_if<verify::CallName>(&argument.figure)) {
      if (named->call == call) return true;
      namesCall = true;
    }
  // What names no call may concern any; only what stops the job certainly does. The calls that a loose end or
  // a missing common kills are told by findings of their own.
  return !namesCall && finding.severity == verify::Severity::stop;
}

FunctionState judged(const FunctionReport& function) {
  if (function.readingOutside) return FunctionState::doesNotWork;
  if (function.because && function.because->severity >= verify::Severity::fail)
    return FunctionState::doesNotWork;
  if (function.toMeasure == 0 || function.measured < function.toMeasure) return FunctionState::notTested;
  if (function.because || function.readingAgain) return FunctionState::worksWithLimits;
  return FunctionState::works;
}

}  // namespace

checklist::Verdict verdictOf(const checklist::Step& step, const job::Reading* reading) {
  if (!reading || !reading->skippedBecause.empty()) return checklist::Verdict::notMeasured;
  if (step.measure == checklist::Measure::look) {
    const auto seen = checklist::parseSighting(reading->entered);
    return seen ? checklist::judge(step, *seen) : checklist::Verdict::notJudged;
  }
  checklist::Step then = step;
  if (reading->band) then.band = reading->band;
  return checklist::judge(then, reading->value, reading->openLine);
}

std::vector<FunctionReport> functionsOf(const ReportInput& input) {
  std::vector<FunctionReport> functions;
  for (const operation::CallDemand& demand : input.demands) {
    if (demand.call == "rest") continue;
    FunctionReport function;
    function.call = demand.call;
    function.word = wordOf(demand);
    function.service = serviceOf(demand.call);
    for (const checklist::Step& step : input.steps) {
      if (step.call != demand.call || !step.band) continue;
      ++function.toMeasure;
      const checklist::Verdict verdict = verdictOf(step, job::standing(input.job, step.key));
      if (verdict != checklist::Verdict::notMeasured) ++function.measured;
      function.readingOutside = function.readingOutside || verdict == checklist::Verdict::fault;
      function.readingAgain = function.readingAgain || verdict == checklist::Verdict::again;
    }
    for (const verify::Finding& finding : input.findings)
      if (finding.severity > verify::Severity::note && concerns(finding, demand.call) &&
          !acceptanceOf(input.job, finding) &&
          (!function.because || function.because->severity < finding.severity))
        function.because = finding;
    function.state = judged(function);
    functions.push_back(std::move(function));
  }
  return functions;
}

std::optional<FunctionState> stateOf(const std::vector<FunctionReport>& functions, Service service) {
  std::optional<FunctionState> worst;
  bool tested = false;
  for (const FunctionReport& function : functions) {
    if (function.service != service) continue;
    if (function.state != FunctionState::notTested) tested = true;
    if (!worst || function.state > *worst) worst = function.state;
  }
  // A function that was left for the season does not make those that were proved unproved; it is an open
  // point.
  if (worst != FunctionState::notTested || !tested) return worst;
  worst = FunctionState::works;
  for (const FunctionReport& function : functions)
    if (function.service == service && function.state == FunctionState::worksWithLimits)
      worst = function.state;
  return worst;
}

std::vector<OpenPoint> openPoints(const ReportInput& input, const std::vector<FunctionReport>& functions) {
  std::vector<OpenPoint> points;
  for (const verify::Finding& finding : input.findings)
    if (finding.severity > verify::Severity::note && !acceptanceOf(input.job, finding))
      points.push_back({finding, nullptr, nullptr});
  for (const job::OpenItem& item : input.job.openItems) points.push_back({std::nullopt, &item, nullptr});
  for (const FunctionReport& function : functions)
    if (function.state == FunctionState::notTested) points.push_back({std::nullopt, nullptr, &function});
  return points;
}

ReadingCount countReadings(const ReportInput& input) {
  ReadingCount count;
  for (const checklist::Step& step : input.steps) {
    if (!step.band) continue;
    ++count.steps;
    const checklist::Verdict verdict = verdictOf(step, job::standing(input.job, step.key));
    if (verdict != checklist::Verdict::notMeasured) ++count.taken;
    if (verdict == checklist::Verdict::good) ++count.good;
  }
  return count;
}

}  // namespace ww::document
