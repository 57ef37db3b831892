// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <functional>
#include <string>

#include "equipment/profile.h"
#include "paint/theme.h"
#include "session/preferences.h"
#include "wording/language.h"

namespace ww::session {

/// What every screen is given: language, colours, profiles, preferences, clock and identities. A window is
/// built for one language and one theme; another choice builds it anew.
struct Surroundings {
  const wording::Language& language;
  const paint::Theme& theme;
  const equipment::Library& library;
  Preferences preferences;
  std::function<std::string()> now;    ///< ISO 8601, local time with offset
  std::function<std::string()> newId;  ///< UUIDv7
  /// Keeps changed preferences; a failure is told by the owner.
  std::function<void(const Preferences&)> keep;
  /// Has a screen reader say a sentence at once, wherever the keyboard is.
  std::function<void(const QString& sentence)> announce;
};

}  // namespace ww::session
