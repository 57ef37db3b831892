// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/mend_search.h"

#include <algorithm>
#include <thread>

#include "verify/mends.h"
#include "wording/engine_text.h"

namespace ww::wiring {

namespace {

Mend worded(const verify::Mend& found, const MendQuestion& question, const wording::Language& language,
            const wording::Context& context) {
  Mend mend;
  mend.clears = found.clears;
  mend.act = wording::mendText(language, found, context);
  mend.effect = wording::mendEffect(language, found, context);
  if (!found.edits.empty()) mend.after = verify::edited(question.sheet, found.edits);
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
    const wording::Context context{question.sheet, question.library};
    for (const verify::Mend& found :
         verify::searchMends(question.sheet, question.library, question.check, limits, stop))
      mends.push_back(worded(found, question, around.language, context));
    return mends;
  };
}

}  // namespace ww::wiring
