// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <map>
#include <optional>
#include <set>
#include <vector>

#include "paint/theme.h"
#include "session/open_job.h"
#include "session/surroundings.h"
#include "wiring/edits.h"
#include "wording/names.h"

namespace ww::wiring {

/// What is chosen on the sheet: ends in the order they were chosen, or whole conductors, a cable, or a unit.
struct Selection {
  std::vector<EndRef> ends;
  std::set<sheet::ConductorId> conductors;
  std::optional<sheet::CableId> cable;
  std::optional<sheet::UnitId> unit;
  friend bool operator==(const Selection&, const Selection&) = default;
  bool empty() const { return ends.empty() && conductors.empty() && !cable && !unit; }
  /// Conductors chosen whole or by an end.
  std::set<sheet::ConductorId> touched() const;
};

/// The sheet in hand as the panes of this stage share it: the job, what is chosen, what the plan offers,
/// which places findings mark, and every edit with its name in the person's language.
class InHand : public QObject {
  Q_OBJECT
 public:
  explicit InHand(const session::Surroundings& around, QObject* parent = nullptr);

  void setJob(session::OpenJob* job);
  session::OpenJob* job() const { return job_; }
  const session::Surroundings& around() const { return around_; }
  const sheet::Sheet& sheet() const;
  /// The profiles of the job in hand.
  const equipment::Library& library() const { return job_ ? job_->library() : around_.library; }
  wording::Context context() const { return {sheet(), library()}; }
  bool canEdit() const { return job_ && !job_->readOnly(); }
  bool checking() const { return job_ && job_->checking(); }
  /// Whether a unit on the sheet makes a call; where none does, nothing was proved.
  bool hasCalls() const;

  /// A sentence of this stage: the key stands below "wiring.".
  QString words(const char* key, const wording::Args& args = {}, std::optional<int> count = {}) const;
  QString words(const QString& key, const wording::Args& args = {}, std::optional<int> count = {}) const;

  const Selection& selection() const { return selection_; }
  void select(Selection selection);
  void selectEnd(EndRef end) { select({{end}, {}, {}, {}}); }

  /// Where the plan would land an end that hangs loose; nothing unless the sheet is the planned one.
  std::optional<sheet::Landing> ghost(EndRef end) const;
  bool planHasMore() const { return !ghosts_.empty(); }

  /// The worst open finding that names the conductor, or a terminal it lies on.
  std::optional<verify::Severity> mark(sheet::ConductorId conductor) const;
  /// The worst that names the conductor itself.
  std::optional<verify::Severity> markOfItself(sheet::ConductorId conductor) const;
  std::optional<verify::Severity> mark(const sheet::TerminalRef& terminal) const;
  std::optional<verify::Severity> mark(const std::string& call) const;

  /// Conductors on the way of the finding's current that join terminals of two purposes.
  std::vector<sheet::ConductorId> crossedOn(const verify::Finding& finding) const;

  /// Does an edit as one step of undo; a sentence when it cannot be done. The same sheet is no edit and no
  /// complaint.
  QString apply(const QString& step, const Edit& edit);
  QString apply(const QString& step, const sheet::Sheet& next);
  QString land(EndRef end, const sheet::Landing& landing);
  QString swapSelected();
  QString sameAtB(sheet::ConductorId conductor);
  QString join(const sheet::TerminalRef& from, const sheet::TerminalRef& to);
  /// Lands everything the plan proposes.
  QString propose();
  /// Delete: an end becomes loose; a conductor, cable or unit first loses what is landed, then goes.
  /// offered() says what was done.
  QString deleteSelected();

  QString endName(EndRef end) const;                   ///< "YE, cable 1, End B"
  QString landingText(EndRef end) const;               ///< as a table shows it: "Y", "loose", "capped", "/S1"
  QString spoken(sheet::ConductorId conductor) const;  ///< a whole sentence for ears and the status bar
  QString spoken(const sheet::TerminalRef& terminal) const;
  QString unitName(sheet::UnitId unit) const;
  QString cableName(const sheet::Cable& cable) const;  ///< "Cable 1 · 18/5 · 12 m"
  QString cableCount(sheet::CableId cable) const;      ///< "5 of 5 landed"

 Q_SIGNALS:
  void jobChanged();
  void sheetChanged();
  void checked();  ///< findings, marks and solved calls are others
  void callChanged();
  void selectionChanged();
  /// Something was taken away by a key: told, with Undo.
  void offered(const QString& sentence);

 private:
  void takeSheet();
  void takeCheck();
  QString refusal(const Edit& edit) const;
  QString landingAtUnit(EndRef end) const;

  const session::Surroundings& around_;
  session::OpenJob* job_ = nullptr;
  Selection selection_;
  std::map<EndRef, sheet::Landing> ghosts_;
  std::map<sheet::ConductorId, verify::Severity> marksOfConductors_;
  std::map<sheet::TerminalRef, verify::Severity> marksOfTerminals_;
  std::map<std::string, verify::Severity> marksOfCalls_;
};

}  // namespace ww::wiring
