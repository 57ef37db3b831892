// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "equipment/profile.h"
#include "job/job.h"

namespace ww::job {

/// The library a job is read with: the profiles that travel inside it stand before those of `base` with the
/// same ids, so that the job stays what it was when a profile is changed later.
equipment::Library libraryOf(const Job& job, const equipment::Library& base);

/// The job with a copy of every profile its sheets use that did not ship with the program, and no other. A
/// copy that is there already stays as it is.
Job withProfiles(Job job, const equipment::Library& library);

}  // namespace ww::job
