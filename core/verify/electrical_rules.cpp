// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include "asbuilt/stamp.h"
#include "verify/rules.h"

namespace ww::verify {

namespace {

using equipment::CoilPart;
using equipment::FusePart;
using equipment::TransformerPart;
using operation::CoilState;
using quantity::Amps;
using quantity::VoltAmps;
using quantity::Volts;

constexpr double kWarnPercent = 80;  // continuous load, planning custom: common practice, no source
constexpr double kMostPercent = 100;
constexpr double kClass2Volts = 30;      // NEC Article 725, Class 2, wet contact aside
constexpr double kClass2VoltAmps = 100;  // NEC Chapter 9 Table 11(A), nameplate; from memory

void shorts(const Inspection& in) {
  const auto* rest = in.solution.call("rest");
  const auto report = [&](const char* rule, const operation::CallResult& call,
                          const operation::MeltedFuse& fuse) {
    in.add(rule, {atPart(fuse.unit, fuse.part, call.call)},
           {{"call", CallName{call.call}}, {"amps", fuse.amps}, {"part", atPart(fuse.unit, fuse.part)}});
  };
  // Loads that are too many, or that stand at inrush for want of volts, are no short.
  const auto overload = [&](const operation::CallResult& call, const operation::MeltedFuse& fuse) {
    std::vector<Argument> arguments{{"call", CallName{call.call}},
                                    {"amps", fuse.amps},
                                    {"part", atPart(fuse.unit, fuse.part)},
                                    {"seconds", fuse.after}};
    if (fuse.cause == operation::MeltCause::hum) arguments.push_back({"state", Word{"hum"}});
    in.add("va-over", {atPart(fuse.unit, fuse.part, call.call)}, std::move(arguments));
  };
  for (const auto& call : in.solution.calls)
    for (const auto& fuse : call.result.melted) {
      const auto same = [&](const operation::MeltedFuse& f) {
        return f.unit == fuse.unit && f.part == fuse.part;
      };
      const bool before =
          rest != nullptr && std::any_of(rest->result.melted.begin(), rest->result.melted.end(), same);
      if (fuse.cause != operation::MeltCause::shortCircuit) {
        if (&call == rest || !before) overload(call.result, fuse);
        continue;
      }
      if (&call == rest) report("short-at-rest", call.result, fuse);
      if (!before) report("short-in-call", call.result, fuse);
    }
}

/// The heaviest call of each transformer against its rating.
void load(const Inspection& in) {
  struct Heaviest {
    const operation::SourceResult* source;
    std::string call;
  };
  std::map<std::pair<sheet::UnitId, std::string>, Heaviest> heaviest;
  for (const auto& call : in.solution.calls)
    for (const auto& source : call.result.sources) {
      auto& entry = heaviest[{source.unit, source.part}];
      if (entry.source == nullptr || source.amps > entry.source->amps) entry = {&source, call.result.call};
    }
  for (const auto& [place, entry] : heaviest) {
    if (entry.source->loadPercent <= kWarnPercent) continue;
    const bool over = entry.source->loadPercent > kMostPercent;
    in.add(over ? "va-over" : "va-high", {atPart(place.first, place.second, entry.call)},
           {{"call", CallName{entry.call}},
            {"load", entry.source->shown},
            {"rating", entry.source->rating},
            {"percent", Percent{entry.source->loadPercent}},
            {"limit", Percent{over ? kMostPercent : kWarnPercent}},
            {"amps", entry.source->amps}});
  }
}

/// Class 2: at most 30 V, 100 VA, and overcurrent protection of at most 100 VA over the highest volts, unless
/// the source limits itself.
void class2(const Inspection& in, const asbuilt::Device& device, const TransformerPart& part) {
  const auto& placed = in.circuit.units[size_t(device.unit)];
  const Place place = atPart(placed.id, in.circuit.element(device).id);
  const double highest = asbuilt::emf(part, placed.tapRatio, {});
  if (highest > kClass2Volts)
    in.add("over-30-volts", {place}, {{"volts", Volts(highest)}, {"limit", Volts(kClass2Volts)}});
  if (part.rating.si() > kClass2VoltAmps)
    in.add("class-2", {place}, {{"rating", part.rating}, {"limit", VoltAmps(kClass2VoltAmps)}});
  if (part.inherentlyLimited) return;
  const Amps most(kClass2VoltAmps / highest);
  for (const auto& other : in.circuit.devices)
    if (const auto* fuse = std::get_if<FusePart>(&other.part);
        fuse != nullptr && (other.a == device.a || other.b == device.a) && fuse->rating > most)
      in.add("fuse-5A", {atPart(placed.id, in.circuit.element(other).id)},
             {{"amps", fuse->rating}, {"limit", most}});
}

/// Where the volts of a coil are lost while it starts: the three largest drops among what carries its
/// current.
void addDrops(const Inspection& in, const operation::SolvedCall& call, const operation::CoilResult& coil,
              std::vector<Argument>& arguments) {
  const auto* device = in.circuit.device(coil.unit, coil.part);
  auto positions = call.positions;
  positions.allAtInrush = true;
  circuit::Solver<circuit::Phasor> solver(in.circuit.plan);
  asbuilt::solve(in.circuit, positions, {}, solver);
  const double least = 0.9 * std::abs(solver.current(device->branch));
  const auto carries = [&](int branch) { return std::abs(solver.current(branch)) >= least; };
  const auto across = [&](int a, int b) {
    return solver.quality(a, b) == circuit::Quality::solid ? std::abs(solver.voltage(a, b)) : 0;
  };
  std::vector<std::pair<double, Place>> drops;
  double open = 0;
  for (const auto& each : in.circuit.devices) {
    if (!carries(each.branch)) continue;
    const auto& placed = in.circuit.units[size_t(each.unit)];
    double lost = across(each.a, each.b);
    if (const auto* source = std::get_if<TransformerPart>(&each.part)) {
      open = asbuilt::emf(*source, placed.tapRatio, {});
      lost = open - lost;
    } else if (!std::holds_alternative<FusePart>(each.part) && !equipment::isContact(each.part)) {
      continue;
    }
    drops.emplace_back(lost, atPart(placed.id, in.circuit.element(each).id));
  }
  for (const auto& wire : in.circuit.wires)
    if (carries(wire.branch)) drops.emplace_back(across(wire.a, wire.b), atConductor(wire.conductor));
  std::stable_sort(drops.begin(), drops.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  if (drops.size() < 3 || open == 0) return;
  arguments.push_back({"lost", Volts(open - coil.pullIn.si())});
  for (size_t i = 0; i < 3; ++i) {
    arguments.push_back({"drop" + std::to_string(i + 1), drops[i].second});
    arguments.push_back({"volts" + std::to_string(i + 1), Volts(drops[i].first)});
  }
}

const CoilPart* coilPart(const Inspection& in, const operation::CoilResult& coil) {
  const auto* device = in.circuit.device(coil.unit, coil.part);
  return device == nullptr ? nullptr : std::get_if<CoilPart>(&device->part);
}

}  // namespace

void supplyRules(const Inspection& in) {
  shorts(in);
  load(in);
  for (const auto& device : in.circuit.devices)
    if (const auto* part = std::get_if<TransformerPart>(&device.part)) class2(in, device, *part);
}

/// Pull-in is judged at inrush with all coils of the call together: at rated line against the guaranteed
/// volts, at low line against the typical ones. A coil is told once, in the call that is hardest on it.
void coilRules(const Inspection& in) {
  struct Worst {
    double margin = 0;
    Finding finding;
  };
  std::map<std::pair<sheet::UnitId, std::string>, Worst> worst;
  for (const auto& call : in.solution.calls)
    for (const auto& coil : call.result.coils) {
      const CoilPart* part = coilPart(in, coil);
      if (part == nullptr || coil.state == CoilState::out) continue;
      const bool stuck = coil.state == CoilState::hum || coil.state == CoilState::chatter;
      const bool never = stuck || coil.pullInLow < part->pullInTypical || coil.sealedLow < part->dropOut;
      if (!never && coil.pullIn >= part->pullInGuaranteed) continue;
      const char* rule = never ? "pull-in-never" : "pull-in-late";
      const double margin = coil.pullIn.si() - part->pullInGuaranteed.si() - (never ? 100 : 0);
      auto& entry = worst[{coil.unit, coil.part}];
      if (margin >= entry.margin) continue;
      entry = {margin,
               {rule,
                severityOf(rule),
                {atPart(coil.unit, coil.part, call.result.call)},
                {{"call", CallName{call.result.call}},
                 {"part", atPart(coil.unit, coil.part)},
                 {"volts", coil.pullIn},
                 {"low", coil.pullInLow},
                 {"typical", part->pullInTypical},
                 {"guaranteed", part->pullInGuaranteed},
                 {"state", Word{coil.state == CoilState::chatter ? "chatter"
                                : stuck                          ? "hum"
                                                                 : "late"}}}}};
      addDrops(in, call, coil, entry.finding.arguments);
    }
  for (auto& [coil, entry] : worst) in.findings.push_back(std::move(entry.finding));
}

}  // namespace ww::verify
