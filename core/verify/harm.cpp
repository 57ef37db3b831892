// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/harm.h"

#include <algorithm>
#include <set>
#include <tuple>

#include "verify/check.h"
#include "verify/forbidden.h"
#include "verify/purpose.h"
#include "verify/trial.h"

namespace ww::verify {

namespace {

using sheet::TerminalRef;

std::optional<Harm::Kind> kindOf(const std::string& rule) {
  if (rule == "sources-tied" || rule == "back-feed") return Harm::Kind::sourcesTied;
  if (rule == "safety-bypassed" || rule == "safety-misplaced") return Harm::Kind::againstSafety;
  if (rule == "sense-misused") return Harm::Kind::foreignVolts;
  if (rule == "load-at-rest") return Harm::Kind::staysOn;
  if (rule == "compressor-without-blower" || rule == "element-without-blower" ||
      rule == "compressor-with-burner")
    return Harm::Kind::withoutAir;
  return std::nullopt;
}

Harm::Kind kindOf(Forbidden::Why why) {
  switch (why) {
    case Forbidden::Why::safety: return Harm::Kind::againstSafety;
    case Forbidden::Why::sources: return Harm::Kind::sourcesTied;
    case Forbidden::Why::foreign: return Harm::Kind::foreignVolts;
  }
  return Harm::Kind::againstSafety;
}

/// One thing that goes wrong, before it is known what it does.
struct Mishap {
  Harm::Cause cause;
  Edit edit{};
  size_t device = 0;  ///< of a stuck contact
};

class Analysis {
 public:
  Analysis(const sheet::Sheet& sheet, const equipment::Library& library, operation::LineRange lines)
      : sheet_(sheet),
        library_(library),
        lines_(lines),
        circuit_(std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(sheet, library))),
        protected_(*circuit_) {
    for (const Finding& finding : check(sheet, operation::solveCircuit(circuit_, {}, lines_)).findings)
      present_.insert(keyOf(finding));
    landings();
    bridges();
    stuckContacts();
  }

  std::vector<Harm> run(const std::stop_token& stop, unsigned threads) const {
    std::vector<std::vector<Harm>> found(mishaps_.size());
    inParallel(mishaps_.size(), threads, stop, [&](size_t i) { found[i] = harmsOf(mishaps_[i]); });
    std::vector<Harm> harms;
    for (auto& each : found) harms.insert(harms.end(), each.begin(), each.end());
    std::stable_sort(harms.begin(), harms.end(), [](const Harm& a, const Harm& b) {
      return std::tuple(a.kind, a.cause) < std::tuple(b.kind, b.cause);
    });
    return harms;
  }

 private:
  template <class Use>
  void screwsOf(sheet::UnitId id, Use use) const {
    const sheet::Unit* unit = sheet_.units.find(id);
    const auto* profile = unit == nullptr ? nullptr : library_.find(unit->profile);
    if (profile == nullptr) return;
    for (const auto& terminal : profile->terminals) use(terminal);
  }

  void landings() {
    for (const sheet::Conductor& wire : sheet_.conductors) {
      const auto* cable = wire.cable ? sheet_.cables.find(*wire.cable) : nullptr;
      if (cable == nullptr) continue;
      for (const char end : {'A', 'B'}) {
        const auto* here = std::get_if<TerminalRef>(&landingOf(wire, end));
        if (here == nullptr) continue;
        const sheet::UnitId unit = end == 'A' ? cable->endA : cable->endB;
        screwsOf(unit, [&](const equipment::Terminal& terminal) {
          const TerminalRef to{unit, terminal.id};
          if (*here == to) return;
          mishaps_.push_back(
              {Harm::Cause::landing,
               Edit{.kind = Edit::Kind::move, .end = {wire.id, end}, .from = *here, .to = to}});
        });
      }
    }
  }

  void bridges() {
    for (const sheet::Unit& unit : sheet_.units) {
      std::optional<std::string> before;
      screwsOf(unit.id, [&](const equipment::Terminal& terminal) {
        if (before)
          mishaps_.push_back({Harm::Cause::bridge, Edit{.kind = Edit::Kind::jumper,
                                                        .from = TerminalRef{unit.id, *before},
                                                        .to = TerminalRef{unit.id, terminal.id}}});
        before = terminal.id;
      });
    }
  }

  /// Safeties too: one that is welded stops nothing. Factory jumpers are no contacts.
  void stuckContacts() {
    for (size_t i = 0; i < circuit_->devices.size(); ++i)
      if (equipment::isContact(circuit_->devices[i].part) &&
          circuit_->element(circuit_->devices[i]).partName != "jumper")
        mishaps_.push_back({Harm::Cause::stuck, {}, i});
  }

  std::vector<Harm> harmsOf(const Mishap& mishap) const {
    if (mishap.cause == Harm::Cause::stuck) return ofContact(mishap);
    const sheet::Sheet changed = edited(sheet_, mishap.edit);
    const auto circuit = std::make_shared<const asbuilt::AsBuilt>(asbuilt::compile(changed, library_));
    std::vector<Harm> harms;
    if (const auto broken = protected_.broken(*circuit)) {
      Harm harm = harmOf(mishap, kindOf(broken->why));
      harm.place = broken->place;
      harms.push_back(std::move(harm));
    }
    add(mishap, check(changed, operation::solveCircuit(circuit, {}, lines_)), harms);
    return harms;
  }

  std::vector<Harm> ofContact(const Mishap& mishap) const {
    asbuilt::Conditions conditions;
    conditions.overrides.push_back(
        {asbuilt::Override::Kind::stuckClosed, circuit_->devices[mishap.device].branch, 0, 0, 0});
    std::vector<Harm> harms;
    add(mishap, check(sheet_, operation::solveCircuit(circuit_, conditions, lines_)), harms);
    return harms;
  }

  Harm harmOf(const Mishap& mishap, Harm::Kind kind) const {
    Harm harm;
    harm.kind = kind;
    harm.cause = mishap.cause;
    harm.edit = mishap.edit;
    if (mishap.cause == Harm::Cause::stuck) {
      const auto& device = circuit_->devices[mishap.device];
      harm.contact.unit = circuit_->units[size_t(device.unit)].id;
      harm.contact.part = circuit_->element(device).id;
    }
    return harm;
  }

  /// What the check says that it does not say already, one entry a kind.
  void add(const Mishap& mishap, const SheetCheck& checked, std::vector<Harm>& harms) const {
    for (const Finding& finding : checked.findings) {
      const auto kind = kindOf(finding.rule);
      if (!kind || present_.contains(keyOf(finding))) continue;
      auto at = std::find_if(harms.begin(), harms.end(), [&](const Harm& h) { return h.kind == *kind; });
      if (at == harms.end()) {
        harms.push_back(harmOf(mishap, *kind));
        at = harms.end() - 1;
        if (!finding.places.empty()) at->place = finding.places.front();
      }
      const std::string call = finding.places.empty() ? std::string() : finding.places.front().call;
      if (!call.empty() && std::find(at->calls.begin(), at->calls.end(), call) == at->calls.end())
        at->calls.push_back(call);
      for (const Argument& argument : finding.arguments)
        if (const auto* list = std::get_if<DutyList>(&argument.figure);
            list != nullptr && argument.name == "extra")
          for (const std::string& duty : list->duties)
            if (std::find(at->duties.begin(), at->duties.end(), duty) == at->duties.end())
              at->duties.push_back(duty);
      at->place.call.clear();
    }
  }

  const sheet::Sheet& sheet_;
  const equipment::Library& library_;
  operation::LineRange lines_;
  std::shared_ptr<const asbuilt::AsBuilt> circuit_;
  Protected protected_;
  std::set<std::string> present_;
  std::vector<Mishap> mishaps_;
};

}  // namespace

std::vector<Harm> harmsOf(const sheet::Sheet& sheet, const equipment::Library& library,
                          operation::LineRange lines, const std::stop_token& stop, unsigned threads) {
  return Analysis(sheet, library, lines).run(stop, threads);
}

}  // namespace ww::verify
