// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "drawing/geometry.h"
#include "equipment/profile.h"

namespace ww::drawing {

/// What an element of a unit's inner circuit is drawn as; forms of IEC 60617.
enum class Symbol {
  transformer,
  fuse,
  coil,
  thermal,  ///< a coil that works by heat
  input,
  makeContact,
  breakContact,  ///< closed while nothing is called and nothing is wrong
  electronicContact,
  supply,
  resistor,
  sensor,  ///< a resistor that follows the temperature
  pile,
  diode,         ///< its arrow points from `from` to `to`
  rectifiedCoil  ///< a coil behind a diode
};

/// An element, its symbol across and its words above and below. `from` and `to`: where its leads leave the
/// symbol, on the side of Element::a and ::b.
struct InnerElement {
  std::string id;
  Symbol symbol = Symbol::resistor;
  Box box;
  Point from, to;
  Text name, rating;
  friend bool operator==(const InnerElement&, const InnerElement&) = default;
};

/// A terminal at the left or right edge.
struct InnerTerminal {
  std::string id;
  Box square;
  Text label;
  friend bool operator==(const InnerTerminal&, const InnerTerminal&) = default;
};

/// A straight piece of wire, across or down.
struct InnerWire {
  std::string node;  ///< terminal id or inner name; of terminals that are one piece of metal, the first
  Point from, to;
  friend bool operator==(const InnerWire&, const InnerWire&) = default;
};

/// The inner circuit of a unit: sources and inputs left, commons right, every way between them in a row of
/// its own.
struct Inner {
  std::vector<InnerElement> elements;    ///< in the order of the profile
  std::vector<InnerTerminal> terminals;  ///< in the order of the strip
  std::vector<InnerWire> wires;
  std::vector<Point> joints;  ///< dots where three pieces or more meet; wires without one only cross
  Box bounds;                 ///< around everything, with a margin of 16
  friend bool operator==(const Inner&, const Inner&) = default;
};

/// The figure that stands below an element's symbol; from the language's room.
using ElementWords = std::function<std::string(const equipment::Element&)>;

/// Lays the inner circuit out. Pure: equal profiles give equal pictures. Ways are paths of a layered order
/// from the hot side to the common side (longest-path layering, after Sugiyama, Tagawa, Toda 1981); wires
/// down share columns by left-edge packing.
Inner layoutInner(const equipment::Profile& profile, const TextMeasure& measure, const ElementWords& words);

/// What an element is drawn as. A contact is a break contact where its expression is true while no input is
/// energised, no coil is in and no fact differs from what the profile says.
Symbol symbolOf(const equipment::Profile& profile, const equipment::Element& element);

}  // namespace ww::drawing
