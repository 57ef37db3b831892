// SPDX-License-Identifier: GPL-3.0-or-later
#include "session/open_job.h"

#include <QUndoCommand>
#include <algorithm>
#include <utility>

#include "document/functions.h"
#include "job/profiles.h"

namespace ww::session {

namespace {

std::optional<sheet::Sheet>& sheetOf(Undoable& state, job::SheetState which) {
  switch (which) {
    case job::SheetState::asFound: return state.asFound;
    case job::SheetState::asLeft: return state.asLeft;
    case job::SheetState::planned: break;
  }
  return state.planned;
}

const std::optional<sheet::Sheet>& sheetOf(const job::Job& job, job::SheetState which) {
  switch (which) {
    case job::SheetState::asFound: return job.asFound;
    case job::SheetState::asLeft: return job.asLeft;
    case job::SheetState::planned: break;
  }
  return job.planned;
}

void putInto(job::Job& job, const Undoable& state) {
  job.site = state.site;
  job.visit = state.visit;
  job.installer = state.installer;
  job.company = state.company;
  job.asFound = state.asFound;
  job.planned = state.planned;
  job.asLeft = state.asLeft;
  job.lowLine = state.lowLine;
  job.highLine = state.highLine;
  job.openItems = state.openItems;
  job.control = state.control;
}

}  // namespace

Undoable undoableOf(const job::Job& job) {
  return {job.site,   job.visit,   job.installer, job.company,   job.asFound, job.planned,
          job.asLeft, job.lowLine, job.highLine,  job.openItems, job.control};
}

/// One step of the undo stack: the whole undoable part before and after. Sheets share their tables, so both
/// cost a few pointers.
class EditStep : public QUndoCommand {
 public:
  EditStep(OpenJob& open, const QString& name, Undoable before, Undoable after)
      : QUndoCommand(name), open_(open), before_(std::move(before)), after_(std::move(after)) {}
  void undo() override { open_.put(before_); }
  void redo() override { open_.put(after_); }

 private:
  OpenJob& open_;
  Undoable before_, after_;
};

OpenJob::OpenJob(job::Job job, const equipment::Library& library, QObject* parent, size_t checkBeside)
    : QObject(parent),
      job_(std::move(job)),
      library_(job::libraryOf(job_, library)),
      inHand_(job::currentSheetState(job_).value_or(job::SheetState::planned)),
      checkBeside_(checkBeside),
      checker_(library_, this, [this](Checked checked) { takeOver(std::move(checked)); }) {
  recheck();
}

OpenJob::~OpenJob() = default;

const sheet::Sheet& OpenJob::sheet() const {
  static const sheet::Sheet empty;
  const auto& inHand = sheetOf(job_, inHand_);
  if (inHand) return *inHand;
  const sheet::Sheet* current = job::currentSheet(job_);
  return current ? *current : empty;
}

void OpenJob::takeInHand(job::SheetState which) {
  if (which == inHand_) return;
  const sheet::Sheet before = sheet();
  inHand_ = which;
  if (sheet() == before) {
    Q_EMIT sheetChanged();
    return;
  }
  recheck();
  Q_EMIT sheetChanged();
}

bool OpenJob::edit(const QString& name, const sheet::Sheet& next) {
  Undoable state = undoableOf(job_);
  auto& inHand = sheetOf(state, inHand_);
  if (inHand ? *inHand == next : next == sheet()) return false;
  inHand = next;
  return edit(name, state);
}

bool OpenJob::edit(const QString& name, const Undoable& next) {
  Undoable before = undoableOf(job_);
  if (readOnly() || next == before) return false;
  undo_.push(new EditStep(*this, name, std::move(before), next));  // the stack owns it
  return true;
}

void OpenJob::put(const Undoable& state) {
  const sheet::Sheet before = sheet();
  const bool linesMoved = state.lowLine != job_.lowLine || state.highLine != job_.highLine;
  putInto(job_, state);
  job_ = job::withProfiles(std::move(job_), library_);
  const bool another = sheet() != before;
  if (another || linesMoved) recheck();
  if (another) Q_EMIT sheetChanged();
  Q_EMIT edited();
  Q_EMIT toSave(false);
}

void OpenJob::recheck() {
  const operation::LineRange lines{job_.lowLine, job_.highLine};
  const bool refused = !job::refusalsOf(job_).empty();
  if (!refused && sheet().conductors.size() > checkBeside_) {
    checking_ = true;
    checker_.start(sheet(), lines);
    return;
  }
  checker_.forget();
  takeOver(checkJob(job_, sheet(), library_));
}

void OpenJob::takeOver(Checked checked) {
  checking_ = false;
  checked_ = std::move(checked);
  steps_.reset();
  if (!checked_.solution.call(call_)) {
    call_ = "rest";
    Q_EMIT callChanged();
  }
  Q_EMIT this->checked();
}

void OpenJob::finishCheck() {
  if (!checking_) return;
  if (auto result = checker_.wait()) takeOver(std::move(*result));
}

std::vector<const verify::Finding*> OpenJob::openFindings() const {
  std::vector<const verify::Finding*> result;
  for (const verify::Finding& finding : checked_.check.findings)
    if (!document::acceptanceOf(job_, finding)) result.push_back(&finding);
  return result;
}

const std::vector<checklist::Step>& OpenJob::steps() const {
  static const std::vector<checklist::Step> none;
  // The checklist belongs to a solved sheet; one that is still being checked has none yet.
  if (!steps_ && checking_) return none;
  if (!steps_) steps_ = stepsOf(job_, sheet(), checked_);
  return *steps_;
}

bool OpenJob::record(const job::Reading& reading) {
  if (readOnly()) return false;
  auto next = job::withReading(job_, reading);
  if (!next) return false;
  job_ = std::move(*next);
  fact();
  return true;
}

bool OpenJob::takeSurvey(const job::SurveyTaken& taken) {
  if (readOnly()) return false;
  const bool before = job::refusalsOf(job_).empty();
  job_.surveys.push_back(taken);
  if (job::refusalsOf(job_).empty() != before) recheck();
  fact();
  return true;
}

bool OpenJob::acknowledge(const job::Acknowledgement& acknowledgement) {
  if (readOnly()) return false;
  job_.acknowledgements.push_back(acknowledgement);
  fact();
  return true;
}

bool OpenJob::accept(const job::Acceptance& acceptance) {
  if (readOnly()) return false;
  job_.acceptances.push_back(acceptance);
  fact();
  return true;
}

bool OpenJob::sign(const job::Signature& signature) {
  job_.signatures.push_back(signature);
  fact();
  return true;
}

void OpenJob::keepMeter(const job::Meter& meter) {
  std::erase_if(job_.meters, [&](const job::Meter& kept) { return kept.id == meter.id; });
  job_.meters.push_back(meter);
  fact();
}

void OpenJob::fact() {
  steps_.reset();
  Q_EMIT factsChanged();
  Q_EMIT toSave(true);
}

void OpenJob::setStage(const std::string& stage) {
  if (readOnly() || job_.stage == stage) return;
  job_.stage = stage;
  Q_EMIT toSave(false);
}

void OpenJob::replaceState(job::State state) {
  if (job_.state == state) return;
  job_.state = state;
  Q_EMIT edited();
}

void OpenJob::setCall(const std::string& call) {
  if (call == call_ || !checked_.solution.call(call)) return;
  call_ = call;
  Q_EMIT callChanged();
}

}  // namespace ww::session
