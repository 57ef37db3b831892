// SPDX-License-Identifier: GPL-3.0-or-later
#include "jobs/jobs_page.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QSplitter>
#include <QTableView>
#include <QVBoxLayout>

#include "fittings/elided_label.h"
#include "fittings/icon.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "jobs/jobs_model.h"
#include "jobs/preview_pane.h"
#include "jobs/row_delegate.h"

namespace ww::jobs {

JobsPage::JobsPage(const session::Surroundings& around, Shelf& shelf, QWidget* parent)
    : QWidget(parent), around_(around), shelf_(shelf) {
  setAcceptDrops(true);
  build();
  connectButtons();
  bindKeys();
  // Keys come faster than anyone reads: the question goes out when the hand rests or the event loop is idle.
  askSoon_.setSingleShot(true);
  askSoon_.setInterval(0);
  connect(&askSoon_, &QTimer::timeout, this, &JobsPage::ask);
  connect(search_, &QLineEdit::textChanged, this, [this] { askSoon_.start(); });
  connect(model_, &JobsModel::answered, this, &JobsPage::take);
  connect(&shelf_, &Shelf::previewed, this, [this](const Preview& preview) {
    if (preview.id == front_) preview_->show(preview);
  });
}

QString JobsPage::sentence(const char* key, const wording::Args& args) const {
  return around_.language.sentence(QStringLiteral("jobs.") + QLatin1String(key), args);
}

void JobsPage::build() {
  search_ = new QLineEdit(this);
  search_->setPlaceholderText(sentence("search"));
  search_->setAccessibleName(sentence("search-name"));
  search_->setAccessibleDescription(sentence("search-hint"));
  search_->setMaxLength(200);
  search_->setClearButtonEnabled(false);
  auto* sign = new QLabel(search_);
  sign->setPixmap(
      fittings::iconPixmap(QStringLiteral("search"), around_.theme.ink2, 20, devicePixelRatioF()));
  auto* inside = new QHBoxLayout(search_);
  inside->setContentsMargins(8, 0, 10, 0);
  inside->addWidget(sign);
  inside->addStretch();
  inside->addWidget(fittings::label(fittings::keyText(Qt::CTRL | Qt::Key_F), "quiet", search_));
  search_->setTextMargins(28, 0, 56, 0);
  search_->setMinimumWidth(300);
  search_->installEventFilter(this);
  auto* filters = new QHBoxLayout;
  filters->setContentsMargins(16, 12, 16, 4);
  filters->setSpacing(8);
  filters->addWidget(search_, 2);
  buildFilters(filters);
  count_ = fittings::label({}, "quiet", this);
  count_->setContentsMargins(16, 0, 16, 4);
  buildList();
  preview_ = new PreviewPane(around_, this);
  preview_->setMinimumWidth(440);
  auto* left = new QWidget(this);
  auto* leftColumn = new QVBoxLayout(left);
  leftColumn->setContentsMargins(0, 0, 0, 0);
  leftColumn->addWidget(list_, 1);
  leftColumn->addWidget(emptyPane_, 1);
  split_ = new QSplitter(Qt::Horizontal, this);
  split_->setChildrenCollapsible(false);
  split_->setHandleWidth(1);
  split_->addWidget(left);
  split_->addWidget(preview_);
  split_->setStretchFactor(0, 3);
  split_->setStretchFactor(1, 2);
  split_->setSizes({776, 504});
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addLayout(filters);
  column->addWidget(count_);
  column->addWidget(fittings::hairline(Qt::Horizontal));
  column->addWidget(split_, 1);
}

void JobsPage::buildFilters(QHBoxLayout* row) {
  const auto menu = [&](const char* key, std::vector<Choice> (Shelf::*choices)() const) {
    auto* chip = new QPushButton(sentence(key), this);
    chip->setAccessibleName(sentence(key));
    fittings::setRole(chip, "filter");
    auto* list = new QMenu(chip);
    chip->setMenu(list);
    chip->setIcon(fittings::icon(QStringLiteral("down"), around_.theme));
    chip->setLayoutDirection(Qt::RightToLeft);
    connect(list, &QMenu::aboutToShow, this, [this, list, choices] {
      list->clear();
      for (const Choice& choice : (shelf_.*choices)())
        list->addAction(choice.worded, this, [this, word = choice.word] { addWord(word); });
      if (list->isEmpty()) list->addAction(sentence("no-choice"))->setEnabled(false);
    });
    row->addWidget(chip);
  };
  menu("date", &Shelf::dates);
  menu("state", &Shelf::states);
  menu("system", &Shelf::systems);
  menu("installer", &Shelf::installers);
  auto* open = new QPushButton(sentence("open-findings"), this);
  open->setAccessibleName(sentence("open-findings"));
  fittings::setRole(open, "filter");
  connect(open, &QPushButton::clicked, this, [this] { addWord(QStringLiteral("findings:open")); });
  row->addWidget(open);
  row->addStretch(1);
  auto* hint = new fittings::ElidedLabel("quiet", this);
  hint->setWhole(sentence("or-type"));
  row->addWidget(hint);
}

void JobsPage::buildList() {
  list_ = new QTableView(this);
  list_->setAccessibleName(sentence("list"));
  model_ = new JobsModel(shelf_,
                         {sentence("column.address"), sentence("column.visit"), sentence("column.system"),
                          sentence("column.state")},
                         this);
  delegate_ = new RowDelegate(around_.theme, this);
  list_->setModel(model_);
  list_->setItemDelegate(delegate_);
  list_->setSelectionBehavior(QAbstractItemView::SelectRows);
  list_->setSelectionMode(QAbstractItemView::ExtendedSelection);
  list_->setShowGrid(false);
  list_->setTabKeyNavigation(false);
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
  list_->verticalHeader()->hide();
  list_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
  list_->horizontalHeader()->setHighlightSections(false);
  list_->horizontalHeader()->setSectionsClickable(false);
  list_->installEventFilter(this);
  connect(list_, &QTableView::doubleClicked, this,
          [this] { withCurrent([this](const Entry& entry) { Q_EMIT openWanted(entry.id); }); });
  connect(list_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, &JobsPage::currentMoved);
  emptyPane_ = new QWidget(this);
  empty_ = fittings::paragraph({});
  emptyNew_ =
      fittings::button(sentence("start-one"), QStringLiteral("new-job"), around_.theme, {}, "primary");
  emptyDemo_ = fittings::button(sentence("see-demo"), QStringLiteral("jobs"), around_.theme);
  auto* column = new QVBoxLayout(emptyPane_);
  column->setContentsMargins(16, 24, 16, 16);
  column->addWidget(empty_);
  auto* buttons = new QHBoxLayout;
  buttons->addWidget(emptyNew_);
  buttons->addWidget(emptyDemo_);
  buttons->addStretch();
  column->addLayout(buttons);
  column->addStretch();
  emptyPane_->hide();
}

void JobsPage::setColumns() {
  const QFontMetrics metrics(list_->font());
  list_->verticalHeader()->setDefaultSectionSize(std::max(fittings::kListRow, 2 * metrics.height() + 12));
  QHeaderView* header = list_->horizontalHeader();
  header->setSectionResizeMode(QHeaderView::Fixed);
  header->setSectionResizeMode(JobsModel::address, QHeaderView::Stretch);
  int day = 0;
  for (const char* month : {"01", "02", "03", "04", "05", "06", "07", "08", "09", "10", "11", "12"})
    day =
        std::max(day, metrics.horizontalAdvance(around_.language.day("2028-" + std::string(month) + "-28")));
  header->resizeSection(JobsModel::visit, day + 20);
  header->resizeSection(JobsModel::system, metrics.averageCharWidth() * 18);
  header->resizeSection(JobsModel::state, metrics.averageCharWidth() * 16);
}

void JobsPage::enter() {
  setColumns();
  reload();
  search_->setFocus(Qt::OtherFocusReason);
  search_->selectAll();
}

void JobsPage::reload() { ask(); }

void JobsPage::ask() {
  askSoon_.stop();
  // Another question brings its own first answer to the front; the same one keeps what was there.
  if (search_->text() != asked_) front_.clear();
  asked_ = search_->text();
  delegate_->setQuery(search_->text());
  model_->ask(search_->text());
}

void JobsPage::addWord(const QString& word) {
  QString text = search_->text().trimmed();
  // A second choice of the same filter replaces the first.
  const QString kind = word.section(u':', 0, 0) + u':';
  QStringList words = text.split(u' ', Qt::SkipEmptyParts);
  words.removeIf([&](const QString& one) { return one.startsWith(kind); });
  words << word;
  search_->setText(words.join(u' '));
  search_->setFocus();
}

void JobsPage::take(const Answer& answer) {
  const auto& language = around_.language;
  const QString all = language.number(static_cast<double>(answer.all), 0);
  const QString matching = language.number(static_cast<double>(answer.matching), 0);
  if (answer.from == 0) {
    count_->setText(!answer.problem.isEmpty() ? answer.problem
                                              : sentence(answer.matchingIsLeast ? "count-least" : "count",
                                                         {{"n", matching}, {"all", all}}));
    const bool none = answer.entries.empty();
    list_->setVisible(!none);
    emptyPane_->setVisible(none);
    empty_->setText(!answer.problem.isEmpty() ? answer.problem
                    : answer.all == 0         ? sentence("no-jobs")
                                              : sentence("none-found"));
    emptyDemo_->setVisible(answer.all == 0);
    int row = -1;
    for (size_t i = 0; i < answer.entries.size(); ++i)
      if (answer.entries[i].id == front_) row = static_cast<int>(i);
    if (row < 0 && !none) row = 0;
    if (row >= 0) list_->selectRow(row);
    if (none) {
      front_.clear();
      preview_->show(std::nullopt);
    }
  }
}

void JobsPage::currentMoved() {
  const Entry* entry = current();
  if (!entry) return;
  front_ = entry->id;
  shelf_.preview(front_);
}

const Entry* JobsPage::current() const { return model_->entry(list_->currentIndex()); }

std::vector<std::string> JobsPage::selected() const {
  std::vector<std::string> ids;
  for (const QModelIndex& index : list_->selectionModel()->selectedRows())
    if (const Entry* entry = model_->entry(index)) ids.push_back(entry->id);
  return ids;
}

void JobsPage::withCurrent(const std::function<void(const Entry&)>& act) {
  if (const Entry* entry = current()) act(Entry(*entry));
}

QString JobsPage::countText() const { return count_->text(); }
QByteArray JobsPage::layoutState() const { return split_->saveState(); }
void JobsPage::restoreLayout(const QByteArray& state) { split_->restoreState(state); }
std::vector<QWidget*> JobsPage::panes() const { return {search_, list_, preview_}; }

}  // namespace ww::jobs
