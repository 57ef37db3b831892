// SPDX-License-Identifier: GPL-3.0-or-later
// What the control is to be set to.
#include <nlohmann/json.hpp>

#include "json_output.h"
#include "quantity/text.h"
#include "recommend/cycling.h"
#include "wording/settings_text.h"

namespace ww::app {

namespace {

using nlohmann::json;

constexpr int kCurveSteps = 20;

constexpr const char* kOrigins[] = {"derived", "to-confirm", "confirmed", "overridden", "differs"};
constexpr const char* kGroups[] = {"connected", "protect", "comfort", "access"};

/// A number as a number, a word as a word.
json valueJson(const std::string& value) {
  if (const auto number = quantity::parseNumber(value)) return *number;
  return value;
}

json termsJson(const std::vector<recommend::Term>& terms) {
  json object = json::object();
  for (const auto& term : terms) object[term.name] = valueJson(term.value);
  return object;
}

/// What a rate comes to under the compressor's off time; other stages have none.
json cyclingJson(const recommend::Sheet& sheet, const recommend::Setting& setting) {
  const double most = quantity::parseNumber(setting.value).value_or(1);
  const quantity::Seconds least = recommend::offTimeOf(sheet, setting);
  json points = json::array();
  for (const auto& at : recommend::curve(most, least, kCurveSteps)) points.push_back({at.share, at.perHour});
  const auto half = recommend::delivered(most, 0.5, least);
  json object{{"halfLoad", {{"on", half.on.si()}, {"off", half.off.si()}, {"perHour", half.perHour}}},
              {"busiest", recommend::busiest(most, least).perHour},
              {"curve", points}};
  if (const auto held = recommend::heldAbove(most, least)) object["heldAbove"] = *held;
  return object;
}

json settingJson(const Opened& opened, const recommend::Sheet& sheet, const recommend::Setting& setting) {
  const auto& language = opened.language;
  const recommend::Form& form = *recommend::formOf(setting.key);
  json object{{"key", setting.key},
              {"group", kGroups[size_t(form.group)]},
              {"value", valueJson(setting.value)},
              {"derived", valueJson(setting.derived)},
              {"origin", kOrigins[size_t(setting.origin)]},
              {"onSheet", setting.wired},
              {"reason", {{"id", setting.reason}, {"figures", termsJson(setting.terms)}}},
              {"source", setting.source},
              {"text", wording::settingText(language, setting).toStdString()},
              {"why", wording::settingReason(language, setting).toStdString()},
              {"ifWrong", wording::settingIfWrong(language, setting).toStdString()}};
  if (!form.unit.empty()) object["unit"] = form.unit;
  if (!setting.note.empty()) object["note"] = setting.note;
  if (!setting.by.empty()) object["by"] = setting.by;
  if (setting.key.starts_with("cycles.")) object["cycling"] = cyclingJson(sheet, setting);
  return object;
}

json conflictJson(const Opened& opened, const recommend::Conflict& conflict) {
  return {{"rule", conflict.rule},
          {"severity", verify::idOf(conflict.severity)},
          {"settings", conflict.keys},
          {"figures", termsJson(conflict.terms)},
          {"text", wording::conflictText(opened.language, conflict).toStdString()}};
}

QString settingsText(const Opened& opened, const recommend::Sheet& sheet) {
  const auto& language = opened.language;
  if (sheet.settings.empty()) return language.sentence(QStringLiteral("control.none"));
  QStringList lines;
  for (const auto& conflict : sheet.conflicts)
    lines << wording::severityName(language, conflict.severity) + QStringLiteral(": ") +
                 wording::conflictText(language, conflict);
  std::optional<recommend::Group> group;
  const auto row = [&](const char* label, const QString& text) {
    if (!text.isEmpty())
      lines << QStringLiteral("      ") + language.sentence(QLatin1String(label)) + QStringLiteral(": ") +
                   text;
  };
  for (const auto& setting : sheet.settings) {
    const auto its = recommend::formOf(setting.key)->group;
    if (group != its) {
      if (!lines.empty()) lines << QString();
      lines << wording::groupName(language, its);
    }
    group = its;
    lines << QStringLiteral("  ") + wording::settingText(language, setting) + QStringLiteral("  [") +
                 wording::settingOrigin(language, setting) + u']';
    row("control.why-label", wording::settingReason(language, setting));
    row("control.wrong-label", wording::settingIfWrong(language, setting));
    row("control.source-label", wording::settingSource(language, setting));
    if (setting.value != setting.derived)
      row("control.derived-label", wording::settingValue(language, setting.key, setting.derived));
    row("control.note-label", QString::fromStdString(setting.note));
  }
  if (const int open = int(sheet.open()); open > 0)
    lines << QString() << language.sentence(QStringLiteral("control.open"), {}, open);
  return lines.join(u'\n');
}

}  // namespace

Exit settings(const Request& request) {
  return withFile(request, [&](const Opened& opened) {
    const auto sheet = recommend::recommend(opened.sheet(), opened.library, opened.job.control);
    if (!request.json) {
      print(settingsText(opened, sheet));
      return Exit::fine;
    }
    json settings = json::array(), conflicts = json::array();
    for (const auto& setting : sheet.settings) settings.push_back(settingJson(opened, sheet, setting));
    for (const auto& conflict : sheet.conflicts) conflicts.push_back(conflictJson(opened, conflict));
    printJson({{"settings", settings}, {"conflicts", conflicts}, {"open", sheet.open()}});
    return Exit::fine;
  });
}

}  // namespace ww::app
