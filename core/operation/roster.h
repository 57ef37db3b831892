// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "asbuilt/as_built.h"

namespace ww::operation {

/// The devices of a circuit by what they do, each list in the circuit's order. Private to the room.
struct Roster {
  explicit Roster(const asbuilt::AsBuilt& circuit);

  std::vector<size_t> coils, inputs, thermals, fuses, transformers;
  std::vector<size_t> contacts;          ///< mechanical and electronic
  std::vector<size_t> feeding;           ///< supplies of every kind
  std::vector<size_t> supplies;          ///< of constant VA
  std::vector<size_t> melting;           ///< fuses and transformers
  std::vector<size_t> safeties;          ///< contacts that are meant to stop something
  std::vector<char> lookedAt;            ///< by device: a safety whose unit's logic asks how it stands
  std::vector<size_t> moving;            ///< what has a state that comes and goes
  std::vector<const std::string*> name;  ///< by device
  std::vector<int> closedBy;             ///< by device: the expression of its unit's logic; -1: none
};

}  // namespace ww::operation
