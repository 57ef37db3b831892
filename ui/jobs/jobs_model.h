// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>

#include "jobs/shelf.h"

namespace ww::jobs {

/// The jobs that match what is typed, fetched as they are scrolled to.
class JobsModel : public QAbstractTableModel {
  Q_OBJECT
 public:
  enum Column { address, visit, system, state, columns };
  enum Role { entryRole = Qt::UserRole };

  JobsModel(Shelf& shelf, const QStringList& headings, QObject* parent);
  void ask(const QString& query);
  const QString& query() const { return query_; }
  const Entry* entry(const QModelIndex& index) const;
  size_t matching() const { return matching_; }

  int rowCount(const QModelIndex& parent = {}) const override;
  int columnCount(const QModelIndex& parent = {}) const override;
  QVariant data(const QModelIndex& index, int role) const override;
  QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
  bool canFetchMore(const QModelIndex& parent) const override;
  void fetchMore(const QModelIndex& parent) override;

 Q_SIGNALS:
  void answered(const ww::jobs::Answer& answer);

 private:
  void take(const Answer& answer);

  Shelf& shelf_;
  QStringList headings_;
  QString query_;
  std::vector<Entry> entries_;
  size_t matching_ = 0;
  bool asked_ = false;
};

}  // namespace ww::jobs
