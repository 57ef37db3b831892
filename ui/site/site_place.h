// SPDX-License-Identifier: GPL-3.0-or-later
// Room site: the first stage of a job - whose house it is, which kind of system stands there, what the labels
// of the units say and what they are set to. Knows the session and fittings; no other stage, no store.
#pragma once

#include "fittings/key_map.h"
#include "fittings/place.h"
#include "sheet/systems.h"
#include "site/field.h"
#include "site/unit_card.h"

class QComboBox;
class QGridLayout;
class QLabel;
class QPushButton;
class QScrollArea;
class QVBoxLayout;

namespace ww::site {

class OpenItemList;
class SurveyRow;
class SystemField;

class SitePlace : public fittings::Place {
  Q_OBJECT
 public:
  SitePlace(const session::Surroundings& surroundings, QWidget* parent = nullptr);
  ~SitePlace() override;

  void setJob(session::OpenJob* job) override;
  void enter() override;
  std::vector<fittings::KeyLine> keys() const override;
  fittings::StageMark mark() const override;
  std::vector<QWidget*> panes() override;
  /// The tag of a unit: its card is scrolled to and takes the keyboard.
  void bring(const QString& what) override;

  /// By the last part of its catalogue key: "address", "visit", "line-volts"; null when there is none.
  Field* field(const QString& name) const;
  SystemField* system() const { return system_; }
  SurveyRow* survey() const { return survey_; }
  const std::vector<UnitCard*>& cards() const { return cards_; }
  QComboBox* frequency() const { return frequency_; }
  OpenItemList* openItems() const { return items_; }
  /// Adds one more unit of a profile to the sheet.
  void addUnit(const std::string& profile);

 private:
  QWidget* sitePane();
  QWidget* equipmentPane();
  void addText(QGridLayout* form, const char* name, std::string job::Site::*member, int lines = 1);
  void addVisit(QGridLayout* form);
  void addInstaller(QGridLayout* form);
  void addLine(QGridLayout* form);
  void addVolts(QGridLayout* form);
  void addShare(QGridLayout* form, const char* name, double session::Undoable::*member);
  Field* keepField(QGridLayout* form, const char* name, Field::Binding binding, int lines = 1);
  void editJob(const QString& field, const std::function<void(session::Undoable&)>& change);
  void editSetting(const QString& field, std::string_view key, const std::string& value);
  void place(const sheet::SystemKind& kind);
  void refuse(const std::string& refusal);
  /// The menu of what can be placed: the profiles of the job in hand.
  void offerUnits();
  void removeUnit(int unit);
  void refresh();
  void refreshCards();
  QString words(const QString& key, const wording::Args& args = {}) const;

  session::OpenJob* job_ = nullptr;
  std::vector<std::pair<QString, Field*>> fields_;
  SystemField* system_ = nullptr;
  SurveyRow* survey_ = nullptr;
  QLabel* kind_ = nullptr;  ///< what stands in place of the list once conductors are landed
  QComboBox* frequency_ = nullptr;
  QPushButton* add_ = nullptr;
  QLabel* noUnits_ = nullptr;
  QVBoxLayout* cardColumn_ = nullptr;
  std::vector<UnitCard*> cards_;
  OpenItemList* items_ = nullptr;
  QScrollArea *left_ = nullptr, *right_ = nullptr;
  fittings::KeyMap* keys_ = nullptr;
};

/// ISO date of a day as a person types it: "2025-03-12", the language's own short or long form. Nothing for
/// anything else.
std::optional<std::string> dayOf(const QString& text, const wording::Language& language);

}  // namespace ww::site
