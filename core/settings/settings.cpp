// SPDX-License-Identifier: GPL-3.0-or-later
#include "settings/settings.h"

namespace ww::settings {

std::optional<std::string> Values::find(std::string_view unitTag, std::string_view key) const {
  const auto own = values_.find(std::string(unitTag) + "." + std::string(key));
  if (own != values_.end()) return own->second;
  const auto common = values_.find(std::string(key));
  if (common != values_.end()) return common->second;
  return std::nullopt;
}

}  // namespace ww::settings
