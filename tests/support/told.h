// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "quantity/loaded.h"

namespace ww::testing {

/// "where key" of each problem, in the order found.
inline std::vector<std::string> told(const quantity::Problems& problems) {
  std::vector<std::string> lines;
  for (const auto& problem : problems) lines.push_back(problem.where + " " + problem.key);
  return lines;
}

/// The value of a problem's argument; "-" when it has none of that name.
inline std::string argument(const quantity::Problem& problem, const std::string& name) {
  for (const auto& [key, value] : problem.args)
    if (key == name) return value;
  return "-";
}

}  // namespace ww::testing
