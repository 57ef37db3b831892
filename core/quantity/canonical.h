// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace ww::quantity {

/// The one spelling of a JSON value, fit for hashing: members sorted by their bytes, no blanks, UTF-8
/// unescaped, every number in its shortest text that reads back the same, one line feed at the end.
/// Not-a-number and infinities, which JSON cannot spell, become null.
std::string canonicalText(const nlohmann::json& value);

}  // namespace ww::quantity
