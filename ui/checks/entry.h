// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>

#include "checklist/step.h"

namespace ww::checks {

/// What was typed into the reading field.
struct Entry {
  enum class Kind { nothing, value, openLine, noNumber, negative, tooLarge } kind = Kind::nothing;
  double value = 0;  ///< SI
};

/// Reads "26.4", "26,4", "1.2k", "3 M", "0.4 ohm", "24 V", "o", "OL".
Entry parseEntry(const QString& text);

/// A reading ten or a thousand times too small or too large that would lie in the band: the value that was
/// probably meant.
std::optional<double> probablyMeant(const checklist::Step& step, const Entry& entry);

}  // namespace ww::checks
