// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/conductor_model.h"

namespace ww::wiring {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

std::vector<ConductorModel::Row> rowsOf(const sheet::Sheet& sheet) {
  std::map<sheet::CableId, std::vector<sheet::ConductorId>> inCables;
  std::vector<sheet::ConductorId> jumpers;
  for (const sheet::Conductor& wire : sheet.conductors)
    wire.cable ? inCables[*wire.cable].push_back(wire.id) : jumpers.push_back(wire.id);
  std::vector<ConductorModel::Row> rows;
  for (const sheet::Cable& cable : sheet.cables) {
    rows.push_back({cable.id, {}});
    for (const auto id : inCables[cable.id]) rows.push_back({cable.id, id});
  }
  if (!jumpers.empty()) rows.push_back({});
  for (const auto id : jumpers) rows.push_back({{}, id});
  return rows;
}

}  // namespace

ConductorModel::ConductorModel(InHand& hand, QObject* parent) : QAbstractTableModel(parent), hand_(hand) {
  connect(&hand_, &InHand::sheetChanged, this, &ConductorModel::take);
  connect(&hand_, &InHand::checked, this, [this] {
    if (!rows_.empty()) Q_EMIT dataChanged(index(0, tag), index(rowCount() - 1, columns - 1));
  });
  take();
}

void ConductorModel::take() {
  std::vector<Row> rows = rowsOf(hand_.sheet());
  if (rows == rows_) {
    if (!rows_.empty()) Q_EMIT dataChanged(index(0, tag), index(rowCount() - 1, columns - 1));
    return;
  }
  beginResetModel();
  rows_ = std::move(rows);
  endResetModel();
}

int ConductorModel::rowCount(const QModelIndex& parent) const {
  return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int ConductorModel::columnCount(const QModelIndex& parent) const { return parent.isValid() ? 0 : columns; }

int ConductorModel::rowOf(sheet::ConductorId conductor) const {
  for (size_t i = 0; i < rows_.size(); ++i)
    if (rows_[i].conductor == conductor) return static_cast<int>(i);
  return -1;
}

int ConductorModel::rowOf(sheet::CableId cable) const {
  for (size_t i = 0; i < rows_.size(); ++i)
    if (rows_[i].cable == cable && !rows_[i].conductor) return static_cast<int>(i);
  return -1;
}

std::optional<EndRef> ConductorModel::endAt(const QModelIndex& index) const {
  if (!index.isValid() || isHeading(index.row())) return std::nullopt;
  if (index.column() != endA && index.column() != endB) return std::nullopt;
  return EndRef{*at(index.row()).conductor, index.column() == endA};
}

QModelIndex ConductorModel::indexOf(EndRef end) const {
  const int row = rowOf(end.conductor);
  return row < 0 ? QModelIndex() : index(row, end.atA ? endA : endB);
}

QString ConductorModel::textOf(const Row& row, int column) const {
  const sheet::Conductor* wire = hand_.sheet().conductors.find(*row.conductor);
  if (!wire) return {};
  switch (column) {
    case tag: return q(sheet::print(wire->colour));
    case endA:
    case endB: return hand_.landingText({*row.conductor, column == endA});
    case purpose: {
      const std::string what = purposeOf(hand_.sheet(), hand_.around().library, *wire);
      return what.empty() ? QString() : wording::word(hand_.around().language, "purpose", what);
    }
    default: break;
  }
  if (hand_.checking()) return hand_.words("checking");
  const auto severity = hand_.mark(*row.conductor);
  return severity ? wording::severityName(hand_.around().language, *severity) : QString();
}

QVariant ConductorModel::ofHeading(const Row& row, int column, int role) const {
  if (role != Qt::DisplayRole && role != Qt::AccessibleTextRole) return {};
  if (!row.cable) return column == tag ? hand_.words("jumpers") : QString();
  const sheet::Cable* cable = hand_.sheet().cables.find(*row.cable);
  if (!cable) return {};
  if (role == Qt::AccessibleTextRole)
    return hand_.words("spoken.cable",
                       {{"cable", hand_.cableName(*cable)}, {"landed", hand_.cableCount(*row.cable)}});
  if (column == tag) return hand_.cableName(*cable);
  return column == finding ? hand_.cableCount(*row.cable) : QString();
}

QVariant ConductorModel::data(const QModelIndex& index, int role) const {
  if (!index.isValid() || index.row() >= rowCount()) return {};
  const Row& row = at(index.row());
  if (!row.conductor) return ofHeading(row, index.column(), role);
  if (role == Qt::DisplayRole || role == Qt::ToolTipRole) return textOf(row, index.column());
  if (role != Qt::AccessibleTextRole) return {};
  if (index.column() == tag) return hand_.spoken(*row.conductor);
  const QString text = textOf(row, index.column());
  const auto end = endAt(index);
  const auto ghost = end ? hand_.ghost(*end) : std::nullopt;
  if (!ghost) return text;
  return hand_.words(
      "spoken.offered",
      {{"landing", text}, {"offer", wording::landingName(hand_.around().language, hand_.context(), *ghost)}});
}

QVariant ConductorModel::headerData(int section, Qt::Orientation orientation, int role) const {
  if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
  static constexpr const char* kKeys[] = {"column.tag", "column.end-a", "column.end-b", "column.purpose",
                                          "column.finding"};
  return section >= 0 && section < columns ? hand_.words(kKeys[section]) : QString();
}

Qt::ItemFlags ConductorModel::flags(const QModelIndex& index) const {
  if (!index.isValid()) return {};
  return Qt::ItemIsEnabled | Qt::ItemIsSelectable;
}

}  // namespace ww::wiring
