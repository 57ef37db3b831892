// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "equipment/profile.h"
#include "quantity/json.h"

// Private to the room.
namespace ww::equipment {

/// Reads one part from {"kind": "coil", ...}. The members are documented by
/// resources/schemas/profile.schema.json. Nothing after a complaint. Physics: the coil-... keys of
/// contradictions(), "supply-lock-out-order", "input-threshold-order", "thermal-volts-order". `source` is
/// required in a part library and absent elsewhere.
std::optional<Part> readPart(const nlohmann::json& value, const std::string& where,
                             quantity::Problems& problems, bool withSource);

/// The kind word of a part ("coil"), for saying what was found.
std::string_view kindWord(const Part& part);

}  // namespace ww::equipment
