// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QLabel>
#include <QLineEdit>
#include <functional>

#include "wiring/in_hand.h"

class QCompleter;

namespace ww::wiring {

/// A line below the table in which something new is typed: a unit, a cable, a jumper, the note of an
/// acceptance. What is wrong is told beside it; it closes with Enter or Esc.
class EntryLine : public QFrame {
  Q_OBJECT
 public:
  explicit EntryLine(InHand& hand, QWidget* parent = nullptr);

  /// `take` gives a sentence when it cannot take what was typed.
  void ask(const QString& question, const QStringList& offers, std::function<QString(const QString&)> take);
  /// Insert: a unit by its title or a cable as typed, between `usual` where no units are typed.
  void askForNew(std::optional<std::pair<sheet::UnitId, sheet::UnitId>> usual);
  /// Two terminals of a unit by their letters.
  void askForJumper(sheet::UnitId unit);
  void close();
  bool open() const { return isVisible(); }
  QLineEdit* field() const { return field_; }
  QString complaint() const { return wrong_->text(); }

 Q_SIGNALS:
  void closed(bool taken);

 private:
  void take();
  QString addUnit(const equipment::Profile& profile);
  /// A unit by its title or by a piece that only one title has; else a cable.
  QString addNew(const QString& text, std::optional<std::pair<sheet::UnitId, sheet::UnitId>> usual);
  QString addJumper(sheet::UnitId unit, const QString& text);

  InHand& hand_;
  QLabel* question_;
  QLineEdit* field_;
  QLabel* wrong_;
  QCompleter* offers_ = nullptr;
  std::function<QString(const QString&)> take_;
};

}  // namespace ww::wiring
