// SPDX-License-Identifier: GPL-3.0-or-later
// Room equipment: unit profiles as data - terminals, inner circuit, ratings,
// logic, duties - read from JSON and checked against schema and physics. Adding
// a unit needs no code. Must not know sheets, solved circuits or the screen.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "equipment/logic.h"
#include "equipment/part.h"
#include "quantity/loaded.h"

namespace ww::equipment {

/// What a terminal is there for. dry, sense, millivolt, line and data never accept a conductor that another
/// role can energise.
enum class Role {
  hot,
  hotCool,
  hotHeat,
  common,
  callIn,
  callOut,
  auxOut,
  tie,
  dry,
  sense,
  millivolt,
  line,
  data
};

/// A word in each language of the program ("en", "es").
using Words = std::map<std::string, std::string>;

struct Terminal {
  std::string id;  ///< key in the profile and on the sheet, e.g. "RV"
  /// What stands at the screw where it differs from the id by a setting (reversing valve: "O" or "B").
  std::string printedSetting;
  std::map<std::string, std::string> printedFor;  ///< setting value -> text at the screw
  Role role = Role::tie;
  /// What a conductor here is for: "hot", "common", "compressor1", "compressor2", "blower", "heat1", "heat2",
  /// "reversingValve", "emergency", "defrostHeat", "humidify", "valve", "damper", a dry "pairA" and "pairB",
  /// "sensorA" and "sensorB"; empty when nothing customary.
  std::string purpose;
  /// Screws of one group belong to one neighbour (a panel's "zone1"); those without one belong to all.
  std::string group;
  bool optional = false;  ///< may stay empty without a finding
  int posts = 2;          ///< ends a screw takes before it is crowded
  friend bool operator==(const Terminal&, const Terminal&) = default;
};

/// An element of the inner circuit between two nodes; a node is a terminal id or an inner name.
struct Element {
  std::string id, a, b;
  Part part;
  std::string partName;     ///< name in the part library ("C7"); empty for figures given in place
  std::string partSetting;  ///< setting whose value names another part ("transformer" -> "XF50"); empty: none
  std::string celsiusSetting;  ///< setting that says how warm a resistor with a beta is; empty: 25 C
  int closedBy = -1;           ///< contacts: expression in Profile::logic
  std::vector<int> relays;     ///< supplies: expressions, each true one adds SupplyPart::perRelay
  friend bool operator==(const Element&, const Element&) = default;
};

/// Something the unit is there to do. Name and speed as in "blower" + "cool1".
struct Duty {
  std::string name, speed;
  int running = -1;  ///< expression in Profile::logic
  friend bool operator==(const Duty&, const Duty&) = default;
};

/// A call that a room control can make, or an outdoor state a unit can be put in ("defrost").
struct Call {
  std::string name;
  int offered = -1;  ///< expression over settings; -1: always
  friend bool operator==(const Call&, const Call&) = default;
};

/// A setting of the unit, with its choices, or free numeric when there are none.
struct Setting {
  std::string key;
  std::vector<std::string> choices;  ///< empty: a free number
  std::string standard;              ///< default
  std::string unit;  ///< "C": a number in this unit is taken besides the choices; set with the control
  friend bool operator==(const Setting&, const Setting&) = default;
};

enum class Kind {
  roomControl,
  furnace,
  airHandler,
  coolingCoil,
  outdoorUnit,
  boiler,
  zoneValve,
  accessory,
  refused
};
enum class Column { control, indoor, outdoor, accessory };
enum class Bond { bonded, floating, unknown };

/// A place where a safety or switch may be put into the circuit.
struct InsertPoint {
  std::string name, note;
  friend bool operator==(const InsertPoint&, const InsertPoint&) = default;
};

/// One generic unit.
struct Profile {
  std::string id;
  Kind kind = Kind::accessory;
  Column column = Column::accessory;
  Words title;
  std::vector<Terminal> terminals;  ///< strip order
  bool fixedOrder = true;           ///< keep the strip order in drawings
  Bond bond = Bond::unknown;
  bool needsCommon = false;  ///< its supply does not work without a common landed
  /// Terminals that are one piece of metal inside the unit, several such groups.
  std::vector<std::vector<std::string>> joined;
  std::string refusal;  ///< why a unit of kind refused is none of this program's: "dataBus", ...; else empty
  std::vector<Element> elements;
  Logic logic;  ///< statements, world responses first; also holds the loose expressions
  std::vector<Duty> duties;
  std::vector<Call> calls;
  std::vector<Setting> settings;
  std::vector<std::string> nameplate;  ///< field keys
  std::string guards;  ///< what a safety of its own watches: "condensate"; empty: something else or nothing
  std::vector<InsertPoint> insertPoints;
  std::vector<std::string> cautions;  ///< caution keys
  std::vector<std::string> sources;   ///< where the figures come from
  std::map<std::string, bool> world;  ///< outside facts the logic asks for, with what holds unless overridden
  friend bool operator==(const Profile&, const Profile&) = default;

  const Terminal* terminal(std::string_view terminalId) const;
  const Element* element(std::string_view elementId) const;
  const Setting* setting(std::string_view key) const;
  /// Whether it has a duty of that name, at whatever speed.
  bool offers(std::string_view duty) const;
};

/// The parts by name ("C7", "IN3", "XF40", "fuse3", ...).
using PartLibrary = std::map<std::string, Part>;

/// Profiles and parts by id; immutable once built.
struct Library {
  PartLibrary parts;
  std::map<std::string, std::shared_ptr<const Profile>> profiles;
  /// Of the profiles that did not ship with the program: their canonical JSON.
  std::map<std::string, std::string> own;

  const Profile* find(std::string_view profileId) const;
  /// Whether it is one of those that ship with the program.
  bool shipped(std::string_view profileId) const;
};

/// Reads one part library / one profile from JSON text. All problems found: JSON errors (depth <= 64, size
/// <= 1 MiB, duplicate keys), schema, unknown nodes and names, physics, combinational loops.
quantity::Loaded<PartLibrary> readParts(std::string_view json);
quantity::Loaded<Profile> readProfile(std::string_view json, const PartLibrary& parts);

/// The library that ships with the program, read once.
const Library& standardLibrary();

}  // namespace ww::equipment
