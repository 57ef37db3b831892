// SPDX-License-Identifier: GPL-3.0-or-later
// What a change of a sheet costs: every call carried to its end, the findings, the checklist with its bands;
// and the parts of it.
#include <benchmark/benchmark.h>

#include "asbuilt/meter.h"
#include "asbuilt/single_faults.h"
#include "checklist/checklist.h"
#include "equipment/shipped.h"
#include "operation/machine.h"
#include "operation/solution.h"
#include "sheet/sheet_csv.h"
#include "support/reference_rows.h"
#include "support/reference_rows_water.h"
#include "support/reference_sheets.h"
#include "verify/check.h"
#include "verify/mends.h"

using namespace ww;

namespace {

struct Case {
  sheet::Sheet sheet;
  operation::Solution solution;
  explicit Case(sheet::Sheet wired)
      : sheet(std::move(wired)), solution(operation::solveSheet(sheet, equipment::standardLibrary())) {}
};

void describe(benchmark::State& state, const Case& demo) {
  state.counters["nodes"] = demo.solution.circuit->plan->nodes();
  state.counters["calls"] = static_cast<double>(demo.solution.calls.size());
}

void compile(benchmark::State& state, const Case& demo) {
  for (auto _ : state) benchmark::DoNotOptimize(asbuilt::compile(demo.sheet, equipment::standardLibrary()));
}

/// One linear solution with its constant-power supplies: the end of the last call.
void solvedState(benchmark::State& state, const Case& demo) {
  const auto& circuit = *demo.solution.circuit;
  circuit::Solver<circuit::Phasor> solver(circuit.plan);
  const auto& positions = demo.solution.calls.back().positions;
  for (auto _ : state)
    benchmark::DoNotOptimize(asbuilt::solve(circuit, positions, asbuilt::Conditions{}, solver));
}

/// One instant at which nothing moves, the circuit known: the relays, all logic, and what is due next. With
/// the solved state it makes a settled one.
void quietInstant(benchmark::State& state, const Case& demo) {
  operation::Machine machine(*demo.solution.circuit);
  const operation::Facts rest;
  machine.powerUp(rest);
  for (auto _ : state) benchmark::DoNotOptimize(machine.run(rest));
}

void everyCall(benchmark::State& state, const Case& demo) {
  for (auto _ : state)
    benchmark::DoNotOptimize(
        operation::solveSheet(demo.sheet, equipment::standardLibrary(), {}, operation::Depth::calls));
}

/// Every call, each end state carried on at low line, at high line and with each safety open.
void everyCallAcross(benchmark::State& state, const Case& demo) {
  std::size_t variants = 0;
  for (auto _ : state) {
    const auto solution =
        operation::solveSheet(demo.sheet, equipment::standardLibrary(), {}, operation::Depth::across);
    variants = 0;
    for (const auto& call : solution.calls) variants += call.variants.size();
  }
  state.counters["variants"] = static_cast<double>(variants);
}

/// The end states of all calls under every single fault, positions held: what a list of suspects costs.
void faultsInEveryCall(benchmark::State& state, const Case& demo) {
  const auto& circuit = *demo.solution.circuit;
  const auto faults = asbuilt::singleFaults(circuit);
  for (auto _ : state)
    for (const auto& fault : faults) {
      asbuilt::Conditions conditions;
      conditions.overrides = fault.overrides;
      circuit::Solver<circuit::Phasor> solver(asbuilt::planFor(circuit, conditions.overrides));
      const asbuilt::Stamp stamp(circuit, conditions);
      for (const auto& call : demo.solution.calls)
        benchmark::DoNotOptimize(stamp.solve(call.positions, solver));
    }
  state.counters["faults"] = static_cast<double>(faults.size());
}

/// The same with one plan that holds every bridge of the list: no plan is made, each solve is dearer.
void faultsOnOnePlan(benchmark::State& state, const Case& demo) {
  const auto& circuit = *demo.solution.circuit;
  auto faults = asbuilt::singleFaults(circuit);
  std::vector<asbuilt::Override> all;
  for (const auto& fault : faults) all.insert(all.end(), fault.overrides.begin(), fault.overrides.end());
  circuit::Solver<circuit::Phasor> solver(asbuilt::planFor(circuit, all));
  std::size_t next = 0;
  for (auto& fault : faults)
    for (auto& change : fault.overrides) change = all[next++];
  for (auto _ : state)
    for (const auto& fault : faults) {
      asbuilt::Conditions conditions;
      conditions.overrides = fault.overrides;
      const asbuilt::Stamp stamp(circuit, conditions);
      for (const auto& call : demo.solution.calls)
        benchmark::DoNotOptimize(stamp.solve(call.positions, solver));
    }
  state.counters["faults"] = static_cast<double>(faults.size());
}

/// A new plan with one bridge more than the circuit has.
void planWithABridge(benchmark::State& state, const Case& demo) {
  const auto& circuit = *demo.solution.circuit;
  std::vector<asbuilt::Override> bridge{asbuilt::bridgeOf(0, circuit.plan->nodes() - 1, 1)};
  for (auto _ : state) benchmark::DoNotOptimize(asbuilt::planFor(circuit, bridge));
}

/// One state with the cables' capacitances, coupling known, and one reading through a meter.
void ghostReading(benchmark::State& state, const Case& demo) {
  const auto& circuit = *demo.solution.circuit;
  const asbuilt::Coupling coupling(circuit);
  for (auto _ : state) {
    asbuilt::LiveState live(circuit, coupling, demo.solution.calls.back().positions, {});
    benchmark::DoNotOptimize(live.volts(0, 1));
  }
}

void findings(benchmark::State& state, const Case& demo) {
  for (auto _ : state) benchmark::DoNotOptimize(verify::check(demo.sheet, demo.solution));
}

void checklistWithBands(benchmark::State& state, const Case& demo) {
  for (auto _ : state) benchmark::DoNotOptimize(checklist::checklistFor(demo.sheet, demo.solution));
}

sheet::Sheet zones() { return *sheet::readCsv(testing::kRowN, equipment::standardLibrary()).value; }

/// The best mend of a planted mistake, as `ww mend` and the window search it, on as many threads as there
/// are.
void mend(benchmark::State& state, const std::string& csv, int cost) {
  const Case demo(*sheet::readCsv(csv, equipment::standardLibrary()).value);
  const auto check = verify::check(demo.sheet, demo.solution);
  std::vector<verify::Mend> mends;
  for (auto _ : state) mends = verify::searchMends(demo.sheet, equipment::standardLibrary(), check);
  if (mends.empty() || mends.front().cost != cost || !mends.front().clearsAll())
    state.SkipWithError("the mistake is not cured as it should be");
}

const auto registeredMends = [] {
  using testing::edited;
  const auto swapped = [](const std::string& row, const char* a, const char* b, const char* aAs,
                          const char* bAs) { return edited(edited(row, a, aAs), b, bAs); };
  const std::tuple<const char*, std::string, int> mistakes[] = {
      {"single/furnace/swappedPair",
       swapped(testing::kRowA, "YE,T,Y,F,Y", "GN,T,G,F,G", "YE,T,Y,F,G", "GN,T,G,F,Y"), 1},
      {"single/heatPump/valveSense", edited(testing::kRowG, "rvSense,cooling", "rvSense,heating"), 1},
      {"single/heatPump/hotAndCommon",
       swapped(testing::kRowG, "RD,A,R,O,R", "BU,A,C,O,C", "RD,A,R,O,C", "BU,A,C,O,R"), 1},
      {"single/zones/swappedPair",
       swapped(testing::kRowN, "YE,P,EY,F,Y", "GN,P,EG,F,G", "YE,P,EY,F,G", "GN,P,EG,F,Y"), 1},
      {"pair/furnace/spliced",
       swapped(testing::kRowA, "YE,T,Y,F,Y", "YE,F,Y,O,Y", "YE,T,Y,F,/S1", "YE,F,/S1,O,Y"), 2},
      {"pair/heatPump/defrostHeat", edited(testing::kRowG, "WH,A,W1,O,W", "WH,A,*,O,*"), 2}};
  for (const auto& [name, csv, cost] : mistakes)
    benchmark::RegisterBenchmark(
        (std::string("mend/") + name).c_str(),
        [csv = csv, cost = cost](benchmark::State& state) { mend(state, csv, cost); })
        ->UseRealTime()
        ->Unit(benchmark::kMillisecond);
  return true;
}();

/// So many houses of row A in one sheet: 3 units each, all their calls. `joined`: their commons are one.
sheet::Sheet street(int houses, bool joined = false) {
  sheet::Sheet sheet;
  sheet::UnitId before{};
  for (int k = 0; k < houses; ++k) {
    const std::string n = std::to_string(k);
    const auto t = testing::addUnit(sheet, ("T" + n).c_str(), "rc-1h1c-common", "hall");
    const auto f = testing::addUnit(sheet, ("F" + n).c_str(), "furnace-1", "closet");
    const auto o = testing::addUnit(sheet, ("O" + n).c_str(), "od-cool-1", "yard");
    testing::addCable(
        sheet, ("a" + n).c_str(), 15, t, f,
        {{"RD", "R", "R"}, {"BU", "C", "C"}, {"YE", "Y", "Y"}, {"GN", "G", "G"}, {"WH", "W", "W"}});
    testing::addCable(sheet, ("b" + n).c_str(), 12, f, o, {{"YE", "Y", "Y"}, {"BU", "C", "C"}});
    if (joined && k > 0) testing::addCable(sheet, ("c" + n).c_str(), 12, before, f, {{"BU", "C", "C"}});
    before = f;
  }
  return sheet;
}

const auto registeredStreets = [] {
  for (const bool joined : {false, true})
    for (const int units : {99, 198})
      benchmark::RegisterBenchmark(
          ("sheet/everyCall/" + std::string(joined ? "joined" : "units") + std::to_string(units)).c_str(),
          [units, joined](benchmark::State& state) {
            const Case demo(street(units / 3, joined));
            everyCall(state, demo);
            describe(state, demo);
          })
          ->Unit(benchmark::kMillisecond);
  return true;
}();

const auto registered = [] {
  using Measure = void (*)(benchmark::State&, const Case&);
  const std::pair<const char*, Measure> measures[] = {{"compile", compile},
                                                      {"solvedState", solvedState},
                                                      {"quietInstant", quietInstant},
                                                      {"everyCall", everyCall},
                                                      {"everyCallAcross", everyCallAcross},
                                                      {"faultsInEveryCall", faultsInEveryCall},
                                                      {"faultsOnOnePlan", faultsOnOnePlan},
                                                      {"planWithABridge", planWithABridge},
                                                      {"ghostReading", ghostReading},
                                                      {"findings", findings},
                                                      {"checklistWithBands", checklistWithBands}};
  const std::pair<const char*, sheet::Sheet (*)()> rows[] = {{"furnace", testing::rowA},
                                                             {"airHandler", testing::rowB},
                                                             {"heatPump", testing::rowG},
                                                             {"zones", zones}};
  for (const auto& [what, measure] : measures)
    for (const auto& [name, row] : rows)
      benchmark::RegisterBenchmark((std::string("sheet/") + what + "/" + name).c_str(),
                                   [measure = measure, row = row](benchmark::State& state) {
                                     const Case demo(row());
                                     measure(state, demo);
                                     describe(state, demo);
                                   })
          ->Unit(benchmark::kMicrosecond);
  return true;
}();

}  // namespace
