// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "document/report_builder.h"

namespace ww::document {

/// What a function is for the person who lives with it.
enum class Service { heating, cooling, other };

/// One call as the owner sees it.
struct FunctionReport {
  std::string call;
  std::string word;  ///< id of its plain name: "cooling", "heat-pump-heating", "auxiliary-heat", ...
  Service service = Service::other;
  FunctionState state = FunctionState::notTested;
  int measured = 0, toMeasure = 0;         ///< steps of the call that are judged
  std::optional<verify::Finding> because;  ///< the worst open finding that limits it
  bool readingOutside = false;             ///< a reading lies outside its band
  bool readingAgain = false;               ///< a reading asks to be taken again
};

/// Function by function, in the order of the operation table; rest is left out.
std::vector<FunctionReport> functionsOf(const ReportInput& input);

/// State of a service from its functions: the worst, where a single untested function among tested ones
/// counts as works. Nothing when the system has no such function.
std::optional<FunctionState> stateOf(const std::vector<FunctionReport>& functions, Service service);

/// Something that is left to do.
struct OpenPoint {
  std::optional<verify::Finding> finding;
  const job::OpenItem* item = nullptr;
  const FunctionReport* untested = nullptr;
};

/// Findings above note that nobody accepted, the job's own open items, functions not tested. `functions` must
/// outlive the result.
std::vector<OpenPoint> openPoints(const ReportInput& input, const std::vector<FunctionReport>& functions);

using job::acceptanceOf;

/// Steps with a band, and how many of them have a reading that counts / lies inside.
struct ReadingCount {
  int steps = 0, taken = 0, good = 0;
};
ReadingCount countReadings(const ReportInput& input);

/// Verdict on the reading that counts for the step, by the band of the moment it was taken.
checklist::Verdict verdictOf(const checklist::Step& step, const job::Reading* reading);

}  // namespace ww::document
