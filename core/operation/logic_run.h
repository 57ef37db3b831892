// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "asbuilt/as_built.h"
#include "operation/call_name.h"

namespace ww::operation {

/// Time in a run, whole milliseconds from power-up.
using Millis = std::int64_t;

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

/// One unit's logic in motion. All memory is in the timers and signals; copying it copies the moment.
class LogicRun {
 public:
  /// `controlNumber`: 1-based among several room controls, 0 when the unit is the only one or no control.
  LogicRun(const asbuilt::AsBuilt& circuit, int unit, int controlNumber);

  void setFacts(const Facts& facts);
  /// Power comes (or came back): timers counted from power-up start now.
  void powerUp(Millis now);
  /// Evaluates all statements until nothing changes. False when they never settle (an oscillation).
  bool evaluate(Millis now, const Senses& senses);
  /// Value of a loose expression (duty, contact, relay) at the moment of the last evaluate.
  bool value(int expression) const { return values_[static_cast<size_t>(expression)] != 0; }
  bool signal(std::string_view name) const;
  const std::vector<std::string>& signalNames() const { return names_; }
  const std::vector<char>& signals() const { return signals_; }
  /// The next moment at which a timer changes something; nothing when none is running.
  std::optional<Millis> due(Millis now) const;
  /// All memory relative to now, for comparing moments; and the same with what strikes later than the horizon
  /// (from now) counted as far away.
  void appendFingerprints(Millis now, Millis horizon, std::vector<Millis>& full,
                          std::vector<Millis>& brief) const;
  /// Whether an expression looks at a coil, itself or through signals.
  bool listensTo(int expression, int coil) const;
  /// Whether the unit has line voltage.
  bool line() const { return line_; }

 private:
  struct Timer {
    bool input = false;
    bool output = false;
    Millis since;      ///< of the input's last change (delays) or the output's (min times)
    Millis total = 0;  ///< ran
    int count = 0;     ///< tally
  };
  /// What the evaluation needs of every node, close together.
  struct Node {
    equipment::Op op;
    int target;                    ///< device, or signal index; -1: none
    int firstArgument, arguments;  ///< in arguments_
  };
  const equipment::LogicNode& source(size_t index) const { return logic_->nodes[index]; }
  bool compute(int index, int owner, Millis now, const Senses& senses);
  Millis wait(const equipment::LogicNode& node) const;
  bool delay(const equipment::LogicNode& node, Timer& timer, bool input, Millis now) const;
  bool minimum(const equipment::LogicNode& node, Timer& timer, int owner, Millis now) const;
  bool memory(const equipment::LogicNode& node, Timer& timer, const bool* args, Millis now,
              const Senses& senses) const;
  std::optional<Millis> dueOf(size_t index, Millis now) const;
  bool settle(Millis now, const Senses& senses);

  const asbuilt::AsBuilt* circuit_;
  const equipment::Logic* logic_;  ///< of the unit's profile, which the circuit holds
  int unit_;
  int controlNumber_;
  int supply_ = -1;  ///< the unit's supply device
  bool line_ = true;
  bool hurried_ = false;            ///< a room control in a forced run
  std::vector<std::string> names_;  ///< signals
  std::vector<Node> nodes_;
  std::vector<int> arguments_;
  std::vector<char> constant_;  ///< by node: facts and settings, fixed during a run
  std::vector<char> signals_;
  std::vector<char> values_;   ///< by node
  std::vector<Timer> timers_;  ///< by node
  std::vector<int> memory_;    ///< nodes that use theirs
  std::vector<int> loose_;     ///< roots outside statements
};

}  // namespace ww::operation
