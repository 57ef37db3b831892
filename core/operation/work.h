// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>

namespace ww::operation {

/// What was done to get an answer, counted and not timed: it grows with the work and knows no clock.
struct Work {
  std::int64_t solves = 0;       ///< of the whole circuit or its late part
  std::int64_t admittances = 0;  ///< gone through in factorisations
  std::int64_t rounds = 0;       ///< of relays and supplies
  std::int64_t statements = 0;   ///< of logic

  std::int64_t total() const { return solves + admittances + rounds + statements; }
  Work& operator+=(const Work& other) {
    solves += other.solves;
    admittances += other.admittances;
    rounds += other.rounds;
    statements += other.statements;
    return *this;
  }
  /// What was done since.
  Work since(const Work& before) const {
    return {solves - before.solves, admittances - before.admittances, rounds - before.rounds,
            statements - before.statements};
  }
};

}  // namespace ww::operation
