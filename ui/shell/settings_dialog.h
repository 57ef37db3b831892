// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>

#include "session/surroundings.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QTableWidget;
class QPushButton;
class QGridLayout;
class QVBoxLayout;

namespace ww::shell {

/// What a person sets once: units, language, colours, paper, company for the report, meters.
class SettingsDialog : public QDialog {
  Q_OBJECT
 public:
  SettingsDialog(const session::Surroundings& around, QWidget* parent);
  /// The preferences as they stand in the dialog; what it does not show is kept.
  session::Preferences preferences() const;
  /// Takes the dialog's choices over, unless something is wrong with one; then says what.
  void accept() override;

 private:
  QWidget* generalPage();
  QWidget* metersPage();
  QComboBox* choice(QGridLayout* form, const char* key, const QStringList& keys, int chosen);
  void addMeter(const job::Meter& meter);
  void removeMeter();
  void listMeters();
  std::vector<job::Meter> meters() const;
  QString wrong() const;

  const session::Surroundings& around_;
  QComboBox *lengths_ = nullptr, *gauges_ = nullptr, *warmth_ = nullptr, *language_ = nullptr,
            *theme_ = nullptr, *paper_ = nullptr, *inHand_ = nullptr;
  QLineEdit *company_ = nullptr, *phone_ = nullptr, *installer_ = nullptr;
  QTableWidget* table_ = nullptr;
  QLabel* problem_ = nullptr;
};

}  // namespace ww::shell
