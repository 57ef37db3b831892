// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/logic_run.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <limits>

namespace ww::operation {

namespace {

using equipment::LogicNode;
using equipment::Op;

constexpr Millis kLongAgo = -1'000'000'000'000;
constexpr Millis kNone = std::numeric_limits<Millis>::max();
constexpr Millis kNotRunning = -1;
constexpr int kRounds = 64;

Millis millis(double seconds) { return static_cast<Millis>(std::llround(seconds * 1000)); }

bool isDelay(Op op) { return op == Op::onDelay || op == Op::offDelay; }
bool isMinimum(Op op) { return op == Op::minOn || op == Op::minOff; }

bool remembers(Op op) {
  return isDelay(op) || isMinimum(op) || op == Op::latch || op == Op::tally || op == Op::ran ||
         op == Op::first;
}

/// Whether `call` asks this control for `what`. To a unit that is no control among several, every zone's call
/// is the installation's.
bool asks(const std::string& call, const std::string& what, int controlNumber) {
  const CallParts parts = partsOf(call);
  if (parts.call != what) return false;
  return parts.group.empty() || controlNumber == 0 || parts.group == kAllZones ||
         parts.group == "zone" + std::to_string(controlNumber) + ".";
}

/// What a call's condition says of a fact; nothing where it says nothing.
std::optional<bool> byCondition(const std::string& fact, const std::string& call) {
  const auto condition = partsOf(call).condition;
  if (fact == kChangeoverFact && condition == kBelowChangeover) return true;
  if (fact == kOccupiedFact && condition == kUnoccupied) return false;
  return std::nullopt;
}

}  // namespace

LogicRun::Programme::Programme(const asbuilt::AsBuilt& circuit, int unit)
    : logic(&circuit.units[size_t(unit)].profile->logic) {
  for (const auto& statement : logic->statements)
    names.insert(names.end(), statement.names.begin(), statement.names.end());
  readNodes(circuit, unit);
  readRoots(*circuit.units[size_t(unit)].profile);
}

void LogicRun::Programme::readNodes(const asbuilt::AsBuilt& circuit, int unit) {
  // The devices of a unit stand together.
  size_t first = 0;
  while (first < circuit.devices.size() && circuit.devices[first].unit != unit) ++first;
  const auto isOwn = [&](size_t i) { return i < circuit.devices.size() && circuit.devices[i].unit == unit; };
  const auto deviceNamed = [&](const std::string& name) {
    for (size_t i = first; isOwn(i); ++i)
      if (circuit.element(circuit.devices[i]).id == name) return int(i);
    return -1;
  };
  for (size_t i = first; isOwn(i) && supply < 0; ++i)
    if (equipment::isSupply(circuit.devices[i].part)) supply = int(i);
  const auto targetOf = [&](const LogicNode& node) {
    if (node.op == Op::signal) return int(std::find(names.begin(), names.end(), node.name) - names.begin());
    if (node.op == Op::live && node.name.empty()) return supply;
    return node.name.empty() || node.op == Op::setting || node.op == Op::world || node.op == Op::call ||
                   node.op == Op::duty
               ? -1
               : deviceNamed(node.name);
  };
  const auto& settings = circuit.units[size_t(unit)].settings;
  nodes.reserve(logic->nodes.size());
  settled.assign(logic->nodes.size(), 0);
  for (const LogicNode& source : logic->nodes) {
    Node node{source.op, targetOf(source), int(arguments.size()), int(source.args.size())};
    arguments.insert(arguments.end(), source.args.begin(), source.args.end());
    if (remembers(source.op)) {
      node.timer = timers++;
      memory.push_back(int(nodes.size()));
    }
    if (isDelay(source.op) || isMinimum(source.op) || source.op == Op::ran) {
      node.wait = node.hurried = millis(source.number);
      if (source.op != Op::ran && !source.hard) node.hurried = 0;
    }
    char& constant = settled[nodes.size()];
    if (source.op == Op::constant) constant = source.number != 0;
    if (source.op == Op::setting) {
      const auto value = settings.find(source.name);
      constant = value != settings.end() && value->second == source.value;
    }
    if (source.op == Op::line || source.op == Op::world || source.op == Op::call)
      told.push_back(int(nodes.size()));
    proves |= source.op == Op::duty;
    nodes.push_back(node);
  }
}

/// An expression's nodes stand together, its own last.
LogicRun::Root LogicRun::Programme::rootOf(int expression) const {
  int from = expression;
  while (nodes[size_t(from)].arguments > 0) from = arguments[size_t(nodes[size_t(from)].firstArgument)];
  return {from, expression};
}

void LogicRun::Programme::readRoots(const equipment::Profile& profile) {
  int signal = 0;
  for (const auto& statement : logic->statements) {
    Root root = rootOf(statement.expression);
    root.signal = signal;
    root.signals = int(statement.names.size());
    for (int i = root.from; i <= root.to; ++i) nodes[size_t(i)].owner = signal;
    signal += root.signals;
    roots.push_back(root);
  }
  for (const auto& duty : profile.duties) roots.push_back(rootOf(duty.running));
  for (const auto& call : profile.calls)
    if (call.offered >= 0) roots.push_back(rootOf(call.offered));
  for (const auto& element : profile.elements) {
    if (element.closedBy >= 0) roots.push_back(rootOf(element.closedBy));
    for (const int relay : element.relays) roots.push_back(rootOf(relay));
  }
}

LogicRun::LogicRun(const asbuilt::AsBuilt& circuit, int unit, int controlNumber)
    : circuit_(&circuit),
      programme_(std::make_shared<const Programme>(circuit, unit)),
      unit_(unit),
      controlNumber_(controlNumber),
      constant_(programme_->settled),
      signals_(programme_->names.size()),
      values_(programme_->nodes.size()),
      timers_(size_t(programme_->timers), Timer{false, false, 0, kLongAgo, 0, kNone}),
      soonest_(kLongAgo) {
  setFacts({});
}

bool LogicRun::setFacts(const Facts& facts) {
  const auto& placed = circuit_->units[size_t(unit_)];
  const equipment::Profile& profile = *placed.profile;
  bool changed = false;
  const auto take = [&](bool& mine, bool value) {
    changed |= mine != value;
    mine = value;
  };
  const auto line = facts.world.find({placed.id, "line"});
  take(line_, line == facts.world.end() || line->second);
  take(hurried_, facts.forced && profile.kind == equipment::Kind::roomControl);
  for (const int i : programme_->told) {
    const LogicNode& node = source(size_t(i));
    bool constant = constant_[size_t(i)] != 0;
    if (node.op == Op::line) constant = line_;
    if (node.op == Op::call) constant = asks(facts.call, node.name, controlNumber_);
    if (node.op == Op::world) {
      const auto standard = profile.world.find(node.name);
      const auto told = facts.world.find({placed.id, node.name});
      constant = told != facts.world.end()
                     ? told->second
                     : byCondition(node.name, facts.call)
                           .value_or(standard != profile.world.end() && standard->second);
    }
    changed |= constant != (constant_[size_t(i)] != 0);
    constant_[size_t(i)] = constant;
  }
  if (changed) soonest_ = kLongAgo;
  return changed;
}

void LogicRun::powerUp(Millis now) {
  for (const int i : programme_->memory) {
    const Node& node = programme_->nodes[size_t(i)];
    if (node.op == Op::minOff) timers_[size_t(node.timer)].since = now;
    if (node.op == Op::latch && !source(size_t(i)).keep) timers_[size_t(node.timer)].output = false;
  }
  soonest_ = kLongAgo;
}

bool LogicRun::signal(std::string_view name) const {
  const auto& names = programme_->names;
  const auto at = std::find(names.begin(), names.end(), name);
  return at != names.end() && signals_[size_t(at - names.begin())];
}

bool LogicRun::evaluate(Millis now, const Senses& senses) {
  for (int round = 0; round < kRounds; ++round) {
    if (settle(now, senses)) continue;
    soonest_ = kNone;
    for (const int i : programme_->memory) {
      Millis& due = timers_[size_t(programme_->nodes[size_t(i)].timer)].due;
      due = dueOf(size_t(i), now);
      soonest_ = std::min(soonest_, due);
    }
    return true;
  }
  soonest_ = kLongAgo;
  return false;
}

/// One pass over all statements; true when a signal changed.
bool LogicRun::settle(Millis now, const Senses& senses) {
  bool changed = false;
  work_ += std::int64_t(programme_->roots.size());
  for (const Root& root : programme_->roots) {
    // No short cut: every timer must see its input.
    for (int i = root.from; i <= root.to; ++i) values_[size_t(i)] = compute(size_t(i), now, senses);
    for (int k = 0; k < root.signals; ++k) {
      // first(a; b) yields one signal per argument; its timer's count says which argument holds.
      const bool on = root.signals == 1
                          ? values_[size_t(root.to)] != 0
                          : timers_[size_t(programme_->nodes[size_t(root.to)].timer)].count == k + 1;
      char& signal = signals_[size_t(root.signal) + size_t(k)];
      changed |= (signal != 0) != on;
      signal = on;
    }
  }
  return changed;
}

bool LogicRun::compute(size_t index, Millis now, const Senses& senses) {
  const Node& node = programme_->nodes[index];
  const int* const arguments = programme_->arguments.data() + node.firstArgument;
  const auto argument = [&](int k) { return values_[size_t(arguments[k])] != 0; };
  const auto of = [&](const std::vector<char>& sense) {
    return node.target >= 0 && sense[size_t(node.target)] != 0;
  };
  switch (node.op) {
    case Op::constant:
    case Op::line:
    case Op::world:
    case Op::call:
    case Op::setting: return constant_[index] != 0;
    case Op::signal: return of(signals_);
    case Op::seen: return of(senses.seen);
    case Op::in: return of(senses.pulledIn);
    case Op::powered: return of(senses.powered);
    case Op::hot: return of(senses.hot);
    case Op::shut: return of(senses.closed);
    case Op::live: return of(senses.supplyOn);
    case Op::duty:
      return std::find(senses.running.begin(), senses.running.end(), source(index).name) !=
             senses.running.end();
    case Op::negation: return !argument(0);
    case Op::conjunction:
      for (int k = 0; k < node.arguments; ++k)
        if (!argument(k)) return false;
      return true;
    case Op::disjunction:
      for (int k = 0; k < node.arguments; ++k)
        if (argument(k)) return true;
      return false;
    case Op::onDelay:
    case Op::offDelay: return delay(node, timers_[size_t(node.timer)], argument(0), now);
    case Op::minOn:
    case Op::minOff: return minimum(node, timers_[size_t(node.timer)], now);
    case Op::latch:
    case Op::tally:
    case Op::ran:
    case Op::first: return memory(index, node, timers_[size_t(node.timer)], now, senses);
  }
  return false;
}

bool LogicRun::delay(const Node& node, Timer& timer, bool input, Millis now) const {
  if (input != timer.input) {
    timer.input = input;
    timer.since = now;
  }
  const bool elapsed = now - timer.since >= wait(node);
  return node.op == Op::onDelay ? input && elapsed : input || !elapsed;
}

bool LogicRun::minimum(const Node& node, Timer& timer, Millis now) const {
  const bool output = node.owner >= 0 && signals_[size_t(node.owner)];
  if (output != timer.output) {
    timer.output = output;
    timer.since = now;
  }
  const bool elapsed = now - timer.since >= wait(node);
  return node.op == Op::minOff ? output || elapsed : !output || elapsed;
}

bool LogicRun::memory(size_t index, const Node& node, Timer& timer, Millis now, const Senses& senses) const {
  const auto argument = [&](int k) {
    return values_[size_t(programme_->arguments[size_t(node.firstArgument) + size_t(k)])] != 0;
  };
  switch (node.op) {
    case Op::latch: {
      const bool supplied = programme_->supply < 0 || senses.supplyOn[size_t(programme_->supply)];
      timer.output = !argument(1) && (timer.output || argument(0)) && (supplied || source(index).keep);
      return timer.output;
    }
    case Op::tally:
      if (argument(0) && !timer.input) ++timer.count;
      timer.input = argument(0);
      if (argument(1)) timer.count = 0;
      return timer.count >= int(source(index).number);
    case Op::ran:
      if (timer.input && !timer.output) timer.total += now - timer.since;
      timer.since = now;
      timer.input = argument(0);
      timer.output = argument(1);  // held at zero, it is not counting towards anything
      if (argument(1)) timer.total = 0;
      return timer.total >= node.wait;
    default: {  // first
      const int holder = timer.count;
      if (holder == 0 || !argument(holder - 1)) {
        timer.count = 0;
        for (int k = 0; k < node.arguments && timer.count == 0; ++k)
          if (argument(k)) timer.count = k + 1;
      }
      return timer.count != 0;
    }
  }
}

Millis LogicRun::dueOf(size_t index, Millis now) const {
  const Node& node = programme_->nodes[index];
  const Timer& timer = timers_[size_t(node.timer)];
  Millis at = kNone;
  if (isDelay(node.op) && timer.input == (node.op == Op::onDelay)) at = timer.since + wait(node);
  if (isMinimum(node.op) && timer.output == (node.op == Op::minOn)) at = timer.since + wait(node);
  if (node.op == Op::ran && timer.input && !timer.output && timer.total < node.wait)
    at = timer.since + node.wait - timer.total;
  return at > now ? at : kNone;
}

std::optional<Millis> LogicRun::due(Millis now) const {
  if (soonest_ > now) return soonest_ == kNone ? std::nullopt : std::optional(soonest_);
  Millis soonest = kNone;
  for (const int i : programme_->memory) soonest = std::min(soonest, dueOf(size_t(i), now));
  return soonest == kNone ? std::nullopt : std::optional(soonest);
}

bool LogicRun::listensTo(int expression, int coil) const {
  const auto& nodes = programme_->nodes;
  std::vector<char> known(nodes.size(), 0);
  std::vector<int> open{expression};
  const auto add = [&](int node) {
    if (!known[size_t(node)]) open.push_back(node);
    known[size_t(node)] = 1;
  };
  while (!open.empty()) {
    const LogicNode& node = source(size_t(open.back()));
    const int target = nodes[size_t(open.back())].target;
    open.pop_back();
    if ((node.op == Op::in || node.op == Op::powered) && target == coil) return true;
    for (const int argument : node.args) add(argument);
    if (node.op != Op::signal) continue;
    for (const auto& statement : programme_->logic->statements)
      if (std::find(statement.names.begin(), statement.names.end(), node.name) != statement.names.end())
        add(statement.expression);
  }
  return false;
}

void LogicRun::appendPrint(Millis now, std::vector<Millis>& print) const {
  for (size_t i = 0; i < signals_.size(); i += sizeof(Millis)) {
    Millis word = 0;
    std::memcpy(&word, signals_.data() + i, std::min(sizeof word, signals_.size() - i));
    print.push_back(word);
  }
  for (const int i : programme_->memory) {
    const Node& node = programme_->nodes[size_t(i)];
    const Timer& timer = timers_[size_t(node.timer)];
    // What was counted beyond the number that matters makes no difference any more.
    const int count =
        node.op == Op::tally ? std::min(timer.count, int(source(size_t(i)).number)) : timer.count;
    print.push_back(Millis(count) << 1 | Millis(timer.output));
    if (node.op == Op::ran) {
      const Millis running = timer.input && !timer.output ? now - timer.since : 0;
      print.push_back(printOfTime(std::max<Millis>(0, node.wait - timer.total - running)));
    }
    print.push_back(printOfTime(timer.due > now && timer.due != kNone ? timer.due - now : kNotRunning));
  }
}

}  // namespace ww::operation
