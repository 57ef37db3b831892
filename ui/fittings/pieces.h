// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QKeySequence>
#include <QString>

#include "paint/theme.h"

class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QScrollArea;
class QToolButton;

namespace ww::fittings {

/// A line of text; `role` as in style.h ("title", "heading", "caption", "quiet"; null: plain).
QLabel* label(const QString& text, const char* role = nullptr, QWidget* parent = nullptr);
/// The same, long: wraps, and can be selected with the mouse.
QLabel* paragraph(const QString& text, QWidget* parent = nullptr);
/// One sentence about what was typed wrong, in the colour of what will not work; hidden until there is one.
QLabel* complaint(const paint::Theme& theme, QWidget* parent = nullptr);
/// A pane that scrolls up and down when it is higher than its place; takes no focus of itself.
QScrollArea* scrolled(QWidget* content, QWidget* parent = nullptr);
/// A button with icon and word. `keys` are only told (in the tip and to screen readers), not bound.
QPushButton* button(const QString& text, const QString& iconName, const paint::Theme& theme,
                    const QKeySequence& keys = {}, const char* role = nullptr, QWidget* parent = nullptr);
/// A square button that shows an icon alone; `name` is its accessible name and its tip.
QToolButton* iconButton(const QString& iconName, const QString& name, const paint::Theme& theme,
                        const QKeySequence& keys = {}, QWidget* parent = nullptr);
/// A hairline across or down.
QFrame* hairline(Qt::Orientation orientation, QWidget* parent = nullptr);
/// A row of a form: the label left, with `field` as its buddy and the field's accessible name; gives the
/// label.
QLabel* addRow(QGridLayout* form, const QString& text, QWidget* field);

/// Keys as people read them in this language: "Ctrl+N".
QString keyText(const QKeySequence& keys);

}  // namespace ww::fittings
