// SPDX-License-Identifier: GPL-3.0-or-later
// Room operation: what a call makes the installation do - relays pulling in,
// boards timing, the settled end state - and the table of what it must do.
// Must not know findings, checklists or sentences.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "asbuilt/stamp.h"
#include "operation/call_result.h"
#include "operation/event.h"
#include "operation/logic_run.h"
#include "operation/roster.h"
#include "operation/work.h"

namespace ww::operation {

/// How a run ended: nothing moves any more; it would go round if all coils were equally quick, but rests when
/// one is quicker (one such end is shown); coils move in and out without end; it goes round slowly (a board
/// that tries again); the limit of time or events was reached.
enum class RunEnd { settled, race, chatter, periodic, limit };

/// A fuse or a primary link that opened.
struct Melting {
  double amps = 0;          ///< that did it (secondary amps for a link); 0: whole
  double afterSeconds = 0;  ///< of such current
  MeltCause cause = MeltCause::overload;
};

/// One way a race can end: the coil that was quickest and where everything stands then.
struct RaceOutcome {
  int quickest = 0;  ///< device
  asbuilt::Positions positions;
  std::vector<std::pair<int, int>> duties;  ///< that run then: unit, index into its profile's duties
};

/// The installation in motion: electric state and all logic at one moment. Copying it copies the moment.
///
/// At one instant every starting coil stands at inrush; all that reach their typical pull-in move together to
/// sealed, and the circuit is solved again until none moves. Contacts follow their logic after their
/// operating time and make a new instant. A coil that is in and falls below its drop-out in the dip of a
/// start lets go with it. Supplies cut out and come back with hysteresis. Fuses and primary links warm up
/// with what they carry over time and cool down when it is less; what would melt within 0.6 s melts at once,
/// before any supply lets go. Chatter is what goes round in less than two seconds and moves a coil, a contact
/// or a supply.
///
/// Overrides among the conditions hold contacts and armatures where they say; a bridge takes a plan of its
/// own, made once with the machine.
class Machine {
 public:
  explicit Machine(const asbuilt::AsBuilt& circuit, asbuilt::Conditions conditions = {});

  /// Switches the power on with these facts and runs until nothing moves any more.
  RunEnd powerUp(const Facts& facts);
  /// Changes the facts now and runs until nothing moves any more, a state repeats, or the limit is reached.
  RunEnd run(const Facts& facts);
  /// Changes what the installation is like and keeps where it stands; the next run shows what becomes of it.
  void setConditions(asbuilt::Conditions conditions);
  const asbuilt::Conditions& conditions() const { return conditions_; }

  Millis now() const { return now_; }
  const asbuilt::Positions& positions() const { return positions_; }
  const Senses& senses() const { return senses_; }
  const LogicRun& logic(int unit) const { return logic_[size_t(unit)]; }
  const circuit::Solver<circuit::Phasor>& solver() const { return solver_; }
  const std::vector<Event>& events() const { return events_; }  ///< of the last run
  /// A supply is out because there is no operating point with it.
  bool collapsed() const;
  /// Supplies that let go in the last run, by device, whether or not they came back.
  const std::vector<char>& letGo() const { return letGo_; }
  const std::vector<char>& late() const { return late_; }    ///< coils in only after others, by device
  const std::vector<char>& moved() const { return moved_; }  ///< what moved in the repeating part
  /// Of a run that goes round: the time from one state to the same again; 0: none.
  Millis period() const { return period_; }
  /// Every end that a race can have, each once; the first is where the machine stands.
  const std::vector<RaceOutcome>& outcomes() const { return outcomes_; }
  /// Fuses and primary links that opened since the start, by device.
  const std::vector<Melting>& melted() const { return melted_; }
  const std::vector<asbuilt::Hold>& holds() const { return holds_; }
  const Roster& roster() const { return *roster_; }
  const asbuilt::Stamp& stamp() const { return stamp_; }
  /// What it has done so far, and what that of which it is a copy had done.
  Work work() const;
  /// Duties that run: unit, index into its profile's duties.
  std::vector<std::pair<int, int>> runningDuties() const;
  /// Gives up the events and moments of the last run, so that copies are small.
  void forget();
  const std::vector<char>& marginalInput() const {
    return marginalInput_;
  }                                   ///< inputs between the thresholds
  double volts(int device) const;     ///< magnitude across it
  double ownVolts(int device) const;  ///< the same without a poor joint inside it
  double amps(int device) const;

 private:
  /// How the installation stood at one instant.
  struct Moment {
    size_t print;   ///< where its fingerprints begin
    size_t events;  ///< logged until then
    Millis at;
  };

  template <class Part>
  const Part* part(size_t device) const {
    return std::get_if<Part>(&circuit_->devices[device].part);
  }
  size_t unitOf(size_t device) const { return size_t(circuit_->devices[device].unit); }
  void instant();
  bool evaluateLogic();
  /// Takes a sense down; the logic of the device's unit looks again when it is another.
  void sense(std::vector<char>& senses, size_t device, bool value) {
    if ((senses[device] != 0) == value) return;
    senses[device] = value;
    looks_[unitOf(device)] = 1;
  }
  // machine_electrics.cpp
  void solve();
  void settleElectrics();
  bool pullInRound(int round);
  bool dropOut();
  bool cutSupplies();
  bool feeds(size_t device) const;
  void setSupply(size_t device, bool on);
  bool updateSupplyLoad();
  // machine_fuses.cpp
  double meltingSeconds(size_t device) const;
  bool meltQuickFuses();
  bool meltDueFuses();
  void melt(size_t device);
  MeltCause causeOf(size_t device);
  void warmFuses(double seconds);
  std::optional<Millis> meltingDue(size_t device) const;

  void readHalfWaves();
  void readSenses();
  bool readRunning();
  void scheduleContacts();
  bool moveDueContacts();
  void warm(Millis elapsed);
  std::optional<Millis> nextEvent() const;
  double thermalVolts(size_t device) const;
  std::optional<Millis> thermalDue(size_t i) const;
  RunEnd advance();
  // machine_end.cpp
  Moment moment();
  enum class Likeness { other, brief, full };
  Likeness likeness(const Moment& present, const Moment& before) const;
  std::optional<RunEnd> repeated();
  bool markMoved(size_t from);
  bool tryOrders();
  Millis operatingTime(size_t contact) const;
  void log(size_t device, bool on);
  void logSignals();

  const asbuilt::AsBuilt* circuit_;
  std::shared_ptr<const Roster> roster_;
  asbuilt::Conditions conditions_;
  circuit::Solver<circuit::Phasor> solver_;
  asbuilt::Stamp stamp_;
  asbuilt::Positions positions_;
  std::optional<asbuilt::Positions> solvedFor_;  ///< what the solver's volts belong to
  Senses senses_;
  std::vector<LogicRun> logic_;
  std::vector<char> looks_;         ///< by unit: its logic is to be evaluated
  std::vector<char> evaluated_;     ///< by unit, in this instant
  std::vector<Millis> contactDue_;  ///< by device; kNever: not moving
  std::vector<double> warmth_;      ///< thermal elements, 0 cold .. 1 closed; fuses and links, 1 melted
  std::vector<char> late_, moved_, marginalInput_, letGo_;
  std::vector<char> noPoint_;        ///< supplies that are out for want of an operating point
  std::vector<double> overSeconds_;  ///< that a fuse or link has carried more than it holds, until it is cool
  std::vector<Melting> melted_;
  std::vector<asbuilt::Hold> holds_;
  std::vector<size_t> halfWaveRelays_;  ///< devices
  std::vector<std::vector<char>> loggedSignals_;
  std::vector<Event> events_;
  std::vector<Moment> moments_;  ///< of this run
  std::vector<Millis> prints_;   ///< fingerprints of all moments, one after the other and all of one length
  std::vector<std::string> running_;  ///< memory for readRunning
  std::int64_t rounds_ = 0;
  Millis now_ = 0;
  Millis period_ = 0;
  std::vector<RaceOutcome> outcomes_;
  int quickest_ = -1;        ///< the coil whose contacts move before all others; -1: none
  bool proves_ = false;      ///< some unit's logic asks what the others run
  bool oscillates_ = false;  ///< some logic never settled within one instant
};

/// Where every contact and fuse stands before power comes: normally closed ones closed, fuses whole,
/// primaries connected; what the overrides hold stands where they hold it.
asbuilt::Positions unpowered(const asbuilt::AsBuilt& circuit,
                             const std::vector<asbuilt::Override>& overrides = {});

/// Solves; where no operating point exists, the supplies let go, the one with the fewest volts first, until
/// the rest can be carried. `positions` has them out then; returns how many.
int solveLettingGo(const asbuilt::AsBuilt& circuit, const asbuilt::Stamp& stamp,
                   asbuilt::Positions& positions, circuit::Solver<circuit::Phasor>& solver);
/// The supply that is on and has the fewest volts in the state solved without any; of equal volts, however
/// they were rounded, the one with the most ohms before it, then the first. -1: none is on.
int weakestSupply(const asbuilt::AsBuilt& circuit, const asbuilt::Positions& positions,
                  circuit::Solver<circuit::Phasor>& solver);

}  // namespace ww::operation
