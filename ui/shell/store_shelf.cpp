// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/store_shelf.h"

#include <QMetaObject>
#include <algorithm>
#include <charconv>

#include "shell/preview_reader.h"
#include "shell/store_words.h"
#include "wording/names.h"
#include "wording/sentences.h"

namespace ww::shell {

namespace {

QString text(const std::string& utf8) { return QString::fromStdString(utf8); }

/// Words of a filter: one token, spaces as the store reads them back.
QString filterWord(const char* kind, const std::string& value) {
  return QLatin1String(kind) + u':' + text(value).replace(u' ', u'_');
}

QString stateWord(const wording::Language& language, const history::Row& row) {
  const auto say = [&](const QString& key, const wording::Args& args = {}) {
    return language.sentence(QStringLiteral("jobs.row.") + key, args);
  };
  if (row.state == job::State::binned) return say(QStringLiteral("binned"));
  if (row.open > 0) return language.sentence(QStringLiteral("jobs.row.open"), {}, row.open);
  if (row.state == job::State::closed) return say(QStringLiteral("closed"));
  if (row.state == job::State::amended) return say(QStringLiteral("amended"));
  const QString stage = QStringLiteral("window.stage.") + text(row.stage);
  return language.has(stage) ? language.sentence(stage) : say(QStringLiteral("draft"));
}

paint::Severity markOf(const history::Row& row) {
  if (row.state == job::State::binned) return paint::Severity::notMeasured;
  if (row.open > 0) return paint::Severity::fail;
  return row.state == job::State::draft ? paint::Severity::note : paint::Severity::right;
}

jobs::Entry entryOf(const wording::Language& language, const history::Row& row) {
  jobs::Entry entry;
  entry.id = entryId(row.ref);
  entry.address = addressOf(language, row.site, row.number);
  QStringList beneath;
  for (const std::string& part : {row.site.customer, row.site.city, row.installer})
    if (!part.empty()) beneath << text(part);
  if (row.hasSiblings) beneath << language.sentence(QStringLiteral("jobs.row.sibling"));
  entry.beneath = beneath.isEmpty() ? text(row.number) : beneath.join(QStringLiteral(" · "));
  entry.visit = language.day(row.day);
  entry.system = systemName(language, row.system);
  entry.state = stateWord(language, row);
  entry.mark = markOf(row);
  entry.binned = row.state == job::State::binned;
  return entry;
}

}  // namespace

std::string entryId(const history::JobRef& ref) {
  return ref.sibling == 0 ? ref.id : ref.id + "#" + std::to_string(ref.sibling);
}

history::JobRef refOf(const std::string& entry) {
  history::JobRef ref{entry, 0};
  if (const size_t mark = entry.find('#'); mark != std::string::npos) {
    ref.id = entry.substr(0, mark);
    std::from_chars(entry.data() + mark + 1, entry.data() + entry.size(), ref.sibling);
  }
  return ref;
}

StoreShelf::~StoreShelf() { setStore(nullptr, {}); }

void StoreShelf::setSurroundings(const session::Surroundings& around) {
  // Nothing may word with the former language any more.
  if (found_) found_->interrupt();
  if (previewed_) previewed_->interrupt();
  if (searching_) searching_->settle();
  if (previewing_) previewing_->settle();
  around_ = &around;
}

void StoreShelf::setStore(const history::Store* store, const QString& problem) {
  if (found_) found_->interrupt();
  if (previewed_) previewed_->interrupt();
  searching_.reset();
  previewing_.reset();
  ++searches_;
  ++previews_;
  problem_ = problem;
  found_.reset();
  previewed_.reset();
  chosen_.reset();
  if (!store) return;
  found_ = std::make_unique<history::Reader>(*store);
  previewed_ = std::make_unique<history::Reader>(*store);
  chosen_ = std::make_unique<history::Reader>(*store);
  searching_ = std::make_unique<LatestWorker>();
  previewing_ = std::make_unique<LatestWorker>();
}

jobs::Answer StoreShelf::answer(const QString& query, size_t from, size_t count) const {
  jobs::Answer made;
  made.query = query;
  made.from = from;
  try {
    const std::string asked = query.toStdString();
    const auto rows = found_->find(asked, from, count);
    const auto matching = found_->count(asked);
    if (!rows || !matching) return made;
    for (const history::Row& row : rows->rows) made.entries.push_back(entryOf(around_->language, row));
    made.matching = std::max(matching->matching, from + rows->rows.size());
    made.matchingIsLeast = matching->orMore;
    made.all = found_->total();
  } catch (const history::StoreFault& fault) {
    made.problem = wording::storeProblemText(around_->language, fault.problem());
  }
  return made;
}

void StoreShelf::search(const QString& query, size_t from, size_t count) {
  const unsigned number = ++searches_;
  if (!found_) {
    jobs::Answer made;
    made.query = query;
    made.problem = problem_;
    Q_EMIT found(made);
    return;
  }
  found_->interrupt();
  searching_->submit([this, number, query, from, count] {
    jobs::Answer made = answer(query, from, count);
    QMetaObject::invokeMethod(
        this,
        [this, number, made = std::move(made)] {
          if (number == searches_) Q_EMIT found(made);
        },
        Qt::QueuedConnection);
  });
}

void StoreShelf::preview(const std::string& id) {
  const unsigned number = ++previews_;
  if (!previewed_) return;
  previewed_->interrupt();
  previewing_->submit([this, number, id] {
    jobs::Preview made = readPreview(*previewed_, refOf(id), *around_);
    made.id = id;
    QMetaObject::invokeMethod(
        this,
        [this, number, made = std::move(made)] {
          if (number == previews_) Q_EMIT previewed(made);
        },
        Qt::QueuedConnection);
  });
}

history::Choices StoreShelf::choices() const {
  try {
    if (chosen_) return chosen_->choices();
  } catch (const history::StoreFault&) {
    // The list already says what is wrong with the store.
  }
  return {};
}

std::vector<jobs::Choice> StoreShelf::dates() const {
  std::vector<jobs::Choice> result;
  for (const std::string& year : choices().years) result.push_back({filterWord("day", year), text(year)});
  return result;
}

std::vector<jobs::Choice> StoreShelf::states() const {
  std::vector<jobs::Choice> result;
  for (const char* state : {"open", "draft", "closed", "amended", "bin"})
    result.push_back({filterWord("state", state),
                      around_->language.sentence(QStringLiteral("jobs.filter.") + QLatin1String(state))});
  return result;
}

std::vector<jobs::Choice> StoreShelf::systems() const {
  std::vector<jobs::Choice> result;
  for (const std::string& system : choices().systems)
    result.push_back({filterWord("system", system), systemName(around_->language, system)});
  return result;
}

std::vector<jobs::Choice> StoreShelf::installers() const {
  std::vector<jobs::Choice> result;
  for (const std::string& name : choices().installers)
    result.push_back({filterWord("installer", name), text(name)});
  return result;
}

}  // namespace ww::shell
