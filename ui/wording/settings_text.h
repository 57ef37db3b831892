// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <string>

#include "recommend/recommend.h"
#include "wording/language.h"

namespace ww::wording {

/// Short name of a setting: "Compressor off time", "Starts an hour: compressor".
QString settingName(const Language& language, const std::string& key);
/// Its value as told in a sentence: "5 min", "3 times an hour", "in cooling", in the scale of the person.
QString settingValue(const Language& language, const std::string& key, const std::string& value);
/// The whole setting as a sentence: "The compressor stays off for at least 5 min between two runs.". `mark`
/// is put before and after the value, where it is to stand out.
QString settingText(const Language& language, const recommend::Setting& setting,
                    const std::pair<QString, QString>& mark = {});
QString settingReason(const Language& language, const recommend::Setting& setting);
/// What follows when it is wrong.
QString settingIfWrong(const Language& language, const recommend::Setting& setting);
QString settingSource(const Language& language, const recommend::Setting& setting);
/// "derived", "to confirm", "overridden by M. Ode".
QString settingOrigin(const Language& language, const recommend::Setting& setting);
QString groupName(const Language& language, recommend::Group group);
QString conflictText(const Language& language, const recommend::Conflict& conflict);
/// Name of a wish by its key in recommend::Wishes.
QString wishName(const Language& language, const std::string& wish);

}  // namespace ww::wording
