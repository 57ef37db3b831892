// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "asbuilt/as_built.h"
#include "operation/call_name.h"
#include "operation/call_result.h"
#include "operation/event.h"

namespace ww::operation {

/// A time to the next strike (-1: none) as a word of a fingerprint: below zero, where nothing else is.
inline Millis printOfTime(Millis left) { return -2 - left; }

/// What a unit's logic can observe of the electric side, by device index.
struct Senses {
  std::vector<char> seen;              ///< inputs
  std::vector<char> pulledIn;          ///< coils
  std::vector<char> powered;           ///< coils that hold their drop-out volts
  std::vector<char> hot;               ///< thermal elements
  std::vector<char> closed;            ///< contacts
  std::vector<char> supplyOn;          ///< supplies
  std::vector<std::string> running{};  ///< duties that some unit runs, for units that prove air or water
};

/// Facts from outside a circuit. A world fact that is not overridden has the profile's default.
struct Facts {
  std::string call = "rest";  ///< what the control is asked for; "zone2.heat1" speaks to the second control
  std::map<std::pair<sheet::UnitId, std::string>, bool> world;  ///< overrides by unit and fact
  /// A proving run: room controls do not wait, but for what is marked hard (a compressor's off time above
  /// all). Boards cannot be hurried.
  bool forced = false;
};

/// One unit's logic in motion. All memory is in the timers and signals; copying it copies the moment, what
/// never changes is shared.
class LogicRun {
 public:
  /// `controlNumber`: 1-based among several room controls, 0 when the unit is the only one or no control.
  LogicRun(const asbuilt::AsBuilt& circuit, int unit, int controlNumber);

  /// True when some fact is not what it was.
  bool setFacts(const Facts& facts);
  /// Power comes (or came back): timers counted from power-up start now.
  void powerUp(Millis now);
  /// Evaluates all statements until nothing changes. False when they never settle (an oscillation). Once it
  /// has settled, only other facts, power, senses, or a timer that strikes make another answer.
  bool evaluate(Millis now, const Senses& senses);
  /// Whether a timer has struck since the last evaluate.
  bool strikes(Millis now) const { return soonest_ <= now; }
  /// Value of a loose expression (duty, contact, relay) at the moment of the last evaluate.
  bool value(int expression) const { return values_[static_cast<size_t>(expression)] != 0; }
  bool signal(std::string_view name) const;
  const std::vector<std::string>& signalNames() const { return programme_->names; }
  const std::vector<char>& signals() const { return signals_; }
  /// The next moment at which a timer changes something; nothing when none is running.
  std::optional<Millis> due(Millis now) const;
  /// All memory relative to now, for comparing moments: as many words every time. Words below zero are times
  /// to the next strike, see printOfTime.
  void appendPrint(Millis now, std::vector<Millis>& print) const;
  /// Whether an expression looks at a coil, itself or through signals.
  bool listensTo(int expression, int coil) const;
  /// Whether the unit has line voltage.
  bool line() const { return line_; }
  /// Whether it looks at the duties of other units.
  bool proves() const { return programme_->proves; }
  /// Statements evaluated since it was made, all passes counted: a work counter that knows no clock.
  std::int64_t work() const { return work_; }

 private:
  struct Timer {
    bool input = false;
    bool output = false;
    int count = 0;     ///< tally
    Millis since;      ///< of the input's last change (delays) or the output's (min times)
    Millis total = 0;  ///< ran
    Millis due;        ///< when it strikes, as of the last evaluate; kNone: does not
  };
  /// What the evaluation needs of every node, close together. A node stands after its arguments.
  struct Node {
    equipment::Op op;
    int target;                    ///< device, or signal index; -1: none
    int firstArgument, arguments;  ///< in arguments
    int timer = -1;                ///< of those that remember
    int owner = -1;                ///< signal that a minOn or minOff guards
    Millis wait = 0, hurried = 0;  ///< seconds of a timer; the same in a forced run
  };
  /// A statement, or an expression outside of all: nodes from .. to.
  struct Root {
    int from, to;
    int signal = -1, signals = 0;
  };
  /// What of a unit's logic never changes.
  struct Programme {
    Programme(const asbuilt::AsBuilt& circuit, int unit);
    void readNodes(const asbuilt::AsBuilt& circuit, int unit);
    void readRoots(const equipment::Profile& profile);
    Root rootOf(int expression) const;

    const equipment::Logic* logic;   ///< of the unit's profile, which the circuit holds
    std::vector<std::string> names;  ///< signals
    std::vector<Node> nodes;
    std::vector<int> arguments;
    std::vector<Root> roots;    ///< statements, then the others
    std::vector<int> told;      ///< nodes that a fact decides
    std::vector<int> memory;    ///< nodes that remember
    std::vector<char> settled;  ///< by node: constants and settings
    int supply = -1;            ///< the unit's supply device
    int timers = 0;
    bool proves = false;
  };

  const equipment::LogicNode& source(size_t index) const { return programme_->logic->nodes[index]; }
  bool compute(size_t index, Millis now, const Senses& senses);
  Millis wait(const Node& node) const { return hurried_ ? node.hurried : node.wait; }
  bool delay(const Node& node, Timer& timer, bool input, Millis now) const;
  bool minimum(const Node& node, Timer& timer, Millis now) const;
  bool memory(size_t index, const Node& node, Timer& timer, Millis now, const Senses& senses) const;
  Millis dueOf(size_t index, Millis now) const;
  bool settle(Millis now, const Senses& senses);

  const asbuilt::AsBuilt* circuit_;
  std::shared_ptr<const Programme> programme_;
  int unit_;
  int controlNumber_;
  bool line_ = true;
  bool hurried_ = false;        ///< a room control in a forced run
  std::vector<char> constant_;  ///< by node: facts and settings, fixed during a run
  std::vector<char> signals_;
  std::vector<char> values_;  ///< by node
  std::vector<Timer> timers_;
  Millis soonest_;
  std::int64_t work_ = 0;
};

}  // namespace ww::operation
