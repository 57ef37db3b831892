// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "operation/solution.h"
#include "verify/finding.h"

namespace ww::verify {

/// What is first wrong when a size is exceeded: the rule, the call and the place (a coil, a transformer).
struct Limit {
  std::string rule, call;
  Place place;
};

/// How far a cable may run in one gauge, all else as it is.
struct LongestRun {
  sheet::CableId cable{};
  quantity::Gauge gauge;
  quantity::Metres longest;      ///< whole metres; 0: not even one; 1000: as far as a sheet may say
  std::optional<Limit> limit{};  ///< nothing where 1000 m still do
};

/// The smallest transformer that carries a unit's system, of those that the unit can have.
struct SmallestTransformer {
  sheet::UnitId unit{};
  std::string part;              ///< the element
  quantity::VoltAmps present;    ///< rating of the one that is there
  quantity::VoltAmps heaviest;   ///< secondary amps x 24 V of the heaviest call with it
  std::string call;              ///< the heaviest
  std::string smallest;          ///< "XF40"; empty: none of the choices carries it
  quantity::VoltAmps rating;     ///< of the smallest
  std::optional<Limit> limit{};  ///< why the next smaller one does not do; nothing where there is none
};

struct Sizes {
  std::vector<LongestRun> runs;                   ///< by cable, thickest last
  std::vector<SmallestTransformer> transformers;  ///< by unit
};

/// Sizes of a sheet whose wiring is right. A size does where every call runs as it must, every coil is
/// guaranteed to come in at rated line and typically at low line, and no transformer is loaded above 80 %.
/// Gauges 24 to 14 AWG.
Sizes sizesOf(const sheet::Sheet& sheet, const equipment::Library& library, operation::LineRange lines = {});

}  // namespace ww::verify
