// SPDX-License-Identifier: GPL-3.0-or-later
// What can be done with profiles: copied to one's own, written, kept, taken away, brought and given.
#include <QDesktopServices>
#include <QDir>
#include <QFile>
#include <QFileDialog>
#include <QLineEdit>
#include <QListWidget>
#include <QStackedWidget>
#include <QUrl>
#include <nlohmann/json.hpp>

#include "equipment/shipped.h"
#include "library/library_page.h"
#include "library/profile_form.h"
#include "wording/sentences.h"

namespace ww::library {

namespace {

QString q(const std::string& text) { return QString::fromStdString(text); }

std::optional<std::string> contentOf(const QString& path) {
  QFile file(path);
  if (!file.open(QIODevice::ReadOnly)) return std::nullopt;
  // One byte more than a profile may have: the reader says that it is too large.
  return file.read((1 << 20) + 1).toStdString();
}

}  // namespace

void LibraryPage::bindKeys() {
  keys_ = new fittings::KeyMap(this);
  const auto bind = [this](QKeySequence keys, const char* does, std::function<void()> act,
                           std::function<bool()> when = {}) {
    keys_->add(keys, words(QStringLiteral("key.") + QLatin1String(does)), std::move(act), std::move(when));
  };
  const auto browsing = [this] { return !editing(); };
  bind(Qt::CTRL | Qt::Key_F, "search", [this] {
    search_->setFocus(Qt::ShortcutFocusReason);
    search_->selectAll();
  });
  bind(
      Qt::CTRL | Qt::Key_D, "copy", [this] { copyToOwn(); }, browsing);
  bind(
      Qt::CTRL | Qt::Key_E, "export", [this] { exportFile(); }, browsing);
  bind(
      Qt::CTRL | Qt::Key_O, "import", [this] { importFile(); }, browsing);
  bind(
      Qt::CTRL | Qt::Key_S, "save", [this] { save(); }, [this] { return editing(); });
  bind(
      Qt::Key_F8, "as-text", [this] { form_->showText(!form_->showsText()); }, [this] { return editing(); });
  listKeys_ = new fittings::KeyMap(list_);
  listKeys_->add(Qt::Key_Return, words("key.edit"), [this] { edit(); });
  listKeys_->add(Qt::Key_Delete, words("key.remove"), [this] { remove(); });
}

std::vector<fittings::KeyLine> LibraryPage::keys() const {
  auto lines = keys_->lines();
  const auto ofList = listKeys_->lines();
  lines.insert(lines.end(), ofList.begin(), ofList.end());
  return lines;
}

std::string LibraryPage::textOfFront() const {
  const Row* row = current();
  if (!row) return {};
  if (row->refused >= 0) return contentOf(q(folder_.path() + "/" + row->id)).value_or(std::string());
  if (const auto own = own_.library.own.find(row->id); own != own_.library.own.end()) return own->second;
  return std::string(equipment::textOf(equipment::shippedProfiles(), row->id));
}

void LibraryPage::openForm(std::string_view text, const std::string& former) {
  form_->open(text, former, own_.library);
  sides_->setCurrentWidget(form_);
  form_->focusFirst();
}

/// What was written and not kept comes back with Undo.
void LibraryPage::closeForm() {
  if (!editing()) return;
  if (form_->changed()) {
    const std::string text = form_->draft()->text(), former = form_->former();
    Q_EMIT undoable(words("left-out"), [this, text, former] { openForm(text, former); });
  }
  sides_->setCurrentIndex(0);
  form_->leave();
  list_->setFocus();
}

QString LibraryPage::unfinishedFile() const { return q(folder_.path() + "/unfinished"); }

LibraryPage::~LibraryPage() {
  if (!editing() || !form_->changed()) return;
  QDir().mkpath(q(folder_.path()));
  const nlohmann::json kept{{"former", form_->former()}, {"text", form_->draft()->text()}};
  (void)job::saveFile(unfinishedFile().toStdString(), kept.dump());
}

bool LibraryPage::takeUpUnfinished() {
  const auto text = contentOf(unfinishedFile());
  if (!text) return false;
  (void)QFile::remove(unfinishedFile());
  const auto kept = nlohmann::json::parse(*text, nullptr, false);
  if (!kept.is_object() || !kept.contains("text") || !kept["text"].is_string()) return false;
  openForm(kept["text"].get<std::string>(), {});
  form_->takeUp(kept.contains("former") && kept["former"].is_string() ? kept["former"].get<std::string>()
                                                                      : std::string());
  Q_EMIT said(words("taken-up"));
  return true;
}

void LibraryPage::copyToOwn() {
  if (editing()) return;
  if (const std::string text = textOfFront(); !text.empty()) openForm(copyOf(text, own_.library), {});
}

void LibraryPage::edit() {
  const Row* row = current();
  if (!row || editing()) return;
  if (!row->own) {
    Q_EMIT said(words("shipped-stays"));
    return;
  }
  openForm(textOfFront(), row->id);
}

void LibraryPage::save() {
  if (!editing() || !form_->draft()->profile()) {
    if (editing()) form_->focusFirst();
    return;
  }
  const std::string id = form_->draft()->id(), former = form_->former();
  if (id != former && own_.library.own.contains(id)) {
    Q_EMIT said(words("id-taken", {{"id", q(id)}}));
    return;
  }
  if (const auto failed = folder_.save(id, form_->draft()->text())) {
    Q_EMIT said(words("cannot-write", {{"detail", q(failed->detail)}}));
    return;
  }
  // Under another id it is kept once, not twice; nor beside the file that could not be used.
  if (own_.library.own.contains(former) && former != id) (void)folder_.bin(former);
  for (const auto& file : own_.refused)
    if (file.name == former && contentOf(q(folder_.path() + "/" + former)) != form_->draft()->text())
      (void)binFile(former);
  sides_->setCurrentIndex(0);
  form_->leave();
  search_->clear();
  reload();
  choose(id);
  list_->setFocus();
  Q_EMIT said(words("saved", {{"id", q(id)}}));
}

void LibraryPage::remove() {
  const Row* row = current();
  if (!row || editing()) return;
  if (!row->own) {
    Q_EMIT said(words("shipped-stays"));
    return;
  }
  if (row->refused >= 0) return removeFile(row->id);
  const std::string id = row->id;
  const auto binned = folder_.bin(id);
  if (!binned) {
    Q_EMIT said(words("cannot-write", {{"detail", q(id)}}));
    return;
  }
  reload();
  Q_EMIT undoable(words("removed", {{"id", q(id)}}), [this, id, name = *binned] {
    (void)folder_.restore(id, name);
    reload();
    choose(id);
  });
}

QString LibraryPage::binFile(const std::string& name) const {
  const QString folder = q(folder_.path()), bin = folder + QStringLiteral("/bin");
  QDir().mkpath(bin);
  QString free = q(name);
  for (int copy = 2; QFile::exists(bin + u'/' + free); ++copy)
    free = QStringLiteral("%1-%2").arg(copy).arg(q(name));
  const QString to = bin + u'/' + free;
  return QFile::rename(folder + u'/' + q(name), to) ? to : QString();
}

/// A file that cannot be used has no id to go by.
void LibraryPage::removeFile(const std::string& name) {
  const QString to = binFile(name), from = q(folder_.path() + "/" + name);
  if (to.isEmpty()) {
    Q_EMIT said(words("cannot-write", {{"detail", q(name)}}));
    return;
  }
  reload();
  Q_EMIT undoable(words("removed", {{"id", q(name)}}), [this, from, to] {
    (void)QFile::rename(to, from);
    reload();
  });
}

void LibraryPage::importFile() {
  if (editing()) return;
  const QString path = questions_.toRead ? questions_.toRead(this)
                                         : QFileDialog::getOpenFileName(this, words("import"), {},
                                                                        words("file-kinds") + " (*.json)");
  if (path.isEmpty()) return;
  const auto text = contentOf(path);
  if (!text) {
    Q_EMIT said(words("cannot-read", {{"file", path}}));
    return;
  }
  const auto read = equipment::readOwnProfile(*text, own_.library);
  if (nlohmann::json::parse(*text, nullptr, false).is_discarded()) {
    Q_EMIT said(wording::problemText(around_.language, read.problems.front(), path));
    return;
  }
  const bool taken = read && own_.library.own.contains(read.value->id);
  if (!read || taken) {
    // What is wrong with it is shown where it can be mended.
    openForm(*text, {});
    Q_EMIT said(taken ? words("id-taken", {{"id", q(read.value->id)}}) : words("import-wrong"));
    return;
  }
  if (const auto failed = folder_.save(read.value->id, *text)) {
    Q_EMIT said(words("cannot-write", {{"detail", q(failed->detail)}}));
    return;
  }
  search_->clear();
  reload();
  choose(read.value->id);
  Q_EMIT said(words("saved", {{"id", q(read.value->id)}}));
}

void LibraryPage::exportFile() {
  const std::string text = textOfFront();
  if (editing() || text.empty()) return;
  const QString suggested = q(inFront()) + QStringLiteral(".json");
  const QString path = questions_.toWrite ? questions_.toWrite(this, suggested)
                                          : QFileDialog::getSaveFileName(this, words("export"), suggested,
                                                                         words("file-kinds") + " (*.json)");
  if (path.isEmpty()) return;
  if (const auto failed = job::saveFile(path.toStdString(), text))
    Q_EMIT said(words("cannot-write", {{"detail", q(failed->detail)}}));
  else
    Q_EMIT said(words("exported", {{"file", path}}));
}

void LibraryPage::openFolder() {
  const QString path = q(folder_.path());
  QDir().mkpath(path);
  if (questions_.openFolder)
    questions_.openFolder(path);
  else
    QDesktopServices::openUrl(QUrl::fromLocalFile(path));
}

}  // namespace ww::library
