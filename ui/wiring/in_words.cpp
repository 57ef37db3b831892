// SPDX-License-Identifier: GPL-3.0-or-later
// How the sheet in hand is told: in cells, to ears, in the status bar.
#include <algorithm>

#include "wiring/in_hand.h"

namespace ww::wiring {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

QString InHand::endName(EndRef end) const {
  return wording::placeName(around_.language, context(),
                            {{}, {}, {}, end.conductor, end.atA ? 'A' : 'B', {}});
}

QString InHand::landingText(EndRef end) const {
  const sheet::Landing landing = landingOf(sheet(), end);
  if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing))
    return wording::terminalLetters(context(), *terminal);
  if (const auto* splice = std::get_if<sheet::Splice>(&landing)) return u'/' + q(splice->name);
  return words(std::holds_alternative<sheet::Loose>(landing) ? "cell.loose" : "cell.capped");
}

QString InHand::landingAtUnit(EndRef end) const {
  const sheet::Landing landing = landingOf(sheet(), end);
  if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing))
    return wording::terminalAtUnit(around_.language, context(), *terminal);
  const auto home = homeOf(sheet(), end);
  const QString where = wording::landingName(around_.language, context(), landing);
  if (!home) return where;
  return words("spoken.at",
               {{"where", where}, {"unit", wording::unitInSentence(around_.language, context(), *home)}});
}

QString InHand::spoken(sheet::ConductorId conductor) const {
  const sheet::Conductor* wire = sheet().conductors.find(conductor);
  if (!wire) return {};
  int number = 1;
  for (const sheet::Conductor& each : sheet().conductors)
    if (each.cable == wire->cable && each.id < conductor) ++number;
  const sheet::Cable* cable = wire->cable ? sheet().cables.find(*wire->cable) : nullptr;
  wording::Args args{{"n", around_.language.number(number, 0)},
                     {"colour", wording::word(around_.language, "colour", sheet::print(wire->colour))},
                     {"a", landingAtUnit({conductor, true})},
                     {"b", landingAtUnit({conductor, false})}};
  if (cable) args.emplace_back("cable", q(cable->name));
  const auto severity = mark(conductor);
  if (severity) args.emplace_back("severity", wording::severityName(around_.language, *severity));
  const QString key = cable ? QStringLiteral("spoken.conductor") : QStringLiteral("spoken.jumper");
  return words(severity ? key + QStringLiteral("-marked") : key, args);
}

QString InHand::spoken(const sheet::TerminalRef& terminal) const {
  int ends = 0;
  for (const sheet::Conductor& wire : sheet().conductors)
    for (const sheet::Landing* end : {&wire.endA, &wire.endB})
      if (const auto* at = std::get_if<sheet::TerminalRef>(end); at && *at == terminal) ++ends;
  wording::Args args{{"terminal", wording::terminalAtUnit(around_.language, context(), terminal)},
                     {"n", around_.language.number(ends, 0)}};
  const auto severity = mark(terminal);
  if (severity) args.emplace_back("severity", wording::severityName(around_.language, *severity));
  if (ends == 0) return words(severity ? "spoken.terminal-empty-marked" : "spoken.terminal-empty", args);
  return words(severity ? "spoken.terminal-marked" : "spoken.terminal", args, ends);
}

QString InHand::unitName(sheet::UnitId unit) const {
  return wording::unitName(around_.language, context(), unit);
}

QString InHand::cableName(const sheet::Cable& cable) const {
  const auto wires = sheet::conductorsOf(sheet(), cable.id).size();
  return words("cable", {{"name", q(cable.name)},
                         {"gauge", q(quantity::printGauge(cable.gauge))},
                         {"count", around_.language.number(static_cast<double>(wires), 0)},
                         {"length", around_.language.quantity(cable.length.si(), "m", 0)}});
}

QString InHand::cableCount(sheet::CableId cable) const {
  int all = 0, done = 0;
  for (const sheet::Conductor* wire : sheet::conductorsOf(sheet(), cable)) {
    ++all;
    const bool open =
        std::holds_alternative<sheet::Loose>(wire->endA) || std::holds_alternative<sheet::Loose>(wire->endB);
    if (!open) ++done;
  }
  return words("landed",
               {{"done", around_.language.number(done, 0)}, {"all", around_.language.number(all, 0)}});
}

}  // namespace ww::wiring
