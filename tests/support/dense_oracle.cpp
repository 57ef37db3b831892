// SPDX-License-Identifier: GPL-3.0-or-later
#include "support/dense_oracle.h"

#include <utility>

namespace ww::oracle {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

std::vector<int> findParts(int nodes, const std::vector<Branch>& branches) {
  std::vector<int> part(at(nodes));
  for (int node = 0; node < nodes; ++node) part[at(node)] = node;
  for (bool changed = true; changed;) {
    changed = false;
    for (const Branch& branch : branches) {
      if (branch.admittance == Long{} || part[at(branch.a)] == part[at(branch.b)]) continue;
      const int low = std::min(part[at(branch.a)], part[at(branch.b)]);
      part[at(branch.a)] = part[at(branch.b)] = low;
      changed = true;
    }
  }
  return part;
}

void eliminate(std::vector<std::vector<Long>>& rows) {
  const std::size_t n = rows.size();
  for (std::size_t k = 0; k < n; ++k) {
    std::size_t best = k;
    for (std::size_t i = k + 1; i < n; ++i)
      if (std::abs(rows[i][k]) > std::abs(rows[best][k])) best = i;
    std::swap(rows[k], rows[best]);
    for (std::size_t i = k + 1; i < n; ++i) {
      if (rows[i][k] == Long{}) continue;
      const Long factor = rows[i][k] / rows[k][k];
      for (std::size_t j = k; j <= n; ++j) rows[i][j] -= factor * rows[k][j];
    }
  }
  for (std::size_t k = n; k-- > 0;) {
    for (std::size_t j = k + 1; j < n; ++j) rows[k][n] -= rows[k][j] * rows[j][n];
    rows[k][n] /= rows[k][k];
  }
}

}  // namespace

Solution solve(int nodes, const std::vector<Branch>& branches, const std::vector<Long>& amps) {
  Solution solution{findParts(nodes, branches), std::vector<Long>(at(nodes))};
  std::vector<std::vector<Long>> rows(at(nodes), std::vector<Long>(at(nodes) + 1));
  for (const Branch& branch : branches) {
    const auto a = at(branch.a);
    const auto b = at(branch.b);
    rows[a][a] += branch.admittance;
    rows[b][b] += branch.admittance;
    rows[a][b] -= branch.admittance;
    rows[b][a] -= branch.admittance;
    rows[a][at(nodes)] += branch.admittance * branch.emf;
    rows[b][at(nodes)] -= branch.admittance * branch.emf;
  }
  for (std::size_t node = 0; node < amps.size(); ++node) rows[node][at(nodes)] += amps[node];
  for (int node = 0; node < nodes; ++node) {
    if (solution.part[at(node)] != node) continue;
    rows[at(node)].assign(at(nodes) + 1, Long{});
    rows[at(node)][at(node)] = 1;
  }
  eliminate(rows);
  for (int node = 0; node < nodes; ++node) solution.volts[at(node)] = rows[at(node)][at(nodes)];
  return solution;
}

}  // namespace ww::oracle
