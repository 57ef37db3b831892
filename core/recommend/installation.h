// SPDX-License-Identifier: GPL-3.0-or-later
// What is placed, as far as settings depend on it. Private to the room.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::recommend {

/// Who starts the blower on a heating call: seen at the unit itself, its supply jumpered to its heating
/// input.
enum class FanStarter { none, equipment, control, unseen };

struct Installation {
  bool any = false;                                             ///< a unit is placed
  const equipment::Profile* control = nullptr;                  ///< the first room control
  int compressors = 0, burners = 0, elements = 0, boilers = 0;  ///< stages
  bool heatPump = false, gravity = false, condensing = false;
  bool fuelKit = false;        ///< a board of its own changes over between heat pump and burner
  bool twoPipe = false;        ///< one pair of pipes heats or cools by the season, through a valve
  bool pipeSensed = false;     ///< the control sees what the pipe carries
  std::string emergencyBy;     ///< screws of the control that reach a heating input; empty: none does
  std::string valveEnergised;  ///< "cooling" or "heating", by the outdoor unit; empty without a valve
  FanStarter fan = FanStarter::none;
  bool glows = false;                   ///< seen there: an element gets hot without the blower
  std::vector<std::string> stages;      ///< duties with a cycle rate of their own, in order
  std::optional<double> balancePoint;   ///< C, from a nameplate
  std::optional<double> ownOffSeconds;  ///< the outdoor unit keeps this off time by itself
  bool controlHasHeat2 = false;
  int heatScrews = 0;  ///< heating stages that the first control can call one by one; 0: it has no such screw

  bool cools() const { return compressors > 0 || twoPipe; }
  bool heats() const { return twoPipe || heatPump || burners > 0 || elements > 0 || boilers > 0; }
  bool dualFuel() const { return heatPump && burners > 0; }
  bool auxiliary() const { return heatPump && (burners > 0 || elements > 0 || boilers > 0); }
};

/// `fahrenheit`: a balance point without a unit was typed in that scale.
Installation installationOf(const sheet::Sheet& sheet, const equipment::Library& library, bool fahrenheit);

}  // namespace ww::recommend
