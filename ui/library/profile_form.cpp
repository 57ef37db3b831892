// SPDX-License-Identifier: GPL-3.0-or-later
#include "library/profile_form.h"

#include <QCheckBox>
#include <QComboBox>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QSignalBlocker>
#include <QStackedWidget>
#include <algorithm>
#include <set>

#include "fittings/pieces.h"
#include "fittings/style.h"
#include "library/inner_view.h"
#include "library/rows_table.h"
#include "wording/names.h"
#include "wording/sentences.h"

namespace ww::library {

namespace {

constexpr auto kTextKey = Qt::Key_F8;

QString q(const std::string& text) { return QString::fromStdString(text); }

QString textOf(const Json& value) {
  if (value.is_null()) return {};
  return value.is_string() ? q(value.get<std::string>()) : q(value.dump());
}

QStringList listOf(const Json& value) {
  QStringList list;
  if (value.is_array())
    for (const Json& each : value) list << textOf(each);
  else if (value.is_object())
    for (const auto& [name, each] : value.items()) list << q(name) + u'=' + textOf(each);
  return list;
}

Json listFrom(const QString& text, QChar between) {
  Json list = Json::array();
  for (const QString& word : text.split(between, Qt::SkipEmptyParts))
    if (const QString bare = word.trimmed(); !bare.isEmpty()) list.push_back(bare.toStdString());
  return list;
}

/// Whether a member at that pointer is not there: that is told at what it is missing from.
bool isMissing(const quantity::Problem& problem, const std::string& pointer) {
  return !problem.args.empty() && problem.where + "/" + problem.args.front().second == pointer;
}

/// "gas=true" a line: facts and what holds.
Json factsFrom(const QString& text) {
  Json facts = Json::object();
  for (const QString& line : text.split(u'\n', Qt::SkipEmptyParts)) {
    const QString value = line.section(u'=', 1).trimmed();
    const std::string name = line.section(u'=', 0, 0).trimmed().toStdString();
    if (value == u"true" || value == u"false")
      facts[name] = value == u"true";
    else
      facts[name] = value.toStdString();
  }
  return facts.empty() ? Json() : facts;
}

}  // namespace

ProfileForm::ProfileForm(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent),
      around_(around),
      head_(fittings::label({}, "heading")),
      state_(fittings::paragraph({})),
      all_(fittings::paragraph({})),
      save_(fittings::button(words("save"), QStringLiteral("tick"), around.theme, Qt::CTRL | Qt::Key_S,
                             "primary")),
      leave_(fittings::button(words("leave"), QStringLiteral("close"), around.theme, Qt::Key_Escape)),
      asText_(fittings::button(words("as-text"), QStringLiteral("list"), around.theme, kTextKey, "choice")),
      either_(new QStackedWidget),
      text_(new QPlainTextEdit),
      picture_(new InnerView(around)) {
  setAccessibleName(words("name"));
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(16, 12, 16, 8);
  auto* top = new QHBoxLayout;
  head_->setWordWrap(true);
  top->addWidget(head_, 1);
  top->addWidget(asText_);
  top->addWidget(save_);
  top->addWidget(leave_);
  whole->addLayout(top);
  whole->addWidget(state_);
  auto* pane = new QWidget;
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(0, 4, 8, 8);
  column->setSpacing(6);
  build(column);
  scroll_ = fittings::scrolled(pane);
  scroll_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOn);
  text_->setAccessibleName(words("as-text"));
  text_->setTabChangesFocus(true);
  either_->addWidget(scroll_);
  either_->addWidget(text_);
  whole->addWidget(either_, 1);
  asText_->setCheckable(true);
  connect(asText_, &QPushButton::clicked, this, &ProfileForm::showText);
  connect(text_, &QPlainTextEdit::textChanged, this, &ProfileForm::takeText);
  connect(save_, &QPushButton::clicked, this, &ProfileForm::saveWanted);
  connect(leave_, &QPushButton::clicked, this, &ProfileForm::leaveWanted);
}

ProfileForm::~ProfileForm() { leave(); }

QString ProfileForm::words(const QString& key, const wording::Args& args) const {
  return around_.language.sentence(QStringLiteral("library.form.") + key, args);
}

QString ProfileForm::title(const std::string& pointer) const {
  return words(QStringLiteral("field.") + q(pointer.substr(1)).replace(u'/', u'-'));
}

void ProfileForm::build(QVBoxLayout* column) {
  auto* grid = new QGridLayout;
  grid->setHorizontalSpacing(12);
  grid->setVerticalSpacing(6);
  grid->setColumnStretch(1, 1);
  addLine(grid, "/id");
  addLine(grid, "/title/en");
  addLine(grid, "/title/es");
  addChoice(grid, "/kind",
            {"roomControl", "furnace", "airHandler", "coolingCoil", "outdoorUnit", "boiler", "zoneValve",
             "accessory", "refused"},
            "unitKind");
  addChoice(grid, "/column", {"control", "indoor", "outdoor", "accessory"}, "unitColumn");
  addChoice(grid, "/bond", {"bonded", "floating", "unknown"}, "bond");
  addFlag(grid, "/needsCommon");
  addLine(grid, "/nameplate", true);
  addLine(grid, "/cautions", true);
  column->addLayout(grid);
  addTables(column);
  addLines(column, "/logic");
  addLines(column, "/world");
  addLines(column, "/sources");
  column->addWidget(fittings::label(words("all"), "heading"));
  column->addWidget(all_);
  column->addWidget(picture_);
  column->addStretch(1);
}

void ProfileForm::addTables(QVBoxLayout* column) {
  using Kind = RowColumn::Kind;
  const auto add = [&](const std::string& pointer, std::vector<RowColumn> columns) {
    addRows(column, pointer, new RowsTable(around_, pointer, std::move(columns), title(pointer)));
  };
  add("/terminals", {{"id", Kind::text, {}, {}},
                     {"role",
                      Kind::choice,
                      {"hot", "hotCool", "hotHeat", "common", "callIn", "callOut", "auxOut", "tie", "dry",
                       "sense", "millivolt", "line", "data"},
                      "terminalRole"},
                     {"purpose",
                      Kind::choice,
                      {"", "hot", "common", "compressor1", "compressor2", "blower", "heat1", "heat2",
                       "reversingValve", "emergency", "defrostHeat", "humidify"},
                      "purpose"},
                     {"posts", Kind::number, {}, {}},
                     {"optional", Kind::flag, {}, {}}});
  add("/elements", {{"id", Kind::text, {}, {}},
                    {"a", Kind::text, {}, {}},
                    {"b", Kind::text, {}, {}},
                    {"part", Kind::part, {}, {}},
                    {"partSetting", Kind::text, {}, {}},
                    {"closedBy", Kind::text, {}, {}}});
  add("/duties",
      {{"name", Kind::text, {}, {}}, {"speed", Kind::text, {}, {}}, {"running", Kind::text, {}, {}}});
  add("/calls", {{"name", Kind::text, {}, {}}, {"offered", Kind::text, {}, {}}});
  add("/settings",
      {{"key", Kind::text, {}, {}}, {"choices", Kind::list, {}, {}}, {"standard", Kind::text, {}, {}}});
  add("/insertPoints", {{"name", Kind::text, {}, {}}, {"note", Kind::text, {}, {}}});
}

void ProfileForm::addField(QGridLayout* grid, const std::string& pointer, QWidget* editor,
                           std::function<void()> refresh) {
  QLabel* label = fittings::addRow(grid, title(pointer), editor);
  label->setWordWrap(true);
  label->setMinimumWidth(140);
  QLabel* complaint = fittings::complaint(around_.theme);
  grid->addWidget(complaint, grid->rowCount(), 1);
  fields_.push_back({pointer, editor, complaint, std::move(refresh)});
}

void ProfileForm::addLine(QGridLayout* grid, const std::string& pointer, bool list) {
  auto* line = new QLineEdit;
  addField(grid, pointer, line, [this, line, pointer, list] {
    const Json value = draft_->at(pointer);
    line->setText(list ? listOf(value).join(QStringLiteral(", ")) : textOf(value));
    line->setCursorPosition(0);
  });
  connect(line, &QLineEdit::textEdited, this, [this, pointer, list](const QString& text) {
    put(pointer, list ? listFrom(text, u',') : text.isEmpty() ? Json() : Json(text.toStdString()));
  });
}

void ProfileForm::addChoice(QGridLayout* grid, const std::string& pointer, std::vector<std::string> ids,
                            const std::string& wordKind) {
  auto* box = new QComboBox;
  for (const std::string& id : ids) box->addItem(wording::word(around_.language, wordKind, id), q(id));
  addField(grid, pointer, box,
           [this, box, pointer] { box->setCurrentIndex(box->findData(textOf(draft_->at(pointer)))); });
  connect(box, &QComboBox::activated, this,
          [this, box, pointer] { put(pointer, box->currentData().toString().toStdString()); });
}

void ProfileForm::addFlag(QGridLayout* grid, const std::string& pointer) {
  auto* box = new QCheckBox;
  addField(grid, pointer, box, [this, box, pointer] {
    const Json value = draft_->at(pointer);
    box->setChecked(value.is_boolean() && value.get<bool>());
  });
  connect(box, &QCheckBox::clicked, this,
          [this, pointer](bool on) { put(pointer, on ? Json(true) : Json()); });
}

void ProfileForm::addLines(QVBoxLayout* column, const std::string& pointer) {
  auto* text = new QPlainTextEdit;
  text->setTabChangesFocus(true);
  text->setAccessibleName(title(pointer));
  text->setFixedHeight(fontMetrics().height() * (pointer == "/logic" ? 10 : 4) + 16);
  QLabel* label = fittings::label(title(pointer), "heading");
  label->setBuddy(text);
  QLabel* complaint = fittings::complaint(around_.theme);
  column->addWidget(label);
  column->addWidget(text);
  column->addWidget(complaint);
  fields_.push_back({pointer, text, complaint, [this, text, pointer] {
                       const QSignalBlocker quiet(text);
                       text->setPlainText(listOf(draft_->at(pointer)).join(u'\n'));
                     }});
  connect(text, &QPlainTextEdit::textChanged, this, [this, text, pointer] {
    put(pointer, pointer == "/world" ? factsFrom(text->toPlainText()) : listFrom(text->toPlainText(), u'\n'));
  });
}

void ProfileForm::addRows(QVBoxLayout* column, const std::string& pointer, RowsTable* table) {
  auto* head = new QHBoxLayout;
  QLabel* label = fittings::label(title(pointer), "heading");
  label->setBuddy(table);
  head->addWidget(label, 1);
  auto* add = fittings::button(words("add-row"), QStringLiteral("plus"), around_.theme, Qt::Key_Insert);
  auto* remove =
      fittings::button(words("remove-row"), QStringLiteral("minus"), around_.theme, Qt::Key_Delete);
  add->setAccessibleName(words("add-row-to", {{"list", title(pointer)}}));
  remove->setAccessibleName(words("remove-row-of", {{"list", title(pointer)}}));
  head->addWidget(add);
  head->addWidget(remove);
  QLabel* complaint = fittings::complaint(around_.theme);
  column->addLayout(head);
  column->addWidget(table);
  column->addWidget(complaint);
  connect(add, &QPushButton::clicked, table, &RowsTable::addRow);
  connect(remove, &QPushButton::clicked, table, &RowsTable::removeRow);
  connect(table, &RowsTable::changed, this, &ProfileForm::tell);
  tables_.emplace_back(pointer, table);
  fields_.push_back({pointer, table, complaint, [this, table] { table->setDraft(draft_.get()); }});
}

void ProfileForm::open(std::string_view text, const std::string& former, const equipment::Library& library) {
  draft_ = std::make_unique<Draft>(text, library);
  opened_ = draft_->json();
  former_ = former;
  readable_ = true;
  asText_->setEnabled(true);
  asText_->setChecked(false);
  either_->setCurrentWidget(scroll_);
  for (const FormField& field : fields_) field.refresh();
  tell();
  scroll_->ensureVisible(0, 0);
}

void ProfileForm::takeUp(const std::string& former) {
  former_ = former;
  opened_ = nullptr;
  tell();
}

void ProfileForm::leave() {
  for (const auto& [pointer, table] : tables_) table->setDraft(nullptr);
  draft_.reset();
}

bool ProfileForm::changed() const { return draft_ && (!readable_ || draft_->json() != opened_); }

bool ProfileForm::showsText() const { return either_->currentWidget() == text_; }

void ProfileForm::showText(bool text) {
  if (!draft_ || (!text && !readable_)) return;
  if (text) {
    const QSignalBlocker quiet(text_);
    text_->setPlainText(q(draft_->text()));
  } else {
    for (const FormField& field : fields_) field.refresh();
  }
  either_->setCurrentWidget(text ? static_cast<QWidget*>(text_) : scroll_);
  asText_->setChecked(text);
  tell();
  text ? text_->setFocus(Qt::OtherFocusReason) : focusFirst();
}

void ProfileForm::takeText() {
  if (!draft_) return;
  readable_ = draft_->replace(text_->toPlainText().toStdString());
  asText_->setEnabled(readable_);
  tell();
}

void ProfileForm::put(const std::string& pointer, Json value) {
  if (!draft_) return;
  draft_->put(pointer, std::move(value));
  tell();
}

/// Each problem goes to the field whose place it begins with; all of them stand below, the first above.
void ProfileForm::tell() {
  if (!draft_) return;
  const auto& problems = draft_->problems();
  for (const FormField& field : fields_) {
    QStringList lines;
    for (const quantity::Problem& problem : problems)
      if (problem.where == field.pointer || problem.where.starts_with(field.pointer + "/") ||
          isMissing(problem, field.pointer))
        lines << wording::problemText(around_.language, problem);
    field.complaint->setText(lines.join(u'\n'));
    field.complaint->setVisible(!lines.isEmpty());
    field.editor->setAccessibleDescription(lines.join(u' '));
  }
  for (const auto& [pointer, table] : tables_) (void)table->markProblems();
  QStringList all;
  for (const quantity::Problem& problem : problems) all << wording::problemText(around_.language, problem);
  all_->setText(all.isEmpty() ? words("nothing") : all.join(u'\n'));
  head_->setText(words(former_.empty() ? "new" : "edit", {{"profile", q(draft_->id())}}));
  const int count = int(problems.size());
  state_->setText(count == 0
                      ? words("none-wrong")
                      : around_.language.sentence(
                            QStringLiteral("library.form.state"),
                            {{"n", around_.language.number(count, 0)}, {"problem", all.front()}}, count));
  save_->setEnabled(problems.empty());
  picture_->setProfile(draft_->profile());
}

void ProfileForm::focusFirst() {
  for (const FormField& field : fields_)
    if (!field.complaint->isHidden()) {
      field.editor->setFocus();
      scroll_->ensureWidgetVisible(field.editor);
      return;
    }
  fields_.front().editor->setFocus();
}

QWidget* ProfileForm::editor(const std::string& pointer) const {
  for (const FormField& field : fields_)
    if (field.pointer == pointer) return field.editor;
  return nullptr;
}

QString ProfileForm::complaint(const std::string& pointer) const {
  for (const FormField& field : fields_)
    if (field.pointer == pointer) return field.complaint->text();
  return {};
}

QString ProfileForm::allProblems() const { return all_->text(); }

}  // namespace ww::library
