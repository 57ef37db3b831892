// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "drawing/routes.h"

namespace ww::drawing {

/// Plates with their texts, terminals and screws.
void emitPlates(const Wiring& wiring, const Routing& routing, const TextMeasure& measure, Diagram& diagram);

/// Conductors as polylines, their flags and free ends.
void emitWires(const Wiring& wiring, const Routing& routing, const ZoneRules& rules, Diagram& diagram);

}  // namespace ww::drawing
