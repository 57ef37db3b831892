// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "verify/plan.h"

namespace ww::verify {

/// A way to bring the transformer's common to a unit that has none.
struct CommonWay {
  enum class Kind {
    spare,           ///< a spare conductor of the cable
    fanConductor,    ///< the fan conductor becomes the common; the fan call alone is lost
    newCable,        ///< another cable, or one with more conductors
    sharingKit,      ///< two calls share a conductor through diodes at both ends
    ownTransformer,  ///< a plug-in transformer for the control alone, its hot isolated from the others
    isolationRelay   ///< the control switches relays; its own supply stays apart
  };
  Kind kind = Kind::spare;
  sheet::ConductorId conductor{};  ///< the one that is used; 0: none
  std::vector<std::string> lost;   ///< calls that no longer work: "fan"
  friend bool operator==(const CommonWay&, const CommonWay&) = default;
};

/// Every way that fits the sheet to give the unit of `missing` (a wanting of purpose "common") its common,
/// the least trouble first. The fan conductor is no way where the control must start the fan itself: electric
/// heat without interlock, or a heat pump. Two calls share a conductor only where the finding "share-unfit"
/// would say nothing against either.
std::vector<CommonWay> waysToCommon(const sheet::Sheet& sheet, const equipment::Library& library,
                                    const Wanting& missing);

/// A way, and whose common it brings.
struct WayTo {
  Wanting missing;
  CommonWay way;
};

/// A setting that makes a break of one conductor do less harm, all else working as before.
struct SaferSetting {
  sheet::UnitId unit{};
  std::string key, value;
  size_t harmfulBefore = 0, harmfulAfter = 0;  ///< conductors whose break brings a stop finding
};

/// Settings nobody has set yet that make a landed sheet fail safer when one conductor breaks.
std::vector<SaferSetting> saferSettings(const sheet::Sheet& landed, const equipment::Library& library);

/// Conductors of cables whose break alone brings a stop finding.
std::vector<sheet::ConductorId> harmfulBreaks(const sheet::Sheet& landed, const equipment::Library& library);

}  // namespace ww::verify
