// SPDX-License-Identifier: GPL-3.0-or-later
// Room session: the job on the desk - its sheets with undo, the solved sheet, the facts recorded, the call
// looked at - and the preferences of the person. Qt without widgets. Must not know screens or the store.
#pragma once

#include <QObject>
#include <QString>
#include <QUndoStack>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "checklist/checklist.h"
#include "job/job.h"
#include "operation/solution.h"
#include "session/checker.h"
#include "verify/check.h"

namespace ww::session {

/// What undo gives back: everything of a job that is not a fact. Readings, acknowledgements, acceptances and
/// signatures are facts; undo never touches them.
struct Undoable {
  job::Site site;
  std::string visit, installer;
  job::Company company;
  std::optional<sheet::Sheet> asFound, planned, asLeft;
  double lowLine = 0.92, highLine = 1.10;
  std::vector<job::OpenItem> openItems;
  recommend::Control control;
  friend bool operator==(const Undoable&, const Undoable&) = default;
};

/// The undoable part of a job.
Undoable undoableOf(const job::Job& job);

/// One job being worked on. Every change goes through here: edits through the undo stack, facts appended.
/// The sheet is checked after each edit, at once where that fits a frame, else beside; results that no longer
/// fit the sheet are dropped.
class OpenJob : public QObject {
  Q_OBJECT
 public:
  /// `library`: what units are placed from; a copy is kept, in which the profiles that travel inside the job
  /// stand first. `checkBeside`: sheets of more conductors than this are checked on a worker.
  OpenJob(job::Job job, const equipment::Library& library, QObject* parent = nullptr,
          size_t checkBeside = 400);
  ~OpenJob() override;

  const job::Job& job() const { return job_; }
  const equipment::Library& library() const { return library_; }
  /// A closed job is read only; only facts that stand beside it (signatures) can be added.
  bool readOnly() const { return job_.state == job::State::closed; }

  /// The sheet in hand; an empty one when the job has none yet.
  const sheet::Sheet& sheet() const;
  job::SheetState sheetInHand() const { return inHand_; }
  /// Takes another of the job's sheets in hand. As left, where there is none yet, starts as a copy of as
  /// found or planned with the first edit.
  void takeInHand(job::SheetState which);

  QUndoStack& undoStack() { return undo_; }
  /// Puts another sheet in place of the one in hand, as one undoable step of that name. False, and nothing on
  /// the stack, when it is the same or the job is read only.
  bool edit(const QString& name, const sheet::Sheet& next);
  /// The same for everything else that undo covers.
  bool edit(const QString& name, const Undoable& next);

  /// The sheet in hand, solved and checked, as of checkJob(); while `checking()` the last state that was, of
  /// none at first.
  const operation::Solution& solution() const { return checked_.solution; }
  const verify::SheetCheck& check() const { return checked_.check; }
  bool checking() const { return checking_; }
  /// Waits for a check that is under way. For reports and tests.
  void finishCheck();
  /// Findings that count as open: all that were not accepted with their present severity.
  std::vector<const verify::Finding*> openFindings() const;
  /// The checklist of the sheet in hand, bands conditioned on the readings taken with the meter; empty while
  /// the first check is under way.
  const std::vector<checklist::Step>& steps() const;

  /// The visit before at the same site, whose readings are shown beside the new ones; null without one. It is
  /// looked at only: nothing of it becomes part of this job.
  const job::Job* former() const { return former_ ? &*former_ : nullptr; }
  void setFormer(std::optional<job::Job> former) { former_ = std::move(former); }

  /// Facts. False when refused (unknown reading to supersede, doubled id, read only).
  bool record(const job::Reading& reading);
  bool takeSurvey(const job::SurveyTaken& fact);
  bool acknowledge(const job::Acknowledgement& fact);
  bool accept(const job::Acceptance& fact);
  bool sign(const job::Signature& fact);
  /// Meters of the job: added or replaced by id, never removed while a reading names them.
  void keepMeter(const job::Meter& meter);
  void setStage(const std::string& stage);
  /// Takes over a state that the store gave (closed, a new id after a clash); not an edit.
  void replaceState(job::State state);

  /// The call that is looked at; "rest" at first.
  const std::string& call() const { return call_; }
  void setCall(const std::string& call);

 Q_SIGNALS:
  void edited();        ///< anything undoable changed, by edit, undo or redo
  void sheetChanged();  ///< the sheet in hand is another
  void checked();       ///< solution() and check() fit the sheet in hand
  void factsChanged();  ///< a reading, acknowledgement, acceptance, signature or meter was added
  void callChanged();
  void toSave(bool atOnce);  ///< the job differs from what was last saved; atOnce: a fact was recorded

 private:
  friend class EditStep;
  void put(const Undoable& state);
  void recheck();
  void takeOver(Checked checked);
  void fact();

  job::Job job_;
  std::optional<job::Job> former_;
  const equipment::Library library_;
  job::SheetState inHand_;
  size_t checkBeside_;
  QUndoStack undo_;
  Checker checker_;
  Checked checked_;
  bool checking_ = false;
  mutable std::optional<std::vector<checklist::Step>> steps_;
  std::string call_ = "rest";
};

}  // namespace ww::session
