// SPDX-License-Identifier: GPL-3.0-or-later
// Room control: what the control is to be set to, as sentences with reason, consequence and source;
// confirming and overriding with a note; the customer's wishes; the cycling curve; what contradicts what.
// Knows the session and fittings; no other stage, no store.
#pragma once

#include "control/setting_rows.h"
#include "control/value_entry.h"
#include "control/wishes_form.h"
#include "fittings/key_map.h"
#include "fittings/place.h"
#include "recommend/recommend.h"

class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QStackedWidget;
class QVBoxLayout;

namespace ww::control {

class CurveView;

class ControlPlace : public fittings::Place {
  Q_OBJECT
 public:
  explicit ControlPlace(const session::Surroundings& surroundings, QWidget* parent = nullptr);

  void setJob(session::OpenJob* job) override;
  void enter() override;
  std::vector<fittings::KeyLine> keys() const override;
  fittings::StageMark mark() const override;
  QWidget* topBar() override { return topBar_; }
  bool stepOut() override;
  void bring(const QString& what) override;
  std::vector<QWidget*> panes() override;

  const recommend::Sheet& settings() const { return settings_; }
  SettingRows* rows() const { return rows_; }
  ValueEntry* value() const { return value_; }
  QLineEdit* note() const { return note_; }
  WishesForm* wishes() const { return wishes_; }
  QPushButton* confirmButton() const { return confirm_; }
  QPushButton* overrideButton() const { return override_; }
  QPushButton* backButton() const { return back_; }
  QPushButton* wishesButton() const { return wishesButton_; }
  QString conflictsText() const;
  QString complaint() const;
  QString whyText() const;

 private:
  void build();
  QWidget* settingPane();
  void bindKeys();
  void refresh();
  void showConflicts();
  void showSetting();
  void showCurve(const recommend::Setting& setting);
  const recommend::Setting* current() const;
  bool working() const;
  void confirmNext();
  void nextOpen(const std::string& after);
  void overrideIt();
  void takeBack();
  void toggleWishes();
  void keepWishes(const recommend::Wishes& wishes);
  /// Choice and, where the circuit reads it, the sheet, as one step of undo.
  void keep(const char* name, const recommend::Setting& setting, const std::string& value, bool chosen,
            const QString& note);
  QString words(const char* key, const wording::Args& args = {}, std::optional<int> count = {}) const;

  session::OpenJob* job_ = nullptr;
  recommend::Sheet settings_;
  std::string shown_;  ///< key of the setting in the right pane

  SettingRows* rows_;
  QWidget *conflictsBox_, *settingPane_;
  QVBoxLayout* conflicts_;
  QStackedWidget* right_;
  QLabel *nothing_, *title_, *why_, *wrong_, *source_, *noteText_, *noteLabel_, *complaint_, *settled_;
  ValueEntry* value_;
  QLineEdit* note_;
  CurveView* curve_;
  WishesForm* wishes_;
  QWidget* topBar_;
  QPushButton *confirm_, *override_, *back_, *wishesButton_;
  fittings::KeyMap* keys_;
};

}  // namespace ww::control
