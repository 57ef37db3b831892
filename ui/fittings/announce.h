// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

class QWidget;

namespace ww::fittings {

/// Has a screen reader say a sentence at once: an alert from a part of the window that is not seen, whose
/// name is the sentence. The one place where the program speaks unasked.
void announce(QWidget& window, const QString& sentence);

}  // namespace ww::fittings
