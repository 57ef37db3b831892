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

/// By device: removable jumpers inside units that their settings have fitted.
std::vector<char> jumpersIn(const asbuilt::AsBuilt& circuit);

/// How a circuit stands before any call, read once for all rules.
struct Standing {
  std::vector<char> jumpers;   ///< as jumpersIn
  std::vector<Guard> guards;   ///< of every safety between two screws
  std::vector<Place> foreign;  ///< dry, sense, millivolt, line and data screws in one metal with another kind

  /// Safeties with conductors at their screws that can stop no load.
  std::vector<Place> idleSafeties() const;
};
Standing standingOf(const asbuilt::AsBuilt& circuit);

/// What can never be taken from or added to an installation by a change, read once from the circuit as it is.
class Protected {
 public:
  explicit Protected(const asbuilt::AsBuilt& before);
  /// What is wrong with changing to that circuit; nothing when it may be proposed.
  std::optional<Forbidden> broken(const asbuilt::AsBuilt& after) const;

 private:
  struct State {
    std::vector<char> jumpers;
    std::vector<Guard> guards;
    std::vector<Place> bridged;
    std::vector<std::pair<Place, Place>> tied;
    std::vector<Place> foreign;
  };
  static State stateOf(const asbuilt::AsBuilt& circuit);
  friend Standing standingOf(const asbuilt::AsBuilt& circuit);
  State before_;
};

}  // namespace ww::verify
