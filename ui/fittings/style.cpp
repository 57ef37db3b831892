// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/style.h"

#include <QApplication>
#include <QPalette>
#include <QRegularExpression>
#include <QStyle>
#include <QStyleFactory>
#include <QWidget>
#include <algorithm>

#include "paint/theme.h"

namespace ww::fittings {

namespace {

QPalette paletteOf(const paint::Theme& theme) {
  QPalette palette;
  palette.setColor(QPalette::Window, theme.ground);
  palette.setColor(QPalette::Base, theme.panel);
  palette.setColor(QPalette::AlternateBase, theme.sunk);
  palette.setColor(QPalette::Button, theme.panel);
  palette.setColor(QPalette::ToolTipBase, theme.panel);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText, QPalette::ToolTipText})
    palette.setColor(role, theme.ink);
  for (const auto role : {QPalette::WindowText, QPalette::Text, QPalette::ButtonText})
    palette.setColor(QPalette::Disabled, role, theme.ink3);
  palette.setColor(QPalette::PlaceholderText, theme.ink3);
  palette.setColor(QPalette::Highlight, theme.accent);
  palette.setColor(QPalette::HighlightedText, theme.textOnAccent);
  palette.setColor(QPalette::Link, theme.accent);
  palette.setColor(QPalette::Mid, theme.controlEdge);
  palette.setColor(QPalette::Dark, theme.controlEdge);
  palette.setColor(QPalette::Light, theme.hairline);
  return palette;
}

/// Every length and size of the sheet times the scale; lines stay as thin as they are.
QString scaledSheet(const QString& sheet, double scale) {
  static const QRegularExpression size(QStringLiteral("(\\d+(?:\\.\\d+)?)(px|pt)"));
  QString out;
  qsizetype from = 0;
  for (auto it = size.globalMatch(sheet); it.hasNext();) {
    const QRegularExpressionMatch match = it.next();
    const double value = match.captured(1).toDouble();
    const bool line = match.captured(2) == u"px" && value <= 2;
    out += sheet.mid(from, match.capturedStart() - from);
    out += line ? match.captured() : QString::number(value * scale, 'f', 2) + match.captured(2);
    from = match.capturedEnd();
  }
  return out + sheet.mid(from);
}

/// {token} becomes the theme's colour.
QString filled(QString sheet, const paint::Theme& theme) {
  const std::pair<const char*, const QColor&> tokens[] = {{"ground", theme.ground},
                                                          {"panel", theme.panel},
                                                          {"sunk", theme.sunk},
                                                          {"ink", theme.ink},
                                                          {"ink2", theme.ink2},
                                                          {"ink3", theme.ink3},
                                                          {"hairline", theme.hairline},
                                                          {"edge", theme.controlEdge},
                                                          {"accent", theme.accent},
                                                          {"accentSoft", theme.accentSoft},
                                                          {"textOnAccent", theme.textOnAccent},
                                                          {"alarm", theme.severities[0].text}};
  for (const auto& [name, colour] : tokens)
    sheet.replace(QStringLiteral("{%1}").arg(QLatin1String(name)), colour.name());
  // Pictures of controls come in two tones.
  const bool dark = theme.ground.lightness() < 128;
  return sheet.replace(QStringLiteral("{tone}"), dark ? QStringLiteral("dark") : QStringLiteral("light"));
}

const char* const kSheet = R"(
QWidget[role="panel"] { background: {panel}; }
QWidget[role="sunk"] { background: {sunk}; }
QLabel[role="title"] { font-size: 15pt; font-weight: 700; }
QLabel[role="heading"] { font-size: 12pt; font-weight: 700; }
QLabel[role="caption"] { font-size: 8.25pt; font-weight: 700; color: {ink2}; }
QLabel[role="quiet"] { color: {ink2}; }
QLabel[role="strong"] { font-weight: 700; }
QLabel[role="lead"] { font-size: 10.5pt; }
QLabel[role="stand"] { font-size: 18pt; font-weight: 700; }
QLabel[role="pill"] { background: {ink}; color: {ground}; border-radius: 11px; padding: 2px 12px;
  font-weight: 700; min-height: 20px; }
QFrame[role="bar"] { background: {ink}; border-radius: 4px; }
QFrame[role="bar"] QLabel { color: {ground}; }
QWidget[role="banner"] { background: {accentSoft}; }
QLabel[role="status"], QLabel[role="status-alarm"] { font-size: 8.25pt; color: {ink2}; }
QLabel[role="status-alarm"] { color: {alarm}; font-weight: 700; }
QFrame[role="hairline"] { background: {hairline}; border: none; }
QPushButton, QToolButton { background: {panel}; border: 1px solid {edge}; border-radius: 4px; padding: 0 10px;
  min-height: 30px; }
QPushButton:focus, QToolButton:focus { border: 2px solid {accent}; }
QPushButton:hover, QToolButton:hover { background: {accentSoft}; }
QPushButton:disabled, QToolButton:disabled { color: {ink3}; border-color: {hairline}; }
QPushButton[role="primary"] { background: {accent}; color: {textOnAccent}; border-color: {accent}; font-weight: 700; }
QPushButton[role="primary"]:disabled { background: {panel}; color: {ink3}; border-color: {hairline}; }
QPushButton[role="primary"]:focus { border: 2px solid {ink}; }
QToolButton[role="square"] { padding: 0; min-width: 30px; max-width: 30px; max-height: 30px; }
QToolButton[role="choice"] { max-height: 30px; }
QToolButton[role="choice"]:checked, QPushButton[role="choice"]:checked { background: {accentSoft}; border-color: {accent}; font-weight: 700; }
QToolButton[role="square"]:checked { background: {accentSoft}; border-color: {accent}; }
QToolButton::menu-indicator { image: none; }
QPushButton[role="filter"] { padding: 0 8px; }
QPushButton::menu-indicator { image: none; width: 0; }
QPushButton[role="chip"] { border-radius: 14px; min-height: 26px; }
QPushButton[role="chip"]:checked { background: {ink}; color: {ground}; border-color: {ink}; }
QLineEdit, QComboBox, QPlainTextEdit, QSpinBox, QDoubleSpinBox { background: {panel}; border: 1px solid {edge};
  border-radius: 4px; padding: 0 8px; min-height: 30px; selection-background-color: {accent};
  selection-color: {textOnAccent}; }
QLineEdit:focus, QComboBox:focus, QPlainTextEdit:focus, QSpinBox:focus, QDoubleSpinBox:focus {
  border: 2px solid {accent}; }
QComboBox::drop-down { border: none; width: 28px; }
QComboBox::down-arrow { image: url(:/icons/choose-{tone}.svg); width: 16px; height: 16px; }
QComboBox:disabled, QLineEdit:read-only, QPlainTextEdit:read-only { background: transparent; }
QCheckBox::indicator, QListView::indicator, QTableView::indicator { width: 16px; height: 16px; border: 1px solid {edge};
  border-radius: 2px; background: {panel}; }
QCheckBox::indicator:checked, QListView::indicator:checked, QTableView::indicator:checked { background: {accent}; border-color: {accent};
  image: url(:/icons/ticked-{tone}.svg); }
QScrollBar:vertical { background: transparent; width: 12px; }
QScrollBar:horizontal { background: transparent; height: 12px; }
QScrollBar::handle { background: {edge}; border-radius: 3px; margin: 3px; min-height: 24px; min-width: 24px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }
QLineEdit[role="reading"] { font-size: 30pt; min-height: 62px; }
QHeaderView::section { background: {panel}; color: {ink2}; border: none; border-bottom: 1px solid {hairline};
  font-size: 8.25pt; font-weight: 700; padding: 4px 8px; }
QHeaderView::section:first { padding-left: 16px; }
QListView::item:selected { background: {accentSoft}; color: {ink}; }
QTableView, QListView, QTreeView { background: {panel}; border: none; outline: 0; gridline-color: {hairline};
  selection-background-color: {accentSoft}; selection-color: {ink}; }
QToolButton[role="rail"] { border: none; border-radius: 0; background: {panel}; padding: 0 4px; min-height: 48px;
  border-left: 4px solid {panel}; text-align: left; }
QToolButton[role="rail"]:hover { background: {accentSoft}; }
QToolButton[role="rail"]:checked { background: {accentSoft}; border-left: 4px solid {accent}; font-weight: 700; }
QToolButton[role="rail"]:focus { border: 2px solid {accent}; }
QToolButton[role="rail"]:disabled { color: {ink3}; }
QTableView:focus, QListView:focus, QTreeView:focus, QTextEdit:focus, QScrollArea:focus { border: 2px solid {accent}; }
QTableView, QListView, QTreeView, QTextEdit, QScrollArea { border: 2px solid transparent; }
QScrollArea, QScrollArea > QWidget > QWidget { background: transparent; }
QCheckBox:focus, QRadioButton:focus { border: 2px solid {accent}; border-radius: 4px; }
QTabWidget::pane { border: 1px solid {hairline}; background: {panel}; }
QTabBar::tab { background: {ground}; border: 2px solid transparent; border-bottom: 2px solid {hairline}; padding: 6px 14px; }
QTabBar::tab:selected { background: {panel}; border-bottom: 2px solid {accent}; font-weight: 700; }
QTabBar::tab:selected:focus { border: 2px solid {accent}; }
QMenu { background: {panel}; border: 1px solid {edge}; }
QMenu::item { padding: 6px 24px 6px 12px; }
QMenu::icon { padding-left: 10px; }
QMenu::item:selected { background: {accentSoft}; color: {ink}; }
QMenu::item:disabled { color: {ink3}; }
QToolTip { background: {panel}; color: {ink}; border: 1px solid {edge}; padding: 4px; }
QStatusBar { background: {sunk}; color: {ink2}; }
QStatusBar QLabel { color: {ink2}; font-size: 8.25pt; }
)";

}  // namespace

void dress(QApplication& application, const paint::Theme& theme, double textScale) {
  if (!application.style() || application.style()->name() != QLatin1String("fusion"))
    application.setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
  application.setPalette(paletteOf(theme));
  QFont font = paint::font(13);
  font.setPointSizeF(kTextPoints * textScale);
  application.setFont(font);
  QString sheet = QString::fromLatin1(kSheet);
  if (textScale != 1) sheet = scaledSheet(sheet, textScale);
  application.setStyleSheet(filled(std::move(sheet), theme));
}

double textScaleOf(const QFont& system) {
  const double points = system.pointSizeF() > 0 ? system.pointSizeF() : system.pixelSize() * 0.75;
  return points <= 12 ? 1 : std::min(points / 11, 2.5);
}

std::optional<paint::Theme> highContrastTheme(const QPalette& system) {
  const QColor ground = system.color(QPalette::Window), ink = system.color(QPalette::WindowText);
  if (paint::contrast(ground, ink) < 20) return std::nullopt;
  const bool dark = ground.lightness() < 128;
  paint::Theme made = paint::theme(dark ? paint::ThemeName::dark : paint::ThemeName::light);
  made.ground = made.sunk = ground;
  made.panel = system.color(QPalette::Base);
  made.ink = made.ink2 = made.ink3 = made.controlEdge = made.hairline = made.casing = ink;
  made.accent = system.color(QPalette::Highlight);
  made.textOnAccent = system.color(QPalette::HighlightedText);
  // A selected row keeps its ink: only its frame and mark tell it.
  made.accentSoft = made.panel;
  return made;
}

void setRole(QWidget* widget, const char* role) {
  widget->setProperty("role", QString::fromLatin1(role));
  widget->style()->unpolish(widget);
  widget->style()->polish(widget);
}

}  // namespace ww::fittings
