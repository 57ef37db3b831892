// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "checklist/priors.h"
#include "checklist/step.h"
#include "operation/solution.h"

namespace ww::checklist {

/// The meter in hand.
struct MeterFigures {
  double impedanceOhms = 10e6;
  double accuracyPercent = 1.0;
};

/// A reading taken, by step key; SI.
struct Observation {
  std::string step;
  double value = 0;
};

/// The checklist of a sheet in walking order: precautions, dead checks (every conductor end to end, every
/// call and supply terminal to common), rest, then one call at a time. Bands come from the solved circuit
/// under the shared-parameter model; with observations, the bands of the steps not observed are conditioned
/// on all of them.
std::vector<Step> checklistFor(const sheet::Sheet& sheet, const operation::Solution& solution,
                               const MeterFigures& meter = {},
                               const std::vector<Observation>& observations = {},
                               const Priors& priors = standardPriors());

}  // namespace ww::checklist
