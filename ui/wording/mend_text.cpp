// SPDX-License-Identifier: GPL-3.0-or-later
#include "wording/engine_text.h"

namespace ww::wording {
namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

QString count(const Language& language, size_t n) { return language.number(static_cast<double>(n), 0); }

class EditWords {
 public:
  EditWords(const Language& language, const Context& context) : language_(language), context_(context) {}

  QString say(const verify::Edit& edit) const {
    using Kind = verify::Edit::Kind;
    switch (edit.kind) {
      case Kind::move: return move(edit);
      case Kind::swap: return swap(edit);
      case Kind::land:
        return words("spare", {{"conductor", conductor(edit)}, {"from", at(edit.from)}, {"to", at(edit.to)}});
      case Kind::takeOff: return words("take-off", {{"conductor", conductor(edit)}});
      case Kind::jumper: return words("jumper", {{"from", at(edit.from)}, {"to", at(edit.to)}});
      case Kind::offJumper: return words("off-jumper", {{"conductor", conductor(edit)}});
      case Kind::setting:
      case Kind::part: return setting(edit);
      case Kind::exchange: return exchange(edit);
      case Kind::gauge: break;
    }
    const sheet::Cable* cable = context_.sheet.cables.find(edit.cable);
    return words("gauge", {{"cable", cable ? q(cable->name) : QString()},
                           {"gauge", q(quantity::printGauge(edit.gauge))}});
  }

  QString end(const verify::End& end) const {
    return placeName(language_, context_, {{}, {}, {}, end.conductor, end.end, {}});
  }
  QString at(const sheet::Landing& landing) const {
    const auto* terminal = std::get_if<sheet::TerminalRef>(&landing);
    return terminal ? terminalAtUnit(language_, context_, *terminal)
                    : landingName(language_, context_, landing);
  }

 private:
  QString words(const char* key, const Args& args) const {
    return language_.sentence(QStringLiteral("mend.edit.") + QLatin1String(key), args);
  }
  QString conductor(const verify::Edit& edit) const {
    return conductorName(language_, context_, edit.end.conductor);
  }
  QString swap(const verify::Edit& edit) const {
    const sheet::Conductor* first = context_.sheet.conductors.find(edit.end.conductor);
    const auto unit = first ? sheet::unitOfEnd(context_.sheet, *first, edit.end.end == 'A')
                            : std::optional<sheet::UnitId>();
    if (!unit || edit.end.conductor == edit.other.conductor)
      return words("swap", {{"first", end(edit.end)}, {"second", end(edit.other)}});
    return words("swap-at", {{"first", conductorName(language_, context_, edit.end.conductor)},
                             {"second", conductorName(language_, context_, edit.other.conductor)},
                             {"unit", unitInSentence(language_, context_, *unit)}});
  }
  QString move(const verify::Edit& edit) const {
    if (std::holds_alternative<sheet::Loose>(edit.to)) return words("loose", {{"end", end(edit.end)}});
    if (std::holds_alternative<sheet::Capped>(edit.to)) return words("cap", {{"end", end(edit.end)}});
    const bool hangs =
        std::holds_alternative<sheet::Loose>(edit.from) || std::holds_alternative<sheet::Capped>(edit.from);
    return words(hangs ? "land" : "move",
                 {{"end", end(edit.end)}, {"from", at(edit.from)}, {"to", at(edit.to)}});
  }
  QString setting(const verify::Edit& edit) const {
    const bool common = edit.unit == sheet::UnitId{};
    const Args args{{"setting", word(language_, "setting", edit.key)},
                    {"value", word(language_, "value", edit.value)},
                    {"unit", common ? QString() : unitInSentence(language_, context_, edit.unit)}};
    return words(edit.kind == verify::Edit::Kind::part ? "part" : common ? "setting" : "setting-at", args);
  }

  QString exchange(const verify::Edit& edit) const {
    const equipment::Profile* profile = context_.library.find(edit.value);
    return words("exchange", {{"unit", unitInSentence(language_, context_, edit.unit)},
                              {"value", profile ? inLanguage(language_, profile->title) : q(edit.value)}});
  }

  const Language& language_;
  const Context& context_;
};

}  // namespace

QString editText(const Language& language, const verify::Edit& edit, const Context& context) {
  return EditWords(language, context).say(edit);
}

QString mendText(const Language& language, const verify::Mend& mend, const Context& context) {
  if (mend.findWhy)
    return language.sentence(QStringLiteral("mend.find-why"),
                             {{"place", placeName(language, context, *mend.findWhy)}});
  if (mend.way) return commonWayText(language, mend.way->way, context);
  QStringList acts;
  for (const verify::Edit& edit : mend.edits) acts << editText(language, edit, context);
  return acts.join(QStringLiteral(" · "));
}

QString mendEffect(const Language& language, const verify::Mend& mend, const Context& context) {
  if (mend.way)
    return language.sentence(QStringLiteral("plan.way-to"),
                             {{"unit", unitInSentence(language, context, mend.way->missing.a.unit)}});
  if (mend.findWhy) return language.sentence(QStringLiteral("mend.never-bridge"));
  return language.sentence(
      mend.allCallsRight ? QStringLiteral("mend.all-right") : QStringLiteral("mend.clears"),
      {{"clears", count(language, mend.clears.size())},
       {"findings", count(language, mend.of)},
       {"n", count(language, mend.calls)}},
      mend.allCallsRight ? std::optional<int>(static_cast<int>(mend.calls)) : std::nullopt);
}

QString harmCause(const Language& language, const verify::Harm& harm, const Context& context) {
  const EditWords words(language, context);
  using Cause = verify::Harm::Cause;
  switch (harm.cause) {
    case Cause::landing:
      return language.sentence(QStringLiteral("harm.cause.landing"), {{"end", words.end(harm.edit.end)},
                                                                      {"from", words.at(harm.edit.from)},
                                                                      {"to", words.at(harm.edit.to)}});
    case Cause::bridge:
      return language.sentence(QStringLiteral("harm.cause.bridge"),
                               {{"from", words.at(harm.edit.from)}, {"to", words.at(harm.edit.to)}});
    case Cause::stuck: break;
  }
  return language.sentence(QStringLiteral("harm.cause.stuck"),
                           {{"place", placeName(language, context, harm.contact)}});
}

QString harmKind(const Language& language, verify::Harm::Kind kind) {
  using Kind = verify::Harm::Kind;
  switch (kind) {
    case Kind::againstSafety: return language.sentence(QStringLiteral("harm.kind.againstSafety"));
    case Kind::sourcesTied: return language.sentence(QStringLiteral("harm.kind.sourcesTied"));
    case Kind::foreignVolts: return language.sentence(QStringLiteral("harm.kind.foreignVolts"));
    case Kind::withoutAir: return language.sentence(QStringLiteral("harm.kind.withoutAir"));
    case Kind::staysOn: break;
  }
  return language.sentence(QStringLiteral("harm.kind.staysOn"));
}

}  // namespace ww::wording
