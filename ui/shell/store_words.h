// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "job/job.h"
#include "wording/language.h"

namespace ww::shell {

/// Address and unit as the title of a job; a sentence with its number for a job that has no address yet.
QString addressOf(const wording::Language& language, const job::Site& site, const std::string& number);
/// "G heat pump with electric auxiliary heat"; a word for a system of no usual kind.
QString systemName(const wording::Language& language, const std::string& letter);

}  // namespace ww::shell
