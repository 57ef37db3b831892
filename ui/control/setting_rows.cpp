// SPDX-License-Identifier: GPL-3.0-or-later
#include "control/setting_rows.h"

#include <QPainter>
#include <QScrollBar>
#include <QStyledItemDelegate>
#include <QTextLayout>

#include "fittings/style.h"
#include "wording/settings_text.h"

namespace ww::control {

namespace {

constexpr int kKey = Qt::UserRole, kOriginText = Qt::UserRole + 1, kOpen = Qt::UserRole + 2,
              kMarked = Qt::UserRole + 3;
constexpr int kPad = 16, kGap = 16, kShape = 14;
const QChar kBefore(u'\u0002'), kAfter(u'\u0003');

/// The sentence, its value bold and underlined, in as many lines as it needs.
void layOut(QTextLayout& layout, const QString& marked, double width) {
  const auto open = marked.indexOf(kBefore);
  const auto close = marked.indexOf(kAfter);
  QString text = marked;
  text.remove(kBefore).remove(kAfter);
  layout.setText(text);
  QTextLayout::FormatRange value;
  value.start = int(open);
  value.length = int(close - open - 1);
  value.format.setFontWeight(QFont::Bold);
  value.format.setFontUnderline(true);
  if (open >= 0) layout.setFormats({value});
  layout.beginLayout();
  double y = 0;
  for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
    line.setLineWidth(width);
    line.setPosition({0, y});
    y += line.height();
  }
  layout.endLayout();
}

class Delegate : public QStyledItemDelegate {
 public:
  Delegate(const paint::Theme& theme, QListWidget* list)
      : QStyledItemDelegate(list), theme_(theme), list_(list) {}

  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    const int width = list_->viewport()->width();
    if (!isRow(index)) return {width, std::max(32, option.fontMetrics.height() + 14)};
    QTextLayout layout({}, option.font);
    layOut(layout, index.data(kMarked).toString(), textWidth(option, index, width));
    return {width, std::max(fittings::kSettingsRow, int(layout.boundingRect().height()) + 16)};
  }

  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
    painter->save();
    const QRect box = option.rect;
    QFont bold = option.font;
    bold.setBold(true);
    if (!isRow(index)) {
      painter->fillRect(box, theme_.sunk);
      painter->setFont(bold);
      painter->setPen(theme_.ink);
      painter->drawText(box.adjusted(kPad, 0, -kPad, 0), Qt::AlignVCenter, index.data().toString());
      painter->restore();
      return;
    }
    const bool chosen = option.state & QStyle::State_Selected;
    painter->fillRect(box, chosen ? theme_.accentSoft : theme_.panel);
    painter->setPen(theme_.hairline);
    painter->drawLine(box.bottomLeft(), box.bottomRight());
    QTextLayout layout({}, option.font);
    layOut(layout, index.data(kMarked).toString(), textWidth(option, index, box.width()));
    painter->setPen(theme_.ink);
    layout.draw(painter,
                QPointF(box.left() + kPad, box.center().y() - layout.boundingRect().height() / 2 + 1));
    const bool open = index.data(kOpen).toBool();
    painter->setFont(open ? bold : option.font);
    painter->setPen(open ? theme_.severity(paint::Severity::note).text : chosen ? theme_.ink : theme_.ink2);
    const QRect right = box.adjusted(kPad, 0, -kPad, 0);
    painter->drawText(right, Qt::AlignRight | Qt::AlignVCenter, index.data(kOriginText).toString());
    if (open)
      paint::paintSeverity(*painter, paint::Severity::note,
                           QRectF(right.right() - originWidth(option, index) + 4,
                                  box.center().y() - kShape / 2.0, kShape, kShape),
                           theme_);
    if (chosen && (option.state & QStyle::State_Active)) {
      painter->setPen(QPen(theme_.accent, 2));
      painter->setBrush(Qt::NoBrush);
      painter->drawRect(QRectF(box).adjusted(1, 1, -1, -1));
    }
    painter->restore();
  }

 private:
  static bool isRow(const QModelIndex& index) { return !index.data(kKey).toString().isEmpty(); }
  static double originWidth(const QStyleOptionViewItem& option, const QModelIndex& index) {
    QFont bold = option.font;
    bold.setBold(true);
    return QFontMetricsF(bold).horizontalAdvance(index.data(kOriginText).toString()) + kShape + kGap;
  }
  static double textWidth(const QStyleOptionViewItem& option, const QModelIndex& index, int width) {
    return std::max(80.0, width - 2 * kPad - originWidth(option, index));
  }

  const paint::Theme& theme_;
  QListWidget* list_;
};

}  // namespace

SettingRows::SettingRows(const session::Surroundings& around, QWidget* parent)
    : QListWidget(parent), around_(around) {
  setItemDelegate(new Delegate(around.theme, this));
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
}

void SettingRows::show(const recommend::Sheet& sheet) {
  const std::string before = key();
  {
    const QSignalBlocker quiet(this);
    clear();
    std::optional<recommend::Group> group;
    for (const auto& setting : sheet.settings) {
      const auto its = recommend::formOf(setting.key)->group;
      if (group != its) {
        auto* head = new QListWidgetItem(wording::groupName(around_.language, its), this);
        head->setFlags(Qt::NoItemFlags);
      }
      group = its;
      const QString text = wording::settingText(around_.language, setting);
      const QString origin = wording::settingOrigin(around_.language, setting);
      auto* row = new QListWidgetItem(text, this);
      row->setData(kKey, QString::fromStdString(setting.key));
      row->setData(kOriginText, origin);
      row->setData(kOpen, setting.origin == recommend::Origin::toConfirm ||
                              setting.origin == recommend::Origin::differs);
      row->setData(kMarked, wording::settingText(around_.language, setting, {kBefore, kAfter}));
      row->setData(Qt::AccessibleTextRole, QString(text + u' ' + origin));
    }
  }
  choose(before);
}

std::string SettingRows::key() const {
  return currentItem() != nullptr ? currentItem()->data(kKey).toString().toStdString() : std::string();
}

void SettingRows::choose(const std::string& key) {
  QListWidgetItem* first = nullptr;
  for (int i = 0; i < count(); ++i) {
    const std::string its = item(i)->data(kKey).toString().toStdString();
    if (its.empty()) continue;
    if (first == nullptr) first = item(i);
    if (its == key) return setCurrentItem(item(i));
  }
  setCurrentItem(first);
}

void SettingRows::resizeEvent(QResizeEvent* event) {
  QListWidget::resizeEvent(event);
  scheduleDelayedItemsLayout();
}

}  // namespace ww::control
