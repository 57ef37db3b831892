// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/separation.h"

#include <cstddef>

namespace ww::drawing {

std::vector<double> separated(const std::vector<double>& wishes, const std::vector<double>& gaps) {
  struct Pool {
    double sum = 0;
    size_t count = 0;
    double mean() const { return sum / static_cast<double>(count); }
  };
  std::vector<Pool> pools;
  double offset = 0;
  for (size_t i = 0; i < wishes.size(); ++i) {
    if (i > 0) offset += gaps[i];
    pools.push_back({wishes[i] - offset, 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      pools[pools.size() - 2].sum += pools.back().sum;
      pools[pools.size() - 2].count += pools.back().count;
      pools.pop_back();
    }
  }
  std::vector<double> places;
  offset = 0;
  for (const Pool& pool : pools)
    for (size_t i = 0; i < pool.count; ++i) {
      if (!places.empty()) offset += gaps[places.size()];
      places.push_back(pool.mean() + offset);
    }
  return places;
}

}  // namespace ww::drawing
