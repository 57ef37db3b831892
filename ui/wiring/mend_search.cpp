// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/mend_search.h"

#include <algorithm>
#include <thread>

#include "verify/gain_common.h"
#include "verify/mends.h"
#include "wording/engine_text.h"
#include "wording/names.h"

namespace ww::wiring {

namespace {

Mend worded(const verify::Mend& found, const MendQuestion& question, const wording::Language& language,
            const wording::Context& context) {
  Mend mend;
  mend.clears = found.clears;
  mend.act = wording::mendText(language, found, context);
  mend.effect = wording::mendEffect(language, found);
  if (!found.findWhy) mend.after = verify::edited(question.sheet, found.edits);
  return mend;
}

/// A sheet whose conductor joins these two screws and nothing else.
sheet::Sheet joined(sheet::Sheet sheet, sheet::ConductorId conductor, const verify::Wanting& missing) {
  sheet::Conductor wire = *sheet.conductors.find(conductor);
  wire.endA = missing.a;
  wire.endB = missing.b;
  sheet.conductors.put(std::move(wire));
  return sheet;
}

/// Ways to a common that is missing, besides a spare, which the search lands by itself. What takes hardware
/// is told and changes nothing.
void addWaysToCommon(const MendQuestion& question, const wording::Language& language,
                     const wording::Context& context, std::vector<Mend>& mends) {
  for (const verify::Wanting& missing : verify::plan(question.sheet, question.library).wanting) {
    if (missing.purpose != "common") continue;
    std::vector<std::string> cures;
    for (const verify::Finding& finding : question.check.findings)
      for (const verify::Place& place : finding.places)
        if (finding.rule == "no-common" && (place.unit == missing.a.unit || place.unit == missing.b.unit)) {
          cures.push_back(verify::keyOf(finding));
          break;
        }
    if (cures.empty()) continue;
    for (const auto& way : verify::waysToCommon(question.sheet, question.library, missing)) {
      if (way.kind == verify::CommonWay::Kind::spare) continue;
      Mend mend;
      mend.act = wording::commonWayText(language, way, context);
      mend.effect = language.sentence(QStringLiteral("plan.way-to"),
                                      {{"unit", wording::unitInSentence(language, context, missing.a.unit)}});
      mend.clears = cures;
      if (way.conductor != sheet::ConductorId{}) mend.after = joined(question.sheet, way.conductor, missing);
      mends.push_back(std::move(mend));
    }
  }
}

}  // namespace

SearchMends mendSearch(const session::Surroundings& around) {
  return [&around](const MendQuestion& question, const std::stop_token& stop) {
    verify::MendLimits limits;
    limits.lines = question.lines;
    // One core stays with the window.
    limits.threads = std::max(1U, std::thread::hardware_concurrency() - 1);
    std::vector<Mend> mends;
    const wording::Context context{question.sheet, question.library};
    for (const verify::Mend& found :
         verify::searchMends(question.sheet, question.library, question.check, limits, stop))
      mends.push_back(worded(found, question, around.language, context));
    if (!stop.stop_requested()) addWaysToCommon(question, around.language, context, mends);
    return mends;
  };
}

}  // namespace ww::wiring
