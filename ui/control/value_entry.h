// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QComboBox>
#include <optional>
#include <string>

#include "wording/language.h"

namespace ww::control {

/// Where the value of a setting is chosen among its words, or typed as a number in the measures of the
/// person: temperatures in their scale, off times in minutes.
class ValueEntry : public QComboBox {
  Q_OBJECT
 public:
  explicit ValueEntry(const wording::Language& language, QWidget* parent = nullptr);

  /// The setting whose values it takes, and the one that stands there; empty: nothing said. `unsaid`: a word
  /// for nothing said, which can then be chosen.
  void setSetting(const std::string& key, const std::string& value, const QString& unsaid = {});
  /// As stored (recommend::valueFor); empty for nothing said; nothing when what is typed is no value of it.
  std::optional<std::string> value() const;
  /// What it takes, in words: "41 °F to 104 °F".
  QString takes() const;

 private:
  const wording::Language& language_;
  std::string key_, shown_;  ///< shown_: the value as stored that text_ tells
  QString text_;
  bool unsaid_ = false;
};

}  // namespace ww::control
