// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/checks_place.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <algorithm>

#include "checklist/sighting.h"
#include "wording/sentences.h"

namespace ww::checks {

namespace {

constexpr size_t kMostNumbered = 9;  // duties that a digit marks

}  // namespace

ChecksPlace::ChecksPlace(const session::Surroundings& surroundings, bool live, QWidget* parent)
    : Place(surroundings, parent), live_(live), keys_(new fittings::KeyMap(this)) {
  setAccessibleName(words(live ? "checks.name.live" : "checks.name.dead"));
  build();
  bindKeys();
  // A checklist takes longer than a frame has room for: the rail has its marks once the edit is painted.
  markSoon_.setSingleShot(true);
  markSoon_.setInterval(0);
  connect(&markSoon_, &QTimer::timeout, this, &ChecksPlace::markChanged);
  refresh();
}

std::vector<fittings::KeyLine> ChecksPlace::keys() const {
  auto lines = keys_->lines();
  lines.insert(lines.begin(), {Qt::Key_Return, words("checks.key.enter")});
  lines.push_back({Qt::Key_O, words("checks.key.open")});
  return lines;
}

void ChecksPlace::setJob(session::OpenJob* job) {
  if (job_) job_->disconnect(this);
  job_ = job;
  key_.clear();
  last_.clear();
  powerCut_ = false;
  leaveEntry();
  if (job_) {
    connect(job_, &session::OpenJob::edited, this, &ChecksPlace::changed);
    connect(job_, &session::OpenJob::sheetChanged, this, &ChecksPlace::changed);
    connect(job_, &session::OpenJob::checked, this, &ChecksPlace::changed);
    connect(job_, &session::OpenJob::factsChanged, this, &ChecksPlace::changed);
  }
  changed();
}

void ChecksPlace::changed() {
  if (isVisible()) return refresh();
  stale_ = true;
  markSoon_.start();
}

void ChecksPlace::showEvent(QShowEvent* event) {
  if (stale_) refresh();
  Place::showEvent(event);
}

std::vector<checklist::Step> ChecksPlace::stepsNow() const {
  return stale_ ? job_ ? stepsOf(*job_, live_) : std::vector<checklist::Step>() : steps_;
}

bool ChecksPlace::cautionsDue() const {
  return job_ && !job_->readOnly() && !stepsNow().empty() && (powerCut_ || !acknowledged(job_->job(), live_));
}

bool ChecksPlace::working() const { return pages_->currentIndex() == kStep && job_ && !job_->readOnly(); }

QString ChecksPlace::step() const {
  return pages_->currentIndex() == kStep ? QString::fromStdString(key_) : QString();
}

const checklist::Step* ChecksPlace::current() const { return steps_.empty() ? nullptr : &steps_[index()]; }

size_t ChecksPlace::index() const {
  for (size_t i = 0; i < steps_.size(); ++i)
    if (steps_[i].key == key_) return i;
  return 0;
}

void ChecksPlace::refresh() {
  stale_ = false;
  markSoon_.stop();
  steps_ = job_ ? stepsOf(*job_, live_) : std::vector<checklist::Step>();
  const bool known = std::any_of(steps_.begin(), steps_.end(), [&](const auto& s) { return s.key == key_; });
  if (!known && !steps_.empty()) {
    leaveEntry();
    const auto open =
        std::find_if(steps_.begin(), steps_.end(), [&](const auto& s) { return !settled(job_->job(), s); });
    key_ = open == steps_.end() ? steps_.front().key : open->key;
  }
  const int before = pages_->currentIndex();
  const int page = steps_.empty() ? kNothing : cautionsDue() ? kCautions : kStep;
  if (page == kCautions && before != kCautions) {
    const bool earlier =
        job_ && std::any_of(job_->job().acknowledgements.begin(), job_->job().acknowledgements.end(),
                            [&](const auto& fact) { return fact.cautions == (live_ ? "live" : "dead"); });
    cautions_->setCautions(cautionsOf(steps_), earlier ? words("checks.caution.again") : QString());
  }
  pages_->setCurrentIndex(page);
  skip_->setEnabled(working());
  if (power_) power_->setEnabled(working());
  side_->setEnabled(page == kStep);
  showStep();
  showRows();
  if (page != before && isVisible() && (hasFocus() || isAncestorOf(focusWidget()))) enter();
  Q_EMIT markChanged();
}

void ChecksPlace::showStep() {
  const checklist::Step* step = current();
  if (!step || pages_->currentIndex() != kStep) return;
  panel_->show(shown(*step));
  panel_->reading()->setReadOnly(job_->readOnly());
  typed(panel_->reading()->text());
}

void ChecksPlace::enter() {
  if (pages_->currentIndex() == kStep)
    panel_->reading()->setFocus();
  else if (pages_->currentIndex() == kCautions)
    cautions_->initials()->setFocus();
  else
    nothing_->setFocus();
}

bool ChecksPlace::stepOut() {
  if (!working() || (wanted_ == Wanted::figure && panel_->reading()->text().isEmpty() && asked_.isEmpty()))
    return false;
  leaveEntry();
  showStep();
  return true;
}

void ChecksPlace::bring(const QString& what) {
  for (size_t i = 0; i < steps_.size(); ++i)
    if (QString::fromStdString(steps_[i].key) == what) goToStep(i);
}

void ChecksPlace::setLarge(bool large) {
  panel_->setLarge(large);
  side_->setVisible(!large);
  edge_->setVisible(!large);
}

std::vector<QWidget*> ChecksPlace::panes() {
  if (pages_->currentIndex() == kCautions) return {cautions_->initials()};
  return {panel_->reading()};
}

void ChecksPlace::leaveEntry() {
  wanted_ = Wanted::figure;
  asked_.clear();
  chosen_.clear();
  panel_->reading()->clear();
  panel_->ask({}, {}, {});
  panel_->complain({});
  panel_->wantReason({});
}

void ChecksPlace::goToStep(size_t at) {
  if (at >= steps_.size() || pages_->currentIndex() != kStep) return;
  leaveEntry();
  key_ = steps_[at].key;
  refresh();
  panel_->reading()->setFocus();
}

void ChecksPlace::move(int by) {
  const auto at = int(index()) + by;
  if (at >= 0 && at < int(steps_.size())) goToStep(size_t(at));
}

void ChecksPlace::moveOn() {
  const size_t next = nextOpen(job_->job(), steps_, index());
  const bool done = settled(job_->job(), steps_[next]);
  goToStep(next);
  if (done) Q_EMIT say(words("checks.all-done"));
}

void ChecksPlace::typed(const QString& text) {
  const checklist::Step* step = current();
  if (!step || wanted_ != Wanted::figure) return;
  if (text != asked_) {
    asked_.clear();
    panel_->ask({}, {}, {});
  }
  panel_->complain({});
  if (step->measure == checklist::Measure::look && !text.isEmpty()) {
    panel_->reading()->clear();
    const size_t count = duties(*step).size();
    for (const QChar c : text) {
      if (c.isDigit() && c != u'0' && size_t(c.digitValue()) <= std::min(count, kMostNumbered))
        toggle(c.digitValue() - 1);
      else if (c.toLower() == u'h')
        toggle(int(count));
      else if (c == u'0')
        toggle(int(count) + 1);
    }
    return;
  }
  if (text == u"o" || text == u"O") panel_->reading()->setText(QStringLiteral("OL"));
  const Entry entry = parseEntry(panel_->reading()->text());
  if (entry.kind == Entry::Kind::value || entry.kind == Entry::Kind::openLine) {
    const bool open = entry.kind == Entry::Kind::openLine;
    const auto verdict = judge(*step, open ? std::nullopt : std::optional(entry.value), open);
    panel_->bar()->setMark(BandBar::Mark{entry.value, open, severityOf(verdict)});
  } else if (const job::Reading* counts = job::standing(job_->job(), step->key);
             counts && (counts->value || counts->openLine)) {
    panel_->bar()->setMark(
        BandBar::Mark{counts->value.value_or(0), counts->openLine, severityOf(verdictOf(*step, *counts))});
  } else {
    panel_->bar()->setMark(std::nullopt);
  }
  if (const auto meant = probablyMeant(*step, entry))
    panel_->complain(
        words("checks.meant",
              {{"typed", text.trimmed()}, {"meant", around_.language.number(*meant, *meant < 100 ? 1 : 0)}}));
}

void ChecksPlace::takeMeant() {
  const auto meant = probablyMeant(*current(), parseEntry(panel_->reading()->text()));
  if (!meant) return;
  QString text = QString::number(*meant, 'f', *meant < 100 ? 1 : 0);
  text.replace(u'.', around_.language.locale().decimalPoint());
  panel_->reading()->setText(text);
  typed(text);
}

void ChecksPlace::enterPressed() {
  const checklist::Step* step = current();
  if (!step || !working()) {
    if (step) move(1);
    return;
  }
  if (wanted_ != Wanted::figure) return commitReason(*step);
  const bool had = settled(job_->job(), *step);
  if (step->measure == checklist::Measure::look) return commitLook(*step);
  if (had && panel_->reading()->text().trimmed().isEmpty()) return moveOn();
  if (isMeasured(*step)) return commitFigure(*step);
  if (!panel_->reading()->text().trimmed().isEmpty()) return panel_->complain(words("checks.bad.act"));
  job::Reading done = reading(*step);
  done.entered = "done";
  keep(std::move(done));
}

void ChecksPlace::commitFigure(const checklist::Step& step) {
  const QString text = panel_->reading()->text().trimmed();
  const Entry entry = parseEntry(text);
  switch (entry.kind) {
    case Entry::Kind::nothing: return panel_->complain(words("checks.bad.nothing"));
    case Entry::Kind::noNumber: return panel_->complain(words("checks.bad.number"));
    case Entry::Kind::negative: return panel_->complain(words("checks.bad.negative"));
    case Entry::Kind::tooLarge: return panel_->complain(words("checks.bad.large"));
    case Entry::Kind::value:
    case Entry::Kind::openLine: break;
  }
  job::Reading next = reading(step);
  next.openLine = entry.kind == Entry::Kind::openLine;
  if (!next.openLine) next.value = entry.value;
  next.entered = next.openLine ? "OL" : text.toStdString();
  next.unit = checklist::unitOf(step);
  next.band = step.band;
  const auto verdict = judge(step, next.value, next.openLine);
  if (verdict == checklist::Verdict::fault && lookWrongFirst(paint::Severity::fail, text, "checks.ask.fault"))
    return;
  if (verdict == checklist::Verdict::again && lookWrongFirst(paint::Severity::warn, text, "checks.ask.again"))
    return;
  keep(std::move(next));
}

void ChecksPlace::commitLook(const checklist::Step& step) {
  const auto all = duties(step);
  const bool marked = std::find(chosen_.begin(), chosen_.end(), char(1)) != chosen_.end();
  if (!marked && settled(job_->job(), step)) return moveOn();
  if (!marked) return panel_->complain(words("checks.bad.look"));
  checklist::Sighting seen;
  for (size_t i = 0; i < all.size(); ++i)
    if (chosen_[i]) seen.runs.push_back(all[i]);
  seen.hum = chosen_[all.size()] != 0;
  const QString text = QString::fromStdString(print(seen));
  if (judge(step, seen) != checklist::Verdict::good &&
      lookWrongFirst(paint::Severity::fail, text, "checks.ask.look"))
    return;
  job::Reading next = reading(step);
  next.entered = text.toStdString();
  keep(std::move(next));
}

bool ChecksPlace::lookWrongFirst(paint::Severity severity, const QString& as, const char* question) {
  if (asked_ == as) return false;
  asked_ = as;
  panel_->ask(severity, words(question), words("checks.ask.keys"));
  return true;
}

void ChecksPlace::commitReason(const checklist::Step& step) {
  const QString reason = panel_->reading()->text().trimmed();
  if (reason.isEmpty()) return panel_->complain(words("checks.bad.reason"));
  job::Reading next = reading(step);
  if (wanted_ == Wanted::skipReason)
    next.skippedBecause = reason.toStdString();
  else
    next.struckBecause = reason.toStdString();
  next.meter.clear();
  const bool on = wanted_ == Wanted::skipReason;
  leaveEntry();
  if (!on) {
    if (!job_->record(next)) panel_->complain(words("checks.bad.refused"));
    return;
  }
  keep(std::move(next));
}

job::Reading ChecksPlace::reading(const checklist::Step& step) const {
  job::Reading next;
  next.id = around_.newId();
  next.step = step.key;
  next.at = around_.now();
  const job::Acknowledgement* read = acknowledged(job_->job(), live_);
  next.by = !job_->job().installer.empty()           ? job_->job().installer
            : !around_.preferences.installer.empty() ? around_.preferences.installer
            : read                                   ? read->by
                                                     : std::string();
  if (isMeasured(step) && !job_->job().meters.empty()) next.meter = job_->job().meters.back().id;
  if (const job::Reading* counts = job::standing(job_->job(), step.key)) next.supersedes = counts->id;
  return next;
}

void ChecksPlace::keep(job::Reading next) {
  takeMeter();
  if (!next.meter.empty() || (next.value || next.openLine))
    next.meter = job_->job().meters.empty() ? std::string() : job_->job().meters.back().id;
  last_ = next.step;
  if (!job_->record(next)) return panel_->complain(words("checks.bad.refused"));
  moveOn();
}

void ChecksPlace::toggle(int chip) {
  const checklist::Step* step = current();
  if (!step || !working()) return;
  const size_t count = duties(*step).size() + 2;
  if (chip < 0 || size_t(chip) >= count) return;
  chosen_.resize(count);
  const bool nothing = size_t(chip) == count - 1;
  const bool on = !chosen_[size_t(chip)];
  if (on && nothing) std::fill(chosen_.begin(), chosen_.end() - 2, char(0));
  if (on && size_t(chip) < count - 2) chosen_.back() = 0;
  chosen_[size_t(chip)] = on;
  asked_.clear();
  panel_->ask({}, {}, {});
  panel_->complain({});
  panel_->show(shown(*step));
}

std::vector<std::string> ChecksPlace::duties(const checklist::Step& step) const {
  std::vector<std::string> all = step.mustRun;
  all.insert(all.end(), step.mustNotRun.begin(), step.mustNotRun.end());
  return all;
}

void ChecksPlace::takeAgain() {
  leaveEntry();
  showStep();
  panel_->reading()->setFocus();
}

void ChecksPlace::wantReason(Wanted wanted, const char* key) {
  leaveEntry();
  wanted_ = wanted;
  panel_->wantReason(words(key));
  panel_->reading()->setFocus();
}

void ChecksPlace::skip() {
  if (!working()) return;
  wantReason(Wanted::skipReason, "checks.reason.skip");
}

void ChecksPlace::strike() {
  const checklist::Step* step = current();
  if (!step || !settled(job_->job(), *step)) return panel_->complain(words("checks.bad.strike"));
  wantReason(Wanted::strikeReason, "checks.reason.strike");
}

void ChecksPlace::nextMeter() {
  session::Preferences next = around_.preferences;
  if (next.meters.empty()) {
    Q_EMIT say(words("checks.meter.none"));
    return;
  }
  size_t at = next.meters.size() - 1;
  for (size_t i = 0; i < next.meters.size(); ++i)
    if (next.meters[i].id == next.meterInHand) at = i;
  const job::Meter& meter = next.meters[(at + 1) % next.meters.size()];
  next.meterInHand = meter.id;
  const QString name = QString::fromStdString(meter.name);
  around_.keep(next);
  if (job_ && !job_->readOnly()) job_->keepMeter(meter);
  Q_EMIT say(words("checks.meter.now", {{"meter", name}}));
}

void ChecksPlace::takeMeter() {
  for (const job::Meter& meter : around_.preferences.meters)
    if (meter.id == around_.preferences.meterInHand &&
        (job_->job().meters.empty() || job_->job().meters.back().id != meter.id))
      return job_->keepMeter(meter);
}

void ChecksPlace::cutPower() {
  if (!working()) return;
  powerCut_ = true;
  leaveEntry();
  refresh();
  enter();
}

void ChecksPlace::acknowledge(const QString& initials) {
  if (!job_) return;
  powerCut_ = false;
  const bool kept =
      job_->acknowledge({around_.newId(), live_ ? "live" : "dead", initials.toStdString(), around_.now()});
  if (kept) panel_->reading()->setFocus();
}

}  // namespace ww::checks
