// SPDX-License-Identifier: GPL-3.0-or-later
#include "json_output.h"

#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "wording/sentences.h"

namespace ww::app {

namespace {

using nlohmann::json;

const char* word(operation::CoilState state) {
  constexpr const char* kWords[] = {"out", "in", "late", "hum", "chatter", "under"};
  return kWords[static_cast<size_t>(state)];
}

const char* word(operation::CallState state) {
  constexpr const char* kWords[] = {"ok", "late", "hum", "race", "chatter", "collapse", "fuse-open"};
  return kWords[static_cast<size_t>(state)];
}

const char* word(circuit::Quality quality) {
  constexpr const char* kWords[] = {"solid", "ghost", "floating"};
  return kWords[static_cast<size_t>(quality)];
}

const char* word(checklist::Phase phase) {
  constexpr const char* kWords[] = {"dead", "rest", "call"};
  return kWords[static_cast<size_t>(phase)];
}

const char* word(checklist::Measure measure) {
  constexpr const char* kWords[] = {"act", "ohms", "ac-volts", "dc-millivolts", "look"};
  return kWords[static_cast<size_t>(measure)];
}

/// Four decimals are below what any meter shows, and keep the text short.
double rounded(double value) { return std::round(value * 1e4) / 1e4 + 0.0; }

struct FigureJson {
  const Opened& opened;
  json operator()(const quantity::Volts& v) const { return rounded(v.si()); }
  json operator()(const quantity::Amps& v) const { return rounded(v.si()); }
  json operator()(const quantity::VoltAmps& v) const { return rounded(v.si()); }
  json operator()(const quantity::Ohms& v) const { return rounded(v.si()); }
  json operator()(const quantity::Seconds& v) const { return rounded(v.si()); }
  json operator()(const quantity::Celsius& v) const { return rounded(v.si()); }
  json operator()(const verify::Percent& v) const { return rounded(v.value); }
  json operator()(const verify::DutyList& v) const { return v.duties; }
  json operator()(const verify::CallName& v) const { return v.call; }
  json operator()(const verify::Word& v) const { return v.word; }
  json operator()(const verify::Place& v) const { return nameOf(opened, v); }
  json operator()(const verify::Path& v) const {
    json list = json::array();
    for (const auto& place : v) list.push_back(nameOf(opened, place));
    return list;
  }
};

}  // namespace

std::string tagOf(const Opened& opened, sheet::UnitId unit) {
  const auto* row = opened.sheet().units.find(unit);
  return row == nullptr ? "" : row->tag;
}

std::string nameOf(const Opened& opened, const sheet::TerminalRef& terminal) {
  return tagOf(opened, terminal.unit) + "." + terminal.terminal;
}

/// "cable 1 YE"; jumpers have no cable.
std::string nameOf(const Opened& opened, sheet::ConductorId id) {
  const auto* wire = opened.sheet().conductors.find(id);
  if (wire == nullptr) return "";
  const auto* cable = wire->cable ? opened.sheet().cables.find(*wire->cable) : nullptr;
  return (cable == nullptr ? "jumper " : "cable " + cable->name + " ") + sheet::print(wire->colour);
}

std::string nameOf(const Opened& opened, const verify::Place& place) {
  if (place.conductor != sheet::ConductorId{}) {
    const std::string end = place.end == 0 ? "" : std::string(" end ") + place.end;
    return nameOf(opened, place.conductor) + end;
  }
  std::string name = tagOf(opened, place.unit);
  if (!place.terminal.empty()) name += "." + place.terminal;
  if (!place.part.empty()) name += "." + place.part;
  return name;
}

json findingJson(const Opened& opened, const verify::Finding& finding) {
  json places = json::array();
  std::string call;
  for (const auto& place : finding.places) {
    places.push_back(nameOf(opened, place));
    if (call.empty()) call = place.call;
  }
  json arguments = json::object();
  for (const auto& argument : finding.arguments)
    arguments[argument.name] = std::visit(FigureJson{opened}, argument.figure);
  json entry{{"key", finding.rule},
             {"id", verify::keyOf(finding)},
             {"severity", verify::idOf(finding.severity)},
             {"places", places},
             {"arguments", arguments},
             {"title", wording::findingTitle(opened.language, finding, opened.context()).toStdString()},
             {"text", wording::findingText(opened.language, finding, opened.context()).toStdString()}};
  if (!call.empty()) entry["call"] = call;
  return entry;
}

void printJson(const json& value) { print(QString::fromStdString(value.dump(2))); }

json checkJson(const Opened& opened) {
  json findings = json::array();
  for (const auto& finding : opened.check.findings) findings.push_back(findingJson(opened, finding));
  json calls = json::array();
  for (const auto& call : opened.check.calls)
    calls.push_back({{"call", call.call}, {"must", call.must}, {"runs", call.runs}, {"ok", call.ok}});
  return {{"findings", findings}, {"calls", calls}};
}

json callJson(const Opened& opened, const operation::CallResult& call) {
  json nodes = json::object();
  for (const auto& terminal : call.terminals) {
    json node{{"reference", nameOf(opened, terminal.reference)}, {"quality", word(terminal.quality)}};
    const bool floating = terminal.quality == circuit::Quality::floating;
    node["volts"] = floating ? json() : json(rounded(std::abs(terminal.volts)));
    node["degrees"] = floating ? json() : json(rounded(std::arg(terminal.volts) * 180 / std::numbers::pi));
    nodes[nameOf(opened, terminal.terminal)] = std::move(node);
  }
  json coils = json::object();
  for (const auto& coil : call.coils)
    coils[tagOf(opened, coil.unit) + "." + coil.part] = {{"state", word(coil.state)},
                                                         {"pullInVolts", rounded(coil.pullIn.si())},
                                                         {"pullInVoltsLowLine", rounded(coil.pullInLow.si())},
                                                         {"sealedVolts", rounded(coil.sealed.si())},
                                                         {"amps", rounded(coil.amps.si())}};
  json duties = json::array();
  for (const auto& duty : call.duties) duties.push_back(duty.duty);
  json amps = json::object();
  for (const auto& source : call.sources)
    amps[tagOf(opened, source.unit) + "." + source.part] = rounded(source.amps.si());
  return {{"call", call.call}, {"nodes", nodes}, {"coils", coils},
          {"duties", duties},  {"amps", amps},   {"state", word(call.state)}};
}

json stepsJson(const Opened& opened, const std::vector<checklist::Step>& steps) {
  json list = json::array();
  for (const auto& step : steps) {
    json entry{{"key", step.key},
               {"phase", word(step.phase)},
               {"measure", word(step.measure)},
               {"instruction", step.instruction},
               {"standAt", tagOf(opened, step.standAt)},
               {"text", wording::stepText(opened.language, step, opened.context()).toStdString()}};
    if (!step.call.empty()) entry["call"] = step.call;
    if (!step.cautions.empty()) entry["cautions"] = step.cautions;
    if (step.probe1.unit != sheet::UnitId{})
      entry["probes"] = {nameOf(opened, step.probe1), nameOf(opened, step.probe2)};
    if (step.measure == checklist::Measure::look) {
      entry["mustRun"] = step.mustRun;
      entry["mustNotRun"] = step.mustNotRun;
    }
    if (step.band) {
      const auto& band = *step.band;
      entry["band"] = band.open ? json{{"open", true}, {"atLeast", band.low}}
                                : json{{"low", rounded(band.low)}, {"high", rounded(band.high)}};
    }
    if (step.halfWave)
      entry["halfWave"] = {{"positive", rounded(step.halfWave->positive)},
                           {"negative", rounded(step.halfWave->negative)}};
    list.push_back(std::move(entry));
  }
  return {{"steps", list}};
}

}  // namespace ww::app
