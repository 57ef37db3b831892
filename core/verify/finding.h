// SPDX-License-Identifier: GPL-3.0-or-later
// Room verify: what the check of a sheet has to say. Reads the settled calls
// and the compiled circuit; hands out rules, places and figures, never
// sentences. Must not know checklists, jobs, drawings or languages.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "quantity/quantity.h"
#include "sheet/ids.h"

namespace ww::verify {

enum class Severity { note, warn, fail, stop };

/// Where a finding is. The first field that is set names it; a call may stand with any of them.
struct Place {
  sheet::UnitId unit{};            ///< 0: none
  std::string terminal;            ///< with unit: a terminal of it
  std::string part;                ///< with unit: an element of its inner circuit
  sheet::ConductorId conductor{};  ///< 0: none
  char end = 0;                    ///< 'A' or 'B' of the conductor; 0: the whole
  std::string call;                ///< empty: at any time
  friend auto operator<=>(const Place&, const Place&) = default;
};

/// The way the current takes, from the hot side to the load: places in order.
using Path = std::vector<Place>;

struct Percent {
  double value = 0;
};
struct DutyList {
  std::vector<std::string> duties;  ///< "blower:cool1", "compressor1"
};
struct CallName {
  std::string call;
};
struct Word {
  std::string word;  ///< an id that the wording translates or prints as it is (setting value, part name)
};

using Figure =
    std::variant<quantity::Volts, quantity::Amps, quantity::VoltAmps, quantity::Ohms, quantity::Seconds,
                 quantity::Celsius, Percent, DutyList, CallName, Word, Place, Path>;

/// A named figure of the finding's sentence.
struct Argument {
  std::string name;
  Figure figure;
};

struct Finding {
  std::string rule;  ///< "call-dead", "va-high", ...
  Severity severity = Severity::note;
  std::vector<Place> places;
  std::vector<Argument> arguments;
};

/// "note", "warn", "fail", "stop": as files, commands and catalogues call it.
std::string_view idOf(Severity severity);

/// The severity that belongs to the rule; every rule has exactly one.
Severity severityOf(std::string_view rule);

/// Rule and places as ids: stable against renaming, so that an accepted finding stays accepted.
std::string keyOf(const Finding& finding);

}  // namespace ww::verify
