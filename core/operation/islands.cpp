// SPDX-License-Identifier: GPL-3.0-or-later
#include "operation/islands.h"

#include <algorithm>

#include "circuit/joints.h"
#include "operation/duty_numbers.h"

namespace ww::operation {

namespace {

/// The unit an end is landed in; nothing for loose and capped ends.
std::optional<sheet::UnitId> landedIn(const sheet::Landing& landing) {
  if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing)) return terminal->unit;
  if (const auto* splice = std::get_if<sheet::Splice>(&landing)) return splice->unit;
  return std::nullopt;
}

bool isControl(const asbuilt::PlacedUnit& unit) { return unit.profile->kind == equipment::Kind::roomControl; }

/// One island solved, with where its parts stand in the whole.
struct Part {
  Solution solution;
  std::vector<int> unit, device;                     ///< island -> whole
  std::vector<size_t> terminal, wire, coil, source;  ///< places in a call's lists
  std::map<std::string, std::string> callOf;         ///< of the whole -> of the island
};

class Puzzle {
 public:
  Puzzle(const std::vector<sheet::Sheet>& islands, const equipment::Library& library,
         std::shared_ptr<const asbuilt::AsBuilt> whole, LineRange lines, Depth depth)
      : library_(library) {
    result_.circuit = std::move(whole);
    result_.lines = lines;
    result_.table = operationTable(*result_.circuit);
    if (result_.table.empty()) result_.table.push_back({"rest", {}, {}});
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

  void addPart(const sheet::Sheet& island, LineRange lines, Depth depth) {
    Part part;
    auto circuit = std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(island, library_));
    for (const auto& unit : circuit->units) part.unit.push_back(whole().unitIndex(unit.id));
    std::vector<std::string> calls;
    for (const CallDemand& demand : result_.table)
      if (const auto own = ownCall(demand.call, *circuit)) {
        part.callOf[demand.call] = *own;
        calls.push_back(*own);
      }
    part.solution = solveCalls(circuit, {}, calls, lines, depth);
    findPlaces(part);
    parts_.push_back(std::move(part));
  }

  /// What a call of the whole is to an island: "zone3.cool1" is "cool1" where control 3 is the only one, and
  /// nothing where it is not.
  std::optional<std::string> ownCall(const std::string& call, const asbuilt::AsBuilt& island) const {
    const CallParts parts = partsOf(call);
    if (parts.group.empty()) return call;
    const std::string rest = call.substr(parts.group.size());
    if (parts.group == kAllZones) {
      const auto controls = std::count_if(island.units.begin(), island.units.end(), isControl);
      if (controls == 0) return std::nullopt;
      return controls > 1 ? call : rest;
    }
    int number = std::stoi(call.substr(4));
    sheet::UnitId control{};
    for (const auto& unit : whole().units)
      if (isControl(unit) && --number == 0) control = unit.id;
    int own = 0, controls = 0;
    for (const auto& unit : island.units) {
      if (!isControl(unit)) continue;
      ++controls;
      if (unit.id == control) own = controls;
    }
    if (own == 0) return std::nullopt;
    return (controls > 1 ? "zone" + std::to_string(own) + "." : "") + rest;
  }

  static bool isLoad(const asbuilt::Device& device) {
    return std::holds_alternative<equipment::CoilPart>(device.part) ||
           std::holds_alternative<equipment::ThermalPart>(device.part);
  }

  /// Where the island's devices, loads, sources, terminals and wires stand in the whole.
  void findPlaces(Part& part) const {
    const auto& island = *part.solution.circuit;
    std::vector<size_t> firstDevice(whole().units.size(), 0);
    std::vector<size_t> loads(whole().devices.size()), sources(loads);
    size_t load = 0, source = 0;
    for (size_t i = whole().devices.size(); i-- > 0;) firstDevice[size_t(whole().devices[i].unit)] = i;
    for (size_t i = 0; i < whole().devices.size(); ++i) {
      loads[i] = load;
      sources[i] = source;
      load += isLoad(whole().devices[i]);
      source += std::holds_alternative<equipment::TransformerPart>(whole().devices[i].part);
    }
    for (const auto& device : island.devices) {
      const auto at = firstDevice[size_t(part.unit[size_t(device.unit)])] + size_t(device.element);
      part.device.push_back(int(at));
      if (isLoad(device)) part.coil.push_back(loads[at]);
      if (std::holds_alternative<equipment::TransformerPart>(device.part)) part.source.push_back(sources[at]);
    }
    for (const auto& [terminal, node] : island.nodeOfTerminal)
      part.terminal.push_back(
          size_t(std::distance(whole().nodeOfTerminal.begin(), whole().nodeOfTerminal.find(terminal))));
    for (const auto& wire : island.wires) {
      const auto at = std::lower_bound(
          whole().wires.begin(), whole().wires.end(), wire.conductor,
          [](const asbuilt::Wire& row, sheet::ConductorId id) { return row.conductor < id; });
      part.wire.push_back(size_t(at - whole().wires.begin()));
    }
  }

  std::vector<SolvedCall> together(bool bonded) const {
    std::vector<SolvedCall> calls;
    for (const CallDemand& demand : result_.table) calls.push_back(together(demand.call, bonded));
    return calls;
  }

  static const SolvedCall& answer(const Part& part, const std::string& call, bool bonded) {
    const auto own = part.callOf.find(call);
    const std::string& name = own == part.callOf.end() ? "rest" : own->second;
    const auto& calls =
        bonded && !part.solution.ifBonded.empty() ? part.solution.ifBonded : part.solution.calls;
    return *std::find_if(calls.begin(), calls.end(),
                         [&](const SolvedCall& c) { return c.result.call == name; });
  }

  SolvedCall together(const std::string& call, bool bonded) const {
    SolvedCall solved;
    solved.result.call = call;
    solved.positions = asbuilt::Positions(whole().devices.size());
    solved.result.terminals.resize(whole().nodeOfTerminal.size());
    solved.result.wires.resize(whole().wires.size());
    for (const Part& part : parts_) {
      solved.result.coils.resize(solved.result.coils.size() + part.coil.size());
      solved.result.sources.resize(solved.result.sources.size() + part.source.size());
    }
    for (const Part& part : parts_)
      if (part.callOf.contains(call)) solved.start = std::max(solved.start, answer(part, call, bonded).start);
    for (const Part& part : parts_) lay(part, answer(part, call, bonded), part.callOf.contains(call), solved);
    inOrder(solved.result);
    std::stable_sort(solved.events.begin(), solved.events.end(),
                     [](const Event& a, const Event& b) { return a.at < b.at; });
    for (const Part& part : parts_)
      if (part.callOf.contains(call)) layVariants(part, answer(part, call, bonded), solved);
    return solved;
  }

  template <class Rows>
  static void place(const Rows& rows, const std::vector<size_t>& places, Rows& all) {
    for (size_t i = 0; i < rows.size(); ++i) all[places[i]] = rows[i];
  }
  template <class Rows>
  static void append(const Rows& rows, Rows& all) {
    all.insert(all.end(), rows.begin(), rows.end());
  }

  /// Zone valves and dampers count through the whole.
  std::vector<RunningDuty> counted(const Part& part, std::vector<RunningDuty> duties) const {
    const auto& island = *part.solution.circuit;
    for (RunningDuty& running : duties) {
      const int own = island.unitIndex(running.unit);
      for (const auto& row : island.units[size_t(own)].profile->duties)
        if (numberedDuty(island, own, row.name) == running.duty)
          running.duty = numberedDuty(whole(), part.unit[size_t(own)], row.name);
    }
    return duties;
  }

  void lay(const Part& part, const SolvedCall& own, bool called, SolvedCall& solved) const {
    CallResult& all = solved.result;
    all.state = std::max(all.state, own.result.state);
    place(own.result.coils, part.coil, all.coils);
    place(own.result.sources, part.source, all.sources);
    place(own.result.terminals, part.terminal, all.terminals);
    place(own.result.wires, part.wire, all.wires);
    append(counted(part, own.result.duties), all.duties);
    append(own.result.melted, all.melted);
    append(own.result.marginalInputs, all.marginalInputs);
    append(own.result.dips, all.dips);
    for (RaceEnd end : own.result.raceEnds) {
      end.duties = counted(part, std::move(end.duties));
      all.raceEnds.push_back(std::move(end));
    }
    all.period = std::max(all.period, own.result.period);
    for (size_t i = 0; i < part.device.size(); ++i) {
      const auto at = size_t(part.device[i]);
      solved.positions.closed[at] = own.positions.closed[i];
      solved.positions.pulledIn[at] = own.positions.pulledIn[i];
      solved.positions.supplyOn[at] = own.positions.supplyOn[i];
      solved.positions.supplyVoltAmps[at] = own.positions.supplyVoltAmps[i];
    }
    if (!called) return;
    for (Event event : own.events) {
      event.unit = part.unit[size_t(event.unit)];
      event.at += solved.start - own.start;
      solved.events.push_back(std::move(event));
    }
  }

  /// Lists that hold only what there is follow the order of the units.
  void inOrder(CallResult& result) const {
    const auto byUnit = [this](const auto& a, const auto& b) {
      return whole().unitIndex(a.unit) < whole().unitIndex(b.unit);
    };
    for (auto* rows : {&result.duties}) std::stable_sort(rows->begin(), rows->end(), byUnit);
    std::stable_sort(result.melted.begin(), result.melted.end(), byUnit);
    std::stable_sort(result.marginalInputs.begin(), result.marginalInputs.end(), byUnit);
    std::stable_sort(result.dips.begin(), result.dips.end(), byUnit);
  }

  /// A variant shows its own island; the others are as in the call.
  void layVariants(const Part& part, const SolvedCall& own, SolvedCall& solved) const {
    for (const Variant& variant : own.variants) {
      Variant all = variant;
      all.duties = counted(part, std::move(all.duties));
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
      append(all.duties, same->duties);
      append(all.loads, same->loads);
      append(all.sources, same->sources);
    }
  }

  const equipment::Library& library_;
  Solution result_;
  std::vector<Part> parts_;
};

}  // namespace

std::vector<sheet::Sheet> islandsOf(const sheet::Sheet& sheet) {
  const auto& units = sheet.units.rows();
  std::map<sheet::UnitId, size_t> index;
  for (size_t i = 0; i < units.size(); ++i) index[units[i].id] = i;
  circuit::Joints joints(units.size());
  const auto home = [&](const sheet::Landing& landing) -> std::optional<size_t> {
    const auto unit = landedIn(landing);
    const auto found = unit ? index.find(*unit) : index.end();
    return found == index.end() ? std::nullopt : std::optional(found->second);
  };
  for (const auto& wire : sheet.conductors) {
    const auto a = home(wire.endA), b = home(wire.endB);
    if (a && b) joints.join(int(*a), int(*b));
  }
  std::map<int, size_t> number;  // root -> island
  for (size_t i = 0; i < units.size(); ++i) number.try_emplace(joints.root(int(i)), number.size());
  struct Rows {
    std::vector<sheet::Unit> units;
    std::vector<sheet::Cable> cables;
    std::vector<sheet::Conductor> conductors;
  };
  std::vector<Rows> rows(number.size());
  const auto islandOf = [&](size_t unit) { return number.at(joints.root(int(unit))); };
  for (size_t i = 0; i < units.size(); ++i) rows[islandOf(i)].units.push_back(units[i]);
  std::map<sheet::CableId, const sheet::Cable*> cables;
  for (const auto& cable : sheet.cables) cables[cable.id] = &cable;
  for (const auto& wire : sheet.conductors) {
    const auto cable = wire.cable ? cables.find(*wire.cable) : cables.end();
    auto unit = home(wire.endA) ? home(wire.endA) : home(wire.endB);
    if (!unit && cable != cables.end() && index.contains(cable->second->endA))
      unit = index.at(cable->second->endA);
    if (!unit) continue;
    Rows& mine = rows[islandOf(*unit)];
    mine.conductors.push_back(wire);
    const bool known =
        cable == cables.end() || std::any_of(mine.cables.begin(), mine.cables.end(),
                                             [&](const sheet::Cable& c) { return c.id == cable->first; });
    if (!known) mine.cables.push_back(*cable->second);
  }
  std::vector<sheet::Sheet> islands;
  for (Rows& mine : rows) {
    sheet::Sheet island;
    island.units = sheet::Table<sheet::Unit>(std::move(mine.units));
    island.cables = sheet::Table<sheet::Cable>(std::move(mine.cables));
    island.conductors = sheet::Table<sheet::Conductor>(std::move(mine.conductors));
    island.settings = sheet.settings;
    island.nextId = sheet.nextId;
    islands.push_back(std::move(island));
  }
  return islands;
}

Solution solveIslands(const std::vector<sheet::Sheet>& islands, const equipment::Library& library,
                      std::shared_ptr<const asbuilt::AsBuilt> whole, LineRange lines, Depth depth) {
  return Puzzle(islands, library, std::move(whole), lines, depth).solve();
}

}  // namespace ww::operation
