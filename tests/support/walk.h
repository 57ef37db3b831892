// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractButton>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPointer>
#include <QScrollBar>
#include <QWidget>
#include <string>
#include <vector>

#include "fittings/elided_label.h"

namespace ww::testing {

/// What a person would call the widget in a failure: class, name, text.
inline std::string called(const QWidget& widget) {
  std::string text = widget.metaObject()->className();
  if (!widget.accessibleName().isEmpty()) text += " \"" + widget.accessibleName().toStdString() + "\"";
  if (const auto* label = qobject_cast<const QLabel*>(&widget))
    text += " '" + label->text().toStdString() + "'";
  if (const auto* button = qobject_cast<const QAbstractButton*>(&widget))
    text += " '" + button->text().toStdString() + "'";
  return text;
}

/// Parts that Qt puts inside its own widgets; the widget around them is what a person meets.
inline bool isInner(const QWidget& widget) {
  if (qobject_cast<const QScrollBar*>(&widget)) return true;
  const QWidget* parent = widget.parentWidget();
  return widget.objectName().startsWith(QStringLiteral("qt_")) ||
         (parent && (qobject_cast<const QComboBox*>(parent) || parent->inherits("QAbstractSpinBox")));
}

/// They may go while the walk lets events happen.
inline std::vector<QPointer<QWidget>> visibleIn(QWidget& window) {
  std::vector<QPointer<QWidget>> result;
  for (QWidget* widget : window.findChildren<QWidget*>())
    if (widget->isVisibleTo(&window) && widget->window() == &window && !isInner(*widget))
      result.push_back(widget);
  return result;
}

inline bool takesTab(const QWidget& widget) {
  return (widget.focusPolicy() & Qt::TabFocus) && widget.isEnabled() && widget.width() > 0;
}

/// Widgets that can be reached by Tab and say nothing to a screen reader.
inline std::vector<std::string> nameless(QWidget& window) {
  std::vector<std::string> result;
  for (const QPointer<QWidget>& widget : visibleIn(window)) {
    if (!widget || !takesTab(*widget)) continue;
    QAccessibleInterface* spoken = QAccessible::queryAccessibleInterface(widget.data());
    if (!spoken || spoken->text(QAccessible::Name).trimmed().isEmpty()) result.push_back(called(*widget));
  }
  return result;
}

/// Widgets that look the same with and without the keyboard.
inline std::vector<std::string> withoutVisibleFocus(QWidget& window) {
  std::vector<std::string> result;
  for (const QPointer<QWidget>& widget : visibleIn(window)) {
    if (!widget || !takesTab(*widget)) continue;
    widget->clearFocus();
    QApplication::processEvents();
    const QImage without = widget->grab().toImage();
    if (!widget) continue;
    widget->setFocus(Qt::TabFocusReason);
    QApplication::processEvents();
    if (widget && widget->isVisible() && widget->hasFocus() && widget->grab().toImage() == without)
      result.push_back(called(*widget));
  }
  return result;
}

/// Labels and buttons with less room than their text needs. Text that is shortened on purpose tells its whole
/// in a tip.
inline std::vector<std::string> cutTexts(QWidget& window) {
  std::vector<std::string> result;
  for (const QPointer<QWidget>& widget : visibleIn(window)) {
    if (!widget || qobject_cast<fittings::ElidedLabel*>(widget.data())) continue;
    bool cut = false;
    if (const auto* label = qobject_cast<QLabel*>(widget.data())) {
      if (label->text().isEmpty()) continue;
      cut = label->wordWrap() ? label->heightForWidth(label->width()) > label->height() + 1
                              : label->sizeHint().width() > label->width() + 1;
    } else if (const auto* button = qobject_cast<QAbstractButton*>(widget.data())) {
      cut = !button->text().isEmpty() && button->minimumSizeHint().width() > button->width() + 1;
    }
    if (cut) result.push_back(called(*widget));
  }
  return result;
}

}  // namespace ww::testing
