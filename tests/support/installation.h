// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <gtest/gtest.h>

#include "operation/machine.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"

namespace ww::testing {

inline sheet::Sheet sheetOf(const std::string& csv) {
  const auto sheet = sheet::readCsv(csv, equipment::standardLibrary());
  for (const auto& problem : sheet.problems) ADD_FAILURE() << problem.where << " " << problem.key;
  return sheet.value.value_or(sheet::Sheet{});
}

/// More units and conductors on a row.
inline std::string with(const std::string& row, const std::string& units, const std::string& conductors) {
  return edited(row, "cable,gauge", units + "cable,gauge") + conductors;
}

/// A sheet in motion, with what its units are told.
class Installation {
 public:
  explicit Installation(const std::string& csv, asbuilt::Conditions conditions = {})
      : circuit_(asbuilt::compile(sheetOf(csv), equipment::standardLibrary())),
        machine_(circuit_, std::move(conditions)) {}

  sheet::UnitId unit(const std::string& tag) const {
    for (const auto& unit : circuit_.units)
      if (unit.tag == tag) return unit.id;
    ADD_FAILURE() << tag;
    return {};
  }
  void world(const std::string& tag, const std::string& fact, bool holds) {
    facts_.world[{unit(tag), fact}] = holds;
  }
  void call(const std::string& call) {
    facts_.call = call;
    start_ = machine_.now();
    if (powered_)
      machine_.run(facts_);
    else
      machine_.powerUp(facts_);
    powered_ = true;
  }
  std::vector<std::string> runs() const {
    std::vector<std::string> names;
    for (const auto& [unit, duty] : machine_.runningDuties())
      names.push_back(circuit_.units[size_t(unit)].profile->duties[size_t(duty)].name);
    return names;
  }
  /// Seconds from the call to the event; -1: it did not come.
  double when(const std::string& tag, const std::string& name, bool on = true) const {
    for (const operation::Event& event : machine_.events())
      if (circuit_.units[size_t(event.unit)].tag == tag && event.name == name && event.on == on)
        return double(event.at - start_) / 1000;
    return -1;
  }
  int branch(const std::string& tag, const std::string& part) const {
    return circuit_.device(unit(tag), part)->branch;
  }
  double volts(const std::string& tag, const std::string& part) const {
    return machine_.volts(int(circuit_.device(unit(tag), part) - circuit_.devices.data()));
  }
  const asbuilt::AsBuilt& circuit() const { return circuit_; }
  const operation::Machine& machine() const { return machine_; }

 private:
  asbuilt::AsBuilt circuit_;
  operation::Machine machine_;
  operation::Facts facts_;
  operation::Millis start_ = 0;
  bool powered_ = false;
};

inline asbuilt::Conditions stuckClosed(const std::string& csv, const std::string& tag,
                                       const std::string& part) {
  asbuilt::Conditions conditions;
  conditions.overrides.push_back(
      {asbuilt::Override::Kind::stuckClosed, Installation(csv).branch(tag, part), 0, 0, 0});
  return conditions;
}

}  // namespace ww::testing
