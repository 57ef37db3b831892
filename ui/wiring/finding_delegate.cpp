// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/finding_delegate.h"

#include <QAbstractItemView>
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

namespace {

constexpr int kSide = 16, kShape = 32;

int titleHeight(const QFont& font, const QString& title, int width) {
  return QFontMetrics(font).boundingRect(0, 0, width, 1000, Qt::TextWordWrap, title).height();
}

}  // namespace

QSize FindingDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const {
  const auto* view = qobject_cast<const QAbstractItemView*>(option.widget);
  const int width = (view ? view->viewport()->width() : option.rect.width()) - 2 * kSide - kShape;
  const int lines = titleHeight(sized(option.font, true), index.data().toString(), std::max(80, width)) +
                    QFontMetrics(sized(option.font, false, kSmall)).height();
  return {120, std::max(fittings::kListRow, lines + 12)};
}

void FindingDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                            const QModelIndex& index) const {
  painter->save();
  painter->setRenderHint(QPainter::Antialiasing);
  paintGround(*painter, option, theme_);
  const QRect box = option.rect.adjusted(kSide, 0, -kSide, 0);
  const auto severity = paint::shapeOf(static_cast<verify::Severity>(index.data(severityRole).toInt()));
  paint::paintSeverity(*painter, severity, QRectF(box.left(), box.center().y() - 8, 16, 16), theme_);
  const QRect text = box.adjusted(kShape, 0, 0, 0);
  const QFont title = sized(option.font, true), small = sized(option.font, false, kSmall),
              word = sized(option.font, true, kSmall);
  const int high = titleHeight(title, index.data().toString(), text.width());
  const int low = QFontMetrics(small).height();
  const int top = text.top() + (text.height() - high - low) / 2;
  painter->setFont(title);
  painter->setPen(theme_.ink);
  painter->drawText(QRect(text.left(), top, text.width(), high), Qt::TextWordWrap, index.data().toString());
  const QString words = index.data(wordRole).toString();
  const int wide = QFontMetrics(word).horizontalAdvance(words);
  const QRect second(text.left(), top + high, text.width(), low);
  painter->setFont(word);
  painter->setPen(theme_.severity(severity).text);
  painter->drawText(second, Qt::AlignLeft | Qt::AlignVCenter, words);
  painter->setFont(small);
  painter->setPen(theme_.ink2);
  const QRect rest = second.adjusted(wide + 12, 0, 0, 0);
  painter->drawText(
      rest, Qt::AlignLeft | Qt::AlignVCenter,
      QFontMetrics(small).elidedText(index.data(placesRole).toString(), Qt::ElideRight, rest.width()));
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
