// SPDX-License-Identifier: GPL-3.0-or-later
// The rules of the sheet check, by what they look at. Private to the room.
#pragma once

#include "verify/check.h"
#include "verify/forbidden.h"
#include "verify/metal.h"

namespace ww::verify {

/// What every rule reads, and where it puts its findings.
struct Inspection {
  const sheet::Sheet& sheet;
  const operation::Solution& solution;
  const asbuilt::AsBuilt& circuit;
  const Standing& standing;
  std::vector<sheet::UnitId> order;  ///< walking order
  std::vector<Finding>& findings;

  void add(std::string rule, std::vector<Place> places, std::vector<Argument> arguments = {}) const;
  /// The unit that offers a duty, first in walking order; 0 without one.
  sheet::UnitId unitOffering(std::string_view duty) const;
};

Place atUnit(sheet::UnitId unit, std::string call = {});
Place atTerminal(const sheet::TerminalRef& terminal, std::string call = {});
Place atPart(sheet::UnitId unit, std::string part, std::string call = {});
Place atConductor(sheet::ConductorId conductor, char end = 0);

CallVerdict verdictOf(const operation::CallDemand& demand, const operation::CallResult& result);

void dutyRules(const Inspection& in,
               const std::vector<CallVerdict>& verdicts);  ///< what runs against the table
void supplyRules(const Inspection& in);                    ///< shorts, VA, Class 2, volts
void coilRules(const Inspection& in);                      ///< pull-in
void commonRules(const Inspection& in);                    ///< commons, polarity
void endRules(const Inspection& in);                       ///< starving supplies, races, half-seen inputs
void fitRules(const Inspection& in);                       ///< equipment against control and accessories
void airRules(const Inspection& in);                       ///< fresh air, stages that a board times
void waterRules(const Inspection& in);                     ///< coils with pump and blower
void condensateRules(const Inspection& in);                ///< what a float stops, and what it leaves running
void shareRules(const Inspection& in);                     ///< two calls on one conductor
void landingRules(const Inspection& in);                   ///< ends, screws, colours
void safetyRules(const Inspection& in);                    ///< bridged safeties, tied sources

}  // namespace ww::verify
