// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <compare>
#include <string>

namespace ww::sheet {

/// Strong integer ids inside one sheet; the sheet counts them up and never reuses one.
enum class UnitId : int {};
enum class CableId : int {};
enum class ConductorId : int {};

constexpr int number(UnitId id) { return static_cast<int>(id); }
constexpr int number(CableId id) { return static_cast<int>(id); }
constexpr int number(ConductorId id) { return static_cast<int>(id); }

/// A terminal is its unit and the terminal id of the unit's profile.
struct TerminalRef {
  UnitId unit{};
  std::string terminal;
  friend auto operator<=>(const TerminalRef&, const TerminalRef&) = default;
};

}  // namespace ww::sheet
