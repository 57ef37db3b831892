// SPDX-License-Identifier: GPL-3.0-or-later
#include "shell/top_bar.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QSignalBlocker>
#include <QToolButton>

#include "fittings/elided_label.h"
#include "fittings/icon.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "shell/store_words.h"

namespace ww::shell {

namespace {

QString key(const char* name) { return QStringLiteral("window.") + QLatin1String(name); }

QString withReason(const wording::Language& language, const char* bare, const char* named,
                   const QString& what) {
  return what.isEmpty() ? language.sentence(key(bare)) : language.sentence(key(named), {{"what", what}});
}

}  // namespace

TopBar::TopBar(const session::Surroundings& around, QMenu* menu, QWidget* parent)
    : QWidget(parent), around_(around) {
  const auto& language = around.language;
  const auto& theme = around.theme;
  fittings::setRole(this, "panel");
  setAttribute(Qt::WA_StyledBackground);
  setMinimumHeight(fittings::kTopBar);
  setAccessibleName(language.sentence(key("top-bar")));
  rail_ = fittings::iconButton(QStringLiteral("menu"), language.sentence(key("fold")), theme, {}, this);
  jobs_ = fittings::iconButton(QStringLiteral("jobs"), language.sentence(key("to-jobs")), theme, {}, this);
  const auto tab = [&](const char* name, const QKeySequence& keys) {
    auto* made = new QToolButton(this);
    made->setText(language.sentence(key(name)));
    made->setAccessibleName(made->text());
    made->setToolTip(keys.isEmpty() ? made->text()
                                    : QStringLiteral("%1 (%2)").arg(made->text(), fittings::keyText(keys)));
    made->setCheckable(true);
    made->setFocusPolicy(Qt::StrongFocus);
    fittings::setRole(made, "choice");
    return made;
  };
  jobsTab_ = tab("jobs", {});
  libraryTab_ = tab("library", QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_L));
  title_ = new fittings::ElidedLabel("heading", this);
  sheet_ = new QComboBox(this);
  sheet_->setAccessibleName(language.sentence(key("sheet-in-hand")));
  sheet_->setToolTip(sheet_->accessibleName());
  for (const char* name : {"asFound", "planned", "asLeft"})
    sheet_->addItem(language.sentence(key("sheet.") + QLatin1String(name)));
  connect(sheet_, &QComboBox::activated, this, [this](int index) {
    if (job_) job_->takeInHand(static_cast<job::SheetState>(index));
  });
  undo_ = fittings::iconButton(QStringLiteral("undo"), language.sentence(key("undo")), theme,
                               QKeySequence(Qt::CTRL | Qt::Key_Z), this);
  redo_ = fittings::iconButton(QStringLiteral("redo"), language.sentence(key("redo")), theme,
                               QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_Z), this);
  new_ = fittings::button(language.sentence(key("new-job")), QStringLiteral("new-job"), theme,
                          QKeySequence(Qt::CTRL | Qt::Key_N), "primary", this);
  menu_ = fittings::iconButton(QStringLiteral("more"), language.sentence(key("menu")), theme,
                               QKeySequence(Qt::Key_F10), this);
  menu_->setMenu(menu);
  menu_->setPopupMode(QToolButton::InstantPopup);
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(16, 6, 16, 6);
  row->setSpacing(8);
  row->addWidget(rail_);
  row->addWidget(jobs_);
  row->addWidget(jobsTab_);
  row->addWidget(libraryTab_);
  row->addSpacing(8);
  row->addWidget(title_);
  row->addSpacing(8);
  row->addWidget(sheet_);
  auto* slot = new QWidget(this);
  slot_ = new QHBoxLayout(slot);
  slot_->setContentsMargins(0, 0, 0, 0);
  row->addWidget(slot, 1);
  row->addWidget(undo_);
  row->addWidget(redo_);
  row->addWidget(new_);
  row->addWidget(menu_);
  setJob(nullptr);
  setLibrary(false);
}

void TopBar::setJob(session::OpenJob* job) {
  if (job_) job_->disconnect(this), job_->undoStack().disconnect(this);
  job_ = job;
  if (job_) {
    connect(job_, &session::OpenJob::edited, this, &TopBar::refresh);
    connect(job_, &session::OpenJob::sheetChanged, this, &TopBar::refresh);
    connect(&job_->undoStack(), &QUndoStack::indexChanged, this, &TopBar::refresh);
  }
  for (QWidget* widget : std::initializer_list<QWidget*>{rail_, jobs_, sheet_, undo_, redo_})
    widget->setVisible(job_ != nullptr);
  for (QWidget* widget : std::initializer_list<QWidget*>{new_, jobsTab_, libraryTab_})
    widget->setVisible(!job_);
  title_->setVisible(job_ != nullptr);
  refresh();
}

void TopBar::setLibrary(bool library) {
  jobsTab_->setChecked(!library);
  libraryTab_->setChecked(library);
}

void TopBar::setPlaceBar(QWidget* bar) {
  if (placeBar_ == bar) return;
  if (placeBar_) {
    slot_->removeWidget(placeBar_);
    placeBar_->hide();
  }
  placeBar_ = bar;
  if (!bar) return;
  slot_->addWidget(bar, 0, Qt::AlignRight);
  bar->show();
}

void TopBar::refresh() {
  const auto& language = around_.language;
  if (!job_) return;
  title_->setWhole(addressOf(language, job_->job().site, job_->job().number));
  const QSignalBlocker quiet(sheet_);
  sheet_->setCurrentIndex(static_cast<int>(job_->sheetInHand()));
  const QUndoStack& stack = job_->undoStack();
  undo_->setEnabled(stack.canUndo() && !job_->readOnly());
  redo_->setEnabled(stack.canRedo() && !job_->readOnly());
  undo_->setToolTip(withReason(language, "undo", "undo-what", stack.undoText()));
  redo_->setToolTip(withReason(language, "redo", "redo-what", stack.redoText()));
}

}  // namespace ww::shell
