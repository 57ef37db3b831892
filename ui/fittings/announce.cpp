// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/announce.h"

#include <QAccessibleWidget>
#include <QWidget>

namespace ww::fittings {

namespace {

/// Nothing to see: what screen readers know as a message that has come up.
class Announcer : public QWidget {
 public:
  explicit Announcer(QWidget* window) : QWidget(window) {
    setObjectName(QStringLiteral("announcer"));
    setAttribute(Qt::WA_TransparentForMouseEvents);
    setGeometry(0, 0, 1, 1);
    lower();
  }
};

QAccessibleInterface* make(const QString&, QObject* object) {
  auto* announcer = dynamic_cast<Announcer*>(object);
  return announcer ? new QAccessibleWidget(announcer, QAccessible::AlertMessage) : nullptr;
}

Announcer& announcerOf(QWidget& window) {
  for (QObject* child : window.children())
    if (auto* known = dynamic_cast<Announcer*>(child)) return *known;
  static const bool once = [] {
    QAccessible::installFactory(make);
    return true;
  }();
  (void)once;
  return *new Announcer(&window);
}

}  // namespace

void announce(QWidget& window, const QString& sentence) {
  Announcer& announcer = announcerOf(window);
  // Some systems speak an alert, others a message that begins to show.
  announcer.hide();
  announcer.setAccessibleName(sentence);
  announcer.show();
  QAccessibleEvent alert(&announcer, QAccessible::Alert);
  QAccessible::updateAccessibility(&alert);
}

}  // namespace ww::fittings
