// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "equipment/profile.h"
#include "job/job.h"
#include "verify/finding.h"

namespace ww::job {

/// What is said of a refused job in place of the check of its sheet: "survey-refused" {refusal} for each of
/// refusalsOf(); empty where it is not refused.
std::vector<verify::Finding> refusalFindings(const Job& job);

/// The answers that whoever places these units has given by placing them: survey::customary(), with what the
/// profiles say of circuits of their own (thermopile, dry pair) and of refused units.
survey::Answers impliedBy(const sheet::Sheet& sheet, const equipment::Library& library);

}  // namespace ww::job
