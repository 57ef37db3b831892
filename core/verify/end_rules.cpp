// SPDX-License-Identifier: GPL-3.0-or-later
// How calls end: supplies that starve, coils of which chance decides, what never rests, inputs half seen.
#include <algorithm>
#include <set>

#include "verify/rules.h"

namespace ww::verify {

namespace {

using equipment::TransformerPart;
using operation::CallState;

/// A supply that lies between hot and common and does not live, told in the first call in which it does not.
class Starving {
 public:
  explicit Starving(const Inspection& in) : in_(in) {}

  void judge(const operation::SolvedCall& call) {
    if (!call.result.melted.empty()) return;  // told by the fuse
    if (call.result.state == CallState::chatter)
      for (const auto& dip : call.result.dips) tell(dip.unit, dip.part, call.result.call);
    const Metal metal(in_.circuit, &call.positions.closed);
    for (size_t i = 0; i < in_.circuit.devices.size(); ++i) {
      const auto& device = in_.circuit.devices[i];
      if (!equipment::isSupply(device.part) || call.positions.supplyOn[i]) continue;
      if (isMeantToLive(device, i, call, metal))
        tell(in_.circuit.units[size_t(device.unit)].id, in_.circuit.element(device).id, call.result.call);
    }
  }

 private:
  void tell(sheet::UnitId unit, const std::string& part, const std::string& call) {
    if (told_.insert({unit, part}).second)
      in_.add("supply-starves", {atPart(unit, part, call)}, {{"call", CallName{call}}});
  }

  bool isMeantToLive(const asbuilt::Device& device, size_t index, const operation::SolvedCall& call,
                     const Metal& metal) const {
    // One that lives on its load starves where the closed circuit does not carry enough.
    if (!std::holds_alternative<equipment::SupplyPart>(device.part)) return call.positions.closed[index] != 0;
    return std::any_of(in_.circuit.devices.begin(), in_.circuit.devices.end(), [&](const auto& source) {
      return std::holds_alternative<TransformerPart>(source.part) && metal.joined(device.a, source.a) &&
             metal.joined(device.b, source.b);
    });
  }

  const Inspection& in_;
  std::set<std::pair<sheet::UnitId, std::string>> told_;
};

void unsettled(const Inspection& in, const operation::CallResult& result) {
  Place place;
  place.call = result.call;
  if (result.state == CallState::race && result.raceEnds.size() > 1) {
    const auto dutiesOf = [](const operation::RaceEnd& end) {
      DutyList list;
      for (const auto& duty : end.duties) list.duties.push_back(duty.duty);
      return list;
    };
    const operation::RaceEnd& one = result.raceEnds[0];
    const operation::RaceEnd& other = result.raceEnds[1];
    in.add("race", {atPart(one.unit, one.part, result.call), atPart(other.unit, other.part, result.call)},
           {{"call", CallName{result.call}}, {"one", dutiesOf(one)}, {"other", dutiesOf(other)}});
  }
  const bool coil = std::any_of(result.coils.begin(), result.coils.end(),
                                [](const auto& each) { return each.state == operation::CoilState::chatter; });
  // A coil that chatters is told with its volts, a supply that lets go and comes back as starving.
  if (result.state == CallState::chatter && !coil && result.dips.empty())
    in.add("chatter", {place}, {{"call", CallName{result.call}}});
}

}  // namespace

void endRules(const Inspection& in) {
  Starving starving(in);
  std::set<sheet::TerminalRef> halfSeen;
  for (const auto& call : in.solution.calls) {
    starving.judge(call);
    unsettled(in, call.result);
    for (const auto& terminal : call.result.marginalInputs)
      if (halfSeen.insert(terminal).second)
        in.add("false-call", {atTerminal(terminal, call.result.call)},
               {{"call", CallName{call.result.call}}});
  }
}

}  // namespace ww::verify
