// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "operation/solution.h"
#include "verify/gain_common.h"
#include "verify/harm.h"
#include "verify/mends.h"
#include "verify/size.h"
#include "wording/names.h"

namespace ww::wording {

/// An edit as a person would tell another to do it: "Exchange YE, cable 1, End B and GN, cable 1, End B".
QString editText(const Language& language, const verify::Edit& edit, const Context& context);
/// All edits of a mend, or what to find out where the only cure is forbidden.
QString mendText(const Language& language, const verify::Mend& mend, const Context& context);
/// "clears 2 of 2 · all 5 calls right"; of a way to a common, whose it brings.
QString mendEffect(const Language& language, const verify::Mend& mend, const Context& context);

/// "YE, cable 1: Y at the control to Y at the furnace".
QString proposalText(const Language& language, const verify::Proposal& proposal, const Context& context);
QString wantingText(const Language& language, const verify::Wanting& wanting, const Context& context);
QString commonWayText(const Language& language, const verify::CommonWay& way, const Context& context);
QString saferText(const Language& language, const verify::SaferSetting& safer, const Context& context);

QString longestRunText(const Language& language, const verify::LongestRun& run, const Context& context);
QString transformerText(const Language& language, const verify::SmallestTransformer& found,
                        const Context& context);

/// What happens: "YE, cable 1, End B on G at the furnace instead of Y at the furnace".
QString harmCause(const Language& language, const verify::Harm& harm, const Context& context);
/// What it does: the kind, apart from calls and duties.
QString harmKind(const Language& language, verify::Harm::Kind kind);

/// Name of what an event moves; empty for a signal of a unit's inner logic that means nothing to a person.
QString eventName(const Language& language, const asbuilt::AsBuilt& circuit, const operation::Event& event);

}  // namespace ww::wording
