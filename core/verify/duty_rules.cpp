// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <optional>
#include <set>
#include <tuple>

#include "verify/rules.h"
#include "verify/why.h"

namespace ww::verify {

namespace {

using operation::dutyName;

constexpr double kNothing = 1e-6;  // amps; below it is rounding

bool contains(const std::vector<std::string>& list, const std::string& item) {
  return std::find(list.begin(), list.end(), item) != list.end();
}

/// Duties that hurt equipment when they run together, or without air.
struct Harm {
  const char* rule;
  const char* duty;
  std::vector<const char*> explains;  ///< duties that are not told again
};

std::vector<Harm> harmsOf(const Inspection& in, const CallVerdict& verdict) {
  std::vector<Harm> harms;
  const auto runs = [&](const std::string& duty) {
    return std::any_of(verdict.runs.begin(), verdict.runs.end(),
                       [&](const auto& d) { return dutyName(d) == duty; });
  };
  const bool air = runs("blower"), defrosts = verdict.call == "defrost";
  if (!air && (runs("electricHeat1") || runs("electricHeat2")))
    harms.push_back({"element-without-blower",
                     runs("electricHeat1") ? "electricHeat1" : "electricHeat2",
                     {"electricHeat1", "electricHeat2", "blower"}});
  if (!air && runs("compressor1") && !defrosts && in.unitOffering("blower") != sheet::UnitId{})
    harms.push_back({"compressor-without-blower", "compressor1", {"compressor1", "outdoorFan", "blower"}});
  const bool both = contains(verdict.must, "burner1") && contains(verdict.must, "compressor1");
  if (runs("compressor1") && runs("burner1") && !both && !defrosts)
    harms.push_back({"compressor-with-burner", "burner1", {"burner1", "compressor1", "outdoorFan"}});
  return harms;
}

/// One call's duties, with what the harm rules have already explained taken out.
class CallDuties {
 public:
  CallDuties(const Inspection& in, const CallVerdict& verdict, const operation::SolvedCall& solved)
      : in_(in), verdict_(verdict), solved_(solved), missing_(verdict.missing), extra_(verdict.extra) {}

  void judge() {
    harm();
    valveSense();
    if (verdict_.call == "rest")
      atRest();
    else
      againstTable();
    speed();
    untempered();
  }

 private:
  bool runs(const std::string& duty) const {
    return std::any_of(verdict_.runs.begin(), verdict_.runs.end(),
                       [&](const auto& d) { return dutyName(d) == duty; });
  }
  void explained(const std::string& duty) {
    std::erase(missing_, duty);
    std::erase(extra_, duty);
  }

  /// What would hurt equipment: heat or compressor without air, burner against compressor.
  void harm() {
    if (!runs("blower") && runs("humidify")) {
      addRunning("humidifier-without-blower", "humidify");
      explained("humidify");
    }
    for (const Harm& harm : harmsOf(in_, verdict_)) {
      addRunning(harm.rule, harm.duty);
      for (const char* duty : harm.explains) explained(duty);
    }
    // A board between heat pump and furnace takes a cooling call for a heating one in cold weather.
    const operation::CallParts call = operation::partsOf(verdict_.call);
    if (runs("burner1") && call.condition == operation::kBelowChangeover && call.call.starts_with("cool")) {
      addRunning("burner-in-cooling", "burner1");
      for (const char* duty : {"burner1", "compressor1", "outdoorFan", "blower"}) explained(duty);
      speedExplained_ = true;
    }
  }

  /// In defrost the unit cools the house; where there is heat indoors it has to temper the air.
  void untempered() {
    if (!runs("defrost")) return;
    sheet::UnitId heats{};
    for (const char* duty : {"burner1", "electricHeat1"}) {
      if (runs(duty)) return;
      if (const auto unit = in_.unitOffering(duty); unit != sheet::UnitId{}) heats = unit;
    }
    if (heats != sheet::UnitId{})
      in_.add("defrost-untempered", {atUnit(heats, verdict_.call)},
              {{"call", CallName{verdict_.call}}, {"runs", DutyList{verdict_.runs}}});
  }

  /// Compressor right, valve wrong: the unit heats the room it should cool, or the other way round.
  void valveSense() {
    const bool lacking = contains(missing_, "reversingValve");
    const bool tooMuch = contains(extra_, "reversingValve");
    if (!runs("compressor1") || (!lacking && !tooMuch)) return;
    const sheet::UnitId unit = in_.unitOffering("reversingValve");
    std::vector<Argument> arguments{{"call", CallName{verdict_.call}},
                                    {"state", Word{lacking ? "at-rest" : "energised"}}};
    std::optional<Place> control;  // whose setting it is, so the first place to go
    for (const auto& placed : in_.circuit.units)
      if (const auto sense = placed.settings.find("rvSense");
          sense != placed.settings.end() && placed.profile->kind == equipment::Kind::roomControl) {
        arguments.push_back({"sense", Word{sense->second}});
        control = atUnit(placed.id, verdict_.call);
      }
    addDriver(unit, "reversingValve", tooMuch, arguments);
    std::vector<Place> places{atUnit(unit, verdict_.call)};
    if (control) places.insert(places.begin(), *control);
    in_.add("rv-sense", std::move(places), std::move(arguments));
    explained("reversingValve");
  }

  void atRest() {
    for (const std::string& duty : extra_) addRunning("load-at-rest", duty);
    if (missing_.empty() || (missing_.size() == verdict_.must.size() && shortedAtRest())) return;
    std::vector<Argument> arguments{{"call", CallName{verdict_.call}},
                                    {"must", DutyList{verdict_.must}},
                                    {"runs", DutyList{verdict_.runs}},
                                    {"missing", DutyList{missing_}}};
    const sheet::UnitId unit = in_.unitOffering(missing_.front());
    addDriver(unit, missing_.front(), false, arguments);
    in_.add("idle-at-rest", {atUnit(unit, verdict_.call)}, std::move(arguments));
  }

  void againstTable() {
    if (missing_.empty() && extra_.empty()) return;
    const bool anyMust = std::any_of(verdict_.must.begin(), verdict_.must.end(),
                                     [&](const std::string& d) { return runs(dutyName(d)); });
    const bool dead = !anyMust && !verdict_.must.empty() && extra_.empty() && missing_ == verdict_.missing;
    if (dead && shortedAtRest()) return;  // told by short-at-rest, which every call then follows from
    const std::string first = missing_.empty() ? extra_.front() : missing_.front();
    std::vector<Argument> arguments{{"call", CallName{verdict_.call}},
                                    {"must", DutyList{verdict_.must}},
                                    {"runs", DutyList{verdict_.runs}}};
    if (!missing_.empty()) arguments.push_back({"missing", DutyList{missing_}});
    if (!extra_.empty()) arguments.push_back({"extra", DutyList{extra_}});
    const sheet::UnitId unit = in_.unitOffering(first);
    addDriver(unit, first, missing_.empty(), arguments);
    in_.add(dead ? "call-dead" : "duty-wrong", {atUnit(unit, verdict_.call)}, std::move(arguments));
  }

  bool shortedAtRest() const {
    const auto* rest = in_.solution.call("rest");
    return rest != nullptr && !rest->result.melted.empty();
  }

  /// Air moves, but at another speed than the call wants.
  void speed() {
    if (speedExplained_) return;
    for (const std::string& wanted : verdict_.must) {
      if (dutyName(wanted) != "blower" || !runs("blower") || contains(verdict_.runs, wanted)) continue;
      if (wanted.find(':') == std::string::npos || mayBlowOtherwise()) continue;
      const auto actual = std::find_if(verdict_.runs.begin(), verdict_.runs.end(),
                                       [](const auto& d) { return dutyName(d) == "blower"; });
      in_.add("blower-speed", {atUnit(in_.unitOffering("blower"), verdict_.call)},
              {{"call", CallName{verdict_.call}},
               {"wanted", DutyList{{wanted}}},
               {"actual", DutyList{{*actual}}}});
    }
  }

  /// The speed that runs is one that the board may choose in this call.
  bool mayBlowOtherwise() const {
    const auto& table = in_.solution.table;
    const auto row = std::find_if(table.begin(), table.end(),
                                  [&](const auto& each) { return each.call == verdict_.call; });
    return row != table.end() &&
           std::any_of(verdict_.runs.begin(), verdict_.runs.end(), [&](const auto& duty) {
             return dutyName(duty) == "blower" && contains(row->may, duty);
           });
  }

  void addRunning(const std::string& rule, const std::string& duty) const {
    const sheet::UnitId unit = in_.unitOffering(duty);
    std::vector<Argument> arguments{{"call", CallName{verdict_.call}},
                                    {"runs", DutyList{verdict_.runs}},
                                    {"must", DutyList{verdict_.must}},
                                    {"extra", DutyList{{duty}}}};
    addDriver(unit, duty, true, arguments);
    in_.add(rule, {atUnit(unit, verdict_.call)}, std::move(arguments));
  }

  /// The input at the screw that the duty is called on: where nothing flows, the place to begin.
  bool isCalledAt(const Driver& driver, const std::string& duty) const {
    const auto& device = in_.circuit.devices[size_t(driver.device)];
    const auto* screw =
        in_.circuit.units[size_t(device.unit)].profile->terminal(in_.circuit.element(device).a);
    return screw != nullptr && screw->purpose == purposeOf(duty);
  }

  /// The element the duty hangs on: for one that runs the way of its current, for one that does not its
  /// volts.
  void addDriver(sheet::UnitId unit, const std::string& duty, bool running,
                 std::vector<Argument>& arguments) const {
    const auto drivers = driversOf(in_.solution, solved_, unit, duty);
    const auto weight = [&](const Driver& driver) {
      const double amps = driver.amps < kNothing ? 0 : driver.amps;
      return std::tuple(driver.on == running, amps, isCalledAt(driver, duty));
    };
    const auto best = std::max_element(drivers.begin(), drivers.end(), [&](const Driver& a, const Driver& b) {
      return weight(a) < weight(b);
    });
    if (best == drivers.end() || best->on != running) return;
    const auto& device = in_.circuit.devices[size_t(best->device)];
    arguments.push_back({"part", atPart(unit, in_.circuit.element(device).id)});
    arguments.push_back({"volts", quantity::Volts(best->volts)});
    arguments.push_back({"amps", quantity::Amps(best->amps)});
    if (!running) {
      if (auto reach = reachOf(in_.solution, solved_, duty, best->device)) {
        arguments.push_back({"reach", std::move(reach->path)});
        arguments.push_back({"reachvolts", quantity::Volts(reach->volts)});
      }
      return;
    }
    if (Path path = currentPath(in_.solution, solved_, best->device); !path.empty())
      arguments.push_back({"path", std::move(path)});
    if (Path path = returnPath(in_.solution, solved_, best->device); !path.empty())
      arguments.push_back({"return", std::move(path)});
  }

  const Inspection& in_;
  const CallVerdict& verdict_;
  const operation::SolvedCall& solved_;
  std::vector<std::string> missing_, extra_;
  bool speedExplained_ = false;
};

}  // namespace

CallVerdict verdictOf(const operation::CallDemand& demand, const operation::CallResult& result) {
  CallVerdict verdict{demand.call, demand.must, {}, {}, {}, false};
  std::vector<std::string> names;
  for (const auto& duty : result.duties) {
    if (!contains(verdict.runs, duty.duty)) verdict.runs.push_back(duty.duty);
    names.push_back(dutyName(duty.duty));
  }
  std::vector<std::string> allowed;
  for (const auto& duty : demand.may) allowed.push_back(dutyName(duty));
  for (const auto& duty : demand.must) {
    allowed.push_back(dutyName(duty));
    if (!contains(names, allowed.back())) verdict.missing.push_back(allowed.back());
  }
  for (const auto& name : names)
    if (!contains(allowed, name) && !contains(verdict.extra, name)) verdict.extra.push_back(name);
  verdict.ok = verdict.missing.empty() && verdict.extra.empty() && result.state <= operation::CallState::late;
  return verdict;
}

/// Whether duties could hurt each other at all: most do not, and are not looked at closer.
static bool mayHarm(const std::vector<operation::RunningDuty>& duties) {
  const auto any = [&](std::string_view stem) {
    return std::any_of(duties.begin(), duties.end(),
                       [&](const auto& running) { return running.duty.starts_with(stem); });
  };
  const bool compressor = any("compressor1");
  return !any("blower") ? compressor || any("electricHeat") : compressor && any("burner1");
}

/// What a safety that opens makes of a call that is harmless without; told in the first such call.
static void openSafetyRules(const Inspection& in, const std::vector<CallVerdict>& verdicts) {
  std::set<std::pair<std::string, int>> told;
  for (size_t i = 0; i < verdicts.size(); ++i) {
    std::optional<std::vector<Harm>> known;
    for (const operation::Variant& variant : in.solution.calls[i].variants) {
      if (variant.safety < 0 || variant.state > operation::CallState::late) continue;
      if (!mayHarm(variant.duties)) continue;
      if (!known) known = harmsOf(in, verdicts[i]);
      operation::CallResult result;
      result.duties = variant.duties;
      const CallVerdict verdict = verdictOf(in.solution.table[i], result);
      for (const Harm& harm : harmsOf(in, verdict)) {
        const auto same = [&](const Harm& other) { return std::string_view(other.rule) == harm.rule; };
        if (std::any_of(known->begin(), known->end(), same)) continue;
        if (!told.insert({harm.rule, variant.safety}).second) continue;
        const auto& device = in.circuit.devices[size_t(variant.safety)];
        const Place safety =
            atPart(in.circuit.units[size_t(device.unit)].id, in.circuit.element(device).id, verdict.call);
        in.add(harm.rule, {atUnit(in.unitOffering(harm.duty), verdict.call), safety},
               {{"call", CallName{verdict.call}},
                {"runs", DutyList{verdict.runs}},
                {"must", DutyList{verdict.must}},
                {"extra", DutyList{{harm.duty}}},
                {"open", safety}});
      }
    }
  }
}

void dutyRules(const Inspection& in, const std::vector<CallVerdict>& verdicts) {
  for (size_t i = 0; i < verdicts.size(); ++i) CallDuties(in, verdicts[i], in.solution.calls[i]).judge();
  openSafetyRules(in, verdicts);
}

}  // namespace ww::verify
