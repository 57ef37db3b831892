// SPDX-License-Identifier: GPL-3.0-or-later
#include "library/rows_table.h"

#include <QComboBox>
#include <QHeaderView>
#include <QSignalBlocker>
#include <QStyledItemDelegate>
#include <algorithm>
#include <cmath>

#include "fittings/key_map.h"
#include "fittings/number_entry.h"
#include "fittings/style.h"
#include "wording/names.h"
#include "wording/sentences.h"

namespace ww::library {

namespace {

constexpr int kMostShown = 12;

QString q(const std::string& text) { return QString::fromStdString(text); }

/// A list of the words for cells that take one of them.
class ChoiceDelegate : public QStyledItemDelegate {
 public:
  ChoiceDelegate(const RowColumn& column, const wording::Language& language, QObject* parent)
      : QStyledItemDelegate(parent), column_(column), language_(language) {}

  QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem&, const QModelIndex&) const override {
    auto* box = new QComboBox(parent);
    box->setAccessibleName(q(column_.member));
    for (const std::string& id : column_.choices)
      box->addItem(
          column_.wordKind.empty() || id.empty() ? q(id) : wording::word(language_, column_.wordKind, id),
          q(id));
    return box;
  }
  void setEditorData(QWidget* editor, const QModelIndex& index) const override {
    auto* box = static_cast<QComboBox*>(editor);
    box->setCurrentIndex(std::max(0, box->findData(index.data(Qt::UserRole))));
  }
  void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override {
    auto* box = static_cast<QComboBox*>(editor);
    model->setItemData(index, {{Qt::UserRole, box->currentData()}, {Qt::EditRole, box->currentText()}});
  }

  /// As wide as its words, where the cell is narrower.
  void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                            const QModelIndex&) const override {
    QRect place = option.rect;
    place.setWidth(std::max(place.width(), editor->sizeHint().width()));
    editor->setGeometry(place);
  }

 private:
  const RowColumn column_;
  const wording::Language& language_;
};

}  // namespace

RowsTable::RowsTable(const session::Surroundings& around, std::string pointer, std::vector<RowColumn> columns,
                     const QString& title, QWidget* parent)
    : QTableWidget(parent), around_(around), pointer_(std::move(pointer)), columns_(std::move(columns)) {
  setAccessibleName(title);
  setAccessibleDescription(around_.language.sentence("library.form.rows-hint"));
  setColumnCount(int(columns_.size()));
  QStringList heads;
  for (size_t i = 0; i < columns_.size(); ++i) {
    heads << around_.language.sentence(QStringLiteral("library.member.") + q(columns_[i].member));
    if (columns_[i].kind == RowColumn::Kind::choice)
      setItemDelegateForColumn(int(i), new ChoiceDelegate(columns_[i], around_.language, this));
  }
  setHorizontalHeaderLabels(heads);
  // The last text takes what room is left; expressions are long.
  horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
  horizontalHeader()->setMinimumSectionSize(fontMetrics().averageCharWidth() * 12);
  for (size_t i = columns_.size(); i-- > 0;)
    if (columns_[i].kind != RowColumn::Kind::flag && columns_[i].kind != RowColumn::Kind::number) {
      horizontalHeader()->setSectionResizeMode(int(i), QHeaderView::Stretch);
      break;
    }
  horizontalHeader()->setHighlightSections(false);
  verticalHeader()->hide();
  verticalHeader()->setDefaultSectionSize(std::max(fittings::kTableRow, fontMetrics().height() + 10));
  setTabKeyNavigation(false);
  setSelectionMode(QAbstractItemView::SingleSelection);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  auto* keys = new fittings::KeyMap(this);
  const auto resting = [this] { return state() != QAbstractItemView::EditingState; };
  keys->add(
      Qt::Key_Insert, {}, [this] { addRow(); }, resting);
  keys->add(
      Qt::Key_Delete, {}, [this] { removeRow(); }, resting);
  connect(this, &QTableWidget::cellChanged, this, &RowsTable::keep);
}

void RowsTable::setDraft(Draft* draft) {
  draft_ = draft;
  fill();
}

QString RowsTable::shown(const RowColumn& column, const Json& value) const {
  using Kind = RowColumn::Kind;
  if (value.is_null()) return {};
  if (column.kind == Kind::list && value.is_array()) {
    QStringList words;
    for (const Json& word : value) words << (word.is_string() ? q(word.get<std::string>()) : q(word.dump()));
    return words.join(QStringLiteral(", "));
  }
  if (value.is_string()) {
    const auto id = value.get<std::string>();
    return column.wordKind.empty() || id.empty() ? q(id)
                                                 : wording::word(around_.language, column.wordKind, id);
  }
  return q(value.dump());
}

Json RowsTable::typed(const RowColumn& column, const QTableWidgetItem& item) const {
  using Kind = RowColumn::Kind;
  const std::string text = item.text().trimmed().toStdString();
  switch (column.kind) {
    case Kind::flag: return item.checkState() == Qt::Checked ? Json(true) : Json();
    case Kind::choice: {
      const std::string id = item.data(Qt::UserRole).toString().toStdString();
      return id.empty() ? Json() : Json(id);
    }
    case Kind::number: {
      if (text.empty()) return {};
      const auto number = fittings::decimalOf(item.text());
      if (!number) return text;  // the reader says what is wrong with it
      return *number == std::floor(*number) && std::abs(*number) < 1e9 ? Json(static_cast<long long>(*number))
                                                                       : Json(*number);
    }
    case Kind::list: {
      Json words = Json::array();
      for (const QString& word : item.text().split(u',', Qt::SkipEmptyParts))
        words.push_back(word.trimmed().toStdString());
      return words.empty() ? Json() : words;
    }
    case Kind::part:
      // Figures in place are written as in the file; anything else names a part of the library.
      if (!text.empty() && text.front() == '{')
        if (Json figures = Json::parse(text, nullptr, false); figures.is_object()) return figures;
      [[fallthrough]];
    case Kind::text: break;
  }
  return text.empty() ? Json() : Json(text);
}

void RowsTable::fill() {
  const QSignalBlocker quiet(this);
  const Json rows = draft_ ? draft_->at(pointer_) : Json();
  const int count = rows.is_array() ? int(rows.size()) : 0;
  setRowCount(count);
  for (int row = 0; row < count; ++row)
    for (int column = 0; column < columnCount(); ++column) {
      const RowColumn& what = columns_[size_t(column)];
      const Json& object = rows[size_t(row)];
      const Json value = object.is_object() && object.contains(what.member) ? object[what.member] : Json();
      auto* item = new QTableWidgetItem(what.kind == RowColumn::Kind::flag ? QString() : shown(what, value));
      if (what.kind == RowColumn::Kind::choice)
        item->setData(Qt::UserRole, value.is_string() ? q(value.get<std::string>()) : QString());
      if (what.kind == RowColumn::Kind::flag) {
        item->setFlags(Qt::ItemIsUserCheckable | Qt::ItemIsEnabled | Qt::ItemIsSelectable);
        item->setCheckState(value.is_boolean() && value.get<bool>() ? Qt::Checked : Qt::Unchecked);
      }
      setItem(row, column, item);
    }
  fitHeight();
}

void RowsTable::fitHeight() {
  const int rows = std::clamp(rowCount(), 1, kMostShown);
  setFixedHeight(horizontalHeader()->sizeHint().height() + rows * verticalHeader()->defaultSectionSize() + 6);
}

void RowsTable::keep(int row, int column) {
  if (!draft_) return;
  const RowColumn& what = columns_[size_t(column)];
  draft_->put(pointerTo(row) + "/" + what.member, typed(what, *item(row, column)));
  Q_EMIT changed();
}

void RowsTable::addRow() {
  if (!draft_) return;
  const int row = rowCount();
  if (!draft_->at(pointer_).is_array()) draft_->put(pointer_, Json::array());
  draft_->put(pointerTo(row), Json::object());
  fill();
  setFocus();
  setCurrentCell(row, 0);
  Q_EMIT changed();
}

void RowsTable::removeRow() {
  const int row = currentRow();
  if (!draft_ || row < 0) return;
  draft_->put(pointerTo(row), nullptr);
  fill();
  if (rowCount() > 0) setCurrentCell(std::min(row, rowCount() - 1), 0);
  Q_EMIT changed();
}

std::vector<const quantity::Problem*> RowsTable::markProblems() {
  const QSignalBlocker quiet(this);
  std::vector<const quantity::Problem*> ours;
  for (int row = 0; row < rowCount(); ++row)
    for (int column = 0; column < columnCount(); ++column) {
      item(row, column)->setData(Qt::BackgroundRole, {});
      item(row, column)->setToolTip({});
    }
  if (!draft_) return ours;
  for (const quantity::Problem& problem : draft_->problems()) {
    if (problem.where != pointer_ && !problem.where.starts_with(pointer_ + "/")) continue;
    ours.push_back(&problem);
    const QStringList steps = q(problem.where.substr(pointer_.size())).split(u'/', Qt::SkipEmptyParts);
    const int row = steps.isEmpty() ? -1 : steps[0].toInt();
    if (row < 0 || row >= rowCount()) continue;
    int column = 0;
    for (size_t i = 0; i < columns_.size(); ++i)
      if (steps.size() > 1 && steps[1] == q(columns_[i].member)) column = int(i);
    item(row, column)->setBackground(around_.theme.severity(paint::Severity::fail).soft);
    item(row, column)->setToolTip(wording::problemText(around_.language, problem, {}));
  }
  return ours;
}

}  // namespace ww::library
