// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QListWidget>
#include <string>

#include "recommend/recommend.h"
#include "session/surroundings.h"

namespace ww::control {

/// The settings as sentences, grouped by effect, the value standing out, at the right how it came to stand.
class SettingRows : public QListWidget {
  Q_OBJECT
 public:
  explicit SettingRows(const session::Surroundings& around, QWidget* parent = nullptr);
  /// Keeps the row of the same setting chosen.
  void show(const recommend::Sheet& sheet);
  std::string key() const;  ///< of the chosen row; empty without one
  void choose(const std::string& key);

 protected:
  void resizeEvent(QResizeEvent* event) override;

 private:
  const session::Surroundings& around_;
};

}  // namespace ww::control
