// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStyledItemDelegate>

#include "wiring/conductor_model.h"

namespace ww::wiring {

/// The rounded flag with a conductor's colour code, left edge and middle in `box`.
void paintFlag(QPainter& painter, const QRectF& box, const QString& code, const paint::Theme& theme,
               double scale = 1);

/// Draws the rows: flag, terminals in bold, what the plan offers in grey, purpose, the finding's shape;
/// heading rows across the whole width.
class RowDelegate : public QStyledItemDelegate {
 public:
  RowDelegate(const ConductorModel& model, QObject* parent);
  void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;
  /// Ends that a previewed mend changes are framed in dashes and show where they would lie.
  std::map<EndRef, QString> previewed;

 private:
  void paintHeading(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index) const;
  void paintEnd(QPainter& painter, const QStyleOptionViewItem& option, EndRef end) const;
  void paintPurpose(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index) const;
  void paintFinding(QPainter& painter, const QStyleOptionViewItem& option, const QModelIndex& index) const;

  const ConductorModel& model_;
  const paint::Theme& theme_;
};

}  // namespace ww::wiring
