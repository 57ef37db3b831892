// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/column_order.h"

#include <numeric>

namespace ww::drawing {

namespace {

class Order {
 public:
  Order(const CableGraph& graph, Placement& placement) : graph_(graph), placement_(placement) {
    at_.resize(graph.links.size());
    for (const auto& members : placement_.columns) number(members);
  }

  void run() {
    const int last = static_cast<int>(placement_.columns.size()) - 1;
    for (int sweep = 0; sweep < 4; ++sweep) {
      for (int c = 1; c <= last; ++c) sortColumn(c, -1);
      for (int c = last - 1; c >= 0; --c) sortColumn(c, +1);
    }
    for (int pass = 0; pass < 8; ++pass) {
      bool better = false;
      for (auto& members : placement_.columns)
        for (size_t i = 0; i + 1 < members.size(); ++i) better |= exchange(members, i);
      if (!better) break;
    }
  }

 private:
  /// Places inside a column as fractions, so that columns of different length compare.
  void number(const std::vector<int>& members) {
    for (size_t i = 0; i < members.size(); ++i)
      at_[static_cast<size_t>(members[i])] =
          (static_cast<double>(i) + 0.5) / static_cast<double>(members.size());
  }

  int columnOf(int unit) const { return placement_.column[static_cast<size_t>(unit)]; }

  /// Mean place of the partners on one side (-1 left, +1 right), else the unit's own.
  double barycentre(int unit, int side) {
    double sum = 0, weight = 0;
    for (const auto& link : graph_.links[static_cast<size_t>(unit)]) {
      ++placement_.work;
      const int distance = columnOf(link.unit) - columnOf(unit);
      if (distance * side <= 0) continue;
      sum += at_[static_cast<size_t>(link.unit)] * link.weight;
      weight += link.weight;
    }
    return weight > 0 ? sum / weight : at_[static_cast<size_t>(unit)];
  }

  void sortColumn(int c, int side) {
    auto& members = placement_.columns[static_cast<size_t>(c)];
    std::map<int, double> key;
    for (const int unit : members) key[unit] = barycentre(unit, side);
    std::stable_sort(members.begin(), members.end(), [&](int a, int b) { return key[a] < key[b]; });
    number(members);
  }

  /// Weighted crossings of the cables of two neighbours, `a` above `b`, partner columns taken one by one.
  long long crossings(int a, int b) {
    long long sum = 0;
    for (const auto& first : graph_.links[static_cast<size_t>(a)])
      for (const auto& second : graph_.links[static_cast<size_t>(b)]) {
        ++placement_.work;
        if (columnOf(first.unit) == columnOf(second.unit) && columnOf(first.unit) != columnOf(a) &&
            at_[static_cast<size_t>(first.unit)] > at_[static_cast<size_t>(second.unit)])
          sum += static_cast<long long>(first.weight) * second.weight;
      }
    return sum;
  }

  bool exchange(std::vector<int>& members, size_t i) {
    if (crossings(members[i + 1], members[i]) >= crossings(members[i], members[i + 1])) return false;
    std::swap(members[i], members[i + 1]);
    std::swap(at_[static_cast<size_t>(members[i])], at_[static_cast<size_t>(members[i + 1])]);
    return true;
  }

  const CableGraph& graph_;
  Placement& placement_;
  std::vector<double> at_;
};

}  // namespace

CableGraph cableGraph(const std::vector<Strip>& strips, const sheet::Sheet& sheet) {
  std::map<sheet::UnitId, int> index;
  for (size_t i = 0; i < strips.size(); ++i) index[strips[i].unit->id] = static_cast<int>(i);
  std::map<sheet::CableId, int> conductors;
  for (const sheet::Conductor& wire : sheet.conductors)
    if (wire.cable) ++conductors[*wire.cable];
  CableGraph graph;
  graph.links.resize(strips.size());
  std::vector<const sheet::Cable*> cables;
  for (const sheet::Cable& cable : sheet.cables) cables.push_back(&cable);
  std::sort(cables.begin(), cables.end(), [](auto a, auto b) { return a->id < b->id; });
  for (const sheet::Cable* cable : cables) {
    const auto a = index.find(cable->endA), b = index.find(cable->endB);
    if (a == index.end() || b == index.end() || a == b) continue;
    const int weight = std::max(1, conductors[cable->id]);
    graph.links[static_cast<size_t>(a->second)].push_back({b->second, weight});
    graph.links[static_cast<size_t>(b->second)].push_back({a->second, weight});
  }
  return graph;
}

void orderColumns(const CableGraph& graph, Placement& placement) { Order(graph, placement).run(); }

}  // namespace ww::drawing
