// SPDX-License-Identifier: GPL-3.0-or-later
// Which screws of two units belong on one conductor. Private to the room.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::verify {

/// One joint between the two units of a cable.
struct Joint {
  sheet::TerminalRef a, b;    ///< the screws that are joined; of a splice, the one beyond it
  sheet::Landing endA, endB;  ///< where the conductor's ends go: the screws, or a splice
  std::string purpose;
  bool served = false;
};

/// Screws that a unit ties to its common inside, as it is set: whatever their letter says, no call belongs
/// there.
std::set<sheet::TerminalRef> tiedToCommon(const sheet::Sheet& sheet, const equipment::Library& library);

/// Joins the screws of neighbours by what they are for. Where a unit has screws for several neighbours (a
/// zone panel, the posts of a tie strip, the two hots of a control), each cable gets a group of its own.
class Neighbours {
 public:
  Neighbours(const sheet::Sheet& sheet, const equipment::Library& library)
      : sheet_(sheet), library_(library), tied_(tiedToCommon(sheet, library)) {}

  /// Joints in the order of the strip of End A; the groups they stand in count as taken from then on.
  std::vector<Joint> joints(const sheet::Cable& cable);

  const equipment::Profile* profileOf(sheet::UnitId id) const;
  const std::set<sheet::TerminalRef>& tied() const { return tied_; }

 private:
  struct Side {
    sheet::UnitId unit{};
    const equipment::Profile* profile = nullptr;
    std::vector<std::string> groups;  ///< in strip order; one empty name where there are none
  };
  Side sideOf(sheet::UnitId unit, const sheet::Cable& cable) const;
  bool serves(sheet::UnitId unit, const std::string& purpose) const;
  /// Calls of one unit that the other takes no part in, but one beyond it does: past it on a splice.
  void splices(const sheet::Cable& cable, std::vector<Joint>& joints);
  std::string spliceName(sheet::UnitId at, const std::string& purpose);
  int taken(const Side& side, const std::string& group, const Side& by) const;

  using Use = std::tuple<sheet::UnitId, std::string, equipment::Kind>;
  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  std::set<sheet::TerminalRef> tied_;
  std::map<std::pair<sheet::UnitId, std::string>, std::string>
      spliced_;               ///< names given, by unit and purpose
  std::map<Use, int> taken_;  ///< by neighbours of that kind
  std::set<std::tuple<sheet::UnitId, std::string, sheet::UnitId, std::string>> between_;
};

}  // namespace ww::verify
