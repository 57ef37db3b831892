// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "verify/rules.h"

namespace ww::verify {

namespace {

using equipment::Role;
using equipment::TransformerPart;
using sheet::TerminalRef;

bool isLanded(const sheet::Sheet& sheet, const TerminalRef& terminal) {
  const sheet::Landing landing = terminal;
  return std::any_of(sheet.conductors.begin(), sheet.conductors.end(),
                     [&](const auto& wire) { return wire.endA == landing || wire.endB == landing; });
}

/// A unit without a transformer of its own must have its common joined to one's.
class UnitCommon {
 public:
  UnitCommon(const Inspection& in, const Metal& metal, int unit)
      : in_(in), metal_(metal), unit_(unit), placed_(in.circuit.units[size_t(unit)]) {}

  void judge() {
    const auto& terminals = placed_.profile->terminals;
    const auto common = std::find_if(terminals.begin(), terminals.end(),
                                     [](const auto& t) { return t.role == Role::common; });
    if (common == terminals.end() || hasTransformer() || !usesCommon()) return;
    const TerminalRef ref{placed_.id, common->id};
    if (reachesCommon(in_.circuit.node(ref)) || !isFed()) return;
    if (const auto* exchanged = exchangedTerminal()) {
      in_.add("polarity", {atTerminal(ref), atTerminal({placed_.id, exchanged->id})});
      return;
    }
    const bool control =
        placed_.profile->needsCommon && placed_.profile->kind == equipment::Kind::roomControl;
    in_.add(control ? "no-common" : "common-missing", {atTerminal(ref)},
            {{"landed", Word{isLanded(in_.sheet, ref) ? "yes" : "no"}}});
  }

 private:
  bool hasTransformer() const {
    return std::any_of(in_.circuit.devices.begin(), in_.circuit.devices.end(), [&](const auto& d) {
      return d.unit == unit_ && std::holds_alternative<TransformerPart>(d.part);
    });
  }
  /// Something in the unit returns to its common.
  bool usesCommon() const {
    const int node = in_.circuit.commonNode(unit_);
    return std::any_of(in_.circuit.devices.begin(), in_.circuit.devices.end(), [&](const auto& d) {
      return d.unit == unit_ && d.a != d.b && (d.a == node || d.b == node);
    });
  }
  /// At least one other terminal is landed; a unit with nothing landed is told by its calls.
  bool isFed() const {
    const auto& terminals = placed_.profile->terminals;
    return std::any_of(terminals.begin(), terminals.end(), [&](const auto& t) {
      return t.role != Role::common && isLanded(in_.sheet, {placed_.id, t.id});
    });
  }
  bool reachesCommon(int node) const {
    return std::any_of(in_.circuit.devices.begin(), in_.circuit.devices.end(), [&](const auto& d) {
      return std::holds_alternative<TransformerPart>(d.part) && metal_.joined(node, d.b);
    });
  }
  /// The terminal on which the common was landed by mistake, when a two-terminal load does not mind.
  const equipment::Terminal* exchangedTerminal() const {
    const auto& terminals = placed_.profile->terminals;
    if (terminals.size() != 2) return nullptr;
    const auto other = std::find_if(terminals.begin(), terminals.end(),
                                    [](const auto& t) { return t.role != Role::common; });
    if (other == terminals.end() || !reachesCommon(in_.circuit.node({placed_.id, other->id}))) return nullptr;
    return isLanded(in_.sheet, {placed_.id, terminals[0].id}) &&
                   isLanded(in_.sheet, {placed_.id, terminals[1].id})
               ? &*other
               : nullptr;
  }

  const Inspection& in_;
  const Metal& metal_;
  int unit_;
  const asbuilt::PlacedUnit& placed_;
};

}  // namespace

void commonRules(const Inspection& in) {
  const Metal metal(in.circuit);
  for (size_t unit = 0; unit < in.circuit.units.size(); ++unit) UnitCommon(in, metal, int(unit)).judge();
}

}  // namespace ww::verify
