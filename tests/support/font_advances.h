// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <array>
#include <string_view>

#include "drawing/geometry.h"

/// Text widths without a font engine: the advances of Noto Sans (SIL Open Font Licence 1.1), in thousandths
/// of the type size, for U+0020-007E and U+00A0-00FF.
namespace ww::testing {

inline constexpr std::array<int, 191> kRegularAdvances = {
    260, 269, 408, 646, 572, 831, 732, 225, 300, 300, 551, 572, 268, 322, 268, 372, 572, 572, 572, 572,
    572, 572, 572, 572, 572, 572, 268, 268, 572, 572, 572, 434, 899, 639, 650, 632, 730, 556, 519, 728,
    741, 339, 273, 619, 524, 907, 760, 781, 605, 781, 622, 549, 556, 731, 600, 930, 586, 566, 572, 329,
    372, 329, 572, 444, 281, 561, 615, 480, 615, 564, 344, 615, 618, 258, 258, 534, 258, 935, 618, 605,
    615, 615, 413, 479, 361, 618, 508, 786, 529, 510, 470, 380, 551, 380, 572, 260, 269, 572, 572, 572,
    572, 551, 513, 580, 832, 357, 509, 572, 322, 832, 500, 428, 572, 350, 350, 281, 623, 655, 268, 225,
    350, 376, 509, 745, 771, 781, 434, 639, 639, 639, 639, 639, 639, 881, 632, 556, 556, 556, 556, 339,
    339, 339, 339, 730, 760, 781, 781, 781, 781, 781, 572, 781, 731, 731, 731, 731, 566, 605, 631, 561,
    561, 561, 561, 561, 561, 864, 480, 564, 564, 564, 564, 258, 258, 258, 258, 605, 618, 605, 605, 605,
    605, 605, 572, 605, 618, 618, 618, 618, 510, 615, 510};

inline constexpr std::array<int, 191> kBoldAdvances = {
    260, 286, 472, 646, 572, 901, 750, 266, 339, 339, 545, 572, 285, 322, 285, 413, 572, 572, 572, 572,
    572, 572, 572, 572, 572, 572, 285, 285, 572, 572, 572, 477, 897, 690, 672, 637, 740, 560, 549, 724,
    765, 389, 331, 664, 565, 943, 813, 796, 628, 796, 660, 551, 579, 756, 650, 967, 667, 624, 579, 331,
    413, 331, 572, 411, 362, 604, 633, 514, 633, 591, 387, 633, 657, 305, 305, 620, 305, 982, 657, 619,
    633, 633, 454, 497, 434, 657, 569, 856, 578, 569, 488, 394, 551, 394, 572, 260, 286, 572, 572, 572,
    572, 551, 486, 607, 832, 383, 615, 572, 322, 832, 500, 428, 572, 379, 379, 362, 660, 655, 285, 205,
    379, 388, 615, 830, 874, 845, 477, 690, 690, 690, 690, 690, 690, 952, 637, 560, 560, 560, 560, 389,
    389, 389, 389, 740, 813, 796, 796, 796, 796, 796, 572, 796, 756, 756, 756, 756, 624, 628, 711, 604,
    604, 604, 604, 604, 604, 917, 514, 591, 591, 591, 591, 305, 305, 305, 305, 619, 657, 619, 619, 619,
    619, 619, 572, 619, 657, 657, 657, 657, 569, 633, 569};

/// Place in the tables; -1 for what they lack.
inline int advanceIndex(unsigned code) {
  if (code >= 0x20 && code < 0x7f) return static_cast<int>(code) - 0x20;
  if (code >= 0xa0 && code < 0x100) return static_cast<int>(code) - 0xa0 + 95;
  return -1;
}

inline drawing::Box tableMeasure(std::string_view text, drawing::TextStyle style) {
  const auto& table = style.bold ? kBoldAdvances : kRegularAdvances;
  double sum = 0;
  for (size_t i = 0; i < text.size(); ++i) {
    unsigned code = static_cast<unsigned char>(text[i]);
    if (code >= 0xc0 && code < 0xe0 && i + 1 < text.size())
      code = (code & 0x1f) << 6 | (static_cast<unsigned char>(text[++i]) & 0x3f);
    const int index = advanceIndex(code);
    sum += index < 0 ? 600 : table[static_cast<size_t>(index)];
  }
  return {0, -1.069 * style.px, sum * style.px / 1000, 1.362 * style.px};
}

}  // namespace ww::testing
