// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>

namespace ww::fittings {

/// A number as a person types it: comma and point both separate decimals, blanks around it do not matter.
/// Nothing where it is no number or could be read in two ways ("1,234.5", "1.234,5", "1e3").
std::optional<double> decimalOf(const QString& text);

}  // namespace ww::fittings
