// SPDX-License-Identifier: GPL-3.0-or-later
// The tables of the store, version by version. Private to the room.
#pragma once

#include <SQLiteCpp/SQLiteCpp.h>

#include <span>

namespace ww::history {

inline constexpr int kApplicationId = 0x57775374;  ///< "WwSt", in the head of the file

/// SQL that brings a store from the version before to this one; the first makes it from nothing. A version
/// once released never changes.
std::span<const char* const> schemaSteps();
inline int schemaVersion() { return static_cast<int>(schemaSteps().size()); }

/// How what is derived from the bodies is derived. Another number than the one stored: derived anew.
inline constexpr int kProjection = 2;

}  // namespace ww::history
