// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/settings_text.h"

#include <cmath>

#include "quantity/text.h"
#include "wording/names.h"

namespace ww::wording {
namespace {

constexpr std::string_view kCycles = "cycles.", kWish = "wish.";

QString q(std::string_view text) { return QString::fromUtf8(text.data(), qsizetype(text.size())); }

QString keyOf(const char* kind, std::string_view id) {
  return QStringLiteral("control.") + QLatin1String(kind) + u'.' + q(id);
}

/// One decimal where the figure needs it.
int decimalsOf(double value) { return std::abs(value - std::round(value)) < 0.05 ? 0 : 1; }

/// The name of the form: every stage has cycles.
std::string_view formName(std::string_view key) {
  const recommend::Form* form = recommend::formOf(key);
  return form != nullptr ? form->key : key;
}

QString dutyOf(const Language& language, const std::string& key) {
  return key.starts_with(kCycles) ? dutyName(language, key.substr(kCycles.size())) : QString();
}

QString timeText(const Language& language, double seconds) {
  if (seconds >= 60) return language.quantity(seconds / 60, "min", decimalsOf(seconds / 60));
  return language.quantity(seconds, "s", 0);
}

QString differenceText(const Language& language, double kelvin) {
  const double shown = language.measuresInFahrenheit() ? kelvin * 1.8 : kelvin;
  return language.quantity(shown, language.measuresInFahrenheit() ? "°F" : "°C", decimalsOf(shown));
}

QString counted(const Language& language, std::string_view unit, double value) {
  if (decimalsOf(value) != 0)
    return language.sentence(QStringLiteral("control.value.per-hour-part"),
                             {{QStringLiteral("figure"), language.number(value, 1)}});
  return language.sentence(keyOf("value", unit), {}, int(std::lround(value)));
}

QString numberText(const Language& language, std::string_view unit, double value) {
  if (unit == "s") return timeText(language, value);
  if (unit == "K") return differenceText(language, value);
  if (unit == "C")
    return language.quantity(value, "C",
                             decimalsOf(language.measuresInFahrenheit() ? value * 1.8 + 32 : value));
  return counted(language, unit, value);
}

Args termsOf(const Language& language, const std::vector<recommend::Term>& terms) {
  Args args;
  for (const auto& term : terms)
    args.emplace_back(q(term.name), settingValue(language, term.key, term.value));
  return args;
}

}  // namespace

QString settingName(const Language& language, const std::string& key) {
  return language.sentence(keyOf("name", formName(key)), {{QStringLiteral("duty"), dutyOf(language, key)}});
}

QString settingValue(const Language& language, const std::string& key, const std::string& value) {
  const QString word = keyOf("value", std::string(formName(key)) + "." + value);
  if (language.has(word)) return language.sentence(word);
  const auto number = quantity::parseNumber(value);
  if (!number) return q(value);
  if (key == "share") return language.quantity(*number * 100, "%", decimalsOf(*number * 100));
  if (key == "starts") return counted(language, "per-hour", *number);
  const recommend::Form* form = recommend::formOf(key);
  return form != nullptr ? numberText(language, form->unit, *number) : q(value);
}

QString settingText(const Language& language, const recommend::Setting& setting,
                    const std::pair<QString, QString>& mark) {
  const std::string name(formName(setting.key));
  QString says = keyOf("says", name + "." + setting.value);
  if (!language.has(says)) says = keyOf("says", setting.reason);
  if (!language.has(says)) says = keyOf("says", name);
  return language.sentence(says,
                           {{QStringLiteral("value"),
                             mark.first + settingValue(language, setting.key, setting.value) + mark.second},
                            {QStringLiteral("duty"), dutyOf(language, setting.key)}});
}

QString settingReason(const Language& language, const recommend::Setting& setting) {
  return language.sentence(keyOf("why", setting.reason), termsOf(language, setting.terms));
}

QString settingIfWrong(const Language& language, const recommend::Setting& setting) {
  const QString special = keyOf("wrong", setting.reason);
  return language.sentence(language.has(special) ? special : keyOf("wrong", formName(setting.key)));
}

QString settingSource(const Language& language, const recommend::Setting& setting) {
  return language.sentence(keyOf("source", setting.source));
}

QString settingOrigin(const Language& language, const recommend::Setting& setting) {
  constexpr const char* kOrigins[] = {"derived", "toConfirm", "confirmed", "overridden", "differs"};
  const QString origin = language.sentence(keyOf("origin", kOrigins[size_t(setting.origin)]));
  if (setting.by.empty()) return origin;
  return origin + u' ' +
         language.sentence(QStringLiteral("control.by"), {{QStringLiteral("by"), q(setting.by)}});
}

QString groupName(const Language& language, recommend::Group group) {
  constexpr const char* kGroups[] = {"connected", "protect", "comfort", "access"};
  return language.sentence(keyOf("group", kGroups[size_t(group)]));
}

QString conflictText(const Language& language, const recommend::Conflict& conflict) {
  Args args = termsOf(language, conflict.terms);
  if (!conflict.keys.empty() && conflict.keys.front().starts_with(kWish))
    args.emplace_back(QStringLiteral("wish"), wishName(language, conflict.keys.front().substr(kWish.size())));
  return language.sentence(keyOf("conflict", conflict.rule), args);
}

QString wishName(const Language& language, const std::string& wish) {
  return language.sentence(keyOf("wish", wish));
}

}  // namespace ww::wording
