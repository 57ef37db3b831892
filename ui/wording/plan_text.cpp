// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/engine_text.h"

namespace ww::wording {
namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

QString at(const Language& language, const Context& context, const sheet::Landing& landing) {
  const auto* terminal = std::get_if<sheet::TerminalRef>(&landing);
  return terminal ? terminalAtUnit(language, context, *terminal) : landingName(language, context, landing);
}

QString count(const Language& language, size_t n) { return language.number(static_cast<double>(n), 0); }

const char* keyOf(verify::CommonWay::Kind kind) {
  using Kind = verify::CommonWay::Kind;
  switch (kind) {
    case Kind::spare: return "plan.way.spare";
    case Kind::fanConductor: return "plan.way.fanConductor";
    case Kind::newCable: return "plan.way.newCable";
    case Kind::sharingKit: return "plan.way.sharingKit";
    case Kind::ownTransformer: return "plan.way.ownTransformer";
    case Kind::isolationRelay: return "plan.way.isolationRelay";
  }
  return "";
}

QString limitText(const Language& language, const verify::Limit& limit) {
  return language.sentence(QStringLiteral("size.limit.") + q(limit.rule));
}

}  // namespace

QString proposalText(const Language& language, const verify::Proposal& proposal, const Context& context) {
  const QString conductor = conductorName(language, context, proposal.conductor);
  if (proposal.purpose.empty())
    return language.sentence(QStringLiteral("plan.spare"), {{"conductor", conductor}});
  return language.sentence(QStringLiteral("plan.landing"), {{"conductor", conductor},
                                                            {"from", at(language, context, proposal.endA)},
                                                            {"to", at(language, context, proposal.endB)}});
}

QString wantingText(const Language& language, const verify::Wanting& wanting, const Context& context) {
  const sheet::Cable* cable = context.sheet.cables.find(wanting.cable);
  const bool noCable = wanting.why == verify::Wanting::Why::noCable;
  return language.sentence(noCable ? QStringLiteral("plan.no-cable") : QStringLiteral("plan.no-conductor"),
                           {{"purpose", word(language, "purpose", wanting.purpose)},
                            {"cable", cable ? q(cable->name) : QString()},
                            {"from", terminalAtUnit(language, context, wanting.a)},
                            {"to", terminalAtUnit(language, context, wanting.b)}});
}

QString commonWayText(const Language& language, const verify::CommonWay& way, const Context& context) {
  QStringList lost;
  for (const std::string& call : way.lost) lost << callName(language, call);
  const QString conductor =
      way.conductor == sheet::ConductorId{} ? QString() : conductorName(language, context, way.conductor);
  return language.sentence(QLatin1String(keyOf(way.kind)),
                           {{"conductor", conductor}, {"lost", language.list(lost)}});
}

QString saferText(const Language& language, const verify::SaferSetting& safer, const Context& context) {
  return language.sentence(QStringLiteral("plan.safer"),
                           {{"unit", unitInSentence(language, context, safer.unit)},
                            {"setting", word(language, "setting", safer.key)},
                            {"value", word(language, "value", safer.value)},
                            {"before", count(language, safer.harmfulBefore)},
                            {"after", count(language, safer.harmfulAfter)}});
}

QString longestRunText(const Language& language, const verify::LongestRun& run, const Context& context) {
  const sheet::Cable* cable = context.sheet.cables.find(run.cable);
  Args args{{"cable", cable ? q(cable->name) : QString()},
            {"gauge", q(quantity::printGauge(run.gauge))},
            {"longest", language.quantity(run.longest.si(), "m", 0)}};
  if (!run.limit) return language.sentence(QStringLiteral("size.run"), args);
  args.emplace_back("place", placeName(language, context, run.limit->place));
  args.emplace_back("call", callName(language, run.limit->call));
  args.emplace_back("limit", limitText(language, *run.limit));
  QString key =
      run.longest.si() > 0 ? QStringLiteral("size.run+limit") : QStringLiteral("size.run+limit+none");
  if (args[3].second.isEmpty()) key += QStringLiteral("+whole");  // the call as a whole, no single place
  return language.sentence(key, args);
}

QString transformerText(const Language& language, const verify::SmallestTransformer& found,
                        const Context& context) {
  Args args{{"unit", unitName(language, context, found.unit)},
            {"present", language.quantity(found.present.si(), "VA", 0)},
            {"call", callName(language, found.call)},
            {"heaviest", language.quantity(found.heaviest.si(), "VA", 1)}};
  if (found.smallest.empty()) return language.sentence(QStringLiteral("size.transformer"), args);
  args.emplace_back("smallest", language.quantity(found.rating.si(), "VA", 0));
  if (!found.limit) return language.sentence(QStringLiteral("size.transformer+smallest"), args);
  args.emplace_back("limitcall", callName(language, found.limit->call));
  args.emplace_back("limit", limitText(language, *found.limit));
  return language.sentence(QStringLiteral("size.transformer+limit+smallest"), args);
}

QString eventName(const Language& language, const asbuilt::AsBuilt& circuit, const operation::Event& event) {
  const auto& profile = *circuit.units[static_cast<size_t>(event.unit)].profile;
  if (profile.element(event.name) != nullptr) return word(language, "part", event.name);
  const QString key = QStringLiteral("name.signal.") + q(event.name);
  return language.has(key) ? language.sentence(key) : QString();
}

}  // namespace ww::wording
