// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "operation/solution.h"
#include "verify/edit.h"
#include "verify/finding.h"

namespace ww::verify {

/// What one mistake or one fault more could do to a sheet.
struct Harm {
  enum class Kind {
    againstSafety,  ///< a load runs, or can run, although a safety is open
    sourcesTied,    ///< two transformers feed the same conductors
    foreignVolts,   ///< 24 V reaches a dry, sense, millivolt, line or data circuit
    withoutAir,     ///< compressor or electric heat without blower, or compressor against burner
    staysOn         ///< something runs with no call at all
  };
  enum class Cause {
    landing,  ///< one end on a wrong screw: `edit`
    bridge,   ///< two neighbouring screws touch: `edit.from`, `edit.to`
    stuck     ///< a contact that does not open: `contact`
  };
  Kind kind = Kind::staysOn;
  Cause cause = Cause::landing;
  Edit edit{};
  Place contact;
  std::vector<std::string> calls;   ///< in which it shows; empty: at any time
  std::vector<std::string> duties;  ///< that run and must not
  Place place;                      ///< the safety, the second source, the foreign screw or the unit
};

/// Tries every single wrong landing, every bridge between neighbouring screws and every stuck contact on a
/// sheet, and tells what of it would hurt and is not there already. What only melts the fuse is left out: the
/// fuse is there for it. By kind, then cause, then ids. Stops early, with what it has, when asked to.
std::vector<Harm> harmsOf(const sheet::Sheet& sheet, const equipment::Library& library,
                          operation::LineRange lines = {}, const std::stop_token& stop = {},
                          unsigned threads = 0);

}  // namespace ww::verify
