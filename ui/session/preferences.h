// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"
#include "quantity/loaded.h"

namespace ww::session {

/// What a person set once and every job uses. Kept as preferences.json in the data folder.
struct Preferences {
  std::string language;  ///< "en", "es"; empty: the system's
  std::string theme;     ///< "light", "dark"; empty: by the system's palette
  bool feet = true;      ///< lengths in ft, else m
  bool awg = true;       ///< gauges in AWG, else mm2
  bool fahrenheit = true;
  std::string paper = "letter";  ///< or "a4"
  job::Company company;          ///< stands on the report
  std::string installer;         ///< who a new job belongs to
  std::vector<job::Meter> meters;
  std::string meterInHand;                    ///< id of one of the meters; empty: none
  std::map<std::string, std::string> layout;  ///< window geometry and splitters, as base 64, by name
  friend bool operator==(const Preferences&, const Preferences&) = default;
};

/// Problems: those of parseJson() and Fields; a file that is not there is no problem of the caller's: ask
/// before. Anything left out has its default.
quantity::Loaded<Preferences> readPreferences(std::string_view text);
std::string writePreferences(const Preferences& preferences);

}  // namespace ww::session
