// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/finding.h"

#include <algorithm>
#include <array>
#include <utility>

namespace ww::verify {

namespace {

using Rule = std::pair<std::string_view, Severity>;

constexpr std::array kRules{
    Rule{"safety-bypassed", Severity::stop},
    Rule{"safety-misplaced", Severity::stop},
    Rule{"sources-tied", Severity::stop},
    Rule{"back-feed", Severity::stop},
    Rule{"foreign-source", Severity::stop},
    Rule{"sense-misused", Severity::stop},
    Rule{"short-at-rest", Severity::stop},
    Rule{"short-in-call", Severity::stop},
    Rule{"element-without-blower", Severity::stop},
    Rule{"compressor-with-burner", Severity::stop},
    Rule{"compressor-without-blower", Severity::stop},
    Rule{"heat-impossible", Severity::stop},
    Rule{"over-30-volts", Severity::stop},
    Rule{"va-over", Severity::stop},
    Rule{"class-2", Severity::stop},
    Rule{"lock-out-gap", Severity::stop},
    Rule{"share-swapped", Severity::stop},
    Rule{"refused", Severity::stop},
    Rule{"survey-refused", Severity::stop},
    Rule{"call-dead", Severity::fail},
    Rule{"duty-wrong", Severity::fail},
    Rule{"duty-early", Severity::fail},
    Rule{"load-at-rest", Severity::fail},
    Rule{"idle-at-rest", Severity::fail},
    Rule{"rv-sense", Severity::fail},
    Rule{"no-common", Severity::fail},
    Rule{"common-missing", Severity::fail},
    Rule{"stage-orphan", Severity::fail},
    Rule{"supply-starves", Severity::fail},
    Rule{"input-shorted", Severity::fail},
    Rule{"share-unfit", Severity::fail},
    Rule{"pull-in-never", Severity::fail},
    Rule{"humidifier-without-blower", Severity::fail},
    Rule{"loose-end", Severity::fail},
    Rule{"race", Severity::fail},
    Rule{"chatter", Severity::fail},
    Rule{"pull-in-late", Severity::warn},
    Rule{"blower-speed", Severity::warn},
    Rule{"defrost-untempered", Severity::warn},
    Rule{"condensate-heat-side", Severity::warn},
    Rule{"va-high", Severity::warn},
    Rule{"dampers-shut", Severity::warn},
    Rule{"fresh-air-shut", Severity::warn},
    Rule{"false-call", Severity::warn},
    Rule{"float-side", Severity::warn},
    Rule{"burner-in-cooling", Severity::warn},
    Rule{"colour-custom", Severity::note},
    Rule{"spare-not-capped", Severity::note},
    Rule{"screw-crowded", Severity::note},
    Rule{"fuse-5A", Severity::note},
    Rule{"stage-by-board", Severity::note},
    Rule{"polarity", Severity::note},
    Rule{"end-doubled", Severity::note},
    Rule{"demand-only", Severity::note},
};

std::string keyOf(const Place& place) {
  std::string key;
  if (place.unit != sheet::UnitId{}) key += "u" + std::to_string(number(place.unit));
  if (!place.terminal.empty()) key += "." + place.terminal;
  if (!place.part.empty()) key += "#" + place.part;
  if (place.conductor != sheet::ConductorId{}) key += "w" + std::to_string(number(place.conductor));
  if (place.end != 0) key += place.end;
  if (!place.call.empty()) key += "@" + place.call;
  return key;
}

}  // namespace

std::string_view idOf(Severity severity) {
  constexpr std::string_view kIds[] = {"note", "warn", "fail", "stop"};
  return kIds[static_cast<size_t>(severity)];
}

Severity severityOf(std::string_view rule) {
  const auto at = std::find_if(kRules.begin(), kRules.end(), [&](const Rule& r) { return r.first == rule; });
  return at == kRules.end() ? Severity::stop : at->second;  // an unknown rule must never look harmless
}

std::string keyOf(const Finding& finding) {
  std::string key = finding.rule;
  for (const Place& place : finding.places) key += "/" + keyOf(place);
  return key;
}

}  // namespace ww::verify
