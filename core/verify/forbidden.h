// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "asbuilt/as_built.h"
#include "verify/finding.h"

namespace ww::verify {

/// Why a change may never be proposed, whatever it would cure.
struct Forbidden {
  /// safety: bridged or out of the circuit of what it guards; sources: two tied; foreign: a dry, sense,
  /// millivolt, line or data terminal joined with anything else.
  enum class Why { safety, sources, foreign };
  Why why = Why::safety;
  Place place;  ///< the safety, the second source, or the terminal
};

/// A safety between two screws, and the loads (inputs, coils, supplies) of the whole circuit.
struct Guard {
  Place safety;
  std::vector<Place> guarded, free;  ///< loads that it can stop, and that are fed without it
  std::vector<Place> meant;          ///< of a bridged one: what it could stop were no jumper fitted
  bool landed = false;               ///< a conductor lies at either screw
};
std::vector<Guard> guardsOf(const asbuilt::AsBuilt& circuit);

/// By device: removable jumpers inside units that their settings have fitted.
std::vector<char> jumpersIn(const asbuilt::AsBuilt& circuit);
/// Safeties with conductors at their screws that can stop no load.
std::vector<Place> idleSafeties(const asbuilt::AsBuilt& circuit);
/// Dry, sense, millivolt, line and data screws that are one piece of metal with any other kind.
std::vector<Place> foreignJoints(const asbuilt::AsBuilt& circuit);

/// What can never be taken from or added to an installation by a change, read once from the circuit as it is.
class Protected {
 public:
  explicit Protected(const asbuilt::AsBuilt& before);
  /// What is wrong with changing to that circuit; nothing when it may be proposed.
  std::optional<Forbidden> broken(const asbuilt::AsBuilt& after) const;

 private:
  struct State {
    std::vector<Guard> guards;
    std::vector<Place> bridged;
    std::vector<std::pair<Place, Place>> tied;
    std::vector<Place> foreign;
  };
  static State stateOf(const asbuilt::AsBuilt& circuit);
  friend std::vector<Guard> guardsOf(const asbuilt::AsBuilt& circuit);
  friend std::vector<Place> foreignJoints(const asbuilt::AsBuilt& circuit);
  State before_;
};

}  // namespace ww::verify
