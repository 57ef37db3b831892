// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "wiring/in_hand.h"

namespace ww::wiring {

/// The conductors of the sheet, cable by cable, jumpers last; a heading row in front of each.
class ConductorModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { tag, endA, endB, purpose, finding, columns };
  struct Row {
    std::optional<sheet::CableId> cable;          ///< none: the jumpers
    std::optional<sheet::ConductorId> conductor;  ///< none: the heading of the cable
    friend bool operator==(const Row&, const Row&) = default;
  };

  explicit ConductorModel(InHand& hand, QObject* parent = nullptr);

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  Qt::ItemFlags flags(const QModelIndex& index) const override;

  const Row& at(int row) const { return rows_[static_cast<size_t>(row)]; }
  bool isHeading(int row) const { return !at(row).conductor; }
  int rowOf(sheet::ConductorId conductor) const;
  int rowOf(sheet::CableId cable) const;
  /// The end that a cell shows; nothing for other cells.
  std::optional<EndRef> endAt(const QModelIndex& index) const;
  QModelIndex indexOf(EndRef end) const;
  InHand& hand() const { return hand_; }

 private:
  void take();
  QVariant ofHeading(const Row& row, int column, int role) const;
  QString textOf(const Row& row, int column) const;

  InHand& hand_;
  std::vector<Row> rows_;
};

}  // namespace ww::wiring
