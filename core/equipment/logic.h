// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "quantity/loaded.h"

namespace ww::equipment {

/// What one node of a logic expression does. All state lives in timers, latches and tallies.
enum class Op {
  constant,  ///< number != 0
  signal,    ///< a name assigned by a statement of the same unit
  seen,      ///< seen(T): input T above its threshold, with memory between the thresholds
  in,        ///< in(K): coil K pulled in
  powered,   ///< powered(K): coil K holds at least its drop-out volts (a gas valve is open)
  hot,       ///< hot(H): thermal element H closed
  shut,      ///< shut(S): switch S closed
  live,      ///< live(P): supply P above its lock-out
  line,      ///< line voltage at the unit
  world,     ///< world.x: outside fact
  call,      ///< call.x: what the room control is asked for
  duty,      ///< duty.x: some unit of the installation runs duty x
  setting,   ///< key=value: a setting has that value
  negation,
  conjunction,
  disjunction,
  onDelay,   ///< x on t: true after x was true for t s
  offDelay,  ///< x off t: stays true t s after x fell
  minOn,     ///< minOn(t): the statement's output has been on for t s, or is off
  minOff,    ///< minOff(t): the statement's output has been off for t s, or is on; counted from power-up too
  latch,     ///< latch(set; reset): reset wins
  tally,     ///< tally(x, n; reset): true after n rises of x
  ran,       ///< ran(x, s; reset): true after x was true for s seconds in total
  first      ///< first(a; b): who came first keeps it; yields one signal per argument
};

/// One node; arguments are indices into Logic::nodes.
struct LogicNode {
  Op op = Op::constant;
  std::string name;   ///< signal, input, part, fact or setting key; minOn/minOff: the output they guard
  std::string value;  ///< right side of a setting comparison
  double number = 0;  ///< seconds, count, or the constant
  bool hard = false;  ///< a timer never skipped in a forced run
  bool keep = false;  ///< a latch that survives loss of supply
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

/// Bounds of the language; beyond them a text is refused.
inline constexpr size_t kMaxLogicText = 2000;   ///< bytes of one statement or expression
inline constexpr int kMaxLogicDepth = 32;       ///< brackets, negations and calls inside each other
inline constexpr size_t kMaxLogicNodes = 4000;  ///< nodes of one unit
inline constexpr size_t kMaxFirst = 4;          ///< arguments of first(...)
inline constexpr double kMaxLogicSeconds = 1e6;

/// Parses `name := expression` and appends it. Problems carry the given place, the first one of each text:
/// "logic-syntax" {position, found, want}, "logic-unknown-function" {position, found, known},
/// "logic-number" {position, found, least, most}, "logic-reserved-name" {position, found},
/// "logic-assigned-twice" {name}, "logic-own-output" {position, found}, "logic-first-names" {names,
/// arguments}, "logic-first-place" {position}, "logic-hard-without-timer" {position}, "logic-too-deep"
/// {position, limit}, "logic-too-long" {bytes, limit}, "logic-too-large" {limit}. After one of them the logic
/// is as it was.
///
///     statement  := name {"," name} ":=" expression ["hard"]
///     expression := conjunction {"|" conjunction}
///     conjunction:= delayed {"&" delayed}
///     delayed    := unary {("on" | "off") seconds ["hard"]}
///     unary      := "!" unary | "(" expression ")" | function | atom
///
/// Delays bind tighter than & and |: `a off 15 | b` is `(a off 15) | b`. A `hard` at the end of a statement
/// that no delay took makes every timer of the statement hard. Atoms: `live` (the only supply of the unit),
/// `live(P)`, `line`, `world.x`, `call.x`, `duty.x`, `key=value`, `true`, `false`, a signal's name.
/// Functions: seen in powered hot shut minOn minOff latch tally ran first.
void parseStatement(std::string_view text, const std::string& where, Logic& logic,
                    quantity::Problems& problems);

/// Parses one expression and appends it; returns its node, or -1 with problems. minOn, minOff and first need
/// a statement and are refused here.
int parseExpression(std::string_view text, const std::string& where, Logic& logic,
                    quantity::Problems& problems);

/// Signals that depend on themselves without an on-delay, latch, tally, ran or first between; an off-delay
/// passes a rise at once and breaks nothing. minOn and minOff look at what their own output did, not at what
/// it becomes, and make no dependence. Empty for sound logic. Each entry is one loop, "a -> b -> a", the
/// shortest through its first signal in statement order.
std::vector<std::string> combinationalLoops(const Logic& logic);

}  // namespace ww::equipment
