// SPDX-License-Identifier: GPL-3.0-or-later
// Islands are solved one by one; the answers are put together as if the whole had been solved.
#include <algorithm>
#include <set>

#include "operation/duty_numbers.h"
#include "operation/islands.h"

namespace ww::operation {

namespace {

bool isControl(const asbuilt::PlacedUnit& unit) { return unit.profile->kind == equipment::Kind::roomControl; }

bool isLoad(const asbuilt::Device& device) {
  return std::holds_alternative<equipment::CoilPart>(device.part) ||
         std::holds_alternative<equipment::ThermalPart>(device.part);
}

/// Where everything stands in the lists of a call of the whole.
struct Places {
  explicit Places(const asbuilt::AsBuilt& whole) {
    firstDevice.assign(whole.units.size(), 0);
    for (size_t u = 0; u < whole.units.size(); ++u) {
      unit.emplace(whole.units[u].id, int(u));
      if (isControl(whole.units[u])) control.emplace(whole.units[u].id, int(control.size()) + 1);
    }
    for (size_t i = whole.devices.size(); i-- > 0;) firstDevice[size_t(whole.devices[i].unit)] = i;
    for (const auto& device : whole.devices) {
      load.push_back(loads);
      source.push_back(sources);
      loads += isLoad(device);
      sources += std::holds_alternative<equipment::TransformerPart>(device.part);
    }
    for (const auto& [ref, node] : whole.nodeOfTerminal) terminal.emplace(ref, terminal.size());
    for (const auto& row : whole.wires) wire.emplace(row.conductor, wire.size());
  }

  std::map<sheet::UnitId, int> unit, control;  ///< controls by their number, from 1
  std::vector<size_t> firstDevice;             ///< by unit
  std::vector<size_t> load, source;            ///< by device
  size_t loads = 0, sources = 0;
  std::map<sheet::TerminalRef, size_t> terminal;
  std::map<sheet::ConductorId, size_t> wire;
};

/// One island solved, with where its parts stand in the whole.
struct Part {
  Solution solution;
  std::vector<int> unit, device;                     ///< island -> whole
  std::vector<size_t> terminal, wire, coil, source;  ///< places in a call's lists
  std::map<std::string, std::string> callOf;         ///< of the whole -> of the island

  const SolvedCall& answer(const std::string& own, bool bonded) const {
    const auto& calls = bonded && !solution.ifBonded.empty() ? solution.ifBonded : solution.calls;
    return *std::find_if(calls.begin(), calls.end(),
                         [&](const SolvedCall& c) { return c.result.call == own; });
  }
  const SolvedCall& rest(bool bonded) const { return answer("rest", bonded); }
};

class Puzzle {
 public:
  Puzzle(const std::vector<sheet::Sheet>& islands, const equipment::Library& library,
         std::shared_ptr<const asbuilt::AsBuilt> whole, LineRange lines, Depth depth)
      : library_(library), places_(*whole) {
    result_.circuit = std::move(whole);
    result_.lines = lines;
    result_.table = operationTable(*result_.circuit);
    if (result_.table.empty()) result_.table.push_back({"rest", {}, {}});
    sortCalls();
    for (const sheet::Sheet& island : islands) addPart(island, lines, depth);
  }

  Solution solve() {
    const bool bonds = std::any_of(parts_.begin(), parts_.end(),
                                   [](const Part& part) { return !part.solution.ifBonded.empty(); });
    result_.calls = together(false);
    if (bonds) result_.ifBonded = together(true);
    return std::move(result_);
  }

 private:
  const asbuilt::AsBuilt& whole() const { return *result_.circuit; }

  /// Which calls concern all units, and which one control.
  void sortCalls() {
    for (const CallDemand& demand : result_.table) {
      const std::string_view group = partsOf(demand.call).group;
      const bool all = group.empty() || group == kAllZones;
      (all ? callsOfAll_ : callsOf_[std::stoi(std::string(group.substr(4)))]).push_back(&demand.call);
    }
  }

  void addPart(const sheet::Sheet& island, LineRange lines, Depth depth) {
    Part part;
    auto circuit = std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(island, library_));
    for (const auto& unit : circuit->units) part.unit.push_back(places_.unit.at(unit.id));
    findCalls(*circuit, part.callOf);
    std::set<std::string> calls;
    for (const auto& [call, own] : part.callOf) calls.insert(own);
    part.solution = solveCalls(circuit, {}, {calls.begin(), calls.end()}, lines, depth);
    result_.work += part.solution.work;
    findPlaces(part);
    for (auto* solved : {&part.solution.calls, &part.solution.ifBonded})
      for (SolvedCall& call : *solved) count(part, call);
    parts_.push_back(std::move(part));
  }

  /// What calls of the whole are to an island: "zone3.cool1" is "cool1" where control 3 is the only one, and
  /// nothing where it is not.
  void findCalls(const asbuilt::AsBuilt& island, std::map<std::string, std::string>& callOf) const {
    std::vector<int> numbers;  // of the island's controls in the whole
    for (const auto& unit : island.units)
      if (isControl(unit)) numbers.push_back(places_.control.at(unit.id));
    const auto ungrouped = [](const std::string& call) { return call.substr(partsOf(call).group.size()); };
    for (const std::string* call : callsOfAll_)
      if (partsOf(*call).group.empty() || numbers.size() > 1)
        callOf[*call] = *call;
      else if (numbers.size() == 1)
        callOf[*call] = ungrouped(*call);
    for (size_t own = 0; own < numbers.size(); ++own) {
      const auto calls = callsOf_.find(numbers[own]);
      if (calls == callsOf_.end()) continue;
      const std::string zone = numbers.size() > 1 ? "zone" + std::to_string(own + 1) + "." : "";
      for (const std::string* call : calls->second) callOf[*call] = zone + ungrouped(*call);
    }
  }

  /// Where the island's devices, loads, sources, terminals and wires stand in the whole.
  void findPlaces(Part& part) const {
    const auto& island = *part.solution.circuit;
    for (const auto& device : island.devices) {
      const auto at = places_.firstDevice[size_t(part.unit[size_t(device.unit)])] + size_t(device.element);
      part.device.push_back(int(at));
      if (isLoad(device)) part.coil.push_back(places_.load[at]);
      if (std::holds_alternative<equipment::TransformerPart>(device.part))
        part.source.push_back(places_.source[at]);
    }
    for (const auto& [terminal, node] : island.nodeOfTerminal)
      part.terminal.push_back(places_.terminal.at(terminal));
    for (const auto& wire : island.wires) part.wire.push_back(places_.wire.at(wire.conductor));
  }

  /// Zone valves and dampers count through the whole.
  void count(const Part& part, SolvedCall& call) const {
    countDuties(part, call.result.duties);
    for (RaceEnd& end : call.result.raceEnds) countDuties(part, end.duties);
    for (Variant& variant : call.variants) countDuties(part, variant.duties);
  }
  void countDuties(const Part& part, std::vector<RunningDuty>& duties) const {
    const auto& island = *part.solution.circuit;
    for (RunningDuty& running : duties) {
      const int own = island.unitIndex(running.unit);
      for (const auto& row : island.units[size_t(own)].profile->duties)
        if (numberedDuty(island, own, row.name) == running.duty) {
          running.duty = numberedDuty(whole(), part.unit[size_t(own)], row.name);
          break;
        }
    }
  }

  std::vector<SolvedCall> together(bool bonded) const {
    const SolvedCall quiet = atRest(bonded);
    std::map<std::string, std::vector<const Part*>> called;
    for (const Part& part : parts_)
      for (const auto& [call, own] : part.callOf) called[call].push_back(&part);
    std::vector<SolvedCall> calls;
    for (const CallDemand& demand : result_.table)
      calls.push_back(together(demand.call, called[demand.call], quiet, bonded));
    return calls;
  }

  /// What all parts show while they rest; lists that hold only what there is stay empty.
  SolvedCall atRest(bool bonded) const {
    SolvedCall quiet;
    quiet.positions = asbuilt::Positions(whole().devices.size());
    quiet.result.terminals.resize(whole().nodeOfTerminal.size());
    quiet.result.coils.resize(places_.loads);
    quiet.result.sources.resize(places_.sources);
    for (const auto& wire : whole().wires) {
      quiet.result.wires.emplace_back();
      quiet.result.wires.back().conductor = wire.conductor;
    }
    for (const Part& part : parts_) lay(part, part.rest(bonded), quiet);
    return quiet;
  }

  SolvedCall together(const std::string& call, const std::vector<const Part*>& called,
                      const SolvedCall& quiet, bool bonded) const {
    SolvedCall solved = quiet;
    CallResult& all = solved.result;
    all.call = call;
    const auto answerOf = [&](const Part& part) -> const SolvedCall& {
      return part.answer(part.callOf.at(call), bonded);
    };
    for (const Part* part : called) solved.start = std::max(solved.start, answerOf(*part).start);
    for (const Part* part : called) {
      const SolvedCall& own = answerOf(*part);
      lay(*part, own, solved);
      for (Event event : own.events) {
        event.unit = part->unit[size_t(event.unit)];
        event.at += solved.start - own.start;
        solved.events.push_back(std::move(event));
      }
      layVariants(*part, own, solved);
    }
    for (const Part& part : parts_) {
      const bool calls = part.callOf.contains(call);
      append(calls ? answerOf(part).result : part.rest(bonded).result, all);
    }
    inOrder(all);
    std::stable_sort(solved.events.begin(), solved.events.end(),
                     [](const Event& a, const Event& b) { return a.at < b.at; });
    return solved;
  }

  template <class Rows>
  static void place(const Rows& rows, const std::vector<size_t>& places, Rows& all) {
    for (size_t i = 0; i < rows.size(); ++i) all[places[i]] = rows[i];
  }
  template <class Rows>
  static void add(const Rows& rows, Rows& all) {
    all.insert(all.end(), rows.begin(), rows.end());
  }

  /// Lists in which everything has its place.
  static void lay(const Part& part, const SolvedCall& own, SolvedCall& solved) {
    CallResult& all = solved.result;
    place(own.result.coils, part.coil, all.coils);
    place(own.result.sources, part.source, all.sources);
    place(own.result.terminals, part.terminal, all.terminals);
    place(own.result.wires, part.wire, all.wires);
    for (size_t i = 0; i < part.device.size(); ++i) {
      const auto at = size_t(part.device[i]);
      solved.positions.closed[at] = own.positions.closed[i];
      solved.positions.pulledIn[at] = own.positions.pulledIn[i];
      solved.positions.supplyOn[at] = own.positions.supplyOn[i];
      solved.positions.supplyVoltAmps[at] = own.positions.supplyVoltAmps[i];
    }
  }

  /// Lists of what there is.
  static void append(const CallResult& own, CallResult& all) {
    all.state = std::max(all.state, own.state);
    all.period = std::max(all.period, own.period);
    add(own.duties, all.duties);
    add(own.melted, all.melted);
    add(own.marginalInputs, all.marginalInputs);
    add(own.dips, all.dips);
    add(own.raceEnds, all.raceEnds);
  }

  /// Lists that hold only what there is follow the order of the units.
  void inOrder(CallResult& result) const {
    const auto byUnit = [this](const auto& a, const auto& b) {
      return places_.unit.at(a.unit) < places_.unit.at(b.unit);
    };
    std::stable_sort(result.duties.begin(), result.duties.end(), byUnit);
    std::stable_sort(result.melted.begin(), result.melted.end(), byUnit);
    std::stable_sort(result.marginalInputs.begin(), result.marginalInputs.end(), byUnit);
    std::stable_sort(result.dips.begin(), result.dips.end(), byUnit);
  }

  /// A variant shows its own island; the others are as in the call.
  static void layVariants(const Part& part, const SolvedCall& own, SolvedCall& solved) {
    for (const Variant& variant : own.variants) {
      Variant all = variant;
      if (all.safety >= 0) all.safety = part.device[size_t(all.safety)];
      for (LoadState& load : all.loads) load.device = part.device[size_t(load.device)];
      const auto same = std::find_if(solved.variants.begin(), solved.variants.end(), [&](const Variant& v) {
        return v.safety == all.safety && v.line == all.line;
      });
      if (same == solved.variants.end()) {
        solved.variants.push_back(std::move(all));
        continue;
      }
      same->state = std::max(same->state, all.state);
      add(all.duties, same->duties);
      add(all.loads, same->loads);
      add(all.sources, same->sources);
    }
  }

  const equipment::Library& library_;
  Places places_;
  Solution result_;
  std::vector<Part> parts_;
  std::vector<const std::string*> callsOfAll_;              ///< in the table
  std::map<int, std::vector<const std::string*>> callsOf_;  ///< by number of the control
};

}  // namespace

Solution solveIslands(const std::vector<sheet::Sheet>& islands, const equipment::Library& library,
                      std::shared_ptr<const asbuilt::AsBuilt> whole, LineRange lines, Depth depth) {
  return Puzzle(islands, library, std::move(whole), lines, depth).solve();
}

}  // namespace ww::operation
