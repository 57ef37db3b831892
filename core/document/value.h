// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "checklist/step.h"
#include "quantity/conductor.h"
#include "recommend/recommend.h"
#include "sheet/sheet.h"
#include "verify/finding.h"

namespace ww::document {

/// Text that a person typed; printed as it stands in every language.
struct Literal {
  std::string text;
};

/// A figure with its unit ("V", "A", "VA", "ohm", "m", "%", "" for a bare number); SI value.
struct Number {
  double value = 0;
  std::string unit;
  int decimals = 0;
};

/// A whole number that decides between singular and plural.
struct Count {
  int value = 0;
};

/// A word of the program by kind and id: {"call", "cool1"}, {"purpose", "common"}, {"setting", "rvSense"}.
struct Named {
  std::string kind, id;
};

/// Several such words of one kind, listed ("compressor and indoor blower").
struct NamedList {
  std::string kind;
  std::vector<std::string> ids;
};

/// ISO 8601 day, or day and time.
struct Day {
  std::string iso;
};
struct Moment {
  std::string iso;
  bool timeOnly = false;  ///< where the day stands on the page already
};

/// Names of things on the sheet.
struct UnitName {
  sheet::UnitId unit{};
};
/// Kind of unit as the profile's title says it.
struct UnitKind {
  sheet::UnitId unit{};
};
/// The terminal as printed at the screw ("O"); with the unit: "O at the outdoor unit".
struct TerminalName {
  sheet::TerminalRef terminal;
  bool withUnit = false;
};
/// Both probes, "Y to C".
struct TerminalPair {
  sheet::TerminalRef first, second;
};
/// "YE, cable 1".
struct ConductorName {
  sheet::ConductorId conductor{};
};
/// Where an end lies: "Y", "loose", "spare, capped", "splice S1".
struct LandingName {
  sheet::Landing landing;
};
struct GaugeText {
  quantity::Gauge gauge;
};
/// Lowest to highest right reading; `unit` "V" or "ohm".
struct BandText {
  checklist::Band band;
  std::string unit;
};
/// What was read, in the unit its band is told in.
struct ReadingText {
  double value = 0;
  std::string unit;
  std::optional<checklist::Band> band;
};
/// What to do at a step. `brief`: without what a table around it says, the place and the kind of measure.
struct Instruction {
  checklist::Step step;
  bool brief = false;
};
/// A finding's short title, or what happens and why.
struct FindingTitle {
  verify::Finding finding;
};
struct FindingText {
  verify::Finding finding;
};

/// What is said of a setting of the control: the setting itself, why, where it comes from, how it came to
/// stand.
struct SettingWords {
  enum class Part { sentence, why, source, origin };
  recommend::Setting setting;
  Part part = Part::sentence;
};
/// What contradicts what among the settings.
struct ConflictText {
  recommend::Conflict conflict;
};

struct Argument;

/// A sentence of the catalogue by its key, with named arguments.
struct Phrase {
  std::string key;
  std::vector<Argument> args;
};

/// Anything that the wording turns into text.
using Value =
    std::variant<Literal, Number, Count, Named, NamedList, Day, Moment, UnitName, UnitKind, TerminalName,
                 TerminalPair, ConductorName, LandingName, GaugeText, BandText, ReadingText, Instruction,
                 FindingTitle, FindingText, SettingWords, ConflictText, Phrase>;

struct Argument {
  std::string name;
  Value value;
};

}  // namespace ww::document
