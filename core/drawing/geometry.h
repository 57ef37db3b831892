// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace ww::drawing {

/// Screen distances in px at 96 dpi, y downwards.
struct Point {
  double x = 0, y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

struct Box {
  double x = 0, y = 0, w = 0, h = 0;
  double right() const { return x + w; }
  double bottom() const { return y + h; }
  Point centre() const { return {x + w / 2, y + h / 2}; }
  Box grown(double by) const { return {x - by, y - by, w + 2 * by, h + 2 * by}; }
  friend bool operator==(const Box&, const Box&) = default;
};

/// Whether the insides of two boxes meet; boxes that only touch do not.
inline bool overlap(const Box& a, const Box& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

/// The smallest box around both; an empty box (w and h 0) counts for nothing.
inline Box united(const Box& a, const Box& b) {
  if (a.w <= 0 && a.h <= 0) return b;
  if (b.w <= 0 && b.h <= 0) return a;
  const double x = std::min(a.x, b.x), y = std::min(a.y, b.y);
  return {x, y, std::max(a.right(), b.right()) - x, std::max(a.bottom(), b.bottom()) - y};
}

enum class Align { left, centre, right };

/// Type size in px at 96 dpi; bold is weight 700, else 400.
struct TextStyle {
  double px = 13;
  bool bold = false;
  friend bool operator==(const TextStyle&, const TextStyle&) = default;
};

/// Size of one line of text: w the advance, h ascent + descent, y = -ascent, x = 0.
using TextMeasure = std::function<Box(std::string_view, TextStyle)>;

/// One line of text and the box it fills.
struct Text {
  std::string text;
  TextStyle style;
  Box box;
  Align align = Align::left;
  friend bool operator==(const Text&, const Text&) = default;
};

}  // namespace ww::drawing
