// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/announce.h"

#include <QAccessible>
#include <QWidget>

namespace ww::fittings {

void announce(QWidget& window, const QString& sentence) {
  static const QString kName = QStringLiteral("announcer");
  auto* speaker = window.findChild<QWidget*>(kName, Qt::FindDirectChildrenOnly);
  if (!speaker) {
    speaker = new QWidget(&window);
    speaker->setObjectName(kName);
    speaker->setAttribute(Qt::WA_TransparentForMouseEvents);
    speaker->setGeometry(0, 0, 0, 0);
    speaker->lower();
    speaker->show();
  }
  speaker->setAccessibleName(sentence);  // tells that the name changed
  QAccessibleEvent alert(speaker, QAccessible::Alert);
  QAccessible::updateAccessibility(&alert);
}

}  // namespace ww::fittings
