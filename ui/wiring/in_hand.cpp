// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/in_hand.h"

#include <algorithm>

#include "sheet/removal.h"
#include "verify/plan.h"

namespace ww::wiring {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

bool landed(const sheet::Landing& landing) { return !std::holds_alternative<sheet::Loose>(landing); }

template <class Key>
std::optional<verify::Severity> found(const std::map<Key, verify::Severity>& marks, const Key& key) {
  const auto at = marks.find(key);
  return at == marks.end() ? std::nullopt : std::optional(at->second);
}

template <class Key>
void worse(std::map<Key, verify::Severity>& marks, const Key& key, verify::Severity severity) {
  const auto [at, fresh] = marks.emplace(key, severity);
  if (!fresh && at->second < severity) at->second = severity;
}

}  // namespace

std::set<sheet::ConductorId> Selection::touched() const {
  std::set<sheet::ConductorId> all = conductors;
  for (const EndRef& end : ends) all.insert(end.conductor);
  return all;
}

InHand::InHand(const session::Surroundings& around, QObject* parent) : QObject(parent), around_(around) {}

bool InHand::hasCalls() const {
  return job_ && std::ranges::any_of(job_->solution().calls,
                                     [](const auto& solved) { return solved.result.call != "rest"; });
}

void InHand::setJob(session::OpenJob* job) {
  if (job_) job_->disconnect(this);
  job_ = job;
  selection_ = {};
  if (job_) {
    connect(job_, &session::OpenJob::sheetChanged, this, &InHand::takeSheet);
    connect(job_, &session::OpenJob::checked, this, &InHand::takeCheck);
    connect(job_, &session::OpenJob::factsChanged, this, &InHand::takeCheck);
    connect(job_, &session::OpenJob::callChanged, this, &InHand::callChanged);
  }
  Q_EMIT jobChanged();
  takeSheet();
  takeCheck();
}

const sheet::Sheet& InHand::sheet() const {
  static const sheet::Sheet empty;
  return job_ ? job_->sheet() : empty;
}

QString InHand::words(const char* key, const wording::Args& args, std::optional<int> count) const {
  return words(QString::fromLatin1(key), args, count);
}

QString InHand::words(const QString& key, const wording::Args& args, std::optional<int> count) const {
  return around_.language.sentence(QStringLiteral("wiring.") + key, args, count);
}

void InHand::takeSheet() {
  ghosts_.clear();
  if (job_ && job_->sheetInHand() == job::SheetState::planned && canEdit())
    for (const verify::Proposal& proposal : verify::plan(sheet(), library()).landings)
      for (const bool atA : {true, false}) {
        const EndRef end{proposal.conductor, atA};
        const sheet::Landing& offer = atA ? proposal.endA : proposal.endB;
        if (!landed(landingOf(sheet(), end)) && landed(offer)) ghosts_[end] = offer;
      }
  Selection kept = selection_;
  std::erase_if(kept.ends, [&](const EndRef& end) { return !sheet().conductors.find(end.conductor); });
  std::erase_if(kept.conductors, [&](auto id) { return !sheet().conductors.find(id); });
  if (kept.cable && !sheet().cables.find(*kept.cable)) kept.cable.reset();
  if (kept.unit && !sheet().units.find(*kept.unit)) kept.unit.reset();
  Q_EMIT sheetChanged();
  select(std::move(kept));
}

void InHand::takeCheck() {
  marksOfConductors_.clear();
  marksOfTerminals_.clear();
  marksOfCalls_.clear();
  if (job_)
    for (const verify::Finding* finding : job_->openFindings()) {
      for (const sheet::ConductorId odd : crossedOn(*finding))
        worse(marksOfConductors_, odd, finding->severity);
      for (const verify::Place& place : finding->places) {
        if (place.conductor != sheet::ConductorId{})
          worse(marksOfConductors_, place.conductor, finding->severity);
        else if (place.unit != sheet::UnitId{} && !place.terminal.empty())
          worse(marksOfTerminals_, sheet::TerminalRef{place.unit, place.terminal}, finding->severity);
        if (!place.call.empty()) worse(marksOfCalls_, place.call, finding->severity);
      }
    }
  Q_EMIT checked();
}

std::vector<sheet::ConductorId> InHand::crossedOn(const verify::Finding& finding) const {
  std::vector<sheet::ConductorId> crossed;
  const auto purposeAt = [&](const sheet::Landing& end) {
    const auto* at = std::get_if<sheet::TerminalRef>(&end);
    const auto* profile = at ? profileAt(sheet(), library(), at->unit) : nullptr;
    const auto* terminal = profile ? profile->terminal(at->terminal) : nullptr;
    // Second-stage heat and the heat of a defrost customarily end on the first stage's terminal.
    const bool heat = terminal && (terminal->purpose == "heat2" || terminal->purpose == "defrostHeat");
    return heat ? std::string("heat1") : terminal ? terminal->purpose : std::string();
  };
  for (const verify::Argument& argument : finding.arguments)
    if (const auto* path = std::get_if<verify::Path>(&argument.figure))
      for (const verify::Place& place : *path)
        if (const auto* wire = sheet().conductors.find(place.conductor)) {
          const std::string a = purposeAt(wire->endA), b = purposeAt(wire->endB);
          if (!a.empty() && !b.empty() && a != b) crossed.push_back(wire->id);
        }
  return crossed;
}

void InHand::select(Selection selection) {
  if (selection == selection_) return;
  selection_ = std::move(selection);
  Q_EMIT selectionChanged();
}

std::optional<sheet::Landing> InHand::ghost(EndRef end) const {
  const auto at = ghosts_.find(end);
  return at == ghosts_.end() ? std::nullopt : std::optional(at->second);
}

std::optional<verify::Severity> InHand::markOfItself(sheet::ConductorId conductor) const {
  return found(marksOfConductors_, conductor);
}

std::optional<verify::Severity> InHand::mark(sheet::ConductorId conductor) const {
  auto worst = markOfItself(conductor);
  if (const sheet::Conductor* wire = sheet().conductors.find(conductor))
    for (const sheet::Landing* end : {&wire->endA, &wire->endB})
      if (const auto* terminal = std::get_if<sheet::TerminalRef>(end))
        if (const auto there = mark(*terminal); there && (!worst || *worst < *there)) worst = there;
  return worst;
}

std::optional<verify::Severity> InHand::mark(const sheet::TerminalRef& terminal) const {
  return found(marksOfTerminals_, terminal);
}

std::optional<verify::Severity> InHand::mark(const std::string& call) const {
  return found(marksOfCalls_, call);
}

QString InHand::refusal(const Edit& edit) const {
  wording::Args args;
  for (const auto& [name, value] : edit.args) args.emplace_back(q(name), q(value));
  return words(QStringLiteral("bad.") + q(edit.refused), args);
}

QString InHand::apply(const QString& step, const Edit& edit) {
  return edit.sheet ? apply(step, *edit.sheet) : refusal(edit);
}

QString InHand::apply(const QString& step, const sheet::Sheet& next) {
  if (!job_) return words("bad.no-job");
  if (job_->readOnly()) return words("bad.read-only");
  job_->edit(step, next);
  return {};
}

QString InHand::land(EndRef end, const sheet::Landing& landing) {
  const QString name = endName(end);
  const wording::Context here = context();
  QString step;
  if (const auto* terminal = std::get_if<sheet::TerminalRef>(&landing))
    step = words("step.land",
                 {{"end", name}, {"terminal", wording::terminalAtUnit(around_.language, here, *terminal)}});
  else if (std::holds_alternative<sheet::Splice>(landing))
    step = words("step.splice",
                 {{"end", name}, {"splice", wording::landingName(around_.language, here, landing)}});
  else
    step = words(std::holds_alternative<sheet::Loose>(landing) ? "step.loose" : "step.cap", {{"end", name}});
  return apply(step, withLanding(sheet(), end, landing));
}

QString InHand::swapSelected() {
  if (selection_.ends.size() != 2) return words("bad.swap-two");
  const EndRef one = selection_.ends[0], other = selection_.ends[1];
  return apply(words("step.swap", {{"first", endName(one)}, {"second", endName(other)}}),
               withEndsSwapped(sheet(), one, other));
}

QString InHand::sameAtB(sheet::ConductorId conductor) {
  return apply(
      words("step.same", {{"conductor", wording::conductorName(around_.language, context(), conductor)}}),
      withEndBAsA(sheet(), library(), conductor));
}

QString InHand::join(const sheet::TerminalRef& from, const sheet::TerminalRef& to) {
  return apply(words("step.jumper", {{"from", wording::terminalLetters(context(), from)},
                                     {"to", wording::terminalAtUnit(around_.language, context(), to)}}),
               withJumper(sheet(), from, to));
}

QString InHand::propose() {
  if (!job_) return words("bad.no-job");
  const verify::Plan plan = verify::plan(sheet(), library());
  const sheet::Sheet next = verify::landed(sheet(), plan);
  if (next == sheet()) return words("bad.nothing-to-propose");
  return apply(words("step.propose"), next);
}

QString InHand::deleteSelected() {
  const Selection chosen = selection_;
  sheet::Sheet next = sheet();
  QString told;
  if (chosen.unit) {
    const QString unit = unitName(*chosen.unit);
    const bool first = anythingAt(next, *chosen.unit);
    next = first ? withUnitFreed(next, *chosen.unit) : sheet::withoutUnit(next, *chosen.unit);
    told = words(first ? "gone.unit-freed" : "gone.unit", {{"unit", unit}});
  } else if (chosen.cable && next.cables.find(*chosen.cable)) {
    const QString cable = q(next.cables.find(*chosen.cable)->name);
    bool first = false;
    for (const sheet::Conductor* wire : sheet::conductorsOf(sheet(), *chosen.cable))
      if (landed(wire->endA) || landed(wire->endB)) {
        first = true;
        next = withConductorFreed(next, wire->id);
      }
    if (!first) next = withoutCable(next, *chosen.cable);
    told = words(first ? "gone.cable-freed" : "gone.cable", {{"cable", cable}});
  } else if (!chosen.conductors.empty()) {
    bool first = false;
    for (const auto id : chosen.conductors) {
      const sheet::Conductor* wire = sheet().conductors.find(id);
      first = first || (wire && !wire->isJumper() && (landed(wire->endA) || landed(wire->endB)));
    }
    for (const auto id : chosen.conductors)
      next = first ? withConductorFreed(next, id) : withoutConductor(next, id);
    told = words(
        first ? "gone.conductor-freed" : "gone.conductor",
        {{"conductor", wording::conductorName(around_.language, context(), *chosen.conductors.begin())}},
        static_cast<int>(chosen.conductors.size()));
  } else if (!chosen.ends.empty()) {
    for (const EndRef& end : chosen.ends) {
      const sheet::Conductor* wire = next.conductors.find(end.conductor);
      if (!wire) continue;
      if (wire->isJumper())
        next = withoutConductor(next, end.conductor);
      else if (Edit edit = withLanding(next, end, sheet::Loose{}); edit.sheet)
        next = *edit.sheet;
    }
    told = words("gone.end", {{"end", endName(chosen.ends.front())}}, static_cast<int>(chosen.ends.size()));
  } else {
    return words("bad.nothing-chosen");
  }
  if (next == sheet()) return words("bad.loose-already");
  const QString refused = apply(told, next);
  if (refused.isEmpty()) Q_EMIT offered(told);
  return refused;
}

}  // namespace ww::wiring
