// SPDX-License-Identifier: GPL-3.0-or-later
// Room operation: what a call makes the installation do - relays pulling in,
// boards timing, the settled end state - and the table of what it must do.
// Must not know findings, checklists or sentences.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "asbuilt/stamp.h"
#include "operation/logic_run.h"

namespace ww::operation {

/// Something that changed during a run.
struct Event {
  Millis at = 0;
  int unit = 0;      ///< index into AsBuilt::units
  std::string name;  ///< a logic signal of the unit, or a coil, contact, input, supply or thermal element
  bool on = false;
};

/// How a run ended: nothing moves any more; it would go round if all coils were equally quick, but rests when
/// one is quicker (one such end is shown); coils move in and out without end; it goes round slowly (a board
/// that tries again); the limit of time or events was reached.
enum class RunEnd { settled, race, chatter, periodic, limit };

/// The installation in motion: electric state and all logic at one moment. Copying it copies the moment.
///
/// At one instant every starting coil stands at inrush; all that reach their typical pull-in move together to
/// sealed, and the circuit is solved again until none moves. Contacts follow their logic after their
/// operating time and make a new instant. A coil that is in and falls below its drop-out in the dip of a
/// start lets go with it. Supplies cut out and come back with hysteresis; a fuse that carries more than 1.35
/// times its rating once the coils have settled melts before any supply lets go. Chatter is what goes round
/// in less than two seconds and moves a coil, a contact or a supply.
class Machine {
 public:
  explicit Machine(const asbuilt::AsBuilt& circuit, asbuilt::Conditions conditions = {});

  /// Switches the power on with these facts and runs until nothing moves any more.
  RunEnd powerUp(const Facts& facts);
  /// Changes the facts now and runs until nothing moves any more, a state repeats, or the limit is reached.
  RunEnd run(const Facts& facts);

  Millis now() const { return now_; }
  const asbuilt::Positions& positions() const { return positions_; }
  const Senses& senses() const { return senses_; }
  const LogicRun& logic(int unit) const { return logic_[size_t(unit)]; }
  const circuit::Solver<circuit::Phasor>& solver() const { return solver_; }
  const std::vector<Event>& events() const { return events_; }  ///< of the last run
  bool collapsed() const { return collapsed_; }                 ///< supplies found no operating point
  const std::vector<char>& late() const { return late_; }       ///< coils in only after others, by device
  const std::vector<char>& moved() const { return moved_; }     ///< coils that moved in the repeating part
  /// Fuses blown since the start with the amps that did it, by device; 0: whole.
  const std::vector<double>& meltingAmps() const { return meltingAmps_; }
  const std::vector<char>& marginalInput() const {
    return marginalInput_;
  }                                ///< inputs between the thresholds
  double volts(int device) const;  ///< magnitude across it
  double amps(int device) const;

 private:
  /// How the installation stood at one instant.
  struct Moment {
    std::vector<Millis> full;
    std::vector<Millis> brief;  ///< without the clocks that strike much later
    size_t events;              ///< logged until then
    Millis at;
  };

  template <class Part>
  const Part* part(size_t device) const {
    return std::get_if<Part>(&circuit_->devices[device].part);
  }
  void instant();
  void settleElectrics();
  bool meltFuses();
  bool pullInRound(int round);
  bool cutSupplies();
  bool cutWeakestSupply();
  bool dropOut();
  void readSenses();
  bool updateSupplyLoad();
  void scheduleContacts();
  bool moveDueContacts();
  void warm(Millis elapsed);
  std::optional<Millis> nextEvent() const;
  std::optional<Millis> thermalDue(size_t i) const;
  RunEnd advance();
  Moment moment() const;
  std::optional<RunEnd> repeated();
  bool markMoved(size_t from);
  bool tryOrders();
  Millis operatingTime(size_t contact) const;
  void log(size_t device, bool on);
  void logSignals();
  void solve();

  const asbuilt::AsBuilt* circuit_;
  asbuilt::Conditions conditions_;
  circuit::Solver<circuit::Phasor> solver_;
  asbuilt::Positions positions_;
  std::optional<asbuilt::Positions> solvedFor_;  ///< what the solver's volts belong to
  Senses senses_;
  std::vector<LogicRun> logic_;
  std::vector<Millis> contactDue_;  ///< by device; kNever: not moving
  std::vector<double> warmth_;      ///< thermal elements, 0 cold .. 1 closed
  std::vector<char> late_, moved_, marginalInput_;
  std::vector<double> meltingAmps_;
  std::vector<std::vector<char>> loggedSignals_;
  std::vector<Event> events_;
  std::vector<Moment> moments_;  ///< of this run
  Millis now_ = 0;
  bool collapsed_ = false;
  int quickest_ = -1;        ///< the coil whose contacts move before all others; -1: none
  bool oscillates_ = false;  ///< some logic never settled within one instant
};

/// Where every contact and fuse stands before power comes: normally closed ones closed, fuses whole,
/// primaries connected.
asbuilt::Positions unpowered(const asbuilt::AsBuilt& circuit);

}  // namespace ww::operation
