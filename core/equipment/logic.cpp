// SPDX-License-Identifier: GPL-3.0-or-later
#include "equipment/logic.h"

#include <algorithm>
#include <deque>
#include <map>

namespace ww::equipment {

namespace {

/// For each signal (numbered in statement order) the signals its next value needs at this very instant.
struct Dependences {
  std::vector<std::string> names;
  std::vector<std::vector<int>> needs;
};

bool breaksLoops(Op op) {
  return op == Op::onDelay || op == Op::latch || op == Op::tally || op == Op::ran || op == Op::first;
}

void collect(const Logic& logic, int at, const std::map<std::string, int>& numbers, std::vector<int>& needs) {
  const LogicNode& node = logic.nodes.at(static_cast<size_t>(at));
  if (breaksLoops(node.op)) return;
  if (node.op == Op::signal) {
    const auto found = numbers.find(node.name);
    if (found != numbers.end() && std::find(needs.begin(), needs.end(), found->second) == needs.end())
      needs.push_back(found->second);
  }
  for (const int argument : node.args) collect(logic, argument, numbers, needs);
}

Dependences dependencesOf(const Logic& logic) {
  Dependences result;
  std::map<std::string, int> numbers;
  for (const Statement& statement : logic.statements)
    for (const std::string& name : statement.names)
      if (numbers.emplace(name, static_cast<int>(result.names.size())).second) result.names.push_back(name);
  result.needs.resize(result.names.size());
  for (const Statement& statement : logic.statements)
    for (const std::string& name : statement.names)
      collect(logic, statement.expression, numbers, result.needs[static_cast<size_t>(numbers.at(name))]);
  return result;
}

/// Shortest way from a signal back to itself by signals not yet told of; empty when there is none.
std::vector<int> loopThrough(const Dependences& graph, int start, const std::vector<bool>& told) {
  std::vector<int> cameFrom(graph.names.size(), -1);
  std::deque<int> open{start};
  while (!open.empty()) {
    const int at = open.front();
    open.pop_front();
    for (const int next : graph.needs[static_cast<size_t>(at)]) {
      if (next == start) {
        std::vector<int> way{start};
        for (int back = at; back != start; back = cameFrom[static_cast<size_t>(back)]) way.push_back(back);
        way.push_back(start);
        std::reverse(way.begin(), way.end());
        return way;
      }
      if (told[static_cast<size_t>(next)] || cameFrom[static_cast<size_t>(next)] >= 0) continue;
      cameFrom[static_cast<size_t>(next)] = at;
      open.push_back(next);
    }
  }
  return {};
}

}  // namespace

std::vector<std::string> combinationalLoops(const Logic& logic) {
  const Dependences graph = dependencesOf(logic);
  std::vector<std::string> loops;
  std::vector<bool> told(graph.names.size(), false);
  for (size_t start = 0; start < graph.names.size(); ++start) {
    if (told[start]) continue;
    const std::vector<int> way = loopThrough(graph, static_cast<int>(start), told);
    std::string text;
    for (const int signal : way) {
      told[static_cast<size_t>(signal)] = true;
      text += (text.empty() ? "" : " -> ") + graph.names[static_cast<size_t>(signal)];
    }
    if (!text.empty()) loops.push_back(text);
  }
  return loops;
}

}  // namespace ww::equipment
