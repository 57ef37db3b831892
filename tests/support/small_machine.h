// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "operation/describe.h"
#include "support/small_units.h"

namespace ww::testing {

/// Small units compiled and under power. Elements are spoken of by name; when two units have an element of
/// the same name, the first unit's is meant.
class SmallMachine {
 public:
  explicit SmallMachine(const std::vector<SmallUnit>& units)
      : SmallMachine(sheetOf(units), libraryOf(units)) {}
  SmallMachine(const sheet::Sheet& sheet, const equipment::Library& library,
               asbuilt::Conditions conditions = {})
      : circuit_(asbuilt::compile(sheet, library)), machine_(circuit_, std::move(conditions)) {}
  SmallMachine(const SmallMachine&) = delete;  // the machine points into the circuit
  SmallMachine& operator=(const SmallMachine&) = delete;

  operation::RunEnd powerUp() { return run(true); }
  /// Overrides a fact of the first unit and runs to the end.
  operation::RunEnd with(const char* fact, bool holds, int unit = 0) {
    facts_.world[{circuit_.units[size_t(unit)].id, fact}] = holds;
    return run(false);
  }
  operation::RunEnd call(const char* name) {
    facts_.call = name;
    return run(false);
  }

  int device(std::string_view name) const {
    for (size_t i = 0; i < circuit_.devices.size(); ++i)
      if (circuit_.element(circuit_.devices[i]).id == name) return int(i);
    throw std::invalid_argument("no element " + std::string(name));
  }
  double volts(std::string_view name) const { return machine_.volts(device(name)); }
  double amps(std::string_view name) const { return machine_.amps(device(name)); }
  bool in(std::string_view coil) const { return machine_.positions().pulledIn[size_t(device(coil))] != 0; }
  bool closed(std::string_view contact) const {
    return machine_.positions().closed[size_t(device(contact))] != 0;
  }
  bool supplyOn(std::string_view supply) const {
    return machine_.positions().supplyOn[size_t(device(supply))] != 0;
  }
  bool late(std::string_view coil) const { return machine_.late()[size_t(device(coil))] != 0; }

  /// Seconds from the start of the last run to the first event of that name and kind; -1 when there was none.
  double when(std::string_view name, bool on) const {
    for (const auto& event : machine_.events())
      if (event.name == name && event.on == on) return double(event.at - start_) / 1000;
    return -1;
  }
  int times(std::string_view name, bool on) const {
    int count = 0;
    for (const auto& event : machine_.events()) count += event.name == name && event.on == on;
    return count;
  }
  operation::CoilState coilState(std::string_view name) const {
    operation::CallResult result;
    operation::describe(circuit_, machine_, end_, {}, result);
    for (const auto& coil : result.coils)
      if (coil.part == name) return coil.state;
    throw std::invalid_argument("no coil " + std::string(name));
  }

  const operation::Machine& machine() const { return machine_; }
  const asbuilt::AsBuilt& circuit() const { return circuit_; }

 private:
  operation::RunEnd run(bool powerUp) {
    start_ = machine_.now();
    return end_ = powerUp ? machine_.powerUp(facts_) : machine_.run(facts_);
  }

  asbuilt::AsBuilt circuit_;
  operation::Machine machine_;
  operation::Facts facts_;
  operation::RunEnd end_ = operation::RunEnd::settled;
  operation::Millis start_ = 0;
};

}  // namespace ww::testing
