// SPDX-License-Identifier: GPL-3.0-or-later
#include "checklist/step.h"

#include <cmath>

namespace ww::checklist {

namespace {
constexpr double kGoodSigmas = 2;
constexpr double kAgainSigmas = 3.5;
}  // namespace

bool isMeasured(const Step& step) { return !unitOf(step).empty(); }

std::string_view unitOf(const Step& step) {
  switch (step.measure) {
    case Measure::ohms: return "ohm";
    case Measure::acVolts: return "V";
    case Measure::dcMillivolts: return "mV";
    case Measure::act:
    case Measure::look: break;
  }
  return {};
}

Verdict judge(const Step& step, std::optional<double> value, bool openLine) {
  if (!value && !openLine) return Verdict::notMeasured;
  if (!step.band) return Verdict::notJudged;
  const Band& band = *step.band;
  if (band.open) return openLine || *value >= band.low ? Verdict::good : Verdict::fault;
  if (openLine) return Verdict::fault;
  const double distance = std::abs(*value - band.mean);
  if (distance <= kGoodSigmas * band.sigma) return Verdict::good;
  return distance <= kAgainSigmas * band.sigma ? Verdict::again : Verdict::fault;
}

}  // namespace ww::checklist
