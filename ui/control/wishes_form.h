// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <map>
#include <string>

#include "control/value_entry.h"
#include "recommend/wishes.h"
#include "session/surroundings.h"

class QLabel;

namespace ww::control {

/// What the customer wishes, each as it is said or left unsaid.
class WishesForm : public QWidget {
  Q_OBJECT
 public:
  explicit WishesForm(const session::Surroundings& around, QWidget* parent = nullptr);
  void show(const recommend::Wishes& wishes, bool readOnly);
  /// The field of a wish by its key in recommend::Wishes.
  ValueEntry* field(const std::string& wish) const { return fields_.at(wish); }
  QString complaint() const;

 Q_SIGNALS:
  void changed(const recommend::Wishes& wishes);

 private:
  void take(const std::string& wish);

  const session::Surroundings& around_;
  recommend::Wishes wishes_;
  std::map<std::string, ValueEntry*> fields_;
  QLabel* complaint_;
};

}  // namespace ww::control
