// SPDX-License-Identifier: GPL-3.0-or-later
#include "jobs/row_delegate.h"

#include <QPainter>
#include <QWidget>
#include <algorithm>

#include "fittings/severity_badge.h"
#include "jobs/jobs_model.h"

namespace ww::jobs {

namespace {

constexpr int kMargin = 16;

/// Small letters without accents, one for one, so that places stay.
QString folded(const QString& text) {
  QString result(text.size(), u' ');
  for (qsizetype i = 0; i < text.size(); ++i) {
    const QString plain = QString(text[i]).normalized(QString::NormalizationForm_D);
    result[i] = plain.isEmpty() ? text[i] : plain[0].toLower();
  }
  return result;
}

}  // namespace

std::vector<std::pair<qsizetype, qsizetype>> matchesIn(const QString& text, const QString& query) {
  std::vector<std::pair<qsizetype, qsizetype>> result;
  const QString plain = folded(text);
  const QStringList words = folded(query).split(u' ', Qt::SkipEmptyParts);
  for (qsizetype at = 0; at < plain.size(); ++at) {
    const bool begins = plain[at].isLetterOrNumber() && (at == 0 || !plain[at - 1].isLetterOrNumber());
    if (!begins) continue;
    qsizetype longest = 0;
    for (const QString& word : words)
      if (!word.contains(u':') && plain.mid(at, word.size()) == word)
        longest = std::max(longest, word.size());
    if (longest > 0) result.emplace_back(at, longest);
  }
  return result;
}

QString inTwoLines(const QString& text, const QFontMetrics& metrics, int width) {
  if (metrics.horizontalAdvance(text) <= width) return text;
  qsizetype end = text.lastIndexOf(u' ');
  while (end > 0 && metrics.horizontalAdvance(text.left(end)) > width) end = text.lastIndexOf(u' ', end - 1);
  if (end <= 0) return metrics.elidedText(text, Qt::ElideRight, width);
  return text.left(end) + u'\n' + metrics.elidedText(text.mid(end + 1), Qt::ElideRight, width);
}

RowDelegate::RowDelegate(const paint::Theme& theme, QObject* parent)
    : QStyledItemDelegate(parent), theme_(theme) {}

void RowDelegate::paintMatches(QPainter& painter, const QRect& box, const QString& text,
                               const QColor& ink) const {
  const QFontMetrics metrics = painter.fontMetrics();
  const QString shown = metrics.elidedText(text, Qt::ElideRight, box.width());
  const int top = box.center().y() - metrics.height() / 2;
  for (const auto& [start, length] : matchesIn(shown, query_)) {
    const int left = box.left() + metrics.horizontalAdvance(shown.left(start));
    const int width = metrics.horizontalAdvance(shown.mid(start, length));
    painter.fillRect(left, top, width, metrics.height(), theme_.accentSoft);
    painter.fillRect(left, top + metrics.height() - 2, width, 2, theme_.accent);
  }
  painter.setPen(ink);
  painter.drawText(box, Qt::AlignVCenter | Qt::AlignLeft | Qt::TextSingleLine, shown);
}

void RowDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option,
                        const QModelIndex& index) const {
  const auto* model = qobject_cast<const JobsModel*>(index.model());
  const Entry* entry = model ? model->entry(index) : nullptr;
  if (!entry) return;
  painter->save();
  const bool selected = option.state & QStyle::State_Selected;
  const QRect box = option.rect;
  painter->fillRect(box, selected ? theme_.accentSoft : theme_.panel);
  painter->fillRect(box.left(), box.bottom(), box.width(), 1, theme_.hairline);
  // The list that has the keyboard outlines its row: a tint alone would tell it by colour.
  if (selected && option.widget && option.widget->hasFocus()) {
    painter->fillRect(box.left(), box.top(), box.width(), 2, theme_.accent);
    painter->fillRect(box.left(), box.bottom() - 1, box.width(), 2, theme_.accent);
  }
  QFont plain = option.font, bold = option.font, small = option.font;
  bold.setWeight(QFont::Bold);
  small.setPointSizeF(plain.pointSizeF() * 11 / 13);
  const QColor& quiet = theme_.ink2;
  if (index.column() == JobsModel::address) {
    if (selected) painter->fillRect(box.left(), box.top(), 4, box.height() - 1, theme_.accent);
    const QRect inner = box.adjusted(kMargin, 4, -8, -4);
    const QRect upper(inner.left(), inner.top(), inner.width(), inner.height() * 11 / 20);
    const QRect lower(inner.left(), upper.bottom() + 1, inner.width(), inner.bottom() - upper.bottom());
    painter->setFont(bold);
    paintMatches(*painter, upper, entry->address, theme_.ink);
    painter->setFont(small);
    paintMatches(*painter, lower, entry->beneath, quiet);
  } else if (index.column() == JobsModel::state) {
    painter->setFont(small);
    fittings::paintBadge(*painter, box.adjusted(4, 0, -4, 0), entry->mark, entry->state, theme_);
  } else {
    painter->setFont(plain);
    painter->setPen(index.column() == JobsModel::visit ? theme_.ink : quiet);
    const QRect inner = box.adjusted(8, 0, -4, 0);
    painter->drawText(inner, Qt::AlignVCenter | Qt::AlignLeft,
                      inTwoLines(index.data().toString(), painter->fontMetrics(), inner.width()));
  }
  painter->restore();
}

}  // namespace ww::jobs
