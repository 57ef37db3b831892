// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/operation_table.h"

#include <algorithm>
#include <set>

#include "operation/logic_run.h"
#include "operation/operation_table_air.h"
#include "operation/operation_table_zones.h"

namespace ww::operation {

namespace {

using equipment::Kind;
using equipment::Profile;

constexpr const char* kOrder[] = {"rest",  "fan",   "cool1",     "cool2",  "heat1",
                                  "heat2", "heat3", "emergency", "defrost"};

/// What the placed units offer together.
class Offer {
 public:
  explicit Offer(const asbuilt::AsBuilt& circuit) {
    for (const auto& unit : circuit.units) {
      const auto staged = unit.settings.find("stagedBy");
      boardStages_ |= staged != unit.settings.end() && staged->second == "board";
      for (const auto& duty : unit.profile->duties) {
        names_.insert(duty.name);
        if (!duty.speed.empty()) speeds_.insert(duty.speed);
      }
      if (unit.profile->kind == Kind::outdoorUnit) valveInHeating_ |= valveEnergisedInHeating(unit);
      const auto stages = unit.settings.find("compressorStages");
      if (stages != unit.settings.end()) controlStages_ = stages->second == "1" ? 1 : 2;
      fuelKit_ |= unit.profile->kind != Kind::roomControl &&
                  unit.profile->world.contains(std::string(kChangeoverFact));
    }
  }
  bool has(const std::string& duty) const { return names_.contains(duty); }
  /// A board brings its second burner stage on by itself.
  bool boardStages() const { return boardStages_; }
  bool heatPump() const { return has("reversingValve") && has("compressor1"); }
  bool valveInHeating() const { return valveInHeating_; }
  bool dualFuel() const { return heatPump() && has("burner1"); }
  /// A board of its own changes over between the two.
  bool fuelKit() const { return fuelKit_; }
  /// Heating stages that the control counts as the compressor's; the next one is auxiliary.
  int pumpStages() const { return controlStages_ > 0 ? controlStages_ : has("compressor2") ? 2 : 1; }
  /// "blower:cool1" where the blower has that speed, for a second stage that of the first, else "blower".
  std::string blower(const std::string& speed) const {
    if (speeds_.contains(speed)) return "blower:" + speed;
    const std::string first = speed == "cool2" ? "cool1" : speed == "heat2" ? "heat" : "";
    return speeds_.contains(first) ? "blower:" + first : "blower";
  }

 private:
  bool boardStages_ = false;
  std::set<std::string> names_, speeds_;
  bool valveInHeating_ = false, fuelKit_ = false;
  int controlStages_ = 0;  ///< 0: the control does not say
};

class Composer {
 public:
  explicit Composer(const Offer& offer) : offer_(offer) {}

  /// `cold`: below the changeover between heat pump and burner.
  CallDemand demand(const std::string& call, bool cold = false) {
    result_ = {call, {}, {}};
    cold_ = cold;
    if (call == "rest") may("reversingValve");
    if (call == "fan") fan();
    if (call == "cool1" || call == "cool2") cool(call == "cool2");
    if (call == "heat1") heat(1);
    if (call == "heat2") heat(2);
    if (call == "heat3") heat(3);
    if (call == "emergency") emergency();
    if (call == "defrost") defrost();
    return std::move(result_);
  }

 private:
  bool must(const std::string& duty) {
    if (!offer_.has(dutyName(duty))) return false;
    result_.must.push_back(duty);
    return true;
  }
  void may(const std::string& duty) {
    if (offer_.has(duty)) result_.may.push_back(duty);
  }
  void mustBlow(const std::string& speed) { must(offer_.blower(speed)); }

  void fan() {
    mustBlow("circulate");
    may("reversingValve");
  }

  void compressor(int stages) {
    must("compressor1");
    if (stages > 1) must("compressor2");
    must("outdoorFan");
  }

  void cool(bool second) {
    if (!offer_.has("compressor1")) return;
    compressor(second ? 2 : 1);
    if (!offer_.valveInHeating()) must("reversingValve");
    mustBlow(second ? "cool2" : "cool1");
  }

  void heat(int stage) {
    if (offer_.heatPump()) return heatPump(stage);
    if (must("burner1")) return burner(stage > 1);
    if (!must("electricHeat1")) return;
    if (stage > 1) must("electricHeat2");
    mustBlow("heat");
  }

  /// The second stage belongs to the call, or to the board's timer, which the call only waits for.
  void burner(bool second) {
    if (!offer_.boardStages()) {
      const bool both = second && must("burner2");
      return mustBlow(both ? "heat2" : "heat");
    }
    may("burner2");
    mustBlow("heat");
    result_.may.push_back(offer_.blower("heat2"));
  }

  /// The last heat stage is the auxiliary one; those before are the compressor's. A burner is never auxiliary
  /// to a compressor that heats: it takes over.
  void heatPump(int stage) {
    const bool auxiliary = stage > offer_.pumpStages();
    if (offer_.dualFuel() && (auxiliary || cold_)) return burnerAlone();
    const bool second = stage > 1 && offer_.pumpStages() > 1 && offer_.has("compressor2");
    compressor(second ? 2 : 1);
    if (offer_.valveInHeating()) must("reversingValve");
    if (auxiliary) {
      must("electricHeat1");
      may("electricHeat2");
    }
    mustBlow(auxiliary ? "heat" : (second ? "cool2" : "cool1"));
  }

  void burnerAlone() {
    must("burner1");
    may("burner2");
    may("reversingValve");
    mustBlow("heat");
  }

  void emergency() {
    if (offer_.dualFuel()) return burnerAlone();
    if (!must("electricHeat1")) must("burner1");
    may("electricHeat2");
    may("reversingValve");
    mustBlow("heat");
  }

  /// The compressor runs in cooling direction with the outdoor fan off; the indoor heat tempers the air.
  void defrost() {
    must("compressor1");
    if (!offer_.valveInHeating()) must("reversingValve");
    must("defrost");
    must("blower");
    for (const char* duty : {"electricHeat1", "electricHeat2", "burner1", "burner2", "compressor2"})
      may(duty);
  }

  const Offer& offer_;
  bool cold_ = false;
  CallDemand result_;
};

/// The calls that a unit makes with its present settings.
std::vector<std::string> callsOf(const asbuilt::AsBuilt& circuit, int unit) {
  LogicRun logic(circuit, unit, 0);
  const size_t n = circuit.devices.size();
  const Senses nothing{std::vector<char>(n), std::vector<char>(n), std::vector<char>(n),
                       std::vector<char>(n), std::vector<char>(n), std::vector<char>(n)};
  logic.evaluate(0, nothing);
  std::vector<std::string> calls;
  for (const auto& call : circuit.units[size_t(unit)].profile->calls)
    if (call.offered < 0 || logic.value(call.offered)) calls.push_back(call.name);
  return calls;
}

using Groups = std::vector<std::pair<std::string, std::set<std::string>>>;  // prefix -> calls

/// Calls that two controls at least can make.
std::set<std::string> callsOfSeveral(const Groups& groups) {
  std::set<std::string> once, several;
  for (const auto& [prefix, calls] : groups)
    for (const std::string& call : calls)
      if (!once.insert(call).second) several.insert(call);
  return several;
}

}  // namespace

bool valveEnergisedInHeating(const asbuilt::PlacedUnit& outdoor) {
  const auto tied = outdoor.settings.find("bIsCommon");
  return outdoor.profile->terminal("B") != nullptr &&
         (tied == outdoor.settings.end() || tied->second != "on");
}

std::string dutyName(std::string_view duty) { return std::string(duty.substr(0, duty.find(':'))); }

std::vector<CallDemand> operationTable(const asbuilt::AsBuilt& circuit, const Facts& facts) {
  Groups groups;
  std::set<std::string> outdoorStates;
  size_t controls = 0;
  for (const auto& unit : circuit.units) controls += unit.profile->kind == Kind::roomControl;
  for (size_t u = 0; u < circuit.units.size(); ++u) {
    const auto calls = callsOf(circuit, int(u));
    if (circuit.units[u].profile->kind != Kind::roomControl) {
      outdoorStates.insert(calls.begin(), calls.end());
      continue;
    }
    const std::string prefix = controls > 1 ? "zone" + std::to_string(groups.size() + 1) + "." : "";
    groups.emplace_back(prefix, std::set<std::string>(calls.begin(), calls.end()));
  }
  if (groups.empty()) return {};

  const Offer offer(circuit);
  Composer composer(offer);
  std::vector<CallDemand> table;
  const auto addCall = [&](const std::string& prefix, const std::string& call, int zone) {
    const std::string name = prefix + call;
    table.push_back(composer.demand(call, partsOf(name).condition == kBelowChangeover));
    addWaterAndZones(circuit, zone, table.back());
    if (partsOf(name).condition != kUnoccupied)
      addFreshAir(circuit, facts, table.back());
    else
      leaveFreshAir(table.back());
    table.back().call = name;
  };
  addCall("", "rest", 0);
  if (groups.size() > 1 && hasZones(circuit)) groups.emplace_back(kAllZones, callsOfSeveral(groups));
  for (size_t group = 0; group < groups.size(); ++group)
    for (const char* call : kOrder) {
      const auto& [prefix, calls] = groups[group];
      if (!calls.contains(call) || std::string_view(call) == "rest" || outdoorStates.contains(call)) continue;
      addCall(prefix, call, prefix.empty() || prefix == kAllZones ? 0 : int(group) + 1);
    }
  if (offer.dualFuel())
    for (size_t group = 0; group < controls; ++group)
      for (const char* call : {"cool1", "heat1"})
        if (const auto& [prefix, calls] = groups[group];
            calls.contains(call) && (offer.fuelKit() || std::string_view(call) == "heat1"))
          addCall(prefix + std::string(kBelowChangeover), call, prefix.empty() ? 0 : int(group) + 1);
  if (controls == 1 && tellsOccupied(circuit))
    for (const char* call : {"rest", "cool1", "heat1"})
      if (groups[0].second.contains(call) || std::string_view(call) == "rest")
        addCall(std::string(kUnoccupied), call, 0);
  for (const auto& state : outdoorStates) addCall("", state, 0);
  return table;
}

std::vector<CallDemand> operationTable(const asbuilt::AsBuilt& circuit) {
  return operationTable(circuit, Facts{});
}

}  // namespace ww::operation
