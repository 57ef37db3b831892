// SPDX-License-Identifier: GPL-3.0-or-later
#include "sheet/landing_check.h"

#include <algorithm>
#include <cmath>

#include "quantity/text.h"

namespace ww::sheet {

namespace {

using quantity::joined;

constexpr std::string_view kTap = "tap";  // volts of the primary tap: every unit with a transformer has one
constexpr std::string_view kPhase = "phase";  // degrees of its secondary; 180: hot and common changed places
constexpr double kLeastLineVolts = 50, kMostLineVolts = 600;

bool isControl(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }

std::vector<std::string> terminalsOf(const equipment::Profile& profile) {
  std::vector<std::string> ids;
  for (const auto& terminal : profile.terminals) ids.push_back(terminal.id);
  return ids;
}

bool hasTransformer(const equipment::Profile& profile) {
  return std::ranges::any_of(profile.elements, [](const equipment::Element& element) {
    return std::holds_alternative<equipment::TransformerPart>(element.part);
  });
}

/// A number written without blanks around it, within the range.
bool numberWithin(const std::string& text, double least, double most) {
  const auto number = quantity::parseNumber(text);
  return number && quantity::trimmed(text) == text && *number >= least && *number <= most;
}

std::string voltRange() {
  return quantity::printNumber(kLeastLineVolts) + " - " + quantity::printNumber(kMostLineVolts);
}

std::vector<std::string> settingsOf(const equipment::Profile& profile) {
  std::vector<std::string> keys;
  for (const auto& setting : profile.settings) keys.push_back(setting.key);
  if (hasTransformer(profile)) keys.insert(keys.end(), {std::string(kTap), std::string(kPhase)});
  return keys;
}

std::vector<std::string> tagsOf(const Sheet& sheet) {
  std::vector<std::string> tags;
  for (const Unit& unit : sheet.units) tags.push_back(unit.tag);
  return tags;
}

}  // namespace

bool fitTag(std::string_view tag) {
  if (tag.empty() || tag.size() > 24) return false;
  return std::ranges::none_of(tag, [](char c) {
    return isControl(c) || std::string_view(" ./*#,;:\"").find(c) != std::string_view::npos;
  });
}

bool fitName(std::string_view name) {
  if (name.empty() || name.size() > 40 || quantity::trimmed(name) != name) return false;
  return name.front() != '#' && name.front() != '*' && std::ranges::none_of(name, isControl);
}

void LandingCheck::complain(const std::string& at, std::string key,
                            std::vector<std::pair<std::string, std::string>> args) {
  problems_.push_back({at, std::move(key), std::move(args)});
}

void LandingCheck::unit(const Unit& unit, const std::string& tagAt, const std::string& profileAt) {
  if (!fitTag(unit.tag))
    complain(tagAt, "unfit-tag", {{"tag", unit.tag}});
  else if (!tags_.insert(unit.tag).second)
    complain(tagAt, "tag-doubled", {{"tag", unit.tag}});
  if (library_.find(unit.profile)) return;
  std::vector<std::string> known;
  for (const auto& [id, profile] : library_.profiles) known.push_back(id);
  complain(profileAt, "unknown-profile", {{"profile", unit.profile}, {"known", joined(known)}});
}

void LandingCheck::length(quantity::Metres length, const std::string& at) {
  if (length.si() > 0 && length.si() <= kMostMetres) return;
  complain(at, "length-out-of-range",
           {{"metres", quantity::printNumber(length.si())}, {"most", quantity::printNumber(kMostMetres)}});
}

void LandingCheck::name(std::string_view name, const std::string& at) {
  if (!fitName(name)) complain(at, "unfit-name", {{"name", std::string(name)}});
}

void LandingCheck::cableEnds(const std::string& cable, const Unit& endA, const Unit& endB,
                             const std::string& at) {
  if (endA.id == endB.id) complain(at, "cable-one-unit", {{"cable", cable}, {"unit", endA.tag}});
}

void LandingCheck::terminal(const Unit& unit, std::string_view terminal, const std::string& at) {
  const equipment::Profile* profile = library_.find(unit.profile);
  if (!profile || profile->terminal(terminal)) return;
  for (const auto& candidate : profile->terminals)
    for (const auto& [value, text] : candidate.printedFor)
      if (text == terminal)
        return complain(at, "terminal-by-screw-text",
                        {{"unit", unit.tag}, {"terminal", std::string(terminal)}, {"id", candidate.id}});
  complain(at, "unknown-terminal",
           {{"unit", unit.tag},
            {"profile", unit.profile},
            {"terminal", std::string(terminal)},
            {"known", joined(terminalsOf(*profile))}});
}

void LandingCheck::jumper(const Unit& endA, const Unit& endB, const std::string& at) {
  if (endA.id != endB.id) complain(at, "jumper-between-units", {{"unit_a", endA.tag}, {"unit_b", endB.tag}});
}

void LandingCheck::among(const equipment::Setting& setting, const std::string& key, const std::string& value,
                         const std::string& at) {
  const bool isNumber = setting.choices.empty() || !setting.unit.empty();
  if (std::ranges::find(setting.choices, value) != setting.choices.end()) return;
  if (isNumber && numberWithin(value, -1e9, 1e9)) return;
  std::vector<std::string> fit = setting.choices;
  if (isNumber) fit.emplace_back("number");
  complain(at, "setting-value", {{"setting", key}, {"value", value}, {"choices", joined(fit)}});
}

bool LandingCheck::siteFact(const std::string& key, const std::string& value, const std::string& at) {
  if (key == settings::kLineVolts) {
    if (!numberWithin(value, kLeastLineVolts, kMostLineVolts))
      complain(at, "setting-value", {{"setting", key}, {"value", value}, {"choices", voltRange()}});
    return true;
  }
  if (key != settings::kLineFrequency) return false;
  if (value != "50" && value != "60")
    complain(at, "setting-value", {{"setting", key}, {"value", value}, {"choices", "50, 60"}});
  return true;
}

void LandingCheck::unitSetting(const Sheet& sheet, const std::string& key, const std::string& value,
                               const std::string& at) {
  const size_t point = key.find('.');
  const std::string tag = key.substr(0, point), own = key.substr(point + 1);
  const Unit* unit = sheet.unitByTag(tag);
  if (!unit)
    return complain(at, "setting-without-unit",
                    {{"setting", key}, {"unit", tag}, {"known", joined(tagsOf(sheet))}});
  const equipment::Profile* profile = library_.find(unit->profile);
  if (!profile) return;
  if (const auto* setting = profile->setting(own)) return among(*setting, key, value, at);
  if ((own != kTap && own != kPhase) || !hasTransformer(*profile))
    return complain(at, "unknown-setting", {{"setting", key}, {"known", joined(settingsOf(*profile))}});
  if (own == kPhase) {
    if (!numberWithin(value, -360, 360))
      complain(at, "setting-value", {{"setting", key}, {"value", value}, {"choices", "-360 - 360"}});
    return;
  }
  if (!numberWithin(value, kLeastLineVolts, kMostLineVolts))
    complain(at, "setting-value", {{"setting", key}, {"value", value}, {"choices", voltRange()}});
}

void LandingCheck::commonSetting(const Sheet& sheet, const std::string& key, const std::string& value,
                                 const std::string& at) {
  std::set<std::string> known{std::string(settings::kLineVolts), std::string(settings::kLineFrequency)};
  bool declared = false, unfit = false;
  std::set<std::string> judged;  // twenty controls of one profile say the same thing once
  for (const Unit& unit : sheet.units) {
    const equipment::Profile* profile = library_.find(unit.profile);
    if (!profile) return;  // said already; it might have declared this key
    if (!judged.insert(unit.profile).second) continue;
    for (const auto& setting : profile->settings) {
      known.insert(setting.key);
      if (setting.key != key) continue;
      declared = true;
      const size_t before = problems_.size();
      if (!unfit) among(setting, key, value, at);
      unfit = unfit || problems_.size() > before;
    }
  }
  if (!declared)
    complain(at, "unknown-setting", {{"setting", key}, {"known", joined({known.begin(), known.end()})}});
}

void LandingCheck::settings(const Sheet& sheet,
                            const std::function<std::string(const std::string& key)>& placeOf) {
  for (const auto& [key, value] : sheet.settings.all()) {
    if (enough(problems_)) return;
    const std::string at = placeOf(key);
    if (siteFact(key, value, at)) continue;
    if (key.find('.') != std::string::npos)
      unitSetting(sheet, key, value, at);
    else
      commonSetting(sheet, key, value, at);
  }
}

}  // namespace ww::sheet
