// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "history/reader.h"
#include "jobs/entry.h"
#include "session/surroundings.h"

namespace ww::shell {

/// What is known of a stored job, worded: its visits, the reading that moved most between them, what was
/// changed since the visit before, its open findings. Reads, solves and checks: for a thread beside.
jobs::Preview readPreview(history::Reader& reader, const history::JobRef& ref,
                          const session::Surroundings& around);

}  // namespace ww::shell
