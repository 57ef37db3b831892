// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>
#include <QWidget>
#include <functional>
#include <optional>

#include "session/surroundings.h"

class QLabel;

namespace ww::fittings {
class ElidedLabel;
}

namespace ww::shell {

/// What is known about the saving of the open job.
struct SavedState {
  enum class Kind { none, saved, pending, failed } kind = Kind::none;
  qint64 secondsAgo = 0;  ///< of the last save
  QString failure;        ///< one sentence
  friend bool operator==(const SavedState&, const SavedState&) = default;
};

/// The line at the foot: meter in hand, saved state, what was said last, units.
class StatusLine : public QWidget {
  Q_OBJECT
 public:
  explicit StatusLine(const session::Surroundings& around, QWidget* parent = nullptr);
  void setMeter(const QString& name);  ///< empty: none
  /// Asked now and every second.
  void setSaved(std::function<SavedState()> saved);
  void refresh();
  void say(const QString& sentence);
  /// Takes back what was said.
  void hush();
  QString savedText() const;
  QString saidText() const;

 private:
  const session::Surroundings& around_;
  QLabel *meter_, *units_;
  fittings::ElidedLabel *saved_, *said_;
  std::function<SavedState()> ask_;
  QTimer tick_, sayFor_;
};

}  // namespace ww::shell
