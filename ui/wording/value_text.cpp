// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/sentences.h"
#include "wording/settings_text.h"

namespace ww::wording {
namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

/// Kinds of words that have rules of their own; the others come straight from the catalogue.
QString named(const Language& language, const std::string& kind, const std::string& id) {
  if (kind == "call") return callName(language, id);
  if (kind == "duty") return dutyName(language, id);
  if (kind == "caution") return cautionText(language, id);
  if (kind == "caution-source") return cautionSource(language, id);
  return word(language, kind, id);
}

struct ValueText {
  const Language& language;
  const Context& context;

  QString operator()(const document::Literal& v) const { return q(v.text); }
  QString operator()(const document::Number& v) const {
    return language.quantity(v.value, v.unit, v.decimals);
  }
  QString operator()(const document::Count& v) const { return language.number(v.value, 0); }
  QString operator()(const document::Named& v) const { return named(language, v.kind, v.id); }
  QString operator()(const document::NamedList& v) const {
    QStringList names;
    for (const std::string& id : v.ids) names << named(language, v.kind, id);
    return language.list(names);
  }
  QString operator()(const document::Day& v) const { return language.day(v.iso); }
  QString operator()(const document::Moment& v) const {
    return v.timeOnly ? language.clock(v.iso) : language.moment(v.iso);
  }
  QString operator()(const document::UnitName& v) const { return unitName(language, context, v.unit); }
  QString operator()(const document::UnitKind& v) const {
    const sheet::Unit* unit = context.sheet.units.find(v.unit);
    const equipment::Profile* profile = unit ? context.library.find(unit->profile) : nullptr;
    if (!profile) return unit ? q(unit->profile) : QString();
    const QString title = inLanguage(language, profile->title);
    return title.isEmpty() ? q(profile->id) : title;
  }
  QString operator()(const document::TerminalName& v) const {
    return v.withUnit ? terminalAtUnit(language, context, v.terminal) : terminalLetters(context, v.terminal);
  }
  QString operator()(const document::TerminalPair& v) const {
    return language.sentence(
        QStringLiteral("name.terminal-pair"),
        {{"first", terminalLetters(context, v.first)}, {"second", terminalLetters(context, v.second)}});
  }
  QString operator()(const document::ConductorName& v) const {
    return conductorName(language, context, v.conductor);
  }
  QString operator()(const document::LandingName& v) const {
    return landingName(language, context, v.landing);
  }
  QString operator()(const document::GaugeText& v) const {
    const bool awg = v.gauge.system == quantity::Gauge::System::awg;
    if (awg && language.showsGauges()) return language.number(v.gauge.value, 0) + QChar(0x202F) + "AWG";
    const double area = awg ? quantity::crossSection(v.gauge).si() * 1e6 : v.gauge.value;
    return language.number(area, 2) + QChar(0x202F) + "mm²";
  }
  QString operator()(const document::BandText& v) const { return bandText(language, v.band, v.unit); }
  QString operator()(const document::ReadingText& v) const {
    return readingText(language, v.value, v.unit, v.band);
  }
  QString operator()(const document::Instruction& v) const {
    return v.brief ? briefTitle(language, v.step, context) : stepTitle(language, v.step, context);
  }
  QString operator()(const document::FindingTitle& v) const {
    return findingTitle(language, v.finding, context);
  }
  QString operator()(const document::FindingText& v) const {
    return findingText(language, v.finding, context);
  }
  QString operator()(const document::SettingWords& v) const {
    using Part = document::SettingWords::Part;
    switch (v.part) {
      case Part::why: return settingReason(language, v.setting);
      case Part::source: return settingSource(language, v.setting);
      case Part::origin: return settingOrigin(language, v.setting);
      case Part::sentence: break;
    }
    return settingText(language, v.setting);
  }
  QString operator()(const document::ConflictText& v) const { return conflictText(language, v.conflict); }
  QString operator()(const document::Phrase& v) const {
    Args args;
    QStringList names;
    std::optional<int> count;
    for (const document::Argument& argument : v.args) {
      const QString worded = text(language, argument.value, context);
      if (worded.isEmpty()) continue;
      if (const auto* n = std::get_if<document::Count>(&argument.value); n && argument.name == "n")
        count = n->value;
      args.emplace_back(q(argument.name), worded);
      names << args.back().first;
    }
    if (v.key.empty()) return {};
    const QString key = language.variant(q(v.key), names);
    return language.sentence(key.isEmpty() ? q(v.key) : key, args, count);
  }
};

}  // namespace

QString text(const Language& language, const document::Value& value, const Context& context) {
  return std::visit(ValueText{language, context}, value);
}

}  // namespace ww::wording
