// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "equipment/profile.h"
#include "job/job.h"

namespace ww::history {

/// The jobs that ship with the program, all at the invented Larkmoor Terrace.
std::vector<job::Job> demoJobs(const equipment::Library& library);

}  // namespace ww::history
