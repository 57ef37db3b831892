// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/logic_run.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace ww::operation {

namespace {

using equipment::LogicNode;
using equipment::Op;

constexpr Millis kLongAgo = -1'000'000'000'000;
constexpr Millis kNotRunning = -1, kFarAway = -2;
constexpr int kRounds = 64;
constexpr int kMostArguments = 4;

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

LogicRun::LogicRun(const asbuilt::AsBuilt& circuit, int unit, int controlNumber)
    : circuit_(&circuit),
      logic_(&circuit.units[size_t(unit)].profile->logic),
      unit_(unit),
      controlNumber_(controlNumber) {
  const equipment::Profile& profile = *circuit.units[size_t(unit)].profile;
  for (const auto& statement : logic_->statements)
    names_.insert(names_.end(), statement.names.begin(), statement.names.end());
  // The devices of a unit stand together.
  size_t first = 0;
  while (first < circuit.devices.size() && circuit.devices[first].unit != unit) ++first;
  const auto isOwn = [&](size_t i) { return i < circuit.devices.size() && circuit.devices[i].unit == unit; };
  const auto deviceNamed = [&](const std::string& name) {
    for (size_t i = first; isOwn(i); ++i)
      if (circuit.element(circuit.devices[i]).id == name) return int(i);
    return -1;
  };
  for (size_t i = first; isOwn(i) && supply_ < 0; ++i)
    if (equipment::isSupply(circuit.devices[i].part)) supply_ = int(i);
  const auto targetOf = [&](const LogicNode& node) {
    if (node.op == Op::signal)
      return int(std::find(names_.begin(), names_.end(), node.name) - names_.begin());
    if (node.op == Op::live && node.name.empty()) return supply_;
    return node.name.empty() ? -1 : deviceNamed(node.name);
  };
  for (const LogicNode& node : logic_->nodes) {
    if (remembers(node.op)) memory_.push_back(int(nodes_.size()));
    nodes_.push_back({node.op, targetOf(node), int(arguments_.size()), int(node.args.size())});
    arguments_.insert(arguments_.end(), node.args.begin(), node.args.end());
  }
  signals_.assign(names_.size(), 0);
  values_.assign(nodes_.size(), 0);
  timers_.assign(nodes_.size(), Timer{false, false, kLongAgo, 0, 0});
  constant_.assign(nodes_.size(), 0);
  for (const auto& duty : profile.duties) loose_.push_back(duty.running);
  for (const auto& call : profile.calls)
    if (call.offered >= 0) loose_.push_back(call.offered);
  for (const auto& element : profile.elements) {
    if (element.closedBy >= 0) loose_.push_back(element.closedBy);
    loose_.insert(loose_.end(), element.relays.begin(), element.relays.end());
  }
  setFacts({});
}

void LogicRun::setFacts(const Facts& facts) {
  const auto& placed = circuit_->units[size_t(unit_)];
  const equipment::Profile& profile = *placed.profile;
  const auto line = facts.world.find({placed.id, "line"});
  line_ = line == facts.world.end() || line->second;
  hurried_ = facts.forced && profile.kind == equipment::Kind::roomControl;
  for (size_t i = 0; i < constant_.size(); ++i) {
    const LogicNode& node = profile.logic.nodes[i];
    switch (node.op) {
      case Op::constant: constant_[i] = node.number != 0; break;
      case Op::line: constant_[i] = line_; break;
      case Op::call: constant_[i] = asks(facts.call, node.name, controlNumber_); break;
      case Op::setting: {
        const auto value = placed.settings.find(node.name);
        constant_[i] = value != placed.settings.end() && value->second == node.value;
        break;
      }
      case Op::world: {
        const auto standard = profile.world.find(node.name);
        const auto changed = facts.world.find({placed.id, node.name});
        constant_[i] = changed != facts.world.end()
                           ? changed->second
                           : byCondition(node.name, facts.call)
                                 .value_or(standard != profile.world.end() && standard->second);
        break;
      }
      default: break;
    }
  }
}

void LogicRun::powerUp(Millis now) {
  for (const int i : memory_) {
    const LogicNode& node = source(size_t(i));
    if (node.op == Op::minOff) timers_[size_t(i)].since = now;
    if (node.op == Op::latch && !node.keep) timers_[size_t(i)].output = false;
  }
}

bool LogicRun::signal(std::string_view name) const {
  const auto at = std::find(names_.begin(), names_.end(), name);
  return at != names_.end() && signals_[size_t(at - names_.begin())];
}

bool LogicRun::evaluate(Millis now, const Senses& senses) {
  for (int round = 0; round < kRounds; ++round)
    if (!settle(now, senses)) return true;
  return false;
}

/// How long a timer takes in this run.
Millis LogicRun::wait(const LogicNode& node) const {
  const bool skipped = hurried_ && !node.hard && (isDelay(node.op) || isMinimum(node.op));
  return skipped ? 0 : millis(node.number);
}

/// One pass over all statements; true when a signal changed.
bool LogicRun::settle(Millis now, const Senses& senses) {
  bool changed = false;
  size_t next = 0;
  for (const auto& statement : logic_->statements) {
    const bool result = compute(statement.expression, int(next), now, senses);
    for (size_t k = 0; k < statement.names.size(); ++k, ++next) {
      // first(a; b) yields one signal per argument; its timer's count says which argument holds.
      const bool on =
          statement.names.size() == 1 ? result : timers_[size_t(statement.expression)].count == int(k) + 1;
      changed |= (signals_[next] != 0) != on;
      signals_[next] = on;
    }
  }
  for (const int root : loose_) compute(root, -1, now, senses);
  return changed;
}

bool LogicRun::compute(int index, int owner, Millis now, const Senses& senses) {
  const Node& node = nodes_[size_t(index)];
  std::array<bool, kMostArguments> args{};
  bool any = false;
  bool all = true;
  for (int k = 0; k < node.arguments; ++k) {
    // No short cut: every timer must see its input.
    const bool arg = compute(arguments_[size_t(node.firstArgument) + size_t(k)], owner, now, senses);
    if (k < kMostArguments) args[size_t(k)] = arg;
    any |= arg;
    all &= arg;
  }
  const auto of = [&](const std::vector<char>& sense) {
    return node.target >= 0 && sense[size_t(node.target)] != 0;
  };
  Timer& timer = timers_[size_t(index)];
  bool result = false;
  switch (node.op) {
    case Op::constant:
    case Op::line:
    case Op::world:
    case Op::call:
    case Op::setting: result = constant_[size_t(index)] != 0; break;
    case Op::signal: result = of(signals_); break;
    case Op::seen: result = of(senses.seen); break;
    case Op::in: result = of(senses.pulledIn); break;
    case Op::powered: result = of(senses.powered); break;
    case Op::hot: result = of(senses.hot); break;
    case Op::shut: result = of(senses.closed); break;
    case Op::live: result = of(senses.supplyOn); break;
    case Op::duty:
      result = std::find(senses.running.begin(), senses.running.end(), source(size_t(index)).name) !=
               senses.running.end();
      break;
    case Op::negation: result = !args[0]; break;
    case Op::conjunction: result = all; break;
    case Op::disjunction: result = any; break;
    case Op::onDelay:
    case Op::offDelay: result = delay(source(size_t(index)), timer, args[0], now); break;
    case Op::minOn:
    case Op::minOff: result = minimum(source(size_t(index)), timer, owner, now); break;
    case Op::latch:
    case Op::tally:
    case Op::ran:
    case Op::first: result = memory(source(size_t(index)), timer, args.data(), now, senses); break;
  }
  values_[size_t(index)] = result;
  return result;
}

bool LogicRun::delay(const LogicNode& node, Timer& timer, bool input, Millis now) const {
  if (input != timer.input) {
    timer.input = input;
    timer.since = now;
  }
  const bool elapsed = now - timer.since >= wait(node);
  return node.op == Op::onDelay ? input && elapsed : input || !elapsed;
}

bool LogicRun::minimum(const LogicNode& node, Timer& timer, int owner, Millis now) const {
  const bool output = owner >= 0 && signals_[size_t(owner)];
  if (output != timer.output) {
    timer.output = output;
    timer.since = now;
  }
  const bool elapsed = now - timer.since >= wait(node);
  return node.op == Op::minOff ? output || elapsed : !output || elapsed;
}

bool LogicRun::memory(const LogicNode& node, Timer& timer, const bool* args, Millis now,
                      const Senses& senses) const {
  switch (node.op) {
    case Op::latch: {
      const bool supplied = supply_ < 0 || senses.supplyOn[size_t(supply_)];
      timer.output = !args[1] && (timer.output || args[0]) && (supplied || node.keep);
      return timer.output;
    }
    case Op::tally:
      if (args[0] && !timer.input) ++timer.count;
      timer.input = args[0];
      if (args[1]) timer.count = 0;
      return timer.count >= int(node.number);
    case Op::ran:
      if (timer.input && !timer.output) timer.total += now - timer.since;
      timer.since = now;
      timer.input = args[0];
      timer.output = args[1];  // held at zero, it is not counting towards anything
      if (args[1]) timer.total = 0;
      return timer.total >= millis(node.number);
    default: {  // first
      const int holder = timer.count;
      if (holder == 0 || !args[holder - 1]) {
        timer.count = 0;
        for (int k = 0; k < int(node.args.size()) && timer.count == 0; ++k)
          if (args[k]) timer.count = k + 1;
      }
      return timer.count != 0;
    }
  }
}

std::optional<Millis> LogicRun::dueOf(size_t index, Millis now) const {
  const LogicNode& node = source(index);
  const Timer& timer = timers_[index];
  std::optional<Millis> at;
  if (isDelay(node.op) && timer.input == (node.op == Op::onDelay)) at = timer.since + wait(node);
  if (isMinimum(node.op) && timer.output == (node.op == Op::minOn)) at = timer.since + wait(node);
  if (node.op == Op::ran && timer.input && !timer.output && timer.total < millis(node.number))
    at = timer.since + millis(node.number) - timer.total;
  return at && *at > now ? at : std::nullopt;
}

std::optional<Millis> LogicRun::due(Millis now) const {
  std::optional<Millis> soonest;
  for (const int i : memory_)
    if (const auto at = dueOf(size_t(i), now); at && (!soonest || *at < *soonest)) soonest = at;
  return soonest;
}

bool LogicRun::listensTo(int expression, int coil) const {
  std::vector<char> known(nodes_.size(), 0);
  std::vector<int> open{expression};
  const auto add = [&](int node) {
    if (!known[size_t(node)]) open.push_back(node);
    known[size_t(node)] = 1;
  };
  while (!open.empty()) {
    const LogicNode& node = source(size_t(open.back()));
    const int target = nodes_[size_t(open.back())].target;
    open.pop_back();
    if ((node.op == Op::in || node.op == Op::powered) && target == coil) return true;
    for (const int argument : node.args) add(argument);
    if (node.op != Op::signal) continue;
    for (const auto& statement : logic_->statements)
      if (std::find(statement.names.begin(), statement.names.end(), node.name) != statement.names.end())
        add(statement.expression);
  }
  return false;
}

void LogicRun::appendFingerprints(Millis now, Millis horizon, std::vector<Millis>& full,
                                  std::vector<Millis>& brief) const {
  const auto both = [&](Millis value) {
    full.push_back(value);
    brief.push_back(value);
  };
  const auto remaining = [&](Millis left) {
    full.push_back(left);
    brief.push_back(left <= horizon ? left : kFarAway);
  };
  for (const char on : signals_) both(on);
  for (const int i : memory_) {
    const LogicNode& node = source(size_t(i));
    const Timer& timer = timers_[size_t(i)];
    both(timer.output);
    // What was counted beyond the number that matters makes no difference any more.
    both(node.op == Op::tally ? std::min(timer.count, int(node.number)) : timer.count);
    if (node.op == Op::ran) remaining(std::max<Millis>(0, millis(node.number) - timer.total));
    const auto at = dueOf(size_t(i), now);
    remaining(at ? *at - now : kNotRunning);
  }
}

}  // namespace ww::operation
