// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLabel>
#include <QStackedWidget>
#include <algorithm>

#include "checklist/sighting.h"
#include "checks/checks_place.h"
#include "document/functions.h"
#include "wording/sentences.h"

namespace ww::checks {

namespace {

constexpr size_t kMostEarlier = 3;

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

paint::Severity severityOf(checklist::Verdict verdict) {
  switch (verdict) {
    case checklist::Verdict::good: return paint::Severity::right;
    case checklist::Verdict::again: return paint::Severity::warn;
    case checklist::Verdict::fault: return paint::Severity::fail;
    case checklist::Verdict::notJudged: return paint::Severity::note;
    case checklist::Verdict::notMeasured: break;
  }
  return paint::Severity::notMeasured;
}

QString ChecksPlace::words(const char* key, const wording::Args& args, std::optional<int> count) const {
  return around_.language.sentence(QLatin1String(key), args, count);
}

StepShown ChecksPlace::shown(const checklist::Step& step) const {
  const wording::Language& language = around_.language;
  const wording::Context context{job_->sheet(), job_->library()};
  StepShown shown;
  shown.head = words(live_ ? "checks.head.live" : "checks.head.dead",
                     {{"step", language.number(double(numberOf(index())), 0)},
                      {"steps", language.number(double(job_->steps().size()), 0)}});
  if (!step.call.empty()) shown.call = wording::callName(language, step.call);
  if (job_->readOnly())
    shown.cautionsRead = words("checks.closed");
  else if (const job::Acknowledgement* read = acknowledged(job_->job(), live_))
    shown.cautionsRead =
        words("checks.cautions-read", {{"who", q(read->by)}, {"at", language.clock(read->at)}});
  const sheet::Unit* unit = job_->sheet().units.find(step.standAt);
  const QString name = wording::unitName(language, context, step.standAt);
  shown.stand = unit && !unit->place.empty()
                    ? words("checks.stand", {{"unit", name}, {"place", q(unit->place)}})
                    : name;
  shown.what = wording::stepTitle(language, step, context);
  for (const auto& caution : step.cautions) shown.cautions << wording::cautionText(language, caution);
  if (isMeasured(step)) {
    wordProbes(step, shown);
    wordBand(step, shown);
  } else if (step.measure == checklist::Measure::look) {
    wordLook(step, shown);
  } else {
    shown.hint = job_->readOnly() ? QString() : words("checks.hint.act");
  }
  wordPast(step, shown);
  return shown;
}

void ChecksPlace::wordProbes(const checklist::Step& step, StepShown& shown) const {
  const wording::Context context{job_->sheet(), job_->library()};
  const bool apart = step.probe1.unit != step.probe2.unit;
  std::vector<sheet::UnitId> units{step.probe1.unit};
  if (apart) units.push_back(step.probe2.unit);
  for (const auto unit : units)
    shown.strips.push_back({wording::unitName(around_.language, context, unit),
                            paint::stripOf(job_->sheet(), job_->library(), unit, step.probe1, step.probe2)});
  for (auto& strip : shown.strips) strip.picture.low = apart;
  const auto at = [&](const sheet::TerminalRef& probe) {
    return apart ? wording::terminalAtUnit(around_.language, context, probe)
                 : wording::terminalLetters(context, probe);
  };
  shown.probe1 = words("checks.probe.1", {{"terminal", at(step.probe1)}});
  shown.probe2 = words("checks.probe.2", {{"terminal", at(step.probe2)}});
  const std::string_view unit = checklist::unitOf(step);
  shown.meter = words(unit == "ohm"  ? "checks.meter.ohms"
                      : unit == "mV" ? "checks.meter.millivolts"
                                     : "checks.meter.volts");
  shown.unit = unit == "ohm" ? QStringLiteral("Ω") : QString::fromUtf8(unit.data(), qsizetype(unit.size()));
}

void ChecksPlace::wordBand(const checklist::Step& step, StepShown& shown) const {
  if (!step.band) {
    shown.band = words("checks.band.none");
    shown.bandFrom = wording::halfWaveText(around_.language, step);
    return;
  }
  shown.band = words("checks.band.right",
                     {{"band", wording::bandText(around_.language, *step.band, checklist::unitOf(step))}});
  const auto readings = int(job::observationsOf(job_->job()).size());
  shown.bandFrom = readings == 0
                       ? words("checks.band.from-sheet")
                       : words("checks.band.from", {{"n", around_.language.number(readings, 0)}}, readings);
  shown.scale = step.band;
  shown.scaleUnit = q(std::string(checklist::unitOf(step)));
}

void ChecksPlace::wordLook(const checklist::Step& step, StepShown& shown) const {
  const auto all = duties(step);
  for (size_t i = 0; i < all.size(); ++i)
    shown.chips << words("checks.seen.duty", {{"key", around_.language.number(double(i + 1), 0)},
                                              {"duty", wording::dutyName(around_.language, all[i])}});
  shown.chips << words("checks.seen.hum") << words("checks.seen.nothing");
  shown.chosen = chosen_;
  if (!job_->readOnly()) shown.hint = words("checks.hint.look");
  // What was recorded is shown as long as nothing else is being marked.
  const job::Reading* counts = job::standing(job_->job(), step.key);
  const bool marking = std::find(chosen_.begin(), chosen_.end(), char(1)) != chosen_.end();
  const auto seen = counts && !marking ? checklist::parseSighting(counts->entered) : std::nullopt;
  if (!seen) return;
  shown.chosen.assign(all.size() + 2, 0);
  for (size_t i = 0; i < all.size(); ++i)
    shown.chosen[i] = std::find(seen->runs.begin(), seen->runs.end(), all[i]) != seen->runs.end();
  shown.chosen[all.size()] = seen->hum;
  shown.chosen.back() = seen->runs.empty();
}

QString ChecksPlace::readingText(const checklist::Step& step, const job::Reading& reading) const {
  if (!reading.skippedBecause.empty())
    return words("checks.reading.skipped", {{"reason", q(reading.skippedBecause)}});
  if (reading.openLine) return QStringLiteral("OL");
  if (reading.value)
    return around_.language.quantity(*reading.value, reading.unit, *reading.value >= 1000 ? 0 : 1);
  if (step.measure == checklist::Measure::look) {
    const auto seen = checklist::parseSighting(reading.entered);
    if (!seen) return words("checks.reading.seen");
    const QString runs =
        words("checks.reading.runs", {{"what", wording::dutyList(around_.language, seen->runs)}});
    return seen->hum ? words("checks.reading.hum", {{"runs", runs}}) : runs;
  }
  return words("checks.reading.done");
}

size_t ChecksPlace::numberOf(size_t at) const {
  return at + 1 + (live_ ? job_->steps().size() - steps_.size() : 0);
}

QString ChecksPlace::fullTitle(const checklist::Step& step) const {
  return wording::stepTitle(around_.language, step, {job_->sheet(), job_->library()});
}

void ChecksPlace::wordPast(const checklist::Step& step, StepShown& shown) const {
  const job::Job& job = job_->job();
  QStringList earlier;
  if (const job::Reading* counts = job::standing(job, step.key))
    earlier << words(job_->readOnly() ? "checks.past.closed" : "checks.past.counts",
                     {{"reading", readingText(step, *counts)},
                      {"who", q(counts->by)},
                      {"at", around_.language.clock(counts->at)}});
  auto before = earlierOf(job, step.key);
  if (before.size() > kMostEarlier) before.erase(before.begin(), before.end() - kMostEarlier);
  for (auto it = before.rbegin(); it != before.rend(); ++it) {
    const std::string* struck = struckBecause(job, **it);
    earlier << (struck ? words("checks.past.struck",
                               {{"reading", readingText(step, **it)}, {"reason", q(*struck)}})
                       : words("checks.past.again", {{"reading", readingText(step, **it)}}));
  }
  const job::Job* former = job_->former();
  if (const job::Reading* then = former ? job::standing(*former, step.key) : nullptr) {
    shown.formerText = words("checks.past.visit", {{"day", around_.language.day(former->visit)},
                                                   {"reading", readingText(step, *then)}});
    shown.former = then->value;
  }
  shown.earlier = earlier.join(u'\n');
  const auto last = std::find_if(steps_.begin(), steps_.end(), [&](const auto& s) { return s.key == last_; });
  if (last == steps_.end() || last->key == step.key) return;
  const job::Reading* reading = job::standing(job, last->key);
  if (!reading) return;
  shown.last = words("checks.last", {{"step", fullTitle(*last)}, {"reading", readingText(*last, *reading)}});
  const auto verdict = verdictOf(*last, *reading);
  if (verdict != checklist::Verdict::notMeasured)
    shown.lastVerdict = {severityOf(verdict), wording::verdictName(around_.language, verdict)};
}

void ChecksPlace::showRows() {
  const auto stands = standsOf(steps_);
  if (stands.empty() || pages_->currentIndex() != kStep) {
    rows_->setRows({});
    showFindings({});
    sideHead_->clear();
    sideCount_->clear();
  }
  if (stands.empty()) {
    line_->setWalk({}, 0, 0, {});
    return;
  }
  const job::Job& job = job_->job();
  const wording::Context context{job_->sheet(), job_->library()};
  const auto mark = [&](const checklist::Step& step) {
    const job::Reading* counts = job::standing(job, step.key);
    if (!counts || !counts->skippedBecause.empty()) return paint::Severity::notMeasured;
    const auto verdict = verdictOf(step, *counts);
    return verdict == checklist::Verdict::notMeasured ? paint::Severity::right : severityOf(verdict);
  };
  std::vector<StepLine::Stand> line;
  for (const Stand& stand : stands) {
    line.push_back({wording::unitName(around_.language, context, stand.unit), stand.first, {}});
    for (size_t i = 0; i < stand.count; ++i) line.back().marks.push_back(mark(steps_[stand.first + i]));
  }
  const Left left = leftOf(job, steps_, index());
  line_->setWalk(std::move(line), index(), numberOf(index()),
                 words("checks.left", {{"readings", words("checks.left-readings", {}, left.readings)},
                                       {"walks", words("checks.left-walks", {}, left.walks)}}));
  if (pages_->currentIndex() != kStep) return;
  const Stand& here = stands[standAt(stands, index())];
  std::vector<StepRows::Row> rows;
  int open = 0;
  for (size_t i = here.first; i < here.first + here.count; ++i) {
    const checklist::Step& step = steps_[i];
    const job::Reading* counts = job::standing(job, step.key);
    StepRows::Row row{mark(step), fullTitle(step), {}, {}, step.key == key_};
    if (counts) {
      row.reading = readingText(step, *counts);
      const auto verdict = verdictOf(step, *counts);
      if (verdict != checklist::Verdict::notMeasured)
        row.verdict = wording::verdictName(around_.language, verdict);
    } else {
      ++open;
    }
    rows.push_back(std::move(row));
  }
  rows_->setRows(std::move(rows));
  showFindings(here.unit);
  sideHead_->setText(wording::unitName(around_.language, context, here.unit));
  sideCount_->setText(words("checks.side.open", {{"n", around_.language.number(open, 0)}}, open));
}

/// What the sheet check says about this unit and nobody accepted: it may be what a reading shows.
void ChecksPlace::showFindings(sheet::UnitId unit) {
  std::vector<StepRows::Row> rows;
  findingKeys_.clear();
  const auto here = [&](const verify::Finding& finding) {
    return std::any_of(finding.places.begin(), finding.places.end(),
                       [&](const verify::Place& place) { return place.unit == unit; });
  };
  if (job_ && unit != sheet::UnitId{})
    for (const verify::Finding* finding : job_->openFindings()) {
      if (finding->severity == verify::Severity::note || !here(*finding)) continue;
      const auto severity = finding->severity == verify::Severity::stop   ? paint::Severity::stop
                            : finding->severity == verify::Severity::fail ? paint::Severity::fail
                                                                          : paint::Severity::warn;
      rows.push_back({severity,
                      wording::findingTitle(around_.language, *finding, {job_->sheet(), job_->library()}),
                      {},
                      wording::severityName(around_.language, finding->severity),
                      false});
      findingKeys_.push_back(verify::keyOf(*finding));
    }
  findingsHead_->setVisible(!rows.empty());
  findings_->setVisible(!rows.empty());
  findings_->setRows(std::move(rows));
}

fittings::StageMark ChecksPlace::mark() const {
  const auto steps = stepsNow();
  if (!job_ || steps.empty()) return {paint::Severity::notMeasured, 0};
  paint::Severity worst = paint::Severity::right;
  int open = 0, wrong = 0;
  if (std::ranges::none_of(steps, checklist::isMeasured)) return {paint::Severity::notMeasured, 0};
  for (const auto& step : steps) {
    const job::Reading* counts = job::standing(job_->job(), step.key);
    if (!counts || !counts->skippedBecause.empty()) {
      open += isMeasured(step) ? 1 : 0;
      continue;
    }
    const auto verdict = verdictOf(step, *counts);
    if (verdict == checklist::Verdict::fault) worst = paint::Severity::fail;
    if (verdict == checklist::Verdict::again && worst != paint::Severity::fail) worst = paint::Severity::warn;
    wrong += verdict == checklist::Verdict::fault || verdict == checklist::Verdict::again ? 1 : 0;
  }
  if (wrong > 0) return {worst, wrong};
  return {open > 0 ? paint::Severity::notMeasured : paint::Severity::right, open};
}

}  // namespace ww::checks
