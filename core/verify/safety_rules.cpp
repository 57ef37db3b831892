// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "verify/rules.h"

namespace ww::verify {

namespace {

using equipment::ContactPart;
using equipment::TransformerPart;

/// A safety whose two sides are one piece of metal without it cannot stop anything.
void bypassed(const Inspection& in) {
  const std::vector<char>& jumpers = in.standing.jumpers;
  const Metal metal(in.circuit, &jumpers);
  for (size_t i = 0; i < in.circuit.devices.size(); ++i) {
    const auto& device = in.circuit.devices[i];
    const auto* contact = std::get_if<ContactPart>(&device.part);
    if (contact == nullptr || !contact->safety || !metal.joined(device.a, device.b)) continue;
    if (jumpers[i] && !Metal(in.circuit, &jumpers, int(i)).joined(device.a, device.b)) continue;
    in.add("safety-bypassed",
           {atPart(in.circuit.units[size_t(device.unit)].id, in.circuit.element(device).id)});
  }
}

/// The same, only while a call closes contacts: told in the first such call.
void tiedInCalls(const Inspection& in, const std::vector<const asbuilt::Device*>& sources,
                 const Metal& always) {
  std::set<std::pair<size_t, size_t>> told;
  for (const auto& call : in.solution.calls) {
    if (sources.size() < 2) return;
    const Metal metal(in.circuit, &call.positions.closed);
    for (size_t i = 0; i < sources.size(); ++i)
      for (size_t k = i + 1; k < sources.size(); ++k) {
        const auto& first = *sources[i];
        const auto& second = *sources[k];
        if (always.joined(first.a, second.a) || !metal.joined(first.a, second.a)) continue;
        if (!told.insert({i, k}).second) continue;
        in.add(
            "sources-tied",
            {atPart(in.circuit.units[size_t(first.unit)].id, in.circuit.element(first).id, call.result.call),
             atPart(in.circuit.units[size_t(second.unit)].id, in.circuit.element(second).id)},
            {{"sense", Word{"hot-to-hot"}}, {"call", CallName{call.result.call}}});
      }
  }
}

/// Two transformers with their hots joined; with the commons joined too, a switched-off one runs backwards.
void tiedSources(const Inspection& in) {
  const Metal metal(in.circuit, &in.standing.jumpers);
  std::vector<const asbuilt::Device*> sources;
  for (const auto& device : in.circuit.devices)
    if (std::holds_alternative<TransformerPart>(device.part)) sources.push_back(&device);
  for (size_t i = 0; i < sources.size(); ++i)
    for (size_t k = i + 1; k < sources.size(); ++k) {
      const auto& first = *sources[i];
      const auto& second = *sources[k];
      const bool straight = metal.joined(first.a, second.a);
      const bool crossed = metal.joined(first.a, second.b) || metal.joined(first.b, second.a);
      if (!straight && !crossed) continue;
      const std::vector<Place> places{
          atPart(in.circuit.units[size_t(first.unit)].id, in.circuit.element(first).id),
          atPart(in.circuit.units[size_t(second.unit)].id, in.circuit.element(second).id)};
      in.add("sources-tied", places, {{"sense", Word{straight ? "hot-to-hot" : "hot-to-common"}}});
      if (straight && metal.joined(first.b, second.b)) in.add("back-feed", places);
    }
  tiedInCalls(in, sources, metal);
}

}  // namespace

void safetyRules(const Inspection& in) {
  bypassed(in);
  const auto bridged = [&](const Place& safety) {
    return std::any_of(in.findings.begin(), in.findings.end(), [&](const Finding& finding) {
      return finding.rule == "safety-bypassed" && finding.places.front() == safety;
    });
  };
  for (const Place& safety : in.standing.idleSafeties())
    if (!bridged(safety)) in.add("safety-misplaced", {safety});
  for (const Place& screw : in.standing.foreign) in.add("foreign-source", {screw});
  tiedSources(in);
}

}  // namespace ww::verify
