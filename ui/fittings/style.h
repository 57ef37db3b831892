// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFont>
#include <QString>
#include <algorithm>
#include <optional>

#include "paint/theme.h"

class QApplication;
class QPalette;
class QWidget;

namespace ww::fittings {

/// Heights and distances of the window, px at 96 dpi.
inline constexpr int kTopBar = 48, kRail = 168, kRailFolded = 72, kStatusBar = 24, kCallRow = 40;
inline constexpr int kTableWidth = 432, kFindingsStrip = 32, kFindingsOpen = 200;
inline constexpr double kTextPoints = 9.75;  ///< of a text: 13 px at 96 dpi
/// How much larger than usual the texts of a widget in this font are, for what it paints beside them.
inline double enlargement(const QFont& font) { return std::max(1.0, font.pointSizeF() / kTextPoints); }
inline constexpr int kTableRow = 28, kSettingsRow = 36, kListRow = 48, kButton = 32, kReadingField = 64;

/// Palette and style sheet of the whole application from one theme. `textScale` enlarges texts and, with
/// them, fields and buttons: the person's font size over the usual one.
void dress(QApplication& application, const paint::Theme& theme, double textScale = 1);

/// How much larger than usual the system's font is: 1 up to 12 points, then in proportion, 2.5 at most.
double textScaleOf(const QFont& system);
/// The tokens made from the system's own palette where that palette asks for high contrast (black and white,
/// 20:1 or more); nothing otherwise.
std::optional<paint::Theme> highContrastTheme(const QPalette& system);

/// Roles that the style sheet knows: set on a widget, they choose its look ("primary", "chip", "quiet",
/// "choice", "heading", "title", "stand", "lead", "strong", "caption", "reading", "panel", "sunk", "bar",
/// "square", "rail", "row").
void setRole(QWidget* widget, const char* role);

}  // namespace ww::fittings
