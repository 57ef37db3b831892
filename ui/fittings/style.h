// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "paint/theme.h"

class QApplication;
class QWidget;

namespace ww::fittings {

/// Heights and distances of the window, px at 96 dpi.
inline constexpr int kTopBar = 48, kRail = 168, kRailFolded = 72, kStatusBar = 24, kCallRow = 40;
inline constexpr int kTableWidth = 432, kFindingsStrip = 32, kFindingsOpen = 200;
inline constexpr int kTableRow = 28, kSettingsRow = 36, kListRow = 48, kButton = 32, kReadingField = 64;

/// Palette and style sheet of the whole application from one theme. With high contrast asked for by the
/// system its own palette stays.
void dress(QApplication& application, const paint::Theme& theme);

/// Roles that the style sheet knows: set on a widget, they choose its look ("primary", "chip", "quiet",
/// "heading", "title", "caption", "reading", "panel", "sunk", "danger").
void setRole(QWidget* widget, const char* role);

}  // namespace ww::fittings
