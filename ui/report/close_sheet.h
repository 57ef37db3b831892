// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "job/job.h"
#include "session/surroundings.h"

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;

namespace ww::report {

/// Sign and close: says in words what stands open, takes the two signatures by name, and asks once. It warns;
/// it does not imprison.
class CloseSheet : public QWidget {
  Q_OBJECT
 public:
  CloseSheet(const session::Surroundings& around, QWidget* parent = nullptr);

  struct Line {
    paint::Severity severity = paint::Severity::notMeasured;
    QString text;
  };
  /// `closed`: the job is closed already and only takes signatures.
  void setOpen(const std::vector<Line>& open, bool closed);
  /// The signatures typed, without ids and times.
  std::vector<job::Signature> signatures() const;
  QString complaint() const;

  QLineEdit* name(const std::string& role) const;
  QComboBox* form(const std::string& role) const;
  QCheckBox* read() const { return read_; }
  QPushButton* closeButton() const { return close_; }
  QPushButton* backButton() const { return back_; }
  QString openText() const;

 Q_SIGNALS:
  void confirmed();
  void left();

 private:
  struct Signer {
    std::string role;
    QLineEdit* name;
    QComboBox* form;
  };
  QString words(const char* key) const;
  void take();

  const session::Surroundings& around_;
  QLabel *title_, *lead_, *complaint_;
  QWidget* list_;
  QCheckBox* read_;
  std::vector<Signer> signers_;
  QPushButton *close_, *back_;
  bool anyOpen_ = false, closed_ = false;
};

}  // namespace ww::report
