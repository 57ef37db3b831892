// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

// What the files of Machine share. Private to the room.

#include <cmath>
#include <limits>

#include "operation/machine.h"

namespace ww::operation {

using equipment::CoilPart;
using equipment::ContactPart;
using equipment::FusePart;
using equipment::HalfWaveRelayPart;
using equipment::InputPart;
using equipment::SolidStatePart;
using equipment::SupplyPart;
using equipment::ThermalPart;
using equipment::TransformerPart;

inline constexpr Millis kNever = std::numeric_limits<Millis>::max();
inline constexpr int kMostRounds = 64;

inline Millis millis(quantity::Seconds s) { return std::llround(s.si() * 1000); }

}  // namespace ww::operation
