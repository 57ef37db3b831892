// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "drawing/timeline.h"
#include "paint/theme.h"

class QPainter;

namespace ww::paint {

/// Paints what moves in a call, second by second, in its own px coordinates.
void paintTimeline(QPainter& painter, const drawing::Timeline& timeline, const Theme& theme);

}  // namespace ww::paint
