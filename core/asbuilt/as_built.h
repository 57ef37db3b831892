// SPDX-License-Identifier: GPL-3.0-or-later
// Room asbuilt: compiles sheet + profiles + settings into one circuit whose
// nodes and elements remember where they come from. Everything that speaks of
// volts reads this circuit. Must not know calls, duties, findings or languages.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "circuit/plan.h"
#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::asbuilt {

/// A unit with its profile and every setting resolved to a value.
struct PlacedUnit {
  sheet::UnitId id{};
  std::string tag;
  std::shared_ptr<const equipment::Profile> profile;
  std::map<std::string, std::string> settings;
  double tapRatio = 1;      ///< line volts over the primary tap
  double phaseDegrees = 0;  ///< of the secondary's EMF; 180 where hot and common changed places
};

/// An element of a unit's inner circuit, placed.
struct Device {
  int unit = 0;          ///< index into AsBuilt::units
  int element = 0;       ///< index into the profile's elements
  equipment::Part part;  ///< with the setting's choice taken
  int branch = -1;       ///< in the pattern
  int a = 0, b = 0;      ///< nodes
};

/// A conductor of a cable with both ends at nodes.
struct Wire {
  sheet::ConductorId conductor{};
  int cable = -1;  ///< index into the sheet's cable rows
  quantity::Gauge gauge;
  quantity::Metres length;
  int branch = -1;
  int a = 0, b = 0;
};

/// A fixed joint of the installation that is neither element nor conductor: common to earth through metal.
struct Bonding {
  int unit = 0;
  int branch = -1;
  int a = 0, b = 0;
  bool known = true;  ///< false: nobody knows; there when Conditions::unknownBonded
};

/// The circuit of one sheet. Dense indices; two tables lead back: place -> node, element -> origin.
struct AsBuilt {
  std::vector<PlacedUnit> units;
  std::vector<Device> devices;
  std::vector<Wire> wires;
  std::vector<Bonding> bondings;
  std::vector<std::string> nodeNames;  ///< "F.R", "F.hl", "F/S1", "#3.B" (loose end), "earth"
  std::vector<std::optional<sheet::TerminalRef>> nodeTerminals;  ///< smallest terminal on the node, if any
  std::map<sheet::TerminalRef, int> nodeOfTerminal;
  std::shared_ptr<const circuit::Plan> plan;
  double frequency = 60;  ///< hertz
  size_t cables = 0;

  int node(const sheet::TerminalRef& terminal) const;  ///< -1 when there is no such terminal
  int unitIndex(sheet::UnitId id) const;               ///< -1 when not placed
  const Device* device(sheet::UnitId unit, std::string_view element) const;
  const equipment::Element& element(const Device& device) const;
  int commonNode(int unit) const;  ///< of the unit's common terminal; -1 without one
};

/// Compiles a sheet. Units whose profile the library lacks are left out (readers have told it before);
/// 0-ohm jumpers and splices merge nodes; an open is the absence of an element.
AsBuilt compile(const sheet::Sheet& sheet, const equipment::Library& library);

/// The value a unit's setting has on this sheet: its own, the sheet's, or the profile's default.
std::string settingOf(const sheet::Sheet& sheet, const sheet::Unit& unit, const equipment::Profile& profile,
                      std::string_view key);

}  // namespace ww::asbuilt
