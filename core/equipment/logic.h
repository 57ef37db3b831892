// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "quantity/loaded.h"

namespace ww::equipment {

/// What one node of a logic expression does. All state lives in timers, latches and tallies.
enum class Op {
  constant,   ///< number != 0
  signal,     ///< a name assigned by a statement of the same unit
  seen,       ///< seen(T): input T above its threshold, with memory between the thresholds
  in,         ///< in(K): coil K pulled in
  powered,    ///< powered(K): coil K holds at least its drop-out volts (a gas valve is open)
  hot,        ///< hot(H): thermal element H closed
  shut,       ///< shut(S): switch S closed
  live,       ///< live(P): supply P above its lock-out
  line,       ///< line voltage at the unit
  world,      ///< world.x: outside fact
  call,       ///< call.x: what the room control is asked for
  setting,    ///< key=value: a setting has that value
  negation, conjunction, disjunction,
  onDelay,    ///< x on t: true after x was true for t s
  offDelay,   ///< x off t: stays true t s after x fell
  minOn,      ///< minOn(t): the statement's output has been on for t s, or is off
  minOff,     ///< minOff(t): the statement's output has been off for t s, or is on; counted from power-up too
  latch,      ///< latch(set; reset): reset wins
  tally,      ///< tally(x, n; reset): true after n rises of x
  ran,        ///< ran(x, s; reset): true after x was true for s seconds in total
  first       ///< first(a; b): who came first keeps it; yields one signal per argument
};

/// One node; arguments are indices into Logic::nodes.
struct LogicNode {
  Op op = Op::constant;
  std::string name;      ///< signal, terminal, part, fact or setting key
  std::string value;     ///< right side of a setting comparison
  double number = 0;     ///< seconds, count, or the constant
  bool hard = false;     ///< a timer never skipped in a forced run
  bool keep = false;     ///< a latch that survives loss of supply
  std::vector<int> args;
  friend bool operator==(const LogicNode&, const LogicNode&) = default;
};

/// `names := expr`; more than one name only for first(...).
struct Statement {
  std::vector<std::string> names;
  int expression = -1;
  friend bool operator==(const Statement&, const Statement&) = default;
};

/// A unit's logic: statements are evaluated in order until nothing changes.
struct Logic {
  std::vector<LogicNode> nodes;
  std::vector<Statement> statements;
  friend bool operator==(const Logic&, const Logic&) = default;
};

/// Parses `name := expression` and appends it. Problems carry the given place.
///
///     statement  := name {"," name} ":=" expression ["hard"]
///     expression := conjunction {"|" conjunction}
///     conjunction:= delayed {"&" delayed}
///     delayed    := unary {("on" | "off") seconds ["hard"]}
///     unary      := "!" unary | "(" expression ")" | function | atom
///
/// Delays bind tighter than & and |: `a off 15 | b` is `(a off 15) | b`.
void parseStatement(std::string_view text, const std::string& where, Logic& logic, quantity::Problems& problems);

/// Parses one expression and appends it; returns its node, or -1 with problems.
int parseExpression(std::string_view text, const std::string& where, Logic& logic, quantity::Problems& problems);

/// Signals that depend on themselves without a timer, latch or tally between. Empty for sound logic.
/// Each entry is one loop, "a -> b -> a".
std::vector<std::string> combinationalLoops(const Logic& logic);

}  // namespace ww::equipment
