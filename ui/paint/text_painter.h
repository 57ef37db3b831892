// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>

#include "drawing/geometry.h"

class QPainter;

namespace ww::paint {

/// One laid out line of text, `grow` times as large as it was laid out; nothing for an empty one.
void paintText(QPainter& painter, const drawing::Text& text, const QColor& colour, double grow = 1);

}  // namespace ww::paint
