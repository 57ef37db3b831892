// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <functional>
#include <vector>

#include "session/open_job.h"
#include "session/surroundings.h"
#include "site/field.h"

class QComboBox;
class QGridLayout;
class QPushButton;

namespace ww::site {

/// One unit of the sheet: what it is called, where it stands, what its label says, what its boards are set
/// to. Everything is kept through the open job.
class UnitCard : public QFrame {
  Q_OBJECT
 public:
  UnitCard(const session::Surroundings& around, session::OpenJob& job, sheet::UnitId unit,
           QWidget* parent = nullptr);

  sheet::UnitId unit() const { return unit_; }
  void refresh();
  /// Hidden for good; its job may go before it does.
  void letGo();
  std::vector<Field*> fields() const { return fields_; }

 Q_SIGNALS:
  void remove(int unit);

 private:
  struct Choice {
    std::string key;
    QComboBox* combo;
  };
  const sheet::Unit* placed() const;
  const equipment::Profile* profile() const;
  QString say(const char* key, const wording::Args& args = {}) const;
  void addField(QGridLayout* grid, int row, int column, const QString& name,
                std::function<std::string(const sheet::Unit&)> read,
                std::function<QString(sheet::Unit&, const std::string&)> write);
  void addSetting(QGridLayout* grid, int row, int column, const equipment::Setting& setting);
  void addNumber(QGridLayout* grid, int row, int column, const equipment::Setting& setting,
                 const QString& name);
  std::string keyOf(const std::string& setting) const;
  std::string valueOf(const equipment::Setting& setting) const;
  void set(const std::string& setting, const std::string& value, const QString& name);

  const session::Surroundings& around_;
  session::OpenJob& job_;
  sheet::UnitId unit_;
  std::vector<Field*> fields_;
  std::vector<Choice> choices_;
  QPushButton* remove_ = nullptr;
};

/// The key a setting of a unit is kept under: its own ("F.fuse") where it has one or where another placed
/// unit knows the same setting, else the common one.
std::string settingKey(const sheet::Sheet& sheet, const equipment::Library& library, const sheet::Unit& unit,
                       const std::string& setting);

}  // namespace ww::site
