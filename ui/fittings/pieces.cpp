// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/pieces.h"

#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QToolButton>

#include "fittings/icon.h"
#include "fittings/style.h"

namespace ww::fittings {

namespace {

QString withKeys(const QString& text, const QKeySequence& keys) {
  return keys.isEmpty() ? text : QStringLiteral("%1 (%2)").arg(text, keyText(keys));
}

}  // namespace

QLabel* label(const QString& text, const char* role, QWidget* parent) {
  auto* made = new QLabel(text, parent);
  made->setTextFormat(Qt::PlainText);
  if (role) setRole(made, role);
  return made;
}

QLabel* paragraph(const QString& text, QWidget* parent) {
  QLabel* made = label(text, nullptr, parent);
  made->setWordWrap(true);
  made->setTextInteractionFlags(Qt::TextSelectableByMouse);
  return made;
}

QLabel* complaint(const paint::Theme& theme, QWidget* parent) {
  QLabel* made = paragraph({}, parent);
  QPalette palette = made->palette();
  palette.setColor(QPalette::WindowText, theme.severity(paint::Severity::fail).text);
  made->setPalette(palette);
  made->hide();
  return made;
}

QScrollArea* scrolled(QWidget* content, QWidget* parent) {
  auto* area = new QScrollArea(parent);
  area->setWidgetResizable(true);
  area->setFrameShape(QFrame::NoFrame);
  area->setFocusPolicy(Qt::NoFocus);
  area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  area->setWidget(content);
  return area;
}

QPushButton* button(const QString& text, const QString& iconName, const paint::Theme& theme,
                    const QKeySequence& keys, const char* role, QWidget* parent) {
  auto* made = new QPushButton(text, parent);
  made->setAccessibleName(text);
  if (!keys.isEmpty()) {
    made->setToolTip(withKeys(text, keys));
    made->setAccessibleDescription(keyText(keys));
  }
  if (role) setRole(made, role);
  if (!iconName.isEmpty()) {
    const bool primary = role && QLatin1String(role) == QLatin1String("primary");
    made->setIcon(primary ? icon(iconName, theme, theme.textOnAccent) : icon(iconName, theme));
    made->setIconSize({20, 20});
  }
  return made;
}

QToolButton* iconButton(const QString& iconName, const QString& name, const paint::Theme& theme,
                        const QKeySequence& keys, QWidget* parent) {
  auto* made = new QToolButton(parent);
  setRole(made, "square");
  made->setIcon(icon(iconName, theme));
  made->setIconSize({20, 20});
  made->setAccessibleName(name);
  made->setToolTip(withKeys(name, keys));
  made->setFocusPolicy(Qt::StrongFocus);
  if (!keys.isEmpty()) made->setAccessibleDescription(keyText(keys));
  return made;
}

QFrame* hairline(Qt::Orientation orientation, QWidget* parent) {
  auto* made = new QFrame(parent);
  setRole(made, "hairline");
  if (orientation == Qt::Horizontal)
    made->setFixedHeight(1);
  else
    made->setFixedWidth(1);
  return made;
}

QLabel* addRow(QGridLayout* form, const QString& text, QWidget* field) {
  QLabel* made = label(text);
  made->setBuddy(field);
  if (field->accessibleName().isEmpty()) field->setAccessibleName(text);
  const int row = form->rowCount();
  form->addWidget(made, row, 0);
  form->addWidget(field, row, 1);
  return made;
}

QString keyText(const QKeySequence& keys) { return keys.toString(QKeySequence::NativeText); }

}  // namespace ww::fittings
