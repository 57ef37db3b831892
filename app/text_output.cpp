// SPDX-License-Identifier: GPL-3.0-or-later
#include "text_output.h"

#include <cmath>

#include "wording/sentences.h"

namespace ww::app {

namespace {

constexpr int kWide = 24;
constexpr int kNarrow = 12;

QString cell(const QString& text, int width) { return text.leftJustified(width) + u' '; }

}  // namespace

QString checkText(const Opened& opened) {
  const auto& language = opened.language;
  QStringList lines;
  if (opened.check.findings.empty()) lines << language.sentence("ww-no-findings");
  for (const auto& finding : opened.check.findings) {
    lines << cell(wording::severityName(language, finding.severity), kNarrow + 4) +
                 wording::findingTitle(language, finding, opened.context());
    lines << QString(kNarrow + 5, u' ') + wording::findingText(language, finding, opened.context());
  }
  lines << QString();
  for (const auto& call : opened.check.calls)
    lines << cell(wording::callName(language, call.call), kWide) +
                 cell(language.sentence(call.ok ? "ww-call-right" : "ww-call-wrong"), kNarrow) +
                 (call.runs.empty() ? language.sentence("ww-runs-nothing")
                                    : wording::dutyList(language, call.runs));
  return lines.join(u'\n');
}

QString callText(const Opened& opened, const operation::CallResult& call) {
  const auto& language = opened.language;
  QStringList lines{wording::callName(language, call.call)};
  for (const auto& source : call.sources)
    lines << "  " + cell(wording::unitName(language, opened.context(), source.unit), kWide) +
                 cell(language.quantity(source.volts.si(), "V", 2), kNarrow) +
                 cell(language.quantity(source.amps.si(), "A", 3), kNarrow) +
                 language.quantity(source.loadPercent, "%", 0);
  for (const auto& terminal : call.terminals) {
    const QString name = wording::terminalAtUnit(language, opened.context(), terminal.terminal);
    const QString volts = terminal.quality == circuit::Quality::floating
                              ? language.sentence("ww-floating")
                              : language.quantity(std::abs(terminal.volts), "V", 2);
    lines << "  " + cell(name, kWide + kNarrow) + volts;
  }
  for (const auto& coil : call.coils) {
    const verify::Place place{coil.unit, {}, coil.part, {}, 0, {}};
    lines << "  " + cell(wording::placeName(language, opened.context(), place), kWide + kNarrow) +
                 cell(language.quantity(coil.sealed.si(), "V", 2), kNarrow) +
                 cell(language.quantity(coil.amps.si(), "A", 3), kNarrow) +
                 wording::word(language, "coilState",
                               coil.state == operation::CoilState::out       ? "out"
                               : coil.state == operation::CoilState::in      ? "in"
                               : coil.state == operation::CoilState::late    ? "late"
                               : coil.state == operation::CoilState::hum     ? "hum"
                               : coil.state == operation::CoilState::chatter ? "chatter"
                                                                             : "under");
  }
  std::vector<std::string> duties;
  for (const auto& duty : call.duties) duties.push_back(duty.duty);
  lines << "  " +
               (duties.empty() ? language.sentence("ww-runs-nothing") : wording::dutyList(language, duties));
  return lines.join(u'\n') + u'\n';
}

QString stepsText(const Opened& opened, const std::vector<checklist::Step>& steps) {
  const auto& language = opened.language;
  QStringList lines;
  std::optional<checklist::Phase> phase;
  std::string call;
  int number = 0;
  for (const auto& step : steps) {
    if (phase != step.phase || call != step.call) {
      phase = step.phase;
      call = step.call;
      lines << QString()
            << wording::phaseName(language, step.phase) +
                   (call.empty() ? QString() : " - " + wording::callName(language, call));
    }
    lines << QString::number(++number).rightJustified(3) + "  " +
                 wording::stepText(language, step, opened.context());
    for (const auto& caution : step.cautions)
      lines << "     ! " + wording::cautionWithSource(language, caution);
  }
  return lines.join(u'\n');
}

}  // namespace ww::app
