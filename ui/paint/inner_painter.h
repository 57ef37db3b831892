// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "drawing/inner.h"
#include "paint/theme.h"

class QPainter;

namespace ww::paint {

/// Paints a unit's inner circuit in its own px coordinates, with the forms of IEC 60617. The element or
/// terminal of the id `chosen` gets the outline of what is selected; empty: none.
void paintInner(QPainter& painter, const drawing::Inner& inner, const Theme& theme,
                const std::string& chosen = {});

}  // namespace ww::paint
