// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStyledItemDelegate>

#include "paint/theme.h"

namespace ww::wiring {

/// A finding in two lines: shape and title, below it the places; the severity's word at the right.
class FindingDelegate : public QStyledItemDelegate {
 public:
  static constexpr int placesRole = Qt::UserRole, severityRole = Qt::UserRole + 1,
                       wordRole = Qt::UserRole + 2;
  FindingDelegate(const paint::Theme& theme, QObject* parent) : QStyledItemDelegate(parent), theme_(theme) {}
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

 private:
  const paint::Theme& theme_;
};

/// A mend in one or two lines: what to do in bold, what it clears after it or below.
class MendDelegate : public QStyledItemDelegate {
 public:
  MendDelegate(const paint::Theme& theme, QObject* parent) : QStyledItemDelegate(parent), theme_(theme) {}
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

 private:
  const paint::Theme& theme_;
};

}  // namespace ww::wiring
