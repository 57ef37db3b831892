// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/inner.h"

#include <algorithm>

#include "drawing/inner_order.h"

namespace ww::drawing {

namespace {

constexpr double kRow = 72, kTerminalRow = 36, kSymbolWidth = 48, kSymbolHeight = 28, kPad = 16, kTrack = 16,
                 kSquare = 24;
constexpr double kMargin = 16;
constexpr TextStyle kName{13, true}, kRating{11, false};

class Placing {
 public:
  Placing(const equipment::Profile& profile, const TextMeasure& measure, const ElementWords& words)
      : profile_(profile), measure_(measure), words_(words), order_(innerOrder(profile)) {
    out_.elements.resize(profile.elements.size());
    out_.terminals.resize(profile.terminals.size());
    findHeights();
    findRows();
    findTracks();
    findColumns();
    for (size_t row = 0; row < order_.ways.size(); ++row)
      for (const int edge : order_.ways[row]) put(order_.edges[size_t(edge)], yOf(int(row)));
    putDown();
    for (const auto& element : out_.elements)
      for (const Box& box : {element.box, element.name.box, element.rating.box})
        out_.bounds = united(out_.bounds, box);
    for (const auto& terminal : out_.terminals) out_.bounds = united(out_.bounds, terminal.square);
    for (const auto& wire : out_.wires)
      out_.bounds =
          united(out_.bounds, {wire.from.x, wire.from.y, wire.to.x - wire.from.x, wire.to.y - wire.from.y});
    out_.bounds = out_.bounds.grown(kMargin);
  }
  Inner take() { return std::move(out_); }

 private:
  struct Extent {
    int first = -1, last = -1;
    std::vector<int> rows;
  };
  double yOf(int row) const { return heights_[size_t(row)]; }

  /// Rows of terminals alone are less high.
  void findHeights() {
    double y = 0, half = 0;
    for (const auto& way : order_.ways) {
      const bool elements = std::any_of(way.begin(), way.end(),
                                        [&](int edge) { return order_.edges[size_t(edge)].element >= 0; });
      const double next = (elements ? kRow : kTerminalRow) / 2;
      if (!heights_.empty()) y += half + next;
      heights_.push_back(y);
      half = next;
    }
  }

  void findRows() {
    extents_.resize(order_.nodes.size());
    for (size_t row = 0; row < order_.ways.size(); ++row)
      for (const int index : order_.ways[row]) {
        const InnerEdge& edge = order_.edges[size_t(index)];
        for (const int node : {edge.from, edge.to}) {
          if (node < 0) continue;
          Extent& extent = extents_[size_t(node)];
          if (extent.first < 0) extent.first = int(row);
          extent.first = std::min(extent.first, int(row));
          extent.last = std::max(extent.last, int(row));
          extent.rows.push_back(int(row));
        }
      }
  }

  /// Nodes of one level whose wires down do not meet share a track.
  void findTracks() {
    tracks_.resize(order_.nodes.size());
    tracksOf_.assign(size_t(order_.levels) + 1, 0);
    for (int level = 1; level < order_.levels; ++level) {
      std::vector<int> nodes;
      for (size_t node = 0; node < order_.nodes.size(); ++node)
        if (order_.nodes[node].level == level && extents_[node].first >= 0) nodes.push_back(int(node));
      std::sort(nodes.begin(), nodes.end(), [&](int x, int y) {
        return std::pair(extents_[size_t(x)].first, x) < std::pair(extents_[size_t(y)].first, y);
      });
      std::vector<int> ends;
      for (const int node : nodes) {
        size_t track = 0;
        while (track < ends.size() && ends[track] >= extents_[size_t(node)].first) ++track;
        if (track == ends.size()) ends.push_back(-1);
        ends[track] = extents_[size_t(node)].last;
        tracks_[size_t(node)] = int(track);
      }
      tracksOf_[size_t(level)] = int(ends.size());
    }
  }

  int levelOf(int node, int edge) const { return node < 0 ? edge : order_.nodes[size_t(node)].level; }

  /// The gap an element's symbol stands in: loads at the common they go to, all others behind where they
  /// come from.
  int gapOf(const InnerEdge& edge) const {
    const int from = levelOf(edge.from, 0), to = levelOf(edge.to, order_.levels);
    return to == order_.levels - 1 ? to - 1 : from;
  }

  Text text(const std::string& words, TextStyle style) const {
    return {words, style, measure_(words, style), Align::centre};
  }

  void findColumns() {
    std::vector<double> gaps(size_t(order_.levels), kPad + 8);
    for (const InnerEdge& edge : order_.edges) {
      if (edge.element < 0) continue;
      const equipment::Element& element = profile_.elements[size_t(edge.element)];
      InnerElement& drawn = out_.elements[size_t(edge.element)];
      drawn.id = element.id;
      drawn.symbol = symbolOf(profile_, element);
      drawn.name = text(element.id, kName);
      drawn.rating = text(words_(element), kRating);
      double& gap = gaps[size_t(gapOf(edge))];
      gap = std::max({gap, kSymbolWidth + 2 * kPad, drawn.name.box.w + kPad, drawn.rating.box.w + kPad});
    }
    for (const equipment::Terminal& terminal : profile_.terminals)
      square_ = std::max(square_, measure_(terminal.id, kName).w + 8);
    double x = square_;
    for (int level = 0; level < order_.levels; ++level) {
      gapAt_.push_back(x);
      gapWidth_.push_back(gaps[size_t(level)]);
      x += gaps[size_t(level)];
      columnAt_.push_back(x);
      if (level + 1 < order_.levels) x += kTrack * std::max(0, tracksOf_[size_t(level) + 1] - 1);
    }
    right_ = x;
  }

  double xOf(int node) const {
    return columnAt_[size_t(order_.nodes[size_t(node)].level) - 1] + kTrack * tracks_[size_t(node)];
  }

  const std::string& nameOf(int node) const { return order_.nodes[size_t(node)].name; }

  void put(const InnerEdge& edge, double y) {
    if (edge.terminal >= 0) {
      putTerminal(edge, y);
      return;
    }
    InnerElement& drawn = out_.elements[size_t(edge.element)];
    const auto gap = size_t(gapOf(edge));
    const double middle = gapAt_[gap] + gapWidth_[gap] / 2;
    drawn.box = {middle - kSymbolWidth / 2, y - kSymbolHeight / 2, kSymbolWidth, kSymbolHeight};
    const Point left{drawn.box.x, y}, right{drawn.box.right(), y};
    drawn.from = edge.turned ? right : left;
    drawn.to = edge.turned ? left : right;
    setText(drawn.name, middle, drawn.box.y - 2 - drawn.name.box.h);
    setText(drawn.rating, middle, drawn.box.bottom() + 2);
    out_.wires.push_back({nameOf(edge.from), {xOf(edge.from), y}, left});
    out_.wires.push_back({nameOf(edge.to), right, {xOf(edge.to), y}});
  }

  static void setText(Text& text, double middle, double top) {
    text.box.x = middle - text.box.w / 2;
    text.box.y = top;
  }

  void putTerminal(const InnerEdge& edge, double y) {
    const bool left = edge.from < 0;
    InnerTerminal& drawn = out_.terminals[size_t(edge.terminal)];
    drawn.id = profile_.terminals[size_t(edge.terminal)].id;
    drawn.square = {left ? 0 : right_, y - kSquare / 2, square_, kSquare};
    drawn.label = text(drawn.id, kName);
    setText(drawn.label, drawn.square.centre().x, y - drawn.label.box.h / 2);
    const int node = left ? edge.to : edge.from;
    if (left)
      out_.wires.push_back({nameOf(node), {drawn.square.right(), y}, {xOf(node), y}});
    else
      out_.wires.push_back({nameOf(node), {xOf(node), y}, {drawn.square.x, y}});
  }

  /// The wires down, and the dots where they meet those across.
  void putDown() {
    for (size_t node = 0; node < order_.nodes.size(); ++node) {
      Extent& extent = extents_[node];
      if (extent.first < 0) continue;
      const double x = xOf(int(node));
      if (extent.last > extent.first)
        out_.wires.push_back({nameOf(int(node)), {x, yOf(extent.first)}, {x, yOf(extent.last)}});
      std::sort(extent.rows.begin(), extent.rows.end());
      for (size_t i = 0; i < extent.rows.size();) {
        const int row = extent.rows[i];
        size_t next = i;
        while (next < extent.rows.size() && extent.rows[next] == row) ++next;
        const size_t meeting = next - i + (row > extent.first) + (row < extent.last);
        if (meeting > 2) out_.joints.push_back({x, yOf(row)});
        i = next;
      }
    }
  }

  const equipment::Profile& profile_;
  const TextMeasure& measure_;
  const ElementWords& words_;
  InnerOrder order_;
  Inner out_;
  std::vector<Extent> extents_;
  std::vector<int> tracks_, tracksOf_;
  std::vector<double> heights_, gapAt_, gapWidth_, columnAt_;
  double square_ = kSquare, right_ = 0;
};

}  // namespace

Inner layoutInner(const equipment::Profile& profile, const TextMeasure& measure, const ElementWords& words) {
  return Placing(profile, measure, words).take();
}

}  // namespace ww::drawing
