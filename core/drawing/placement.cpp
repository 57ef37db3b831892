// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/placement.h"

#include "drawing/column_order.h"
#include "drawing/separation.h"

namespace ww::drawing {

namespace {

constexpr double kFirstTop = 48;

double onGrid(double y) { return kPitch * std::floor(y / kPitch + 0.5); }
double upToGrid(double y) { return kPitch * std::ceil(y / kPitch); }

int roleOf(const Strip& strip) {
  return strip.profile ? static_cast<int>(strip.profile->column)
                       : static_cast<int>(equipment::Column::accessory);
}

/// Column numbers by role, leaving out roles that no unit has.
void assignColumns(const std::vector<Strip>& strips, Placement& placement) {
  std::map<int, std::vector<int>> byRole;
  for (size_t i = 0; i < strips.size(); ++i) byRole[roleOf(strips[i])].push_back(static_cast<int>(i));
  placement.column.resize(strips.size());
  for (const auto& [role, members] : byRole) {
    for (const int i : members)
      placement.column[static_cast<size_t>(i)] = static_cast<int>(placement.columns.size());
    placement.columns.push_back(members);
  }
}

/// Cables between neighbour columns: they run straight, all others over the top.
int directLinks(const CableGraph& graph, const Placement& placement) {
  int direct = 0;
  for (size_t unit = 0; unit < graph.links.size(); ++unit)
    for (const CableGraph::Link& link : graph.links[unit])
      direct += placement.column[static_cast<size_t>(link.unit)] == placement.column[unit] + 1 ? 1 : 0;
  return direct;
}

/// The members of a column that only its other members join to what stands left of it.
std::vector<int> behind(const CableGraph& graph, const Placement& placement, int column) {
  const auto columnOf = [&](int unit) { return placement.column[static_cast<size_t>(unit)]; };
  const auto linksTo = [&](int unit, auto wanted) {
    const auto& links = graph.links[static_cast<size_t>(unit)];
    return std::any_of(links.begin(), links.end(), [&](const auto& link) { return wanted(link.unit); });
  };
  const auto inFront = [&](int unit) {
    return linksTo(unit, [&](int other) { return columnOf(other) < column; });
  };
  std::vector<int> found;
  for (const int unit : placement.columns[static_cast<size_t>(column)])
    if (!inFront(unit) &&
        linksTo(unit, [&](int other) { return columnOf(other) == column && inFront(other); }))
      found.push_back(unit);
  return found;
}

/// Gives what stands behind another unit of its column a column of its own where more cables then run
/// straight: a furnace behind a zone panel.
void splitColumns(const CableGraph& graph, Placement& placement) {
  for (int c = 0; c < static_cast<int>(placement.columns.size()); ++c) {
    const std::vector<int> found = behind(graph, placement, c);
    if (found.empty()) continue;
    Placement split = placement;
    std::erase_if(split.columns[static_cast<size_t>(c)],
                  [&](int unit) { return std::find(found.begin(), found.end(), unit) != found.end(); });
    split.columns.insert(split.columns.begin() + c + 1, found);
    for (size_t column = 0; column < split.columns.size(); ++column)
      for (const int unit : split.columns[column])
        split.column[static_cast<size_t>(unit)] = static_cast<int>(column);
    if (directLinks(graph, split) > directLinks(graph, placement)) placement = std::move(split);
  }
}

/// How far a strip's top must lie below its partner's for terminals of one purpose to stand level: the median
/// over the common purposes; of two middle ones the smaller shift, so that both strips ask for the same.
std::optional<double> levelOffset(const Strip& own, const Strip& partner) {
  std::vector<double> offsets;
  for (const StripRow& row : own.rows) {
    if (row.purpose.empty()) continue;
    for (const StripRow& other : partner.rows)
      if (other.purpose == row.purpose) {
        offsets.push_back(other.y - row.y);
        break;
      }
  }
  if (offsets.empty()) return std::nullopt;
  std::sort(offsets.begin(), offsets.end());
  const double lower = offsets[(offsets.size() - 1) / 2], upper = offsets[offsets.size() / 2];
  return std::abs(upper) < std::abs(lower) ? upper : lower;
}

class Levels {
 public:
  Levels(const std::vector<Strip>& strips, const CableGraph& graph, Placement& placement)
      : strips_(strips), graph_(graph), placement_(placement), known_(strips.size(), false) {}

  void run() {
    const int columns = static_cast<int>(placement_.columns.size());
    for (int c = 0; c < columns; ++c) level(c);
    for (int c = columns - 2; c >= 0; --c) level(c);
    for (int c = 1; c < columns; ++c) level(c);
    double highest = 1e18;
    for (const double top : placement_.top) highest = std::min(highest, top);
    for (double& top : placement_.top) top += kFirstTop - highest;
  }

 private:
  /// Least distance from a strip's top to that of the one above it in its column.
  double gapBelow(int above, int unit) const {
    const Strip &upper = strips_[static_cast<size_t>(above)], &lower = strips_[static_cast<size_t>(unit)];
    return upToGrid(upper.height + upper.below + lower.above + 24);
  }

  void level(int c) {
    const std::vector<int>& members = placement_.columns[static_cast<size_t>(c)];
    std::vector<double> wishes, gaps;
    double next = 0;
    for (size_t i = 0; i < members.size(); ++i) {
      double gap = 0;
      if (i > 0) {
        gap = gapBelow(members[i - 1], members[i]);
        next += gap;
      }
      wishes.push_back(wish(members[i]).value_or(next));
      gaps.push_back(gap);
      next = wishes.back();
    }
    const std::vector<double> tops = separated(wishes, gaps);
    for (size_t i = 0; i < members.size(); ++i) {
      double top = onGrid(tops[i]);
      if (i > 0) top = std::max(top, placement_.top[static_cast<size_t>(members[i - 1])] + gaps[i]);
      placement_.top[static_cast<size_t>(members[i])] = top;
    }
    for (const int unit : members) known_[static_cast<size_t>(unit)] = true;
  }

  /// Mean of what the partners in other columns that have a level ask for.
  std::optional<double> wish(int unit) {
    double sum = 0;
    int count = 0;
    for (const CableGraph::Link& link : graph_.links[static_cast<size_t>(unit)]) {
      ++placement_.work;
      const size_t partner = static_cast<size_t>(link.unit), own = static_cast<size_t>(unit);
      if (!known_[partner] || placement_.column[partner] == placement_.column[own]) continue;
      const auto offset = levelOffset(strips_[own], strips_[partner]);
      sum += placement_.top[partner] + offset.value_or((strips_[partner].height - strips_[own].height) / 2);
      ++count;
    }
    if (count == 0) return std::nullopt;
    return onGrid(sum / count);
  }

  const std::vector<Strip>& strips_;
  const CableGraph& graph_;
  Placement& placement_;
  std::vector<bool> known_;
};

/// Takes the earlier places over when they name every unit.
bool keep(const std::vector<Strip>& strips, const std::map<sheet::UnitId, Kept>& kept, Placement& placement) {
  for (const Strip& strip : strips)
    if (!kept.count(strip.unit->id)) return false;
  std::map<int, std::vector<int>> columns;
  for (size_t i = 0; i < strips.size(); ++i)
    columns[kept.at(strips[i].unit->id).column].push_back(static_cast<int>(i));
  placement.columns.clear();
  for (auto& [column, members] : columns) {
    for (const int i : members) {
      placement.column[static_cast<size_t>(i)] = static_cast<int>(placement.columns.size());
      placement.top[static_cast<size_t>(i)] = kept.at(strips[static_cast<size_t>(i)].unit->id).top;
    }
    std::stable_sort(members.begin(), members.end(), [&](int a, int b) {
      return placement.top[static_cast<size_t>(a)] < placement.top[static_cast<size_t>(b)];
    });
    // A strip that grew pushes what stands below it.
    for (size_t i = 1; i < members.size(); ++i) {
      const size_t above = static_cast<size_t>(members[i - 1]), unit = static_cast<size_t>(members[i]);
      const double least = upToGrid(strips[above].height + strips[above].below + strips[unit].above + 24);
      placement.top[unit] = std::max(placement.top[unit], placement.top[above] + least);
    }
    placement.columns.push_back(members);
  }
  return true;
}

}  // namespace

Placement place(const std::vector<Strip>& strips, const sheet::Sheet& sheet,
                const std::map<sheet::UnitId, Kept>& kept) {
  Placement placement;
  placement.top.assign(strips.size(), kFirstTop);
  assignColumns(strips, placement);
  if (!keep(strips, kept, placement)) {
    const CableGraph graph = cableGraph(strips, sheet);
    splitColumns(graph, placement);
    orderColumns(graph, placement);
    Levels(strips, graph, placement).run();
  }
  for (const std::vector<int>& members : placement.columns) {
    double width = 48;
    for (const int i : members) width = std::max(width, strips[static_cast<size_t>(i)].width);
    placement.width.push_back(width);
  }
  return placement;
}

}  // namespace ww::drawing
