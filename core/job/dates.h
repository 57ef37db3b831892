// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

namespace ww::job {

/// "2026-03-12", a day of the calendar (ISO 8601).
bool isDate(const std::string& text);

/// "2026-03-12T10:42:00Z", or with a zone like "-05:00" in place of Z; seconds may be missing.
bool isMoment(const std::string& text);

}  // namespace ww::job
