// SPDX-License-Identifier: GPL-3.0-or-later
// Private to the room: in which order the nodes of an inner circuit stand from left to right, and the ways
// through them.
#pragma once

#include <string>
#include <vector>

#include "equipment/profile.h"

namespace ww::drawing {

/// A node of the circuit: terminals that are one piece of metal are one.
struct InnerNode {
  std::string name;
  bool left = true;  ///< where its terminals stand
  std::vector<int> terminals;
  int rank = 0;   ///< place in the order from the hot side to the common side; no two are equal
  int level = 1;  ///< column group; 0 is the left edge
};

/// An edge of the drawing: an element, or the way of a terminal to its edge. It goes from the lower level to
/// the higher.
struct InnerEdge {
  int element = -1;        ///< index in the profile; -1: a terminal's
  int terminal = -1;       ///< index in the strip
  int from = -1, to = -1;  ///< nodes; -1 at the edge of the picture
  bool turned = false;     ///< Element::a stands right
};

struct InnerOrder {
  std::vector<InnerNode> nodes;
  std::vector<InnerEdge> edges;
  int levels = 1;  ///< of the right edge
  /// Rows from top to bottom: edges one behind the other, each edge once.
  std::vector<std::vector<int>> ways;
};

InnerOrder innerOrder(const equipment::Profile& profile);

}  // namespace ww::drawing
