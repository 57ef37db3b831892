// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stop_token>
#include <string>
#include <variant>
#include <vector>

#include "verify/check.h"

namespace ww::verify {

/// An end is landed elsewhere.
struct MoveEnd {
  sheet::ConductorId conductor{};
  char end = 'A';
  sheet::Landing from, to;
};
/// Two ends at one unit change places.
struct SwapEnds {
  sheet::UnitId unit{};
  sheet::ConductorId first{}, second{};
  char firstEnd = 'A', secondEnd = 'A';
};
/// A setting of a unit takes another value.
struct SetValue {
  sheet::UnitId unit{};
  std::string key, from, to;
};
/// A jumper is taken out.
struct TakeJumperOut {
  sheet::ConductorId conductor{};
  sheet::TerminalRef a, b;
};
/// A jumper is put in, between hot terminals of one unit.
struct PutJumperIn {
  sheet::TerminalRef a, b;
};
using Edit = std::variant<MoveEnd, SwapEnds, SetValue, TakeJumperOut, PutJumperIn>;

/// Moving, swapping, setting cost 1; a jumper 2.
int costOf(const Edit& edit);
sheet::Sheet applied(sheet::Sheet sheet, const Edit& edit);

/// One way to put the sheet right.
struct Mend {
  std::vector<Edit> edits;
  int cost = 0;
  std::vector<std::string> clears;  ///< keys of findings above note that are gone
  size_t remaining = 0;             ///< findings above note that are left
  size_t callsRight = 0, calls = 0;
  sheet::Sheet after;
  bool complete() const { return remaining == 0; }
};

/// How far the search goes.
struct MendLimits {
  size_t most = 3;     ///< mends handed out
  bool pairs = true;   ///< two edits where no single one puts everything right
  size_t breadth = 6;  ///< first halves of pairs that are followed
};

/// Searches changes that clear the findings above note: every single one at the places the findings and the
/// wrong calls lead to, then pairs, the best first halves first. Complete mends come first, then by findings
/// left, cost and ids. Never offered is what brings a new finding that stops the job: a bridged safety, tied
/// sources, a short, a compressor without air. The same sheet gives the same mends; a stop request ends with
/// what was found until then.
std::vector<Mend> searchMends(const sheet::Sheet& sheet, const equipment::Library& library,
                              const SheetCheck& check, operation::LineRange lines = {},
                              const MendLimits& limits = {}, const std::stop_token& stop = {});

}  // namespace ww::verify
