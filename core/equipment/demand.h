// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "equipment/profile.h"

namespace ww::equipment {

/// An outdoor unit whose calls set a demand: without a coil, so that 24 V at its screws is all that a meter
/// can prove of its compressor.
bool takesDemand(const Profile& profile);

}  // namespace ww::equipment
