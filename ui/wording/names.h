// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <string>
#include <vector>

#include "checklist/step.h"
#include "equipment/profile.h"
#include "sheet/sheet.h"
#include "verify/finding.h"
#include "wording/language.h"

namespace ww::wording {

/// What names are taken from.
struct Context {
  const sheet::Sheet& sheet;
  const equipment::Library& library;
};

QString callName(const Language& language, const std::string& call);  ///< "Cool 1", "Heat 2 (auxiliary)"
QString dutyName(const Language& language, const std::string& duty);  ///< "indoor blower (cooling speed)"
QString dutyList(const Language& language, const std::vector<std::string>& duties);
QString severityName(const Language& language, verify::Severity severity);  ///< "will not work"
QString verdictName(const Language& language, checklist::Verdict verdict);  ///< "right", "measure again", ...
QString phaseName(const Language& language, checklist::Phase phase);
/// A word of the program by kind ("purpose", "setting", "value", "coilState", "callState", "colour", ...) and
/// id; an id that no catalogue knows is printed as it is.
QString word(const Language& language, const std::string& kind, const std::string& id);

/// The words in the language, else in English; empty with neither.
QString inLanguage(const Language& language, const equipment::Words& words);

/// What a person calls the unit: its label, else its profile's title, else its tag.
QString unitName(const Language& language, const Context& context, sheet::UnitId unit);
/// For the middle of a sentence, "the furnace", where it is the only one of its kind.
QString unitInSentence(const Language& language, const Context& context, sheet::UnitId unit);
/// The letters at the screw, which may follow a setting (reversing valve "O" or "B").
QString terminalLetters(const Context& context, const sheet::TerminalRef& terminal);
QString terminalAtUnit(const Language& language, const Context& context, const sheet::TerminalRef& terminal);
QString conductorName(const Language& language, const Context& context, sheet::ConductorId conductor);
QString placeName(const Language& language, const Context& context, const verify::Place& place);
QString landingName(const Language& language, const Context& context, const sheet::Landing& landing);

}  // namespace ww::wording
