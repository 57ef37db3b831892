// SPDX-License-Identifier: GPL-3.0-or-later
// The keys that work everywhere, the menu, and the dialogs they open.
#include <QApplication>
#include <QLineEdit>
#include <QMenu>
#include <QToolButton>

#include "fittings/icon.h"
#include "fittings/pieces.h"
#include "jobs/jobs_page.h"
#include "library/library_page.h"
#include "shell/keys_dialog.h"
#include "shell/main_window.h"
#include "shell/settings_dialog.h"
#include "shell/top_bar.h"

namespace ww::shell {

namespace {

/// Whether the focused field has something of its own to take back.
bool fieldUndoes(bool redo) {
  const auto* field = qobject_cast<QLineEdit*>(QApplication::focusWidget());
  return field && !field->isReadOnly() && (redo ? field->isRedoAvailable() : field->isUndoAvailable());
}

/// The first widget in a pane that takes the keyboard.
QWidget* firstFocusable(QWidget* pane) {
  if (pane->focusProxy()) return pane->focusProxy();
  if (pane->focusPolicy() & Qt::TabFocus) return pane;
  for (QWidget* next = pane->nextInFocusChain(); next && next != pane; next = next->nextInFocusChain())
    if (pane->isAncestorOf(next) && (next->focusPolicy() & Qt::TabFocus) && next->isVisible() &&
        next->isEnabled())
      return next;
  return nullptr;
}

}  // namespace

void MainWindow::bindKeys() {
  everywhere_ = new fittings::KeyMap(this);
  const auto inJob = [this] { return bench_.job() != nullptr; };
  for (size_t i = 0; i < stages_.size(); ++i)
    everywhere_->add(
        Qt::ALT | static_cast<Qt::Key>(Qt::Key_1 + static_cast<int>(i)),
        sentence("key.stage", {{"stage", stages_[i].title}}), [this, i] { showStage(i); }, inJob);
  const auto bind = [&](QKeySequence keys, const char* does, std::function<void()> act,
                        std::function<bool()> when = {}) {
    everywhere_->add(keys, sentence(does), std::move(act), std::move(when));
  };
  bind(Qt::Key_F6, "key.next-pane", [this] { nextPane(1); });
  bind(Qt::SHIFT | Qt::Key_F6, "key.previous-pane", [this] { nextPane(-1); });
  bind(Qt::Key_Escape, "key.out", [this] { stepOut(); });
  bind(Qt::Key_F1, "key.keys", [this] { showKeys(); });
  bind(Qt::Key_F10, "key.menu", [this] { top_->menuButton()->showMenu(); });
  bind(Qt::Key_F11, "key.large", [this] { setLarge(!large_); });
  bind(Qt::CTRL | Qt::SHIFT | Qt::Key_L, "key.library", [this] { showLibrary(); });
  bind(Qt::CTRL | Qt::Key_N, "key.new-job", [this] { bench_.startNew(); });
  bind(
      Qt::CTRL | Qt::Key_Z, "key.undo", [this] { bench_.undo(); },
      [=] { return inJob() && !fieldUndoes(false); });
  bind(
      Qt::CTRL | Qt::SHIFT | Qt::Key_Z, "key.redo", [this] { bench_.redo(); },
      [=] { return inJob() && !fieldUndoes(true); });
  bind(
      Qt::CTRL | Qt::Key_T, "key.sheet",
      [this] {
        const int next = (static_cast<int>(bench_.job()->sheetInHand()) + 1) % 3;
        bench_.job()->takeInHand(static_cast<job::SheetState>(next));
      },
      inJob);
  bind(Qt::CTRL | Qt::Key_Comma, "key.settings", [this] { showSettings(); });
}

void MainWindow::buildMenu() {
  menu_ = new QMenu(this);
  menu_->setAccessibleName(sentence("menu"));
  const auto add = [this](const char* text, const char* iconName, auto act) {
    return menu_->addAction(fittings::icon(QLatin1String(iconName), around_.theme), sentence(text), this,
                            act);
  };
  const auto onJobs = [this](auto act) {
    return [this, act] {
      if (!bench_.job() && !inLibrary()) act();
    };
  };
  add("new-job", "new-job", [this] { bench_.startNew(); });
  std::vector<QAction*> ofList{add("import", "import", onJobs([this] { jobs_->importFiles(); })),
                               add("export", "export", onJobs([this] { jobs_->exportSelected(); }))};
  add("library", "list", [this] { showLibrary(); });
  menu_->addSeparator();
  QAction* store = add("demo.show", "jobs", [this] { bench_.useDemo(!bench_.demo()); });
  add("large", "look", [this] { setLarge(!large_); });
  add("key.settings", "settings", [this] { showSettings(); });
  menu_->addSeparator();
  add("keys", "keys", [this] { showKeys(); });
  add("about", "help", [this] { showAbout(); });
  connect(menu_, &QMenu::aboutToShow, this, [this, store, ofList] {
    store->setText(sentence(bench_.demo() ? "demo.leave" : "demo.show"));
    for (QAction* action : ofList) action->setEnabled(!bench_.job() && !inLibrary());
  });
}

void MainWindow::connectJobs() {
  using jobs::JobsPage;
  connect(jobs_, &JobsPage::newWanted, &bench_, &Workbench::startNew);
  connect(jobs_, &JobsPage::demoWanted, &bench_, [this] { bench_.useDemo(true); });
  connect(jobs_, &JobsPage::openWanted, &bench_, &Workbench::open);
  connect(jobs_, &JobsPage::callBackWanted, &bench_, &Workbench::callBack);
  connect(jobs_, &JobsPage::duplicateWanted, &bench_, &Workbench::duplicate);
  connect(jobs_, &JobsPage::printWanted, &bench_, &Workbench::print);
  connect(jobs_, &JobsPage::binWanted, &bench_, &Workbench::bin);
  connect(jobs_, &JobsPage::restoreWanted, &bench_, &Workbench::restore);
  connect(jobs_, &JobsPage::importWanted, &bench_, &Workbench::importFiles);
  connect(jobs_, &JobsPage::exportWanted, &bench_, &Workbench::exportJobs);
}

std::vector<QWidget*> MainWindow::panes() const {
  std::vector<QWidget*> result;
  if (fittings::Place* front = place()) {
    for (QWidget* pane : front->panes()) result.push_back(pane);
    if (result.empty()) result.push_back(front);
    result.push_back(rail_);
  } else {
    for (QWidget* pane : inLibrary() ? library_->panes() : jobs_->panes()) result.push_back(pane);
  }
  result.push_back(top_);
  if (banner_->isVisible()) result.push_back(banner_);
  return result;
}

void MainWindow::nextPane(int step) {
  const std::vector<QWidget*> all = panes();
  QWidget* focus = QApplication::focusWidget();
  const int count = static_cast<int>(all.size());
  int at = step > 0 ? -1 : count;
  for (int i = 0; i < count; ++i)
    if (all[static_cast<size_t>(i)] == focus || all[static_cast<size_t>(i)]->isAncestorOf(focus)) at = i;
  for (int tried = 0; tried < count; ++tried) {
    at = (at + step + count) % count;
    QWidget* pane = all[static_cast<size_t>(at)];
    QWidget* first = pane->isVisible() ? firstFocusable(pane) : nullptr;
    if (!first) continue;
    first->setFocus(Qt::TabFocusReason);
    return;
  }
}

void MainWindow::stepOut() {
  if (fittings::Place* front = place()) {
    if (!front->stepOut()) showJobs();
    return;
  }
  if (!inLibrary()) return jobs_->stepOut();
  if (!library_->stepOut()) showJobs();
}

void MainWindow::showKeys() {
  const fittings::Place* front = place();
  KeysDialog dialog(around_,
                    front         ? stages_[current_].title
                    : inLibrary() ? sentence("library")
                                  : sentence("jobs"),
                    front         ? front->keys()
                    : inLibrary() ? library_->keys()
                                  : jobs_->keys(),
                    everywhere_->lines(), this);
  dialog.exec();
}

void MainWindow::showAbout() { AboutDialog(around_, this).exec(); }

void MainWindow::showSettings() {
  SettingsDialog dialog(around_, this);
  if (dialog.exec() != QDialog::Accepted) return;
  const session::Preferences before = around_.preferences, next = dialog.preferences();
  if (next == before) return;
  around_.keep(next);
  bench_.takePreferences(before);
  refreshStatus();
  const bool looks = next.language != before.language || next.theme != before.theme ||
                     next.feet != before.feet || next.awg != before.awg ||
                     next.fahrenheit != before.fahrenheit || next.paper != before.paper;
  if (looks) Q_EMIT rebuildWanted();
}

}  // namespace ww::shell
