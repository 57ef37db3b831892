// SPDX-License-Identifier: GPL-3.0-or-later
// What can be done with the jobs of the list: by key, button, menu, or dropped files.
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QTableView>
#include <QUrl>

#include "jobs/jobs_model.h"
#include "jobs/jobs_page.h"
#include "jobs/preview_pane.h"

namespace ww::jobs {

namespace {

QStringList filesOf(const QMimeData* data) {
  QStringList files;
  for (const QUrl& url : data->urls())
    if (url.isLocalFile()) files << url.toLocalFile();
  return files;
}

bool isPrintable(const QKeyEvent& event) {
  return !event.text().isEmpty() && event.text()[0].isPrint() &&
         !(event.modifiers() & (Qt::ControlModifier | Qt::AltModifier | Qt::MetaModifier));
}

}  // namespace

void JobsPage::connectButtons() {
  const auto on = [this](QPushButton* button, void (JobsPage::*wanted)(const std::string&)) {
    connect(button, &QPushButton::clicked, this, [this, wanted] {
      withCurrent([&](const Entry& entry) { Q_EMIT(this->*wanted)(entry.id); });
    });
  };
  on(preview_->open, &JobsPage::openWanted);
  on(preview_->callBack, &JobsPage::callBackWanted);
  on(preview_->duplicate, &JobsPage::duplicateWanted);
  on(preview_->print, &JobsPage::printWanted);
  connect(preview_->restore, &QPushButton::clicked, this, [this] { Q_EMIT restoreWanted(selected()); });
  connect(emptyNew_, &QPushButton::clicked, this, &JobsPage::newWanted);
  connect(emptyDemo_, &QPushButton::clicked, this, &JobsPage::demoWanted);
}

void JobsPage::bindKeys() {
  keys_ = new fittings::KeyMap(this);
  const auto act = [this](void (JobsPage::*wanted)(const std::string&)) {
    return [this, wanted] { withCurrent([&](const Entry& entry) { Q_EMIT(this->*wanted)(entry.id); }); };
  };
  const auto has = [this] { return current() != nullptr; };
  keys_->add(Qt::CTRL | Qt::Key_F, sentence("key.search"), [this] {
    search_->setFocus(Qt::ShortcutFocusReason);
    search_->selectAll();
  });
  keys_->add(Qt::CTRL | Qt::SHIFT | Qt::Key_N, sentence("key.call-back"), act(&JobsPage::callBackWanted),
             has);
  keys_->add(Qt::CTRL | Qt::Key_D, sentence("key.duplicate"), act(&JobsPage::duplicateWanted), has);
  keys_->add(Qt::CTRL | Qt::Key_P, sentence("key.print"), act(&JobsPage::printWanted), has);
  keys_->add(Qt::CTRL | Qt::Key_E, sentence("key.export"), [this] { exportSelected(); });
  keys_->add(Qt::CTRL | Qt::Key_O, sentence("key.import"), [this] { importFiles(); });
  listKeys_ = new fittings::KeyMap(list_);
  listKeys_->add(Qt::Key_Return, sentence("key.open"), act(&JobsPage::openWanted), has);
  listKeys_->add(
      Qt::Key_Delete, sentence("key.bin"), [this] { Q_EMIT binWanted(selected()); }, has);
  listKeys_->add(Qt::CTRL | Qt::Key_A, sentence("key.all"), [this] { list_->selectAll(); });
}

std::vector<fittings::KeyLine> JobsPage::keys() const {
  std::vector<fittings::KeyLine> lines = keys_->lines();
  const auto ofList = listKeys_->lines();
  lines.insert(lines.end(), ofList.begin(), ofList.end());
  return lines;
}

void JobsPage::stepOut() {
  if (!search_->hasFocus()) {
    search_->setFocus();
    return;
  }
  search_->clear();
}

void JobsPage::enterPressed() {
  if (askSoon_.isActive()) ask();
  if (model_->rowCount() == 0) {
    Q_EMIT newWanted();
    return;
  }
  list_->setFocus();
  if (!list_->currentIndex().isValid()) list_->selectRow(0);
}

bool JobsPage::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() != QEvent::KeyPress) return QWidget::eventFilter(watched, event);
  auto& key = static_cast<QKeyEvent&>(*event);
  if (watched == search_) {
    if (key.key() == Qt::Key_Down || key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter) {
      enterPressed();
      return true;
    }
  } else if (watched == list_) {
    const bool erases = key.key() == Qt::Key_Backspace;
    if (erases || isPrintable(key)) {
      search_->setFocus();
      erases ? search_->backspace() : search_->insert(key.text());
      return true;
    }
    if (key.key() == Qt::Key_Up && list_->currentIndex().row() <= 0 && key.modifiers() == Qt::NoModifier) {
      search_->setFocus();
      return true;
    }
  }
  return QWidget::eventFilter(watched, event);
}

void JobsPage::importFiles() {
  const QStringList files = questions_.toRead ? questions_.toRead(this)
                                              : QFileDialog::getOpenFileNames(this, sentence("import-title"),
                                                                              {}, sentence("import-kinds"));
  if (!files.isEmpty()) Q_EMIT importWanted(files);
}

void JobsPage::exportSelected() {
  const std::vector<std::string> ids = selected();
  if (ids.empty()) return;
  const QString suggested = ids.size() == 1 ? sentence("export-one") : sentence("export-many");
  const QString file = questions_.toWrite ? questions_.toWrite(this, suggested)
                       : ids.size() == 1
                           ? QFileDialog::getSaveFileName(this, sentence("export-title"), suggested)
                           : QFileDialog::getExistingDirectory(this, sentence("export-title"));
  if (!file.isEmpty()) Q_EMIT exportWanted(ids, file);
}

void JobsPage::dragEnterEvent(QDragEnterEvent* event) {
  if (!filesOf(event->mimeData()).isEmpty()) event->acceptProposedAction();
}

void JobsPage::dropEvent(QDropEvent* event) {
  const QStringList files = filesOf(event->mimeData());
  if (files.isEmpty()) return;
  event->acceptProposedAction();
  Q_EMIT importWanted(files);
}

}  // namespace ww::jobs
