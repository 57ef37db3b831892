// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

#include "sheet/systems.h"
#include "wording/language.h"

class QLineEdit;
class QListWidget;

namespace ww::site {

/// The kinds of system that what was typed means, best first: the letter itself, then titles whose words
/// begin with the words typed. Nothing typed: all.
std::vector<const sheet::SystemKind*> kindsFor(const QString& typed,
                                               const std::vector<sheet::SystemKind>& kinds,
                                               const wording::Language& language);

/// Type a letter or a word, Enter takes the row. Up and Down choose; a click takes too. Below the kinds
/// stands what is none for this program, under the letter S.
class SystemField : public QWidget {
  Q_OBJECT
 public:
  SystemField(const wording::Language& language, const std::vector<sheet::SystemKind>& kinds,
              QWidget* parent = nullptr);
  QLineEdit* line() const { return line_; }
  QListWidget* rows() const { return rows_; }
  void clear();

 Q_SIGNALS:
  void chosen(const ww::sheet::SystemKind& kind);
  void refused(const std::string& refusal);  ///< a word of survey::refusals()

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;
  void resizeEvent(QResizeEvent* event) override;

 private:
  void fill();
  void fitRows();
  void take(int row);

  const wording::Language& language_;
  const std::vector<sheet::SystemKind>& kinds_;
  std::vector<const sheet::SystemKind*> shown_;
  std::vector<std::string> refusals_;  ///< shown below them
  QLineEdit* line_;
  QListWidget* rows_;
};

}  // namespace ww::site
