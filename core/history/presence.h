// SPDX-License-Identifier: GPL-3.0-or-later
// Who has a job open, by a sign of life and the start of the computer. Private to the room.
#pragma once

#include <cstdint>
#include <string>

namespace ww::history {

/// One writer as the table of editors names it.
struct Presence {
  std::string process;  ///< its own name, random
  std::string boot;     ///< of bootId() when it wrote
  int pid = 0;
  std::int64_t beat = 0;  ///< last sign, milliseconds since 1970
};

/// The identity of the running start of this computer; empty where the system does not say.
std::string bootId();
/// This writer, under a new name.
Presence newPresence();
/// Whether it may still be at work: same start of the computer, a process of that number, a recent sign.
bool isAlive(const Presence& presence, std::int64_t nowMilliseconds);

}  // namespace ww::history
