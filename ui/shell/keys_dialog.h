// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>
#include <vector>

#include "fittings/place.h"

namespace ww::shell {

/// The keys that work now (F1): those of the screen in front, then those that work everywhere.
class KeysDialog : public QDialog {
  Q_OBJECT
 public:
  KeysDialog(const session::Surroundings& around, const QString& screen,
             const std::vector<fittings::KeyLine>& here, const std::vector<fittings::KeyLine>& everywhere,
             QWidget* parent);
};

/// Licences and notices, with the version.
class AboutDialog : public QDialog {
  Q_OBJECT
 public:
  AboutDialog(const session::Surroundings& around, QWidget* parent);
};

}  // namespace ww::shell
