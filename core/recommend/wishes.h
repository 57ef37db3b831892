// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "quantity/json.h"

namespace ww::recommend {

/// What the customer wishes. Empty words and absent figures: nothing was said.
struct Wishes {
  std::string changeover;                     ///< words of the setting "changeover"
  std::string scale;                          ///< of "scale"
  std::string access;                         ///< of "access"
  std::string keeper;                         ///< of "keeper"
  std::optional<double> heatAt, coolAt;       ///< temperatures to be kept, C
  std::optional<double> heatMost, coolLeast;  ///< how far an occupant may go, C
  std::optional<bool> auxiliaryWhenMild;      ///< auxiliary heat may help at any outdoor temperature
  std::optional<double> filterDays, serviceMonths;
  friend bool operator==(const Wishes&, const Wishes&) = default;
};

/// A setting that the installer looked at: confirmed as derived, or overridden.
struct Choice {
  std::string key, value;  ///< as in Setting
  std::string note, by, at;
  friend bool operator==(const Choice&, const Choice&) = default;
};

/// What a job knows of the control's settings.
struct Control {
  Wishes wishes;
  std::vector<Choice> choices;  ///< one for each key at most, sorted by key

  const Choice* find(std::string_view key) const;
  void put(Choice choice);  ///< replaces the one of the same key
  void drop(std::string_view key);
  bool empty() const { return *this == Control{}; }
  friend bool operator==(const Control&, const Control&) = default;
};

/// Reads what writeControl() wrote. Problems: those of quantity::Fields, "setting-value" {setting, value,
/// choices}, "unknown-setting" {setting, known}, "id-doubled" {id} for a key that stands twice.
Control readControl(const nlohmann::json& value, const std::string& where, quantity::Problems& problems);
nlohmann::json writeControl(const Control& control);

}  // namespace ww::recommend
