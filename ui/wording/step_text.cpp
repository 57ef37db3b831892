// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "asbuilt/half_wave.h"
#include "wording/sentences.h"

namespace ww::wording {
namespace {

QString measureKey(checklist::Measure measure) {
  switch (measure) {
    case checklist::Measure::act: return QStringLiteral("step-act");
    case checklist::Measure::ohms: return QStringLiteral("step-ohms");
    case checklist::Measure::acVolts: return QStringLiteral("step-volts");
    case checklist::Measure::dcMillivolts: return QStringLiteral("step-millivolts");
    case checklist::Measure::look: return QStringLiteral("step-look");
  }
  return {};
}

struct Offered {
  Args args;
  QStringList names;
  void add(const char* name, const QString& text) {
    if (text.isEmpty()) return;
    args.emplace_back(QString::fromLatin1(name), text);
    names << args.back().first;
  }
};

Offered parametersOf(const Language& language, const checklist::Step& step, const Context& context) {
  Offered offered;
  if (!step.call.empty()) offered.add("call", callName(language, step.call));
  if (step.standAt != sheet::UnitId{}) offered.add("unit", unitInSentence(language, context, step.standAt));
  if (step.probe1.unit != sheet::UnitId{} && step.probe2.unit != sheet::UnitId{}) {
    offered.add("first", terminalLetters(context, step.probe1));
    offered.add("second", terminalLetters(context, step.probe2));
    if (step.probe1.unit != step.probe2.unit) {
      offered.add("firstat", terminalAtUnit(language, context, step.probe1));
      offered.add("secondat", terminalAtUnit(language, context, step.probe2));
    }
  }
  if (step.conductor != sheet::ConductorId{})
    offered.add("conductor", conductorName(language, context, step.conductor));
  if (!step.mustRun.empty()) offered.add("must", dutyList(language, step.mustRun));
  if (!step.mustNotRun.empty()) offered.add("mustnot", dutyList(language, step.mustNotRun));
  return offered;
}

QString sentenceOf(const Language& language, const checklist::Step& step, const Offered& offered,
                   const QString& form) {
  QString key = language.variant(
      QStringLiteral("step.%1.%2").arg(QString::fromStdString(step.instruction), form), offered.names);
  if (key.isEmpty()) key = language.variant(measureKey(step.measure) + u'.' + form, offered.names);
  return key.isEmpty() ? QString() : language.sentence(key, offered.args);
}

double biggestOf(const checklist::Band& band) { return std::max(std::abs(band.low), std::abs(band.high)); }

bool toldInKilo(const checklist::Band& band, std::string_view unit) {
  return unit == "ohm" && !band.open && biggestOf(band) >= 1000;
}

}  // namespace

QString bandText(const Language& language, const checklist::Band& band, std::string_view unit) {
  if (band.open)
    return language.sentence(QStringLiteral("band.open"), {{"low", language.quantity(band.low, unit, 0)}});
  // Both ends in the same unit, with decimals that tell them apart.
  const double biggest = biggestOf(band);
  const bool kilo = toldInKilo(band, unit);
  const double scale = kilo ? 1000 : 1;
  const int decimals = biggest / scale < 100 ? 1 : 0;
  const QString high = kilo ? language.number(band.high / scale, decimals) + QChar(0x202F) + "kΩ"
                            : language.quantity(band.high, unit, decimals);
  return language.sentence(QStringLiteral("band.range"),
                           {{"low", language.number(band.low / scale, decimals)}, {"high", high}});
}

QString readingText(const Language& language, double value, std::string_view unit,
                    const std::optional<checklist::Band>& band) {
  // Four digits, as meters show.
  if (band && toldInKilo(*band, unit)) {
    const double kilo = value / 1000;
    const int decimals = std::abs(kilo) < 10 ? 3 : std::abs(kilo) < 100 ? 2 : 1;
    return language.number(kilo, decimals) + QChar(0x202F) + "kΩ";
  }
  return language.quantity(value, unit, value >= 1000 ? 0 : 1);
}

QString halfWaveText(const Language& language, const checklist::Step& step) {
  if (!step.halfWave) return {};
  const double positive = step.halfWave->positive, negative = step.halfWave->negative;
  if (step.measure != checklist::Measure::acVolts) return language.sentence(QStringLiteral("half-wave.ohms"));
  const auto volts = [&](double value) { return language.quantity(value, "V", 1); };
  if (positive > 0 && negative > 0)
    return language.sentence(QStringLiteral("half-wave.both"),
                             {{"volts", volts(std::max(positive, negative))}});
  if (positive == 0 && negative == 0) return language.sentence(QStringLiteral("half-wave.none"));
  const double full = std::max(positive, negative);
  return language.sentence(QStringLiteral("half-wave.one"),
                           {{"rms", volts(asbuilt::kHalfWaveRms * full)},
                            {"direct", volts(asbuilt::kHalfWaveDirect * (positive - negative))},
                            {"coupled", volts(asbuilt::kHalfWaveCoupled * full)},
                            {"averaging", volts(asbuilt::kHalfWaveAveraging * full)}});
}

QString briefTitle(const Language& language, const checklist::Step& step, const Context& context) {
  const QString brief = QStringLiteral("step.%1.brief").arg(QString::fromStdString(step.instruction));
  return language.has(brief) ? language.sentence(brief, parametersOf(language, step, context).args)
                             : stepTitle(language, step, context);
}

QString stepTitle(const Language& language, const checklist::Step& step, const Context& context) {
  return sentenceOf(language, step, parametersOf(language, step, context), QStringLiteral("title"));
}

QString stepText(const Language& language, const checklist::Step& step, const Context& context) {
  Offered offered = parametersOf(language, step, context);
  if (step.band) offered.add("band", bandText(language, *step.band, unitOf(step)));
  offered.add("expected", halfWaveText(language, step));
  const QString full = sentenceOf(language, step, offered, QStringLiteral("text"));
  return full.isEmpty() ? sentenceOf(language, step, offered, QStringLiteral("title")) : full;
}

QString cautionText(const Language& language, const std::string& caution) {
  const QString key = QStringLiteral("caution.%1.text").arg(QString::fromStdString(caution));
  return language.has(key) ? language.sentence(key) : QString::fromStdString(caution).replace(u'-', u' ');
}

QString cautionSource(const Language& language, const std::string& caution) {
  const QString key = QStringLiteral("caution.%1.source").arg(QString::fromStdString(caution));
  return language.sentence(language.has(key) ? key : QStringLiteral("caution-own"));
}

QString cautionWithSource(const Language& language, const std::string& caution) {
  return language.sentence(QStringLiteral("caution-sourced"), {{"caution", cautionText(language, caution)},
                                                               {"source", cautionSource(language, caution)}});
}

}  // namespace ww::wording
