// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string_view>
#include <vector>

namespace ww::equipment {

/// A file of resources/ as it was built into the program.
struct ShippedFile {
  std::string_view name;  ///< without folder and ".json"
  std::string_view text;
};

/// The unit profiles, and the part library under the name "parts", in name order.
const std::vector<ShippedFile>& shippedProfiles();
/// The schemas ("profile.schema", ...).
const std::vector<ShippedFile>& shippedSchemas();

/// The file of that name; empty when there is none.
std::string_view textOf(const std::vector<ShippedFile>& files, std::string_view name);

}  // namespace ww::equipment
