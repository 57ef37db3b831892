// SPDX-License-Identifier: GPL-3.0-or-later
#include "drawing/inner_order.h"

#include <algorithm>
#include <deque>
#include <map>
#include <numeric>
#include <optional>
#include <tuple>

namespace ww::drawing {

namespace {

using equipment::Element;
using equipment::Profile;
using equipment::Role;

bool isSource(const Element& element) {
  return std::holds_alternative<equipment::TransformerPart>(element.part) ||
         std::holds_alternative<equipment::PilePart>(element.part);
}

bool isHot(Role role) { return role == Role::hot || role == Role::hotCool || role == Role::hotHeat; }

class Ordering {
 public:
  explicit Ordering(const Profile& profile) : profile_(profile) {
    findNodes();
    findSides();
    rank();
    findEdges();
    level();
    findWays();
  }
  InnerOrder take() { return std::move(order_); }

 private:
  int nodeOf(const std::string& name) {
    const auto [at, fresh] = numbers_.try_emplace(name, static_cast<int>(order_.nodes.size()));
    if (fresh) order_.nodes.push_back({name, true, {}, 0, 1});
    return at->second;
  }

  void findNodes() {
    std::map<std::string, std::string> first;
    for (const auto& group : profile_.joined)
      for (const std::string& id : group) first.emplace(id, group.front());
    for (size_t i = 0; i < profile_.terminals.size(); ++i) {
      const std::string& id = profile_.terminals[i].id;
      const auto joined = first.find(id);
      const int node = nodeOf(joined == first.end() ? id : joined->second);
      numbers_[id] = node;
      order_.nodes[static_cast<size_t>(node)].terminals.push_back(static_cast<int>(i));
    }
    for (const Element& element : profile_.elements) {
      const int a = nodeOf(element.a);
      int b = nodeOf(element.b);
      // Across one piece of metal: the far end gets a place of its own, so that the element can be seen.
      if (a == b) b = nodeOf(element.b + "'" + element.id);
      ends_.emplace_back(a, b);
    }
    hot_.resize(order_.nodes.size());
    common_.resize(order_.nodes.size());
    neighbours_.resize(order_.nodes.size());
    for (size_t i = 0; i < ends_.size(); ++i) {
      if (isSource(profile_.elements[i])) continue;
      neighbours_[static_cast<size_t>(ends_[i].first)].push_back(ends_[i].second);
      neighbours_[static_cast<size_t>(ends_[i].second)].push_back(ends_[i].first);
    }
  }

  bool has(size_t node, bool (*fits)(Role)) const {
    const auto& terminals = order_.nodes[node].terminals;
    return std::any_of(terminals.begin(), terminals.end(), [&](int terminal) {
      return fits(profile_.terminals[static_cast<size_t>(terminal)].role);
    });
  }

  /// Hot and common by role and by the ends of sources; a part that has neither is drawn from its first
  /// terminal to its last.
  void findSides() {
    for (size_t node = 0; node < order_.nodes.size(); ++node) {
      hot_[node] = has(node, isHot);
      common_[node] = has(node, [](Role role) { return role == Role::common; });
    }
    for (size_t i = 0; i < ends_.size(); ++i) {
      if (!isSource(profile_.elements[i])) continue;
      sources_.push_back(ends_[i].first);
      hot_[static_cast<size_t>(ends_[i].first)] = true;
      common_[static_cast<size_t>(ends_[i].second)] = true;
      hot_[static_cast<size_t>(ends_[i].second)] = false;
    }
    std::vector<bool> seen(order_.nodes.size());
    for (size_t start = 0; start < order_.nodes.size(); ++start) {
      if (seen[start]) continue;
      std::deque<int> open{static_cast<int>(start)};
      std::vector<int> part;
      seen[start] = true;
      while (!open.empty()) {
        part.push_back(open.front());
        open.pop_front();
        for (const int next : neighbours_[static_cast<size_t>(part.back())])
          if (!seen[static_cast<size_t>(next)]) {
            seen[static_cast<size_t>(next)] = true;
            open.push_back(next);
          }
      }
      giveSides(part);
    }
  }

  void giveSides(const std::vector<int>& part) {
    const auto any = [&](const std::vector<bool>& side) {
      return std::any_of(part.begin(), part.end(), [&](int node) { return side[static_cast<size_t>(node)]; });
    };
    const bool hot = any(hot_), common = any(common_);
    if (hot || common || part.size() < 2) return;
    std::vector<int> posts;
    for (const int node : part)
      if (!order_.nodes[static_cast<size_t>(node)].terminals.empty()) posts.push_back(node);
    if (posts.size() < 2) return;
    std::sort(posts.begin(), posts.end());
    hot_[static_cast<size_t>(posts.front())] = true;
    common_[static_cast<size_t>(posts.back())] = true;
  }

  /// Steps from the nodes of one side, not through those of the other; -1: not reached.
  std::vector<int> stepsFrom(const std::vector<bool>& side, const std::vector<bool>& other) const {
    std::vector<int> steps(order_.nodes.size(), -1);
    std::deque<int> open;
    for (size_t node = 0; node < side.size(); ++node)
      if (side[node]) {
        steps[node] = 0;
        open.push_back(static_cast<int>(node));
      }
    while (!open.empty()) {
      const auto node = static_cast<size_t>(open.front());
      open.pop_front();
      if (other[node]) continue;
      for (const int next : neighbours_[node])
        if (int& step = steps[static_cast<size_t>(next)]; step < 0) {
          step = steps[node] + 1;
          open.push_back(next);
        }
    }
    return steps;
  }

  void rank() {
    const auto fromHot = stepsFrom(hot_, common_), fromCommon = stepsFrom(common_, hot_);
    std::vector<bool> sources(order_.nodes.size());
    for (const int node : sources_) sources[static_cast<size_t>(node)] = true;
    const auto fromSource = stepsFrom(sources, common_);
    std::vector<int> sorted(order_.nodes.size());
    std::iota(sorted.begin(), sorted.end(), 0);
    const auto place = [&](int index) {
      const auto node = static_cast<size_t>(index);
      const int side = hot_[node] ? 0 : common_[node] ? 2 : 1;
      const int value = side == 0   ? std::max(0, fromSource[node])
                        : side == 1 ? std::max(0, fromHot[node]) - std::max(0, fromCommon[node])
                                    : 0;
      return std::tuple(side, value, index);
    };
    std::sort(sorted.begin(), sorted.end(), [&](int x, int y) { return place(x) < place(y); });
    for (size_t i = 0; i < sorted.size(); ++i)
      order_.nodes[static_cast<size_t>(sorted[i])].rank = static_cast<int>(i);
    for (size_t node = 0; node < order_.nodes.size(); ++node)
      order_.nodes[node].left = !common_[node] && !has(node, [](Role role) {
        return role == Role::callOut || role == Role::auxOut;
      });
  }

  void findEdges() {
    for (size_t i = 0; i < ends_.size(); ++i) {
      const auto [a, b] = ends_[i];
      const bool turned =
          order_.nodes[static_cast<size_t>(a)].rank > order_.nodes[static_cast<size_t>(b)].rank;
      order_.edges.push_back({static_cast<int>(i), -1, turned ? b : a, turned ? a : b, turned});
    }
    for (size_t node = 0; node < order_.nodes.size(); ++node)
      for (const int terminal : order_.nodes[node].terminals) {
        const int at = static_cast<int>(node);
        if (order_.nodes[node].left)
          order_.edges.push_back({-1, terminal, -1, at, false});
        else
          order_.edges.push_back({-1, terminal, at, -1, false});
      }
  }

  /// Longest paths; the commons go as far right as there is.
  void level() {
    std::vector<int> byRank(order_.nodes.size());
    for (size_t i = 0; i < order_.nodes.size(); ++i)
      byRank[static_cast<size_t>(order_.nodes[i].rank)] = static_cast<int>(i);
    for (const int node : byRank)
      for (const InnerEdge& edge : order_.edges)
        if (edge.from == node && edge.to >= 0) {
          int& level = order_.nodes[static_cast<size_t>(edge.to)].level;
          level = std::max(level, order_.nodes[static_cast<size_t>(node)].level + 1);
        }
    int most = 0;
    for (const InnerNode& node : order_.nodes) most = std::max(most, node.level);
    for (size_t node = 0; node < order_.nodes.size(); ++node) {
      const bool last = std::none_of(order_.edges.begin(), order_.edges.end(), [&](const InnerEdge& edge) {
        return edge.from == static_cast<int>(node) && edge.to >= 0;
      });
      if (common_[node] && last) order_.nodes[node].level = most;
    }
    order_.levels = most + 1;
  }

  std::optional<int> nextFrom(int node) const {
    std::optional<int> edge;
    for (size_t i = 0; i < order_.edges.size(); ++i)
      if (!used_[i] && order_.edges[i].from == node) {
        // Elements before the way to the edge, in the order of the profile.
        if (order_.edges[i].element >= 0) return static_cast<int>(i);
        if (!edge) edge = static_cast<int>(i);
      }
    return edge;
  }

  /// A terminal's way in, where it is not drawn yet.
  std::optional<int> entryTo(int node) const {
    for (size_t i = 0; i < order_.edges.size(); ++i)
      if (!used_[i] && order_.edges[i].from < 0 && order_.edges[i].to == node) return static_cast<int>(i);
    return {};
  }

  /// One way as far as it goes, then what branches off, from its end back. A way that begins at a terminal
  /// begins at its edge.
  void follow(int edge) {
    std::vector<int> way, nodes;
    if (const int from = order_.edges[static_cast<size_t>(edge)].from; from >= 0)
      if (const auto entry = entryTo(from)) {
        used_[static_cast<size_t>(*entry)] = true;
        way.push_back(*entry);
      }
    for (std::optional<int> next = edge; next;) {
      used_[static_cast<size_t>(*next)] = true;
      way.push_back(*next);
      const int node = order_.edges[static_cast<size_t>(*next)].to;
      if (node < 0) break;
      nodes.push_back(node);
      next = nextFrom(node);
    }
    order_.ways.push_back(way);
    std::reverse(nodes.begin(), nodes.end());
    for (const int node : nodes)
      while (const auto next = nextFrom(node)) follow(*next);
  }

  void findWays() {
    used_.resize(order_.edges.size());
    for (const int node : sources_)
      while (const auto next = nextFrom(node)) follow(*next);
    for (size_t terminal = 0; terminal < profile_.terminals.size(); ++terminal)
      for (size_t i = 0; i < order_.edges.size(); ++i)
        if (!used_[i] && order_.edges[i].terminal == static_cast<int>(terminal) && order_.edges[i].from < 0)
          follow(static_cast<int>(i));
    const auto left = [&] { return std::find(used_.begin(), used_.end(), false); };
    for (auto edge = left(); edge != used_.end(); edge = left())
      follow(static_cast<int>(edge - used_.begin()));
  }

  const Profile& profile_;
  InnerOrder order_;
  std::map<std::string, int> numbers_;
  std::vector<std::pair<int, int>> ends_;  ///< nodes of each element
  std::vector<std::vector<int>> neighbours_;
  std::vector<bool> hot_, common_, used_;
  std::vector<int> sources_;
};

}  // namespace

InnerOrder innerOrder(const Profile& profile) { return Ordering(profile).take(); }

}  // namespace ww::drawing
