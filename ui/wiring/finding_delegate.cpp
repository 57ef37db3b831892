// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/finding_delegate.h"

#include <QPainter>

#include "fittings/icon.h"
#include "fittings/style.h"
#include "wiring/in_hand.h"

namespace ww::wiring {

namespace {

QFont sized(QFont font, bool bold, double scale = 1) {
  font.setWeight(bold ? QFont::Bold : QFont::Normal);
  font.setPointSizeF(font.pointSizeF() * scale);
  return font;
}

constexpr double kSmall = 11.0 / 13;

void paintGround(QPainter& painter, const QStyleOptionViewItem& option, const paint::Theme& theme) {
  const bool selected = option.state & QStyle::State_Selected;
  painter.fillRect(option.rect, selected ? theme.accentSoft : theme.panel);
  if (selected && (option.state & QStyle::State_HasFocus)) {
    painter.setPen(QPen(theme.accent, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(option.rect.adjusted(1, 1, -2, -2));
  }
}

}  // namespace

QSize FindingDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
  const int lines = QFontMetrics(sized(option.font, true)).height() +
                    QFontMetrics(sized(option.font, false, kSmall)).height();
  return {120, std::max(fittings::kListRow, lines + 8)};
}

void FindingDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  paintGround(*painter, option, theme_);
  const QRect box = option.rect.adjusted(16, 0, -16, 0);
  const auto severity = shapeOf(static_cast<verify::Severity>(index.data(severityRole).toInt()));
  paint::paintSeverity(*painter, severity, QRectF(box.left(), box.center().y() - 8, 16, 16), theme_);
  const QFont word = sized(option.font, true, kSmall);
  const QString words = index.data(wordRole).toString();
  const int wordWidth = QFontMetrics(word).horizontalAdvance(words);
  painter->setFont(word);
  painter->setPen(theme_.severity(severity).text);
  painter->drawText(box, Qt::AlignVCenter | Qt::AlignRight, words);
  const QRect text = box.adjusted(32, 0, -wordWidth - 12, 0);
  const QFont title = sized(option.font, true), small = sized(option.font, false, kSmall);
  const int high = QFontMetrics(title).height(), low = QFontMetrics(small).height();
  const int top = text.top() + (text.height() - high - low) / 2;
  painter->setFont(title);
  painter->setPen(theme_.ink);
  painter->drawText(QRect(text.left(), top, text.width(), high), Qt::AlignLeft | Qt::AlignVCenter,
                    QFontMetrics(title).elidedText(index.data().toString(), Qt::ElideRight, text.width()));
  painter->setFont(small);
  painter->setPen(theme_.ink2);
  painter->drawText(
      QRect(text.left(), top + high, text.width(), low), Qt::AlignLeft | Qt::AlignVCenter,
      QFontMetrics(small).elidedText(index.data(placesRole).toString(), Qt::ElideRight, text.width()));
  painter->restore();
}

QSize MendDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const {
  const int lines = QFontMetrics(sized(option.font, true)).height() +
                    QFontMetrics(sized(option.font, false, kSmall)).height();
  return {120, std::max(44, lines + 8)};
}

void MendDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                         const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  paintGround(*painter, option, theme_);
  const QRect box = option.rect.adjusted(12, 0, -12, 0);
  fittings::icon(QStringLiteral("mend"), theme_)
      .paint(painter, QRect(box.left(), box.center().y() - 9, 20, 20));
  const QRect text = box.adjusted(32, 0, 0, 0);
  const QFont bold = sized(option.font, true), small = sized(option.font, false, kSmall);
  const int high = QFontMetrics(bold).height(), low = QFontMetrics(small).height();
  const int top = text.top() + (text.height() - high - low) / 2;
  painter->setFont(bold);
  painter->setPen(theme_.ink);
  painter->drawText(QRect(text.left(), top, text.width(), high), Qt::AlignLeft | Qt::AlignVCenter,
                    QFontMetrics(bold).elidedText(index.data().toString(), Qt::ElideRight, text.width()));
  painter->setFont(small);
  painter->setPen(theme_.ink2);
  painter->drawText(QRect(text.left(), top + high, text.width(), low), Qt::AlignLeft | Qt::AlignVCenter,
                    QFontMetrics(small).elidedText(index.data(FindingDelegate::placesRole).toString(),
                                                   Qt::ElideRight, text.width()));
  painter->restore();
}

}  // namespace ww::wiring
