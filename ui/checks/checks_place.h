// SPDX-License-Identifier: GPL-3.0-or-later
// Room checks: the steps of a checklist taken one after the other, with the power off (dead checks) and with
// it on (live checks). Readings, acknowledgements and their corrections are appended to the job, never
// changed. Knows the session and fittings; no other stage, no store.
#pragma once

#include <QTimer>
#include <map>

#include "checks/caution_sheet.h"
#include "checks/entry.h"
#include "checks/step_line.h"
#include "checks/step_panel.h"
#include "checks/step_rows.h"
#include "checks/walk.h"
#include "fittings/key_map.h"
#include "fittings/place.h"

class QLabel;
class QPushButton;
class QStackedWidget;

namespace ww::checks {

class ChecksPlace : public fittings::Place {
  Q_OBJECT
 public:
  ChecksPlace(const session::Surroundings& surroundings, bool live, QWidget* parent = nullptr);

  void setJob(session::OpenJob* job) override;
  void enter() override;
  std::vector<fittings::KeyLine> keys() const override;
  fittings::StageMark mark() const override;
  QWidget* topBar() override { return topBar_; }
  bool stepOut() override;
  void bring(const QString& what) override;
  void setLarge(bool large) override;
  std::vector<QWidget*> panes() override;
  void showEvent(QShowEvent* event) override;

  CautionSheet* cautions() const { return cautions_; }
  StepPanel* panel() const { return panel_; }
  StepRows* rows() const { return rows_; }
  StepRows* findings() const { return findings_; }
  StepLine* line() const { return line_; }
  /// Key of the step in hand; empty while there is none or the caution sheet is due.
  QString step() const;
  bool cautionsDue() const;

 private:
  enum Page { kNothing, kCautions, kStep };
  enum class Wanted { figure, skipReason, strikeReason };

  void build();
  void bindKeys();
  /// Something of the job did: shown at once where it is seen, else when it is seen again.
  void changed();
  void refresh();
  std::vector<checklist::Step> stepsNow() const;
  void showStep();
  void showRows();
  void showFindings(sheet::UnitId unit);
  StepShown shown(const checklist::Step& step) const;
  void wordProbes(const checklist::Step& step, StepShown& shown) const;
  void wordBand(const checklist::Step& step, StepShown& shown) const;
  void wordLook(const checklist::Step& step, StepShown& shown) const;
  void wordPast(const checklist::Step& step, StepShown& shown) const;
  QString readingText(const checklist::Step& step, const job::Reading& reading) const;
  /// Number of a step as the report counts them: dead checks first, live checks after them.
  size_t numberOf(size_t at) const;
  QString fullTitle(const checklist::Step& step) const;

  const checklist::Step* current() const;
  size_t index() const;
  void goToStep(size_t at);
  void move(int by);
  void moveOn();
  bool working() const;

  void typed(const QString& text);
  void enterPressed();
  void commitFigure(const checklist::Step& step);
  void commitLook(const checklist::Step& step);
  void commitReason(const checklist::Step& step);
  bool lookWrongFirst(paint::Severity severity, const QString& as, const char* question);
  void keep(job::Reading reading);
  job::Reading reading(const checklist::Step& step) const;
  void toggle(int chip);
  std::vector<std::string> duties(const checklist::Step& step) const;
  void takeMeant();
  void takeAgain();
  void skip();
  void strike();
  void wantReason(Wanted wanted, const char* key);
  void nextMeter();
  void takeMeter();
  void cutPower();
  void acknowledge(const QString& initials);
  void leaveEntry();
  QString words(const char* key, const wording::Args& args = {}, std::optional<int> count = {}) const;

  bool live_;
  bool stale_ = false;  ///< steps and what is shown are of before the last change
  QTimer markSoon_;
  session::OpenJob* job_ = nullptr;
  std::vector<checklist::Step> steps_;
  std::string key_;   ///< of the step in hand
  std::string last_;  ///< key of the step read last
  Wanted wanted_ = Wanted::figure;
  QString asked_;  ///< the entry that "take it again?" was asked for
  std::vector<char> chosen_;
  bool powerCut_ = false;

  QStackedWidget* pages_;
  QLabel* nothing_;
  CautionSheet* cautions_;
  StepPanel* panel_;
  QWidget *side_, *edge_;
  QLabel *sideHead_, *sideCount_;
  StepRows* rows_;
  QLabel* findingsHead_;
  StepRows* findings_;  ///< of the sheet check, at the place where a person stands
  std::vector<std::string> findingKeys_;
  StepLine* line_;
  QWidget* topBar_;
  QPushButton *skip_, *power_ = nullptr;
  fittings::KeyMap* keys_;
};

/// Shape of a verdict.
paint::Severity severityOf(checklist::Verdict verdict);

}  // namespace ww::checks
