// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "drawing/wiring.h"

namespace ww::drawing {

/// The conductors of a cable in the order of their screws at one end. A conductor that is free there goes
/// where its other end inverts least; conductors free at both ends stay together at the insertion point.
std::vector<int> slotOrder(const Wiring& wiring, const CableLine& line, bool byA, int insertionPoint);

/// How many insertion points there are: 1 when no conductor is free at both ends.
int insertionPoints(const Wiring& wiring, const CableLine& line);

}  // namespace ww::drawing
