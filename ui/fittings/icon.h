// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QIcon>
#include <QString>

#include "paint/theme.h"

namespace ww::fittings {

/// An icon of resources/icons/<name>.svg (20 px box, 1.5 px stroke, currentColor), drawn sharp at any size in
/// the theme's ink; its disabled form in the hint colour, its checked form in the accent.
QIcon icon(const QString& name, const paint::Theme& theme);
/// The same in one ink of your own, for buttons on a coloured ground.
QIcon icon(const QString& name, const paint::Theme& theme, const QColor& ink);
/// A picture in one colour.
QPixmap iconPixmap(const QString& name, const QColor& colour, double px, double devicePixelRatio);

}  // namespace ww::fittings
