// SPDX-License-Identifier: GPL-3.0-or-later
// Room drawing: from a wiring sheet to positions, polylines and label boxes -
// plain data for any painter - and what a solved call adds to them. Knows no
// screen, no font and no colour value; text widths come in as a function.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "drawing/geometry.h"
#include "equipment/profile.h"
#include "sheet/sheet.h"

namespace ww::drawing {

enum class Side { left, right };

/// A terminal: its square on the plate and what is printed in it. The square of a splice is not drawn.
struct TerminalMark {
  std::string id;  ///< terminal id, or the splice's name
  Box square;      ///< 24 x 24
  Text label;      ///< as printed on the unit ("O" or "B" for the reversing valve, by its sense)
  bool splice = false;
  bool unknown = false;  ///< landed on, but the unit's profile has no such terminal
  friend bool operator==(const TerminalMark&, const TerminalMark&) = default;
};

/// A screw astride a plate's edge (a lozenge for a splice).
struct Screw {
  std::string terminal;
  Point centre;
  Side side = Side::right;
  int ends = 0;  ///< conductor ends held on this side: none = empty, n = n bars
  bool splice = false;
  bool unknown = false;  ///< drawn dashed
  friend bool operator==(const Screw&, const Screw&) = default;
};

/// One unit as a plate with its strip.
struct Plate {
  sheet::UnitId unit{};
  int column = 0;  ///< 0 is leftmost
  Box box;
  std::vector<Text> title, place;  ///< lines above and below the plate
  std::vector<TerminalMark> terminals;
  std::vector<Screw> screws;
  friend bool operator==(const Plate&, const Plate&) = default;
};

/// A cable's capsule; its conductors vanish under it at 20 px pitch.
struct Sheath {
  sheet::CableId cable{};
  Box box;
  Text size, length;  ///< "18/5" and "12 m"
  friend bool operator==(const Sheath&, const Sheath&) = default;
};

enum class RunPart { endA, endB, whole };

/// A visible stretch of a conductor, its points in the direction End A -> End B.
struct Run {
  RunPart part = RunPart::whole;
  std::vector<Point> points;
  friend bool operator==(const Run&, const Run&) = default;
};

/// A conductor: two runs that meet under the sheath, or one whole run (jumper).
struct Wire {
  sheet::ConductorId conductor{};
  std::optional<sheet::CableId> cable;
  sheet::Colour colour;
  bool jumper = false;
  std::vector<Run> runs;
  friend bool operator==(const Wire&, const Wire&) = default;
};

/// The rounded flag with a conductor's colour code, or J on a jumper.
struct Tag {
  sheet::ConductorId conductor{};
  RunPart part = RunPart::whole;
  Text label;  ///< label.box is the flag
  friend bool operator==(const Tag&, const Tag&) = default;
};

enum class EndKind { loose, capped };

/// Where a conductor ends in the air.
struct EndMark {
  sheet::ConductorId conductor{};
  RunPart part = RunPart::endA;
  EndKind kind = EndKind::loose;
  Point at;
  friend bool operator==(const EndMark&, const EndMark&) = default;
};

/// The laid-out sheet.
struct Diagram {
  std::vector<Plate> plates;    ///< by unit id
  std::vector<Sheath> sheaths;  ///< by cable id
  std::vector<Wire> wires;      ///< by conductor id
  std::vector<Tag> tags;
  std::vector<EndMark> ends;
  Box bounds;             ///< around everything, with a margin of 24
  std::int64_t work = 0;  ///< steps of the inner loops, for the scaling test
  friend bool operator==(const Diagram&, const Diagram&) = default;

  const Plate* plate(sheet::UnitId unit) const;
  const Wire* wire(sheet::ConductorId conductor) const;
};

enum class LengthUnit { metres, feet };

/// Column and top edge that a unit is to keep.
struct Kept {
  int column = 0;
  double top = 0;
  friend bool operator==(const Kept&, const Kept&) = default;
};

struct LayoutOptions {
  std::string language = "en";  ///< of profile titles
  LengthUnit lengths = LengthUnit::metres;
  /// Earlier places of the units. Used when it names every unit of the sheet; empty lays the units out anew.
  std::map<sheet::UnitId, Kept> kept;
  /// Earlier heights of conductors at their sheaths; they move no further than an edit makes them.
  std::map<sheet::ConductorId, double> keptSlots;
};

/// Lays the sheet out. A pure function: equal sheets give equal diagrams, whatever the order of rows. Units
/// whose profile the library lacks become plates with the terminals that conductors land on. Columns by role
/// with barycentre ordering (Sugiyama, Tagawa, Toda 1981); tracks by left-edge packing under a vertical
/// constraint graph (Hashimoto and Stevens 1971).
Diagram layout(const sheet::Sheet& sheet, const equipment::Library& library, const TextMeasure& measure,
               const LayoutOptions& options = {});

/// The places of a diagram's units, to keep them through later edits.
std::map<sheet::UnitId, Kept> places(const Diagram& diagram);
/// The heights of its conductors at their sheaths, for the same purpose.
std::map<sheet::ConductorId, double> slots(const Diagram& diagram);

/// What stands at the screw: the id, or its other spelling by the unit's setting (value set on the sheet,
/// else the profile's standard).
std::string printedTerminal(const sheet::Sheet& sheet, const sheet::Unit& unit,
                            const equipment::Profile& profile, const equipment::Terminal& terminal);

}  // namespace ww::drawing
