// SPDX-License-Identifier: GPL-3.0-or-later
// What a change of a sheet costs: every call carried to its end, the findings, the checklist with its bands;
// and the parts of it.
#include <benchmark/benchmark.h>

#include "checklist/checklist.h"
#include "equipment/shipped.h"
#include "operation/solution.h"
#include "support/reference_sheets.h"
#include "verify/check.h"

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
    benchmark::DoNotOptimize(operation::solveSheet(demo.sheet, equipment::standardLibrary()));
}

void findings(benchmark::State& state, const Case& demo) {
  for (auto _ : state) benchmark::DoNotOptimize(verify::check(demo.sheet, demo.solution));
}

void checklistWithBands(benchmark::State& state, const Case& demo) {
  for (auto _ : state) benchmark::DoNotOptimize(checklist::checklistFor(demo.sheet, demo.solution));
}

const auto registered = [] {
  using Measure = void (*)(benchmark::State&, const Case&);
  const std::pair<const char*, Measure> measures[] = {
      {"compile", compile},     {"solvedState", solvedState}, {"quietInstant", quietInstant},
      {"everyCall", everyCall}, {"findings", findings},       {"checklistWithBands", checklistWithBands}};
  const std::pair<const char*, sheet::Sheet (*)()> rows[] = {
      {"furnace", testing::rowA}, {"airHandler", testing::rowB}, {"heatPump", testing::rowG}};
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
