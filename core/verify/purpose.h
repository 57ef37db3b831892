// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>

#include "equipment/profile.h"

namespace ww::verify {

/// Whether two screws belong on one conductor: the same purpose, or the first heat stage with auxiliary heat
/// and with the heat that a defrost calls.
inline bool samePurpose(std::string_view a, std::string_view b) {
  const auto heat = [](std::string_view p) { return p == "heat1" || p == "heat2" || p == "defrostHeat"; };
  return a == b || (heat(a) && heat(b));
}

/// Circuits that nothing else may be joined with.
inline bool standsApart(equipment::Role role) {
  using equipment::Role;
  return role == Role::dry || role == Role::sense || role == Role::millivolt || role == Role::line ||
         role == Role::data;
}

}  // namespace ww::verify
