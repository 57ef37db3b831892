// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTranslator>

#include "wording/language.h"

namespace ww::fittings {

/// What Qt itself writes - names of keys, buttons of its own dialogs - in the language of the window: the
/// catalogue's "qt." words. Installed on the application, it holds until it is gone.
class QtWords : public QTranslator {
 public:
  /// `language` outlives it.
  explicit QtWords(const wording::Language& language, QObject* parent = nullptr);
  bool isEmpty() const override { return false; }
  QString translate(const char* context, const char* source, const char* comment, int n) const override;

 private:
  const wording::Language& language_;
};

}  // namespace ww::fittings
