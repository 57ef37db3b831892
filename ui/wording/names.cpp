// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/names.h"

#include "operation/call_name.h"

#include <algorithm>

namespace ww::wording {
namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

const equipment::Profile* profileOf(const Context& context, sheet::UnitId unit) {
  const sheet::Unit* placed = context.sheet.units.find(unit);
  return placed ? context.library.find(placed->profile) : nullptr;
}

QString kindKey(equipment::Kind kind) {
  switch (kind) {
    case equipment::Kind::roomControl: return QStringLiteral("roomControl");
    case equipment::Kind::furnace: return QStringLiteral("furnace");
    case equipment::Kind::airHandler: return QStringLiteral("airHandler");
    case equipment::Kind::coolingCoil: return QStringLiteral("coolingCoil");
    case equipment::Kind::outdoorUnit: return QStringLiteral("outdoorUnit");
    case equipment::Kind::boiler: return QStringLiteral("boiler");
    case equipment::Kind::zoneValve: return QStringLiteral("zoneValve");
    case equipment::Kind::accessory:
    case equipment::Kind::refused: break;
  }
  return {};
}

bool onlyOfItsKind(const Context& context, equipment::Kind kind) {
  int count = 0;
  for (const sheet::Unit& unit : context.sheet.units) {
    const equipment::Profile* profile = context.library.find(unit.profile);
    if (profile && profile->kind == kind) ++count;
  }
  return count == 1;
}

/// Places that stand for terminals, conductors, parts and units in this order.
QString endName(const Language& language, char end) {
  return language.sentence(end == 'A' ? QStringLiteral("name.end-a") : QStringLiteral("name.end-b"));
}

}  // namespace

QString word(const Language& language, const std::string& kind, const std::string& id) {
  const QString key = QStringLiteral("name.%1.%2").arg(q(kind), q(id));
  return language.has(key) ? language.sentence(key) : q(id);
}

QString callName(const Language& language, const std::string& call) {
  const operation::CallParts parts = operation::partsOf(call);
  QString name = word(language, "call", std::string(parts.call));
  if (parts.condition == operation::kBelowChangeover)
    name = language.sentence(QStringLiteral("name.cold-call"), {{"call", name}});
  if (parts.condition == operation::kUnoccupied)
    name = language.sentence(QStringLiteral("name.unoccupied-call"), {{"call", name}});
  if (parts.group.empty()) return name;
  if (parts.group == operation::kAllZones)
    return language.sentence(QStringLiteral("name.all-zones-call"), {{"call", name}});
  const std::string zone(parts.group.substr(4, parts.group.size() - 5));
  return language.sentence(QStringLiteral("name.zone-call"), {{"call", name}, {"zone", q(zone)}});
}

QString dutyName(const Language& language, const std::string& duty) {
  const auto colon = duty.find(':');
  std::string name = duty.substr(0, colon);
  const auto digits = name.find_last_not_of("0123456789") + 1;
  const std::string number = name.substr(digits);
  // "zoneValve3" and "damper2" are counted; the numbers of stages have words of their own.
  QString plain =
      language.has(QStringLiteral("name.duty.") + q(name)) || number.empty()
          ? word(language, "duty", name)
          : language.sentence(QStringLiteral("name.numbered"),
                              {{"what", word(language, "duty", name.substr(0, digits))}, {"n", q(number)}});
  if (colon == std::string::npos) return plain;
  return language.sentence(QStringLiteral("name.duty-speed"),
                           {{"duty", plain}, {"speed", word(language, "speed", duty.substr(colon + 1))}});
}

QString dutyList(const Language& language, const std::vector<std::string>& duties) {
  QStringList names;
  for (const std::string& duty : duties) names << dutyName(language, duty);
  return names.isEmpty() ? language.sentence(QStringLiteral("name.nothing")) : language.list(names);
}

QString severityName(const Language& language, verify::Severity severity) {
  return language.sentence(QStringLiteral("name.severity.") +
                           QString::fromStdString(std::string(verify::idOf(severity))));
}

QString verdictName(const Language& language, checklist::Verdict verdict) {
  switch (verdict) {
    case checklist::Verdict::notMeasured:
      return language.sentence(QStringLiteral("name.verdict.notMeasured"));
    case checklist::Verdict::good: return language.sentence(QStringLiteral("name.verdict.good"));
    case checklist::Verdict::again: return language.sentence(QStringLiteral("name.verdict.again"));
    case checklist::Verdict::fault: return language.sentence(QStringLiteral("name.verdict.fault"));
    case checklist::Verdict::notJudged: return language.sentence(QStringLiteral("name.verdict.notJudged"));
  }
  return {};
}

QString phaseName(const Language& language, checklist::Phase phase) {
  switch (phase) {
    case checklist::Phase::dead: return language.sentence(QStringLiteral("name.phase.dead"));
    case checklist::Phase::rest: return language.sentence(QStringLiteral("name.phase.rest"));
    case checklist::Phase::call: return language.sentence(QStringLiteral("name.phase.call"));
  }
  return {};
}

QString inLanguage(const Language& language, const equipment::Words& words) {
  for (const std::string& code : {language.code().toStdString(), std::string("en")})
    if (const auto found = words.find(code); found != words.end()) return q(found->second);
  return {};
}

QString unitName(const Language& language, const Context& context, sheet::UnitId unit) {
  const sheet::Unit* placed = context.sheet.units.find(unit);
  if (!placed) return language.sentence(QStringLiteral("word.unknown"));
  if (!placed->label.empty()) return q(placed->label);
  const equipment::Profile* profile = profileOf(context, unit);
  const QString title = profile ? inLanguage(language, profile->title) : QString();
  return title.isEmpty() ? q(placed->tag) : title;
}

QString unitInSentence(const Language& language, const Context& context, sheet::UnitId unit) {
  const equipment::Profile* profile = profileOf(context, unit);
  const QString kind = profile ? kindKey(profile->kind) : QString();
  if (!kind.isEmpty() && onlyOfItsKind(context, profile->kind))
    return language.sentence(QStringLiteral("name.the-unit.") + kind);
  return unitName(language, context, unit);
}

QString terminalLetters(const Context& context, const sheet::TerminalRef& ref) {
  const sheet::Unit* placed = context.sheet.units.find(ref.unit);
  const equipment::Profile* profile = profileOf(context, ref.unit);
  const equipment::Terminal* terminal = profile ? profile->terminal(ref.terminal) : nullptr;
  if (!terminal || terminal->printedFor.empty()) return q(ref.terminal);
  const equipment::Setting* setting = profile->setting(terminal->printedSetting);
  const std::string value = context.sheet.settings.find(placed->tag, terminal->printedSetting)
                                .value_or(setting ? setting->standard : std::string());
  const auto printed = terminal->printedFor.find(value);
  return q(printed == terminal->printedFor.end() ? ref.terminal : printed->second);
}

QString terminalAtUnit(const Language& language, const Context& context, const sheet::TerminalRef& terminal) {
  return language.sentence(QStringLiteral("name.terminal-at"),
                           {{"terminal", terminalLetters(context, terminal)},
                            {"unit", unitInSentence(language, context, terminal.unit)}});
}

QString conductorName(const Language& language, const Context& context, sheet::ConductorId conductor) {
  const sheet::Conductor* wire = context.sheet.conductors.find(conductor);
  if (!wire) return language.sentence(QStringLiteral("word.unknown"));
  const QString tag = q(sheet::print(wire->colour));
  if (wire->isJumper()) return language.sentence(QStringLiteral("name.jumper"), {{"tag", tag}});
  const sheet::Cable* cable = context.sheet.cables.find(*wire->cable);
  return language.sentence(QStringLiteral("name.conductor"),
                           {{"tag", tag}, {"cable", cable ? q(cable->name) : QString()}});
}

QString placeName(const Language& language, const Context& context, const verify::Place& place) {
  if (place.conductor != sheet::ConductorId{}) {
    const QString wire = conductorName(language, context, place.conductor);
    if (place.end == 0) return wire;
    return language.sentence(QStringLiteral("name.conductor-end"),
                             {{"conductor", wire}, {"end", endName(language, place.end)}});
  }
  if (place.unit == sheet::UnitId{}) return place.call.empty() ? QString() : callName(language, place.call);
  if (!place.terminal.empty()) return terminalAtUnit(language, context, {place.unit, place.terminal});
  const QString unit = unitInSentence(language, context, place.unit);
  if (place.part.empty()) return unit;
  return language.sentence(QStringLiteral("name.part-at"),
                           {{"part", word(language, "part", place.part)}, {"unit", unit}});
}

QString landingName(const Language& language, const Context& context, const sheet::Landing& landing) {
  if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing))
    return terminalLetters(context, *terminal);
  if (const auto* splice = std::get_if<sheet::Splice>(&landing))
    return language.sentence(QStringLiteral("name.splice"), {{"name", q(splice->name)}});
  return language.sentence(std::holds_alternative<sheet::Loose>(landing) ? QStringLiteral("name.loose")
                                                                         : QStringLiteral("name.capped"));
}

}  // namespace ww::wording
