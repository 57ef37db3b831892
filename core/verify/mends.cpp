// SPDX-License-Identifier: GPL-3.0-or-later
#include "verify/mends.h"

#include <algorithm>
#include <optional>
#include <set>
#include <utility>

#include "verify/mend_edits.h"
#include "verify/rules.h"

namespace ww::verify {

namespace {

using sheet::Landing;
using sheet::Sheet;

void land(Sheet& sheet, sheet::ConductorId conductor, char end, const Landing& landing) {
  const sheet::Conductor* found = sheet.conductors.find(conductor);
  if (!found) return;
  sheet::Conductor wire = *found;
  (end == 'A' ? wire.endA : wire.endB) = landing;
  sheet.conductors.put(std::move(wire));
}

struct Apply {
  Sheet& sheet;
  void operator()(const MoveEnd& edit) const { land(sheet, edit.conductor, edit.end, edit.to); }
  void operator()(const SwapEnds& edit) const {
    const sheet::Conductor* first = sheet.conductors.find(edit.first);
    const sheet::Conductor* second = sheet.conductors.find(edit.second);
    if (!first || !second) return;
    const Landing one = edit.firstEnd == 'A' ? first->endA : first->endB;
    const Landing two = edit.secondEnd == 'A' ? second->endA : second->endB;
    land(sheet, edit.first, edit.firstEnd, two);
    land(sheet, edit.second, edit.secondEnd, one);
  }
  void operator()(const SetValue& edit) const {
    const sheet::Unit* unit = sheet.units.find(edit.unit);
    if (!unit) return;
    // Turned where it was set: for the whole sheet, else for the unit alone.
    const std::string own = unit->tag + "." + edit.key;
    const bool common = !sheet.settings.all().count(own) && sheet.settings.all().count(edit.key);
    sheet.settings.set(common ? edit.key : own, edit.to);
  }
  void operator()(const TakeJumperOut& edit) const { sheet.conductors.erase(edit.conductor); }
  void operator()(const PutJumperIn& edit) const {
    sheet::Conductor jumper;
    jumper.endA = edit.a;
    jumper.endB = edit.b;
    sheet.addConductor(std::move(jumper));
  }
};

/// Above note, by key; a finding that stands twice counts twice.
std::vector<std::string> openKeys(const SheetCheck& check) {
  std::vector<std::string> keys;
  for (const Finding& finding : check.findings)
    if (finding.severity > Severity::note) keys.push_back(keyOf(finding));
  return keys;
}

std::set<std::string> stoppingRules(const SheetCheck& check) {
  std::set<std::string> rules;
  for (const Finding& finding : check.findings)
    if (finding.severity == Severity::stop) rules.insert(finding.rule);
  return rules;
}

operation::Facts factsOf(const std::string& call) {
  operation::Facts facts;
  facts.call = call;
  return facts;
}

std::vector<operation::RunningDuty> dutiesOf(const asbuilt::AsBuilt& circuit,
                                             const operation::Machine& machine) {
  std::vector<operation::RunningDuty> running;
  for (size_t unit = 0; unit < circuit.units.size(); ++unit)
    for (const equipment::Duty& duty : circuit.units[unit].profile->duties)
      if (machine.logic(int(unit)).value(duty.running))
        running.push_back(
            {duty.speed.empty() ? duty.name : duty.name + ":" + duty.speed, circuit.units[unit].id});
  return running;
}

std::vector<std::string> wrongCalls(const SheetCheck& check) {
  std::vector<std::string> calls;
  for (const CallVerdict& verdict : check.calls)
    if (!verdict.ok) calls.push_back(verdict.call);
  return calls;
}

struct Tried {
  Mend mend;
  SheetCheck check;
};

bool better(const Mend& a, const Mend& b) {
  if (a.remaining != b.remaining) return a.remaining < b.remaining;
  if (a.callsRight != b.callsRight) return a.callsRight > b.callsRight;
  return a.cost < b.cost;  // sorting is stable and keeps the order of ids
}

class Search {
 public:
  Search(const Sheet& sheet, const equipment::Library& library, const SheetCheck& check,
         operation::LineRange lines, const MendLimits& limits, const std::stop_token& stop)
      : sheet_(sheet),
        library_(library),
        check_(check),
        lines_(lines),
        limits_(limits),
        stop_(stop),
        open_(openKeys(check)),
        stopping_(stoppingRules(check)) {}

  std::vector<Mend> run() {
    if (open_.empty()) return {};
    std::vector<Tried> singles = singlesOf(sheet_, check_, {}, Reach::near, Strictness::better);
    keepComplete(singles);
    if (found_.empty()) {
      std::vector<Tried> more = singlesOf(sheet_, check_, {}, Reach::far, Strictness::better);
      keepComplete(more);
      singles.insert(singles.end(), more.begin(), more.end());
      std::stable_sort(singles.begin(), singles.end(),
                       [](const Tried& a, const Tried& b) { return better(a.mend, b.mend); });
    }
    for (const auto& edits : plannedEdits(sheet_, library_))
      if (const auto tried = attempt(sheet_, edits, {}, Strictness::any)) keepComplete({*tried});
    if (found_.empty() && limits_.pairs) pairs(singles);
    if (found_.empty())
      for (const Tried& tried : singles)
        if (tried.mend.remaining < open_.size()) found_.push_back(tried.mend);
    std::stable_sort(found_.begin(), found_.end(), better);
    if (found_.size() > limits_.most) found_.resize(limits_.most);
    return std::move(found_);
  }

 private:
  /// When a change is given up unchecked: with any call still wrong, with all of them still wrong, never.
  enum class Strictness { whole, better, any };

  /// Every single change of a sheet that breaks nothing new, best first.
  std::vector<Tried> singlesOf(const Sheet& sheet, const SheetCheck& check, const std::vector<Edit>& before,
                               Reach reach, Strictness strictness) const {
    std::vector<Tried> tried;
    const std::vector<std::string> wrong = wrongCalls(check);
    for (const Edit& edit : candidateEdits(sheet, library_, check, reach)) {
      if (stop_.stop_requested()) break;
      auto result = attempt(sheet, {edit}, wrong, strictness);
      if (!result) continue;
      result->mend.edits.insert(result->mend.edits.begin(), before.begin(), before.end());
      for (const Edit& each : before) result->mend.cost += costOf(each);
      tried.push_back(std::move(*result));
    }
    std::stable_sort(tried.begin(), tried.end(),
                     [](const Tried& a, const Tried& b) { return better(a.mend, b.mend); });
    return tried;
  }

  /// A quick look before a whole check: the rest settles, and of the calls that were wrong one runs the right
  /// duties, or all of them.
  bool promising(const Sheet& sheet, const std::vector<std::string>& wrong, Strictness strictness) const {
    if (strictness == Strictness::any || wrong.empty()) return true;
    const auto circuit = asbuilt::compile(sheet, library_);
    operation::Machine rest(circuit);
    if (rest.powerUp(factsOf("rest")) != operation::RunEnd::settled && !check_.calls.empty() &&
        check_.calls.front().ok)
      return false;
    size_t right = 0;
    for (const operation::CallDemand& demand : operation::operationTable(circuit)) {
      if (std::find(wrong.begin(), wrong.end(), demand.call) == wrong.end()) continue;
      operation::Machine machine = rest;
      machine.run(factsOf(demand.call));
      operation::CallResult result;
      result.duties = dutiesOf(circuit, machine);
      const bool ok = verdictOf(demand, result).ok;
      right += ok;
      if (!ok && strictness == Strictness::whole) return false;
    }
    return right > 0;
  }

  std::optional<Tried> attempt(const Sheet& sheet, const std::vector<Edit>& edits,
                               const std::vector<std::string>& wrong, Strictness strictness) const {
    Tried tried;
    tried.mend.after = sheet;
    for (const Edit& edit : edits) {
      tried.mend.after = applied(std::move(tried.mend.after), edit);
      tried.mend.cost += costOf(edit);
    }
    tried.mend.edits = edits;
    if (!promising(tried.mend.after, wrong, strictness)) return std::nullopt;
    tried.check = check(tried.mend.after, operation::solveSheet(tried.mend.after, library_, lines_));
    for (const std::string& rule : stoppingRules(tried.check))
      if (!stopping_.count(rule)) return std::nullopt;
    const std::vector<std::string> left = openKeys(tried.check);
    tried.mend.remaining = left.size();
    for (const std::string& key : open_)
      if (std::find(left.begin(), left.end(), key) == left.end()) tried.mend.clears.push_back(key);
    tried.mend.calls = tried.check.calls.size();
    for (const CallVerdict& verdict : tried.check.calls) tried.mend.callsRight += verdict.ok;
    return tried;
  }

  void keepComplete(const std::vector<Tried>& all) {
    for (const Tried& tried : all)
      if (tried.mend.complete()) found_.push_back(tried.mend);
  }

  void pairs(const std::vector<Tried>& singles) {
    size_t followed = 0;
    for (const Tried& half : singles) {
      if (followed++ == limits_.breadth || stop_.stop_requested()) return;
      for (const Reach reach : {Reach::near, Reach::far})
        if (reach == Reach::near || found_.empty())
          keepComplete(singlesOf(half.mend.after, half.check, half.mend.edits, reach, Strictness::whole));
      if (!found_.empty() && followed >= 2) return;
    }
  }

  const Sheet& sheet_;
  const equipment::Library& library_;
  const SheetCheck& check_;
  const operation::LineRange lines_;
  const MendLimits limits_;
  const std::stop_token stop_;
  const std::vector<std::string> open_;
  const std::set<std::string> stopping_;
  std::vector<Mend> found_;
};

}  // namespace

int costOf(const Edit& edit) {
  return std::holds_alternative<TakeJumperOut>(edit) || std::holds_alternative<PutJumperIn>(edit) ? 2 : 1;
}

Sheet applied(Sheet sheet, const Edit& edit) {
  std::visit(Apply{sheet}, edit);
  return sheet;
}

std::vector<Mend> searchMends(const Sheet& sheet, const equipment::Library& library, const SheetCheck& check,
                              operation::LineRange lines, const MendLimits& limits,
                              const std::stop_token& stop) {
  return Search(sheet, library, check, lines, limits, stop).run();
}

}  // namespace ww::verify
