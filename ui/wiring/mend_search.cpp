// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/mend_search.h"

#include <algorithm>
#include <thread>

#include "verify/mends.h"
#include "wording/names.h"

namespace ww::wiring {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

/// Says an edit as a person would tell another to do it.
class EditWords {
 public:
  EditWords(const wording::Language& language, const wording::Context& context)
      : language_(language), context_(context) {}

  QString say(const verify::Edit& edit) const {
    using Kind = verify::Edit::Kind;
    switch (edit.kind) {
      case Kind::move: return move(edit);
      case Kind::swap: return words("swap", {{"first", end(edit.end)}, {"second", end(edit.other)}});
      case Kind::land:
        return words("spare", {{"conductor", conductor(edit)}, {"from", at(edit.from)}, {"to", at(edit.to)}});
      case Kind::takeOff: return words("take-off", {{"conductor", conductor(edit)}});
      case Kind::jumper: return words("jumper", {{"from", at(edit.from)}, {"to", at(edit.to)}});
      case Kind::offJumper: return words("off-jumper", {{"conductor", conductor(edit)}});
      case Kind::setting:
      case Kind::part: return setting(edit);
      case Kind::gauge: break;
    }
    const sheet::Cable* cable = context_.sheet.cables.find(edit.cable);
    return words("gauge", {{"cable", cable ? q(cable->name) : QString()},
                           {"gauge", q(quantity::printGauge(edit.gauge))}});
  }

 private:
  QString words(const char* key, const wording::Args& args) const {
    return language_.sentence(QStringLiteral("wiring.mends.edit.") + QLatin1String(key), args);
  }
  QString end(const verify::End& end) const {
    return wording::placeName(language_, context_, {{}, {}, {}, end.conductor, end.end, {}});
  }
  QString conductor(const verify::Edit& edit) const {
    return wording::conductorName(language_, context_, edit.end.conductor);
  }
  QString at(const sheet::Landing& landing) const {
    const auto* terminal = std::get_if<sheet::TerminalRef>(&landing);
    return terminal ? wording::terminalAtUnit(language_, context_, *terminal)
                    : wording::landingName(language_, context_, landing);
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
    const wording::Args args{
        {"setting", wording::word(language_, "setting", edit.key)},
        {"value", wording::word(language_, "value", edit.value)},
        {"unit",
         edit.unit == sheet::UnitId{} ? QString() : wording::unitInSentence(language_, context_, edit.unit)}};
    return words(edit.kind == verify::Edit::Kind::part ? "part"
                 : edit.unit == sheet::UnitId{}        ? "setting"
                                                       : "setting-at",
                 args);
  }

  const wording::Language& language_;
  wording::Context context_;
};

Mend worded(const verify::Mend& found, const MendQuestion& question, const wording::Language& language,
            const wording::Context& context) {
  Mend mend;
  const auto words = [&](const char* key, const wording::Args& args, std::optional<int> count = {}) {
    return language.sentence(QStringLiteral("wiring.mends.") + QLatin1String(key), args, count);
  };
  mend.clears = found.clears;
  if (found.findWhy) {
    mend.act = words("find-why", {{"place", wording::placeName(language, context, *found.findWhy)}});
    mend.effect = words("never-bridge", {});
    return mend;
  }
  QStringList acts;
  for (const verify::Edit& edit : found.edits) acts << EditWords(language, context).say(edit);
  mend.act = acts.join(QStringLiteral(" · "));
  mend.after = verify::edited(question.sheet, found.edits);
  const wording::Args args{{"clears", language.number(static_cast<double>(found.clears.size()), 0)},
                           {"findings", language.number(static_cast<double>(found.of), 0)},
                           {"n", language.number(static_cast<double>(found.calls), 0)}};
  mend.effect = words(found.allCallsRight ? "all-right" : "clears", args, static_cast<int>(found.calls));
  return mend;
}

}  // namespace

SearchMends mendSearch(const session::Surroundings& around) {
  return [&around](const MendQuestion& question, const std::stop_token& stop) {
    verify::MendLimits limits;
    limits.lines = question.lines;
    // One core stays with the window.
    limits.threads = std::max(1U, std::thread::hardware_concurrency() - 1);
    std::vector<Mend> mends;
    const wording::Context context{question.sheet, around.library};
    for (const verify::Mend& found :
         verify::searchMends(question.sheet, around.library, question.check, limits, stop))
      mends.push_back(worded(found, question, around.language, context));
    return mends;
  };
}

}  // namespace ww::wiring
