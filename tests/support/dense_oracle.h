// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <complex>
#include <vector>

// The textbook way to solve a network, as slow and plain as it comes, to hold the real solver against: a
// nodal matrix in extended precision, Gaussian elimination with partial pivoting. Shares no line with the
// solver.

namespace ww::oracle {

using Long = std::complex<long double>;

struct Branch {
  int a = 0;
  int b = 0;
  Long admittance;  ///< siemens; zero is absent
  Long emf;         ///< volts, in series, raising a over b
};

struct Solution {
  std::vector<int> part;    ///< by node: the smallest node it hangs together with
  std::vector<Long> volts;  ///< by node, relative to the node `part` names
};

/// `amps`, when given, are extra currents into each node.
Solution solve(int nodes, const std::vector<Branch>& branches, const std::vector<Long>& amps = {});

}  // namespace ww::oracle
