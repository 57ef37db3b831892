// SPDX-License-Identifier: GPL-3.0-or-later
// Room settings: the values a control or a board is set to, by key. Which keys
// exist, and which values they take, is said by the unit profiles; this room
// derives nothing and knows no circuit.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace ww::settings {

/// Values by key. A key is either common to the whole sheet ("fanWithHeat", "lineVolts") or belongs to one
/// unit ("F.tap", with the unit's tag before the point); the unit's own value goes before the common one.
class Values {
 public:
  void set(std::string key, std::string value) { values_[std::move(key)] = std::move(value); }
  void unset(const std::string& key) { values_.erase(key); }
  const std::map<std::string, std::string>& all() const { return values_; }

  /// What was set for this unit, or for the sheet; nothing when neither was.
  std::optional<std::string> find(std::string_view unitTag, std::string_view key) const;
  friend bool operator==(const Values&, const Values&) = default;

 private:
  std::map<std::string, std::string> values_;
};

/// Line volts / frequency and other facts of the site that no profile declares.
inline constexpr std::string_view kLineVolts = "lineVolts";          ///< volts at the primary; default 120
inline constexpr std::string_view kLineFrequency = "lineFrequency";  ///< 50 or 60 Hz; default 60

}  // namespace ww::settings
