// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/job.h"
#include "quantity/json.h"

namespace ww::job {

nlohmann::json meterJson(const Meter& meter);

/// A meter as meterJson() writes it, all but its id, whose rules are the caller's. Problems: those of Fields,
/// and "not-a-date" {found}.
Meter readMeter(quantity::Fields& fields);

}  // namespace ww::job
