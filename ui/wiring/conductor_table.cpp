// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/conductor_table.h"

#include <QClipboard>
#include <QGuiApplication>
#include <QHeaderView>
#include <QItemSelectionModel>
#include <QKeyEvent>
#include <QPainter>
#include <QScrollBar>

#include "fittings/style.h"
#include "wiring/paste.h"
#include "wiring/typed.h"

namespace ww::wiring {

namespace {

constexpr int kTagWidth = 56, kEndAWidth = 84, kEndBWidth = 92, kFindingWidth = 72;

}  // namespace

ConductorTable::ConductorTable(InHand& hand, QWidget* parent)
    : QTableView(parent),
      hand_(hand),
      model_(new ConductorModel(hand, this)),
      delegate_(new RowDelegate(*model_, this)),
      editor_(new QLineEdit(viewport())),
      note_(new QLabel(viewport())),
      keys_(new fittings::KeyMap(this)) {
  setModel(model_);
  setItemDelegate(delegate_);
  setAccessibleName(hand_.words("table"));
  setShowGrid(false);
  setSelectionMode(ExtendedSelection);
  setSelectionBehavior(SelectItems);
  setEditTriggers(NoEditTriggers);
  setTabKeyNavigation(false);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setVerticalScrollMode(ScrollPerPixel);
  setWordWrap(false);
  verticalHeader()->hide();
  verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  verticalHeader()->setDefaultSectionSize(std::max(fittings::kTableRow, fontMetrics().height() + 8));
  horizontalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  horizontalHeader()->setHighlightSections(false);
  horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
  horizontalHeader()->setMinimumSectionSize(24);
  editor_->hide();
  editor_->setFrame(false);
  editor_->setAccessibleName(hand_.words("cell.editor"));
  editor_->setStyleSheet(QStringLiteral("min-height: 0; padding: 0 5px;"));
  note_->hide();
  note_->setWordWrap(true);
  note_->setMargin(6);
  const auto& colours = hand_.around().theme.severity(paint::Severity::fail);
  note_->setStyleSheet(QStringLiteral("background: %1; color: %2; font-weight: 700;")
                           .arg(colours.soft.name(), colours.text.name()));
  connect(editor_, &QLineEdit::textEdited, this, &ConductorTable::completeTyped);
  connect(model_, &QAbstractItemModel::modelReset, this, &ConductorTable::spanHeadings);
  connect(&hand_, &InHand::selectionChanged, this, &ConductorTable::showSelection);
  connect(&hand_, &InHand::checked, this, &ConductorTable::tellAgain);
  connect(&hand_, &InHand::jobChanged, this, &ConductorTable::cancelEdit);
  connect(verticalScrollBar(), &QScrollBar::valueChanged, this, &ConductorTable::placeEditor);
  bindKeys();
  spanHeadings();
}

void ConductorTable::bindKeys() {
  const auto add = [this](QKeySequence keys, const char* does, std::function<void()> act,
                          std::function<bool()> when = {}) {
    keys_->add(keys, hand_.words(does), std::move(act), std::move(when));
  };
  const auto resting = [this] { return !editing(); };
  const auto onEnd = [this] { return !editing() && endHere(); };
  add(Qt::Key_Return, "key.take", [this] { takeAndGoOn(); });
  add(Qt::Key_Tab, "key.next-cell", [this] {
    const QModelIndex from = currentIndex();
    if (takeEdit()) goTo(nextCell(from, 1));
  });
  keys_->add(Qt::SHIFT | Qt::Key_Tab, {}, [this] {
    const QModelIndex from = currentIndex();
    if (takeEdit()) goTo(nextCell(from, -1));
  });
  add(
      Qt::Key_F2, "key.edit", [this] { beginEdit({}); }, resting);
  add(
      Qt::Key_Minus, "key.loose", [this] { landHere(sheet::Loose{}); }, onEnd);
  add(
      Qt::Key_Asterisk, "key.cap", [this] { landHere(sheet::Capped{}); }, onEnd);
  add(
      Qt::Key_Slash, "key.splice", [this] { beginEdit(QStringLiteral("/")); }, onEnd);
  add(
      Qt::CTRL | Qt::Key_V, "key.paste", [this] { paste(QGuiApplication::clipboard()->text()); }, resting);
  add(
      Qt::Key_Delete, "key.delete", [this] { complain(hand_.deleteSelected()); }, resting);
  keys_->add(
      Qt::Key_Escape, {}, [this] { cancelEdit(); }, [this] { return editing() || note_->isVisible(); });
}

void ConductorTable::spanHeadings() {
  clearSpans();
  for (int row = 0; row < model_->rowCount(); ++row)
    if (model_->isHeading(row)) setSpan(row, 0, 1, ConductorModel::columns);
  cancelEdit();
  showSelection();
}

void ConductorTable::placeColumns() {
  const auto wide = [&](int column, int least) {
    QFont bold = font();
    bold.setWeight(QFont::Bold);
    bold.setPointSizeF(8.25 * font().pointSizeF() / 9.75);
    const QString title = model_->headerData(column, Qt::Horizontal, Qt::DisplayRole).toString();
    return std::max(least,
                    QFontMetrics(bold).horizontalAdvance(title) + (column == ConductorModel::tag ? 28 : 16));
  };
  const double scale = std::max(1.0, fontMetrics().height() / 18.0);
  const int tag = wide(ConductorModel::tag, int(kTagWidth * scale)),
            a = wide(ConductorModel::endA, int(kEndAWidth * scale)),
            b = wide(ConductorModel::endB, int(kEndBWidth * scale)),
            finding = wide(ConductorModel::finding, int(kFindingWidth * scale));
  setColumnWidth(ConductorModel::tag, tag);
  setColumnWidth(ConductorModel::endA, a);
  setColumnWidth(ConductorModel::endB, b);
  setColumnWidth(ConductorModel::finding, finding);
  setColumnWidth(ConductorModel::purpose, std::max(60, viewport()->width() - tag - a - b - finding));
}

void ConductorTable::resizeEvent(QResizeEvent* event) {
  QTableView::resizeEvent(event);
  placeColumns();
  placeEditor();
}

void ConductorTable::focusInEvent(QFocusEvent* event) {
  QTableView::focusInEvent(event);
  if (!currentIndex().isValid()) startWork();
  tellSelection();
}

std::optional<sheet::CableId> ConductorTable::cableHere() const {
  return currentIndex().isValid() ? model_->at(currentIndex().row()).cable : std::nullopt;
}

std::optional<sheet::ConductorId> ConductorTable::conductorHere() const {
  return currentIndex().isValid() ? model_->at(currentIndex().row()).conductor : std::nullopt;
}

std::optional<EndRef> ConductorTable::endHere() const { return model_->endAt(currentIndex()); }

void ConductorTable::goTo(const QModelIndex& index) {
  if (!index.isValid()) return;
  // Said outright: a modifier that is still held must not turn this into an addition.
  selectionModel()->setCurrentIndex(index, QItemSelectionModel::ClearAndSelect);
  scrollTo(index);
}

void ConductorTable::showEnd(EndRef end) { goTo(model_->indexOf(end)); }

void ConductorTable::startWork() {
  QModelIndex first;
  for (int row = 0; row < model_->rowCount(); ++row)
    for (const int column : {ConductorModel::endA, ConductorModel::endB}) {
      const QModelIndex index = model_->index(row, column);
      const auto end = model_->endAt(index);
      if (!end) continue;
      if (!first.isValid()) first = index;
      if (!std::holds_alternative<sheet::Loose>(landingOf(hand_.sheet(), *end))) continue;
      goTo(index);
      return;
    }
  goTo(first.isValid() ? first : model_->index(0, 0));
}

QModelIndex ConductorTable::nextEnd(const QModelIndex& from) const {
  if (from.isValid() && from.column() == ConductorModel::endA && !model_->isHeading(from.row()))
    return model_->index(from.row(), ConductorModel::endB);
  const bool before =
      from.isValid() && from.column() < ConductorModel::endA && !model_->isHeading(from.row());
  for (int row = from.isValid() ? from.row() + (before ? 0 : 1) : 0; row < model_->rowCount(); ++row)
    if (!model_->isHeading(row)) return model_->index(row, ConductorModel::endA);
  return from;
}

QModelIndex ConductorTable::nextCell(const QModelIndex& from, int step) const {
  if (!from.isValid()) return from;
  int row = from.row(), column = from.column() + step;
  const bool heading = model_->isHeading(row);
  if (heading || column < ConductorModel::tag || column > ConductorModel::endB) {
    row += step;
    if (row < 0 || row >= model_->rowCount()) return from;
    column = step > 0 || model_->isHeading(row) ? ConductorModel::tag : ConductorModel::endB;
  }
  return model_->index(row, column);
}

void ConductorTable::keyPressEvent(QKeyEvent* event) {
  const QString typed = event->text();
  const bool letters = !typed.isEmpty() && typed[0].isPrint() && typed[0] != u' ' &&
                       !(event->modifiers() & (Qt::ControlModifier | Qt::AltModifier));
  if (letters && currentIndex().isValid() && currentIndex().column() <= ConductorModel::endB) {
    beginEdit(typed);
    return;
  }
  QTableView::keyPressEvent(event);
}

void ConductorTable::mouseDoubleClickEvent(QMouseEvent* event) {
  QTableView::mouseDoubleClickEvent(event);
  beginEdit({});
}

void ConductorTable::placeEditor() {
  const QModelIndex index = currentIndex();
  if (!index.isValid()) return;
  const QRect cell = visualRect(index);
  if (editing()) editor_->setGeometry(cell.adjusted(1, 1, -1, -2));
  if (note_->isVisible()) {
    const int width = viewport()->width();
    const int height = note_->heightForWidth(width);
    const int below = cell.bottom() + 1;
    note_->setGeometry(0, below + height <= viewport()->height() ? below : std::max(0, cell.top() - height),
                       width, height);
  }
}

void ConductorTable::complain(const QString& sentence) {
  note_->setText(sentence);
  note_->setVisible(!sentence.isEmpty());
  if (sentence.isEmpty()) return;
  note_->raise();
  placeEditor();
  Q_EMIT say(sentence);
}

void ConductorTable::currentChanged(const QModelIndex& current, const QModelIndex& previous) {
  QTableView::currentChanged(current, previous);
  if (current.row() != previous.row() || current.column() != previous.column()) cancelEdit();
  viewport()->update();
}

void ConductorTable::selectionChanged(const QItemSelection& selected, const QItemSelection& deselected) {
  QTableView::selectionChanged(selected, deselected);
  if (!following_ && isVisible()) tellSelection();
}

void ConductorTable::preview(const std::map<EndRef, QString>& ends) {
  delegate_->previewed = ends;
  viewport()->update();
}

}  // namespace ww::wiring
