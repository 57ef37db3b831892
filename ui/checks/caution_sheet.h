// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <string>
#include <vector>

#include "session/surroundings.h"

class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace ww::checks {

/// The cautions of a stage on one sheet, read and signed with initials before the first step.
class CautionSheet : public QWidget {
  Q_OBJECT
 public:
  CautionSheet(const session::Surroundings& around, bool live, QWidget* parent = nullptr);
  /// `again`: why the sheet is shown once more; empty the first time.
  void setCautions(const std::vector<std::string>& cautions, const QString& again);
  QLineEdit* initials() const { return initials_; }
  QPushButton* button() const { return button_; }
  QString complaint() const;

 Q_SIGNALS:
  void acknowledged(const QString& initials);

 private:
  void take();

  const session::Surroundings& around_;
  QLabel* again_;
  QVBoxLayout* texts_;
  QLineEdit* initials_;
  QLabel* complaint_;
  QPushButton* button_;
};

}  // namespace ww::checks
