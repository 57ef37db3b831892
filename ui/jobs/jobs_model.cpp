// SPDX-License-Identifier: GPL-3.0-or-later
#include "jobs/jobs_model.h"

namespace ww::jobs {

namespace {

constexpr size_t kBlock = 100;  // rows fetched at once: several screens of them

}  // namespace

JobsModel::JobsModel(Shelf& shelf, const QStringList& headings, QObject* parent)
    : QAbstractTableModel(parent), shelf_(shelf), headings_(headings) {
  connect(&shelf_, &Shelf::found, this, &JobsModel::take);
}

void JobsModel::ask(const QString& query) {
  query_ = query;
  asked_ = true;
  shelf_.search(query, 0, kBlock);
}

const Entry* JobsModel::entry(const QModelIndex& index) const {
  const auto row = static_cast<size_t>(index.row());
  return index.isValid() && row < entries_.size() ? &entries_[row] : nullptr;
}

int JobsModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(entries_.size());
}

int JobsModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

QVariant JobsModel::data(const QModelIndex& index, int role) const {
  const Entry* one = entry(index);
  if (!one || role != Qt::DisplayRole) {
    if (one && role == Qt::AccessibleTextRole && index.column() == address)
      return one->address + QStringLiteral(", ") + one->beneath;
    return {};
  }
  switch (index.column()) {
    case address: return one->address;
    case visit: return one->visit;
    case system: return one->system;
    case state: return one->state;
    default: return {};
  }
}

QVariant JobsModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || section >= headings_.size()) return {};
  if (role == Qt::TextAlignmentRole) return QVariant(Qt::AlignLeft | Qt::AlignVCenter);
  return role == Qt::DisplayRole ? QVariant(headings_[section]) : QVariant();
}

bool JobsModel::canFetchMore(const QModelIndex& parent) const {
  return !parent.isValid() && !asked_ && entries_.size() < matching_;
}

void JobsModel::fetchMore(const QModelIndex& parent) {
  if (!canFetchMore(parent)) return;
  asked_ = true;
  shelf_.search(query_, entries_.size(), kBlock);
}

void JobsModel::take(const Answer& answer) {
  if (answer.query != query_) return;
  asked_ = false;
  matching_ = answer.matching;
  if (answer.from > 0 && answer.from == entries_.size()) {
    if (answer.entries.empty()) {
      matching_ = entries_.size();  // fewer than were counted
      return;
    }
    const int first = rowCount();
    beginInsertRows({}, first, first + static_cast<int>(answer.entries.size()) - 1);
    entries_.insert(entries_.end(), answer.entries.begin(), answer.entries.end());
    endInsertRows();
  } else {
    beginResetModel();
    entries_ = answer.entries;
    endResetModel();
  }
  Q_EMIT answered(answer);
}

}  // namespace ww::jobs
