// SPDX-License-Identifier: GPL-3.0-or-later
// Room fittings: what all screens are made of - style, icons, keys, badges, the bar that offers undo, and the
// frame of a place. Knows the session, no single screen and no store.
#pragma once

#include <QKeySequence>
#include <QString>
#include <QWidget>
#include <vector>

#include "session/open_job.h"
#include "session/surroundings.h"

namespace ww::fittings {

/// One line of the list of keys (F1); the text is worded.
struct KeyLine {
  QKeySequence keys;
  QString does;
};

/// What the rail shows beside a stage's name.
struct StageMark {
  std::optional<paint::Severity> severity;
  int count = 0;
};

/// A stage of the open job: Site, Wiring, Dead checks, Live checks, Report. The shell owns it, gives it a
/// job, and shows it between the rail and the status bar.
class Place : public QWidget {
  Q_OBJECT
 public:
  Place(const session::Surroundings& surroundings, QWidget* parent)
      : QWidget(parent), around_(surroundings) {}

  /// Another job, or none; the place connects to it and lets go of the former. The job outlives the place's
  /// use of it.
  virtual void setJob(session::OpenJob* job) = 0;
  /// The place was brought to the front: put the focus where work begins.
  virtual void enter() = 0;
  virtual std::vector<KeyLine> keys() const = 0;
  virtual StageMark mark() const { return {}; }
  /// What stands in the top bar while this place is in front; nothing by default.
  virtual QWidget* topBar() { return nullptr; }
  /// Esc: one level out. False when there is none left here.
  virtual bool stepOut() { return false; }
  /// What goTo() of another place asked for: a step key, a finding key.
  virtual void bring(const QString& what) { (void)what; }
  /// Large mode on or off: to be read from two metres. Texts grow by themselves; a place leaves out what
  /// there is then no room for.
  virtual void setLarge(bool large) { (void)large; }
  /// The panes that F6 goes round, in order.
  virtual std::vector<QWidget*> panes() { return {}; }

 Q_SIGNALS:
  void markChanged();
  void say(const QString& sentence);                     ///< for the status bar
  void offered(const QString& sentence);                 ///< what the last edit took away: told, with Undo
  void goTo(const QString& stage, const QString& what);  ///< "dead", step key; "wiring", finding key
  /// Signed and confirmed: whoever owns the job freezes its revision. The place then sees replaceState().
  void closeJob();

 protected:
  const session::Surroundings& around_;
};

}  // namespace ww::fittings
