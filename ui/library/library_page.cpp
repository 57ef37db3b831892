// SPDX-License-Identifier: GPL-3.0-or-later
#include "library/library_page.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <nlohmann/json.hpp>

#include "fittings/pieces.h"
#include "fittings/style.h"
#include "library/inner_view.h"
#include "library/profile_form.h"
#include "library/profile_words.h"
#include "wording/names.h"
#include "wording/profile_text.h"
#include "wording/sentences.h"

namespace ww::library {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

/// Small letters without accents.
QString plain(const QString& text) {
  QString bare;
  for (const QChar c : text.normalized(QString::NormalizationForm_D))
    if (c.category() != QChar::Mark_NonSpacing) bare += c.toLower();
  return bare;
}

QStringList logicOf(const std::string& text) {
  QStringList lines;
  const auto json = nlohmann::json::parse(text, nullptr, false);
  if (json.is_object())
    if (const auto logic = json.find("logic"); logic != json.end() && logic->is_array())
      for (const auto& line : *logic)
        if (line.is_string()) lines << q(line.get<std::string>());
  return lines;
}

}  // namespace

LibraryPage::LibraryPage(const session::Surroundings& around, const QString& folder, QWidget* parent)
    : QWidget(parent), around_(around), folder_(folder.toStdString()) {
  setAccessibleName(words("name"));
  build();
  bindKeys();
  connect(search_, &QLineEdit::textChanged, this, &LibraryPage::fill);
  connect(list_, &QListWidget::currentRowChanged, this, [this] { showFront(); });
  connect(list_, &QListWidget::itemActivated, this, [this] { edit(); });
  connect(form_, &ProfileForm::saveWanted, this, &LibraryPage::save);
  connect(form_, &ProfileForm::leaveWanted, this, &LibraryPage::closeForm);
}

QString LibraryPage::words(const QString& key, const wording::Args& args, std::optional<int> count) const {
  return around_.language.sentence(QStringLiteral("library.") + key, args, count);
}

void LibraryPage::build() {
  search_ = new QLineEdit(this);
  search_->setPlaceholderText(words("search"));
  search_->setAccessibleName(words("search-name"));
  search_->setMaxLength(200);
  search_->installEventFilter(this);
  count_ = fittings::label({}, "quiet", this);
  count_->setContentsMargins(16, 0, 16, 4);
  auto* import = fittings::button(words("import"), QStringLiteral("import"), around_.theme,
                                  Qt::CTRL | Qt::Key_O, nullptr, this);
  auto* folder = fittings::button(words("folder"), QStringLiteral("jobs"), around_.theme, {}, nullptr, this);
  connect(import, &QPushButton::clicked, this, &LibraryPage::importFile);
  connect(folder, &QPushButton::clicked, this, &LibraryPage::openFolder);
  auto* head = new QHBoxLayout;
  head->setContentsMargins(16, 12, 16, 4);
  head->setSpacing(8);
  head->addWidget(search_, 1);
  head->addWidget(import);
  head->addWidget(folder);
  list_ = new QListWidget(this);
  list_->setAccessibleName(words("list"));
  list_->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  list_->setWordWrap(true);
  list_->setTextElideMode(Qt::ElideNone);
  list_->setSpacing(2);
  list_->installEventFilter(this);
  sides_ = new QStackedWidget(this);
  form_ = new ProfileForm(around_, sides_);
  sides_->addWidget(buildDetail());
  sides_->addWidget(form_);
  split_ = new QSplitter(Qt::Horizontal, this);
  split_->setChildrenCollapsible(false);
  split_->setHandleWidth(1);
  split_->addWidget(list_);
  split_->addWidget(sides_);
  split_->setSizes({380, 900});
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  column->addLayout(head);
  column->addWidget(count_);
  column->addWidget(fittings::hairline(Qt::Horizontal));
  column->addWidget(split_, 1);
}

QWidget* LibraryPage::buildDetail() {
  auto* pane = new QWidget(sides_);
  fittings::setRole(pane, "panel");
  pane->setAttribute(Qt::WA_StyledBackground);
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(16, 12, 16, 8);
  column->setSpacing(8);
  title_ = fittings::label({}, "title");
  title_->setWordWrap(true);
  beneath_ = fittings::label({}, "quiet");
  beneath_->setWordWrap(true);
  column->addWidget(title_);
  column->addWidget(beneath_);
  auto* buttons = new QHBoxLayout;
  buttons->setSpacing(8);
  const auto add = [&](const char* key, const char* icon, QKeySequence keys, void (LibraryPage::*act)()) {
    auto* made = fittings::button(words(QLatin1String(key)), QLatin1String(icon), around_.theme, keys);
    connect(made, &QPushButton::clicked, this, act);
    buttons->addWidget(made);
    return made;
  };
  copy_ = add("copy", "duplicate", Qt::CTRL | Qt::Key_D, &LibraryPage::copyToOwn);
  edit_ = add("edit", "settings", Qt::Key_Return, &LibraryPage::edit);
  export_ = add("export", "export", Qt::CTRL | Qt::Key_E, &LibraryPage::exportFile);
  remove_ = add("remove", "bin", Qt::Key_Delete, &LibraryPage::remove);
  buttons->addStretch(1);
  column->addLayout(buttons);
  auto* content = new QWidget;
  auto* inside = new QVBoxLayout(content);
  inside->setContentsMargins(0, 0, 8, 8);
  picture_ = new InnerView(around_);
  details_ = new QLabel;
  details_->setTextFormat(Qt::RichText);
  details_->setWordWrap(true);
  details_->setTextInteractionFlags(Qt::TextSelectableByMouse);
  details_->setAlignment(Qt::AlignTop);
  inside->addWidget(picture_);
  inside->addWidget(details_);
  inside->addStretch(1);
  scroll_ = fittings::scrolled(content);
  // It takes the keyboard, so that it can be scrolled without a mouse.
  // Room for its bar is always kept: the text is as high as it is at that width.
  scroll_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
  scroll_->setFocusPolicy(Qt::StrongFocus);
  scroll_->setAccessibleName(words("detail"));
  column->addWidget(scroll_, 1);
  return pane;
}

void LibraryPage::enter() {
  reload();
  if (editing() || takeUpUnfinished()) return form_->focusFirst();
  search_->setFocus(Qt::OtherFocusReason);
  search_->selectAll();
}

void LibraryPage::reload() {
  const std::string front = inFront();
  own_ = folder_.read(equipment::standardLibrary());
  Q_EMIT libraryRead(own_.library);
  rows_.clear();
  for (const auto& [id, profile] : own_.library.profiles) {
    const bool own = !own_.library.shipped(id);
    rows_.push_back(
        {id, own, -1, wording::inLanguage(around_.language, profile->title),
         words(own ? "row-own" : "row",
               {{"id", q(id)}, {"kind", wording::kindName(around_.language, profile->kind)}}),
         plain(searchTextOf(around_.language, *profile) + (own ? u' ' + words("own-word") : QString()))});
  }
  for (size_t i = 0; i < own_.refused.size(); ++i) {
    const QString name = q(own_.refused[i].name);
    const int count = int(own_.refused[i].problems.size());
    rows_.push_back({own_.refused[i].name, true, int(i), name,
                     words("row-refused", {{"n", around_.language.number(count, 0)}}, count),
                     plain(name + u' ' + words("own-word"))});
  }
  // One's own first, then by title.
  std::stable_sort(rows_.begin(), rows_.end(), [](const Row& a, const Row& b) {
    return a.own != b.own ? a.own : a.title.localeAwareCompare(b.title) < 0;
  });
  fill();
  choose(front);
}

void LibraryPage::fill() {
  const std::string front = inFront();
  const QStringList typed = plain(search_->text()).split(u' ', Qt::SkipEmptyParts);
  shown_.clear();
  {
    const QSignalBlocker quiet(list_);
    list_->clear();
    for (size_t i = 0; i < rows_.size(); ++i) {
      const Row& row = rows_[i];
      if (!std::all_of(typed.begin(), typed.end(),
                       [&](const QString& word) { return row.search.contains(word); }))
        continue;
      shown_.push_back(int(i));
      auto* item = new QListWidgetItem(row.title + u'\n' + row.beneath, list_);
      item->setData(Qt::AccessibleTextRole, QStringLiteral("%1, %2").arg(row.title, row.beneath));
    }
  }
  const int count = int(shown_.size());
  count_->setText(words(
      "count",
      {{"n", around_.language.number(count, 0)}, {"all", around_.language.number(double(rows_.size()), 0)}},
      count));
  choose(front);
  if (list_->currentRow() < 0 && count > 0) list_->setCurrentRow(0);
  showFront();
}

void LibraryPage::choose(const std::string& id) {
  for (size_t i = 0; i < shown_.size(); ++i)
    if (rows_[size_t(shown_[i])].id == id) list_->setCurrentRow(int(i));
}

const LibraryPage::Row* LibraryPage::current() const {
  const int row = list_->currentRow();
  return row < 0 || size_t(row) >= shown_.size() ? nullptr : &rows_[size_t(shown_[size_t(row)])];
}

std::string LibraryPage::inFront() const {
  const Row* row = current();
  return row ? row->id : std::string();
}

void LibraryPage::showFront() {
  const Row* row = current();
  const auto found =
      row && row->refused < 0 ? own_.library.profiles.find(row->id) : own_.library.profiles.end();
  const auto profile = found == own_.library.profiles.end() ? nullptr : found->second;
  copy_->setEnabled(profile != nullptr);
  edit_->setEnabled(row && row->own);
  export_->setEnabled(profile != nullptr);
  remove_->setEnabled(row && row->own);
  picture_->setProfile(profile);
  title_->setText(row ? row->title : words("none-found"));
  beneath_->setText(row ? row->beneath : QString());
  if (profile) {
    details_->setText(profileHtml(around_.language, around_.theme, *profile, logicOf(textOfFront())));
  } else if (row) {
    QString lines = QStringLiteral("<p><b>%1</b></p>").arg(words("refused").toHtmlEscaped());
    for (const auto& problem : own_.refused[size_t(row->refused)].problems)
      lines +=
          QStringLiteral("<p>%1</p>").arg(wording::problemText(around_.language, problem).toHtmlEscaped());
    details_->setText(lines);
  } else {
    details_->setText({});
  }
  scroll_->ensureVisible(0, 0);
}

bool LibraryPage::editing() const { return sides_->currentWidget() == form_; }
QString LibraryPage::details() const { return details_->text(); }
QString LibraryPage::countText() const { return count_->text(); }
std::vector<QWidget*> LibraryPage::panes() const {
  if (editing()) return {search_, list_, form_};
  return {search_, list_, scroll_};
}

bool LibraryPage::stepOut() {
  if (editing()) {
    closeForm();
    return true;
  }
  if (!search_->hasFocus()) {
    search_->setFocus();
    return true;
  }
  if (search_->text().isEmpty()) return false;
  search_->clear();
  return true;
}

/// Down leads from the field into the list; what is typed in the list goes to the field.
bool LibraryPage::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  const auto& key = *static_cast<QKeyEvent*>(event);
  if (watched == search_ && (key.key() == Qt::Key_Down || key.key() == Qt::Key_Return)) {
    list_->setFocus();
    return true;
  }
  const bool held = key.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier);
  if (watched == list_ && !held && !key.text().isEmpty() && key.text()[0].isPrint()) {
    search_->setFocus();
    search_->setText(search_->text() + key.text());
    return true;
  }
  return QWidget::eventFilter(watched, event);
}

}  // namespace ww::library
