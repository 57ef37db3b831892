// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <string>

namespace ww::operation {

/// Time in a run, whole milliseconds from power-up.
using Millis = std::int64_t;

/// Something that changed during a run.
struct Event {
  Millis at = 0;
  int unit = 0;      ///< index into AsBuilt::units
  std::string name;  ///< a logic signal of the unit, or a coil, contact, input, supply or thermal element
  bool on = false;
};

}  // namespace ww::operation
