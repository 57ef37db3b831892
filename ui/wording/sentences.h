// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <string>

#include "document/value.h"
#include "history/store_problem.h"
#include "quantity/loaded.h"
#include "verify/finding.h"
#include "wording/language.h"
#include "wording/names.h"

namespace ww::wording {

/// Short title: "Cool 1 runs nothing".
QString findingTitle(const Language& language, const verify::Finding& finding, const Context& context);
/// What happens and why, with volts, amps and path as far as the finding carries them.
QString findingText(const Language& language, const verify::Finding& finding, const Context& context);
/// The two halves of it: what happens; why, empty where the finding carries no more figures.
QString findingWhat(const Language& language, const verify::Finding& finding, const Context& context);
QString findingWhy(const Language& language, const verify::Finding& finding, const Context& context);

/// "file, where: what is wrong; what would be right". An empty file is left out.
QString problemText(const Language& language, const quantity::Problem& problem, const QString& file = {});

/// Why the store cannot be opened, read or written, and what to do.
QString storeProblemText(const Language& language, const history::StoreProblem& problem);

/// What to do at a step: "Measure Y to C at the outdoor unit, AC volts, 23.8 to 26.9 V".
QString stepText(const Language& language, const checklist::Step& step, const Context& context);
/// "995 Ω", or "0.995 kΩ" beside a band told in kΩ.
QString readingText(const Language& language, double value, std::string_view unit,
                    const std::optional<checklist::Band>& band);
/// The same without band, for a table that has a column for it; briefTitle also without place and measure.
QString briefTitle(const Language& language, const checklist::Step& step, const Context& context);
QString stepTitle(const Language& language, const checklist::Step& step, const Context& context);
/// "23.8 to 26.9 V"; "OL, at least 1 kΩ"; empty without a band.
QString bandText(const Language& language, const checklist::Band& band, std::string_view unit);
/// What to expect on a conductor that two calls share, and that nothing is judged there; empty for other
/// steps.
QString halfWaveText(const Language& language, const checklist::Step& step);
/// The full text of a caution by its key; of one that only a profile knows, the key's words.
QString cautionText(const Language& language, const std::string& caution);
/// Where a caution comes from: a standard by its number, or common practice.
QString cautionSource(const Language& language, const std::string& caution);
/// Both, as it is shown before a step.
QString cautionWithSource(const Language& language, const std::string& caution);

/// Any value of the report tree.
QString text(const Language& language, const document::Value& value, const Context& context);

}  // namespace ww::wording
