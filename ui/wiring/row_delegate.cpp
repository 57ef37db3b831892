// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/row_delegate.h"

#include <QPainter>
#include <QTableView>

#include "fittings/icon.h"
#include "fittings/style.h"

namespace ww::wiring {

namespace {

constexpr int kPad = 16, kCellPad = 8;

QFont weighted(QFont font, bool bold, double scale = 1) {
  font.setWeight(bold ? QFont::Bold : QFont::Normal);
  if (scale != 1) font.setPointSizeF(font.pointSizeF() * scale);
  return font;
}

}  // namespace

void paintFlag(QPainter& painter, const QRectF& box, const QString& code, const paint::Theme& theme,
               double scale) {
  const QFont font = weighted(painter.font(), true, 11.0 / 13);
  const QFontMetricsF metrics(font);
  const double h = 16 * scale;
  const double w = std::max(24 * scale, metrics.horizontalAdvance(code) + 8 * scale);
  const QRectF flag(box.left(), box.center().y() - h / 2, w, h);
  painter.save();
  painter.setRenderHint(QPainter::Antialiasing);
  painter.setPen(QPen(theme.casing, 1));
  painter.setBrush(theme.panel);
  painter.drawRoundedRect(flag, h / 2, h / 2);
  painter.setFont(font);
  painter.setPen(theme.ink);
  painter.drawText(flag, Qt::AlignCenter, code);
  painter.restore();
}

RowDelegate::RowDelegate(const ConductorModel& model, QObject* parent)
    : QStyledItemDelegate(parent), model_(model), theme_(model.hand().around().theme) {}

QSize RowDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
  return {40, std::max(fittings::kTableRow, option.fontMetrics.height() + 8)};
}

void RowDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const {
  painter->save();
  const auto& row = model_.at(index.row());
  if (!row.conductor) {
    paintHeading(*painter, option, index);
    painter->restore();
    return;
  }
  const bool selected = model_.hand().selection().touched().count(*row.conductor) > 0;
  const QRect box = option.rect;
  painter->fillRect(box, selected ? theme_.accentSoft : theme_.panel);
  painter->setPen(theme_.hairline);
  painter->drawLine(box.bottomLeft(), box.bottomRight());
  painter->setFont(option.font);
  const QString text = index.data().toString();
  const double scale = option.fontMetrics.height() / 18.0;
  if (index.column() == ConductorModel::tag) {
    paintFlag(*painter, box.adjusted(kPad, 0, 0, 0), text, theme_, std::max(1.0, scale));
  } else if (const auto end = model_.endAt(index)) {
    paintEnd(*painter, option, *end);
  } else if (index.column() == ConductorModel::purpose) {
    paintPurpose(*painter, option, index);
  } else {
    paintPurpose(*painter, option, index);
    paintFinding(*painter, option, index);
  }
  if ((option.state & QStyle::State_HasFocus) && index.column() != ConductorModel::finding) {
    painter->setPen(QPen(theme_.accent, 2));
    painter->setBrush(Qt::NoBrush);
    painter->setRenderHint(QPainter::Antialiasing);
    painter->drawRoundedRect(QRectF(box).adjusted(2, 2, -2, -3), 3, 3);
  }
  painter->restore();
}

void RowDelegate::paintHeading(QPainter& painter, const QStyleOptionViewItem& option,
                               const QModelIndex& index) const {
  const auto& row = model_.at(index.row());
  const QRect box = option.rect;
  const bool selected = row.cable && model_.hand().selection().cable == row.cable;
  painter.fillRect(box, selected ? theme_.accentSoft : theme_.sunk);
  painter.setPen(theme_.hairline);
  painter.drawLine(box.bottomLeft(), box.bottomRight());
  const int side = 20;
  const QRect picture(box.left() + kPad, box.center().y() - side / 2 + 1, side, side);
  fittings::icon(row.cable ? QStringLiteral("cable") : QStringLiteral("jumper"), theme_)
      .paint(&painter, picture);
  painter.setFont(option.font);
  painter.setPen(theme_.ink2);
  const QString count =
      row.cable ? model_.data(model_.index(index.row(), ConductorModel::finding), Qt::DisplayRole).toString()
                : QString();
  const QRect inner = box.adjusted(kPad + side + 8, 0, -kPad, 0);
  painter.drawText(inner, Qt::AlignVCenter | Qt::AlignRight, count);
  const int room = inner.width() - option.fontMetrics.horizontalAdvance(count) - 12;
  const QFont bold = weighted(option.font, true);
  painter.setFont(bold);
  painter.setPen(theme_.ink);
  painter.drawText(inner, Qt::AlignVCenter | Qt::AlignLeft,
                   QFontMetrics(bold).elidedText(index.data().toString(), Qt::ElideRight, room));
  if (option.state & QStyle::State_HasFocus) {
    painter.setPen(QPen(theme_.accent, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(box.adjusted(1, 1, -2, -2));
  }
}

void RowDelegate::paintEnd(QPainter& painter, const QStyleOptionViewItem& option, EndRef end) const {
  const InHand& hand = model_.hand();
  const QRect inner = option.rect.adjusted(kCellPad, 0, -4, 0);
  const auto dashed = [&] {
    painter.setPen(QPen(theme_.controlEdge, 1, Qt::DashLine));
    painter.setBrush(theme_.panel);
    painter.drawRoundedRect(option.rect.adjusted(2, 4, -10, -5), 3, 3);
  };
  QString text = hand.landingText(end);
  const sheet::Landing landing = landingOf(hand.sheet(), end);
  bool bold =
      std::holds_alternative<sheet::TerminalRef>(landing) || std::holds_alternative<sheet::Splice>(landing);
  QColor ink = bold ? theme_.ink : theme_.ink2;
  if (const auto at = previewed.find(end); at != previewed.end()) {
    dashed();
    text = at->second;
    ink = theme_.ink;
    bold = true;
  } else if (const auto ghost = hand.ghost(end)) {
    dashed();
    text = std::holds_alternative<sheet::TerminalRef>(*ghost)
               ? wording::terminalLetters(hand.context(), std::get<sheet::TerminalRef>(*ghost))
               : hand.words("cell.capped");
    ink = theme_.ink3;
    bold = false;
  }
  const QFont font = weighted(option.font, bold);
  painter.setFont(font);
  painter.setPen(ink);
  painter.drawText(inner, Qt::AlignVCenter | Qt::AlignLeft,
                   QFontMetrics(font).elidedText(text, Qt::ElideRight, inner.width()));
}

/// The words may run on into the finding's cell, up to its mark.
void RowDelegate::paintPurpose(QPainter& painter, const QStyleOptionViewItem& option,
                               const QModelIndex& index) const {
  const auto* table = qobject_cast<const QTableView*>(option.widget);
  if (!table) return;
  const int left = table->columnViewportPosition(ConductorModel::purpose) + kCellPad;
  const int end =
      table->columnViewportPosition(ConductorModel::finding) + table->columnWidth(ConductorModel::finding);
  const int mark =
      model_.hand().checking() ? option.fontMetrics.horizontalAdvance(model_.hand().words("checking")) : 20;
  const QRect words(left, option.rect.top(), end - kPad - mark - left, option.rect.height());
  const QString text = index.siblingAtColumn(ConductorModel::purpose).data().toString();
  painter.save();
  painter.setClipRect(option.rect);
  painter.setPen(theme_.ink2);
  painter.drawText(words, Qt::AlignVCenter | Qt::AlignLeft,
                   option.fontMetrics.elidedText(text, Qt::ElideRight, words.width()));
  painter.restore();
}

void RowDelegate::paintFinding(QPainter& painter, const QStyleOptionViewItem& option,
                               const QModelIndex& index) const {
  const QRect inner = option.rect.adjusted(0, 0, -kPad, 0);
  if (model_.hand().checking()) {
    painter.setFont(weighted(option.font, false, 11.0 / 13));
    painter.setPen(theme_.ink3);
    painter.drawText(inner, Qt::AlignVCenter | Qt::AlignRight, model_.hand().words("checking"));
    return;
  }
  const auto severity = model_.hand().mark(*model_.at(index.row()).conductor);
  if (!severity) return;
  painter.setRenderHint(QPainter::Antialiasing);
  paint::paintSeverity(painter, paint::shapeOf(*severity),
                       QRectF(inner.right() - 15, inner.center().y() - 7.5, 16, 16), theme_);
}

}  // namespace ww::wiring
