// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>

#include "paint/theme.h"

class QLabel;
class QLineEdit;
class QPlainTextEdit;

namespace ww::site {

inline constexpr qsizetype kMostText = 4000;  ///< bytes of a text of several lines

/// One entry of a form. It is kept when it is left or Enter is pressed; what cannot be kept stays as typed,
/// with one sentence below. Esc puts back what was there.
class Field : public QWidget {
  Q_OBJECT
 public:
  struct Binding {
    std::function<QString()> shown;               ///< the text as the job has it
    std::function<QString(const QString&)> keep;  ///< takes it over; a sentence when that cannot be
  };
  /// `lines` above one makes a text of so many lines, where Enter breaks the line.
  Field(const QString& name, Binding binding, const paint::Theme& theme, int lines = 1,
        QWidget* parent = nullptr);

  /// Shows the job's text again, unless a person is typing here.
  void refresh();
  /// Shows the job's text again whatever was typed.
  void restore();
  void setReadOnly(bool readOnly);
  QString text() const;
  void setText(const QString& text);
  QWidget* editor() const;
  /// The sentence below; empty when all is well.
  QString complaint() const;
  /// Keeps nothing from now on: what it was bound to goes before it does.
  void letGo();
  /// As when the focus leaves. False when it could not be kept.
  bool leave();

 protected:
  bool eventFilter(QObject* watched, QEvent* event) override;

 private:
  void complain(const QString& sentence);

  Binding binding_;
  QLineEdit* line_ = nullptr;
  QPlainTextEdit* lines_ = nullptr;
  QLabel* complaint_;
};

}  // namespace ww::site
