// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

namespace ww::drawing {

/// Positions in the given order, each at least `gaps[i]` behind its predecessor (gaps[0] unused), with the
/// least sum of squared distances from the wishes: isotonic regression by pooling adjacent violators.
std::vector<double> separated(const std::vector<double>& wishes, const std::vector<double>& gaps);

}  // namespace ww::drawing
