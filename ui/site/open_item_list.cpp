// SPDX-License-Identifier: GPL-3.0-or-later
#include "site/open_item_list.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <algorithm>

#include "fittings/pieces.h"
#include "site/site_place.h"

namespace ww::site {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

OpenItemList::OpenItemList(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent), around_(around), column_(new QVBoxLayout(this)) {
  column_->setContentsMargins(0, 0, 0, 0);
  column_->setSpacing(8);
  add_ = fittings::button(say("site.items.add"), "plus", around.theme);
  column_->addWidget(add_, 0, Qt::AlignLeft);
  connect(add_, &QPushButton::clicked, this, [this] {
    const std::string id = around_.newId();
    if (!change(say("site.items.added"), [&](auto& items) {
          items.push_back({id, say("site.items.new").toStdString(), {}, {}});
        }))
      return;
    if (lines_.empty()) return;
    lines_.back().text->setFocus();
    if (auto* edit = qobject_cast<QLineEdit*>(lines_.back().text->editor())) edit->selectAll();
  });
}

void OpenItemList::setJob(session::OpenJob* job) {
  job_ = job;
  rebuild();
}

void OpenItemList::refresh() {
  const size_t count = job_ ? job_->job().openItems.size() : 0;
  bool same = count == lines_.size();
  for (size_t i = 0; same && i < count; ++i) same = job_->job().openItems[i].id == lines_[i].id;
  if (!same) return rebuild();
  for (const Line& line : lines_)
    for (Field* field : {line.text, line.owner, line.due}) field->refresh();
  add_->setEnabled(job_ && !job_->readOnly());
}

void OpenItemList::rebuild() {
  for (const Line& line : lines_) {
    line.row->hide();
    line.row->deleteLater();
  }
  lines_.clear();
  if (job_)
    for (const auto& item : job_->job().openItems) {
      lines_.push_back(line(item.id));
      column_->insertWidget(column_->count() - 1, lines_.back().row);
    }
  add_->setEnabled(job_ && !job_->readOnly());
}

OpenItemList::Line OpenItemList::line(const std::string& id) {
  Line made{id,
            new QWidget(this),
            field(id, "text", &job::OpenItem::text),
            field(id, "owner", &job::OpenItem::owner),
            field(id, "due", &job::OpenItem::due),
            nullptr};
  made.remove = fittings::button(say("site.items.remove"), {}, around_.theme);
  auto* row = new QHBoxLayout(made.row);
  row->setContentsMargins(0, 0, 0, 0);
  row->setSpacing(8);
  row->addWidget(made.text, 5);
  row->addWidget(made.owner, 3);
  row->addWidget(made.due, 3);
  row->addWidget(made.remove, 0, Qt::AlignTop);
  made.remove->setEnabled(!job_->readOnly());
  connect(made.remove, &QPushButton::clicked, this, [this, id] {
    change(say("site.items.removed"),
           [&](auto& items) { std::erase_if(items, [&](const auto& item) { return item.id == id; }); });
  });
  return made;
}

Field* OpenItemList::field(const std::string& id, const char* name, std::string job::OpenItem::*member) {
  const QString title = say(QStringLiteral("site.items.%1").arg(QLatin1String(name)));
  const bool date = member == &job::OpenItem::due;
  const bool needed = member == &job::OpenItem::text;
  const auto shown = [this, id, member, date] {
    const job::OpenItem* item = find(id);
    if (!item) return QString();
    return date && !(item->*member).empty() ? around_.language.day(item->*member) : q(item->*member);
  };
  const auto keep = [this, id, member, date, needed, title](const QString& typed) {
    std::string text = typed.trimmed().toStdString();
    if (needed && text.empty()) return say("site.bad.item");
    if (date && !text.empty()) {
      const auto day = dayOf(typed, around_.language);
      if (!day) return say("site.bad.date");
      text = *day;
    }
    change(say("site.edit", {{"field", title}}), [&](auto& items) {
      for (auto& item : items)
        if (item.id == id) item.*member = text;
    });
    return QString();
  };
  auto* made = new Field(title, {shown, keep}, around_.theme);
  if (auto* edit = qobject_cast<QLineEdit*>(made->editor())) edit->setPlaceholderText(title);
  made->setReadOnly(job_->readOnly());
  return made;
}

const job::OpenItem* OpenItemList::find(const std::string& id) const {
  if (!job_) return nullptr;
  const auto& items = job_->job().openItems;
  const auto found =
      std::find_if(items.begin(), items.end(), [&](const auto& item) { return item.id == id; });
  return found == items.end() ? nullptr : &*found;
}

bool OpenItemList::change(const QString& name, const std::function<void(std::vector<job::OpenItem>&)>& edit) {
  if (!job_) return false;
  session::Undoable next = session::undoableOf(job_->job());
  edit(next.openItems);
  return job_->edit(name, next);
}

QString OpenItemList::say(const QString& key, const wording::Args& args) const {
  return around_.language.sentence(key, args);
}

}  // namespace ww::site
