// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/trial.h"

#include <algorithm>
#include <atomic>
#include <thread>

#include "operation/duty_numbers.h"
#include "operation/machine.h"

namespace ww::verify {

namespace {

using operation::dutyName;

operation::Facts factsOf(const std::string& call) {
  operation::Facts facts;
  facts.call = call;
  return facts;
}

bool listed(const std::vector<std::string>& duties, const std::string& name) {
  return std::any_of(duties.begin(), duties.end(), [&](const auto& d) { return dutyName(d) == name; });
}

bool containsAll(const std::vector<std::string>& duties, const std::vector<std::string>& wanted) {
  return std::all_of(wanted.begin(), wanted.end(), [&](const auto& duty) {
    return std::find(duties.begin(), duties.end(), duty) != duties.end();
  });
}

/// "heat" of "zone1.heat2".
std::string familyOf(const std::string& call) {
  return call.substr(0, std::min(call.find_last_not_of("0123456789"), call.size() - 1) + 1);
}

/// A call still asks for all it asked for, or a higher stage of it does: a second compressor stage pushes
/// auxiliary heat from the second call to the third.
bool keeps(const std::vector<CallVerdict>& calls, const CallVerdict& is, const CallVerdict& was) {
  if (containsAll(is.must, was.must)) return true;
  return std::any_of(calls.begin(), calls.end(), [&](const CallVerdict& higher) {
    return higher.call > is.call && familyOf(higher.call) == familyOf(is.call) &&
           std::all_of(was.must.begin(), was.must.end(),
                       [&](const auto& duty) { return listed(higher.must, std::string(dutyName(duty))); });
  });
}

/// No fuse open, and just what the table wants runs.
bool clean(const asbuilt::AsBuilt& circuit, const operation::Machine& machine,
           const operation::CallDemand& demand) {
  for (const auto& melting : machine.melted())
    if (melting.amps > 0) return false;
  std::vector<std::string> names;
  for (size_t u = 0; u < circuit.units.size(); ++u)
    for (const auto& duty : circuit.units[u].profile->duties)
      if (machine.logic(int(u)).value(duty.running))
        names.push_back(operation::numberedDuty(circuit, int(u), duty.name));
  return std::all_of(
             names.begin(), names.end(),
             [&](const auto& name) { return listed(demand.must, name) || listed(demand.may, name); }) &&
         std::all_of(demand.must.begin(), demand.must.end(), [&](const auto& duty) {
           return std::find(names.begin(), names.end(), dutyName(duty)) != names.end();
         });
}

}  // namespace

Trials::Trials(const sheet::Sheet& sheet, const equipment::Library& library, const SheetCheck& check,
               operation::LineRange lines)
    : library_(library), check_(check), lines_(lines), protected_(asbuilt::compile(sheet, library)) {
  for (const CallVerdict& call : check.calls)
    if (call.call == "rest")
      restRight_ = call.ok;
    else if (!call.ok)
      wrong_.push_back(call.call);
}

Tried Trials::finish(const sheet::Sheet& changed) const {
  const auto solution = operation::solveSheet(changed, library_, lines_);
  Tried tried;
  tried.check = verify::check(changed, solution);
  tried.forbidden = protected_.broken(*solution.circuit);
  for (const CallVerdict& was : check_.calls) {
    const auto is = std::find_if(tried.check.calls.begin(), tried.check.calls.end(),
                                 [&](const CallVerdict& call) { return call.call == was.call; });
    // A mend may make more be asked for, as where fresh air comes to be called; never less.
    if (is == tried.check.calls.end() && (!was.ok || was.must.empty()))
      tried.fewerCalls = true;
    else
      tried.sameCalls &= is != tried.check.calls.end() && keeps(tried.check.calls, *is, was);
  }
  return tried;
}

std::optional<Tried> Trials::whole(const sheet::Sheet& changed) const {
  if (restRight_) {
    const asbuilt::AsBuilt circuit = asbuilt::compile(changed, library_);
    const auto table = operation::operationTable(circuit);
    operation::Machine rest(circuit);
    rest.powerUp(factsOf("rest"));
    if (!clean(circuit, rest, table.empty() ? operation::CallDemand{} : table.front())) return std::nullopt;
  }
  return finish(changed);
}

std::optional<Tried> Trials::promising(const sheet::Sheet& changed) const {
  const asbuilt::AsBuilt circuit = asbuilt::compile(changed, library_);
  const auto table = operation::operationTable(circuit);
  if (table.empty()) return finish(changed);
  operation::Machine rest(circuit);
  rest.powerUp(factsOf("rest"));
  if (!clean(circuit, rest, table.front())) return std::nullopt;
  for (const std::string& call : wrong_) {
    const auto demand =
        std::find_if(table.begin(), table.end(), [&](const auto& entry) { return entry.call == call; });
    if (demand == table.end()) return std::nullopt;
    operation::Machine machine = rest;
    machine.run(factsOf(call));
    if (!clean(circuit, machine, *demand)) return std::nullopt;
  }
  return finish(changed);
}

void inParallel(size_t count, unsigned threads, const std::stop_token& stop,
                const std::function<void(size_t)>& work) {
  std::atomic<size_t> next{0};
  const auto run = [&] {
    for (size_t i = next++; i < count && !stop.stop_requested(); i = next++) work(i);
  };
  if (threads == 0) threads = std::clamp(std::thread::hardware_concurrency(), 1U, 8U);
  threads = unsigned(std::min<size_t>(threads, (count + 3) / 4));  // a thread for fewer is not worth starting
  std::vector<std::jthread> others;
  for (unsigned k = 1; k < threads; ++k) others.emplace_back(run);
  run();
}

}  // namespace ww::verify
