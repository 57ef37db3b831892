// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <vector>

#include "drawing/diagram.h"

namespace ww::drawing {

inline constexpr double kPitch = 32;        ///< of terminals on a strip
inline constexpr double kSlotPitch = 20;    ///< of conductors at a sheath
inline constexpr double kTrackGap = 16;     ///< least distance of parallel runs
inline constexpr double kMargin = 24;       ///< around the picture
inline constexpr double kWidestLine = 140;  ///< px of a title before it breaks

/// One row of a strip: a terminal, or a splice in the unit's cabinet.
struct StripRow {
  std::string id, printed, purpose;
  bool splice = false, unknown = false;
  double y = 0;  ///< centre, from the plate's top
  double squareWidth = 24;
};

/// A unit's plate before it has a place.
struct Strip {
  const sheet::Unit* unit = nullptr;
  const equipment::Profile* profile = nullptr;
  std::vector<StripRow> rows;
  double height = 0, width = 48;
  std::vector<std::string> title, place;  ///< broken into lines
  double above = 0, below = 0;            ///< px that the lines take, with their distance

  int row(const std::string& id, bool splice) const;  ///< -1: none
};

/// The strips of all units, by unit id.
std::vector<Strip> strips(const sheet::Sheet& sheet, const equipment::Library& library,
                          const TextMeasure& measure, const std::string& language);

/// Breaks a text at spaces so that no line is wider than `widest`, unless a word alone is.
std::vector<std::string> broken(const std::string& text, TextStyle style, double widest,
                                const TextMeasure& measure);

inline constexpr TextStyle kTitle{13, true};
inline constexpr TextStyle kPlace{11, false};
inline constexpr TextStyle kTerminal{13, true};
inline constexpr TextStyle kTag{11, true};
inline constexpr double kTitleLine = 18, kPlaceLine = 15;

}  // namespace ww::drawing
