// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "asbuilt/as_built.h"
#include "circuit/joints.h"

namespace ww::verify {

/// Which nodes are one piece of metal: joined by conductors, bonds, fuses and nothing else.
class Metal {
 public:
  /// `closed`: contacts and switches by device that count as metal while closed; null: none does.
  /// `without`: a device left out; -1: none.
  explicit Metal(const asbuilt::AsBuilt& circuit, const std::vector<char>* closed = nullptr,
                 int without = -1);
  bool joined(int a, int b) const { return a >= 0 && b >= 0 && joints_.joined(a, b); }

 private:
  circuit::Joints joints_;
};

}  // namespace ww::verify
