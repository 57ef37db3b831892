// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/outline.h"

#include <algorithm>

#include "wording/sentences.h"

namespace ww::wiring {

namespace {

std::vector<sheet::UnitId> byColumn(const InHand& hand) {
  std::vector<std::pair<int, sheet::UnitId>> order;
  for (const sheet::Unit& unit : hand.sheet().units) {
    const auto* profile = hand.around().library.find(unit.profile);
    order.emplace_back(profile ? static_cast<int>(profile->column) : 9, unit.id);
  }
  std::sort(order.begin(), order.end());
  std::vector<sheet::UnitId> ids;
  for (const auto& [column, id] : order) ids.push_back(id);
  return ids;
}

}  // namespace

Outline outlineOf(const InHand& hand) {
  std::map<sheet::TerminalRef, std::vector<EndRef>> landed;
  std::map<sheet::UnitId, std::vector<EndRef>> hanging;
  for (const sheet::Conductor& wire : hand.sheet().conductors)
    for (const bool atA : {true, false}) {
      const EndRef end{wire.id, atA};
      const sheet::Landing& landing = atA ? wire.endA : wire.endB;
      if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing))
        landed[*terminal].push_back(end);
      else if (const auto home = homeOf(hand.sheet(), end))
        hanging[*home].push_back(end);
    }
  const auto texts = [&](const std::vector<EndRef>& ends) {
    std::vector<Outline::Landing> made;
    for (const EndRef& end : ends) made.push_back({end, hand.spoken(end.conductor)});
    return made;
  };
  Outline outline;
  for (const sheet::UnitId id : byColumn(hand)) {
    Outline::Unit unit{id, hand.unitName(id), {}};
    std::vector<sheet::TerminalRef> order;
    if (const auto* profile = profileAt(hand.sheet(), hand.around().library, id))
      for (const auto& terminal : profile->terminals) order.push_back({id, terminal.id});
    for (const auto& [ref, ends] : landed)
      if (ref.unit == id && std::find(order.begin(), order.end(), ref) == order.end()) order.push_back(ref);
    for (const auto& ref : order) unit.terminals.push_back({ref, hand.spoken(ref), texts(landed[ref])});
    if (const auto& free = hanging[id]; !free.empty())
      unit.terminals.push_back({{id, {}}, hand.words("spoken.in-the-air"), texts(free)});
    outline.units.push_back(std::move(unit));
  }
  return outline;
}

QString listingOf(const InHand& hand) {
  QStringList lines;
  for (const auto& unit : outlineOf(hand).units) {
    lines << unit.text;
    for (const auto& terminal : unit.terminals) {
      lines << QStringLiteral("    ") + terminal.text;
      for (const auto& landing : terminal.landings) lines << QStringLiteral("        ") + landing.text;
    }
    lines << QString();
  }
  if (hand.job())
    for (const verify::Finding* finding : hand.job()->openFindings())
      lines << hand.words("spoken.finding",
                          {{"severity", wording::severityName(hand.around().language, finding->severity)},
                           {"title", wording::findingTitle(hand.around().language, *finding, hand.context())},
                           {"text", wording::findingText(hand.around().language, *finding, hand.context())}});
  return lines.join(u'\n');
}

}  // namespace ww::wiring
