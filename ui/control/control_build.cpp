// SPDX-License-Identifier: GPL-3.0-or-later
#include <QEvent>
#include <QFrame>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>

#include "control/control_place.h"
#include "control/curve_view.h"
#include "fittings/pieces.h"
#include "fittings/style.h"

namespace ww::control {

namespace {

constexpr int kSide = 376, kFact = 220;
constexpr auto kConfirmKey = Qt::Key_Space;
constexpr auto kOverrideKey = Qt::Key_F2;
const QKeySequence kBackKey(Qt::CTRL | Qt::Key_D), kWishesKey(Qt::CTRL | Qt::Key_E);

/// Never lower than its wrapped texts need at its width; a pane that scrolls asks no more of it by itself.
class Pane : public QWidget {
 protected:
  void resizeEvent(QResizeEvent* event) override {
    QWidget::resizeEvent(event);
    fit();
  }
  bool event(QEvent* event) override {
    const bool handled = QWidget::event(event);
    if (event->type() == QEvent::LayoutRequest) fit();
    return handled;
  }

 private:
  void fit() {
    if (layout() == nullptr) return;
    setMinimumHeight(layout()->totalHeightForWidth(width()));
  }
};

}  // namespace

void ControlPlace::build() {
  auto* left = new QWidget;
  auto* column = new QVBoxLayout(left);
  column->setContentsMargins(0, 0, 0, 0);
  column->setSpacing(0);
  conflictsBox_ = new QWidget;
  fittings::setRole(conflictsBox_, "panel");
  conflictsBox_->setAccessibleName(words("control.view.conflicts"));
  conflicts_ = new QVBoxLayout(conflictsBox_);
  conflicts_->setContentsMargins(16, 8, 16, 8);
  conflicts_->setSpacing(6);
  column->addWidget(conflictsBox_);
  nothing_ = fittings::paragraph(words("control.none"));
  nothing_->setAlignment(Qt::AlignCenter);
  rows_ = new SettingRows(around_);
  rows_->setAccessibleName(words("control.view.rows"));
  column->addWidget(nothing_, 1);
  column->addWidget(rows_, 1);

  right_ = new QStackedWidget;
  right_->setFixedWidth(kSide);
  right_->addWidget(fittings::scrolled(settingPane()));
  auto* wishes = new Pane;
  auto* wishColumn = new QVBoxLayout(wishes);
  wishColumn->setContentsMargins(20, 16, 16, 16);
  wishColumn->setSpacing(12);
  wishColumn->addWidget(fittings::label(words("control.view.wishes"), "heading"));
  wishes_ = new WishesForm(around_);
  wishColumn->addWidget(wishes_);
  wishColumn->addStretch(1);
  right_->addWidget(fittings::scrolled(wishes));

  auto* whole = new QHBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  whole->addWidget(left, 1);
  whole->addWidget(fittings::hairline(Qt::Vertical));
  whole->addWidget(right_);

  topBar_ = new QWidget;
  auto* bar = new QHBoxLayout(topBar_);
  bar->setContentsMargins(0, 0, 0, 0);
  bar->setSpacing(8);
  settled_ = fittings::label({}, "quiet");
  wishesButton_ = fittings::button(words("control.view.wishes"), "note", around_.theme, kWishesKey);
  wishesButton_->setCheckable(true);
  confirm_ = fittings::button(words("control.view.confirm"), "tick", around_.theme, kConfirmKey, "primary");
  confirm_->setFocusPolicy(Qt::NoFocus);
  for (QWidget* widget : {static_cast<QWidget*>(settled_), static_cast<QWidget*>(wishesButton_),
                          static_cast<QWidget*>(confirm_)})
    bar->addWidget(widget);
  connect(rows_, &QListWidget::currentItemChanged, this, [this] {
    if (rows_->key() != shown_) showSetting();
  });
  connect(confirm_, &QPushButton::clicked, this, &ControlPlace::confirmNext);
  connect(wishesButton_, &QPushButton::clicked, this, &ControlPlace::toggleWishes);
  connect(wishes_, &WishesForm::changed, this, &ControlPlace::keepWishes);
}

QWidget* ControlPlace::settingPane() {
  auto* pane = new Pane;
  settingPane_ = pane;
  auto* column = new QVBoxLayout(pane);
  column->setContentsMargins(20, 16, 16, 16);
  column->setSpacing(10);
  title_ = fittings::label({}, "heading");
  title_->setWordWrap(true);
  column->addWidget(title_);
  curve_ = new CurveView(around_.theme);
  column->addWidget(curve_);
  auto* facts = new QGridLayout;
  facts->setVerticalSpacing(8);
  facts->setHorizontalSpacing(12);
  facts->setColumnStretch(1, 1);
  const auto fact = [&](const char* key, QLabel*& text) {
    QLabel* label = fittings::label(words(key), "quiet");
    text = fittings::paragraph({});
    text->setMinimumWidth(kFact);
    facts->addWidget(label, facts->rowCount(), 0, Qt::AlignTop);
    facts->addWidget(text, facts->rowCount() - 1, 1, Qt::AlignTop);
    return label;
  };
  fact("control.why-label", why_);
  fact("control.wrong-label", wrong_);
  fact("control.source-label", source_);
  noteLabel_ = fact("control.note-label", noteText_);
  column->addLayout(facts);
  auto* form = new QGridLayout;
  form->setVerticalSpacing(8);
  form->setColumnStretch(1, 1);
  value_ = new ValueEntry(around_.language);
  note_ = new QLineEdit;
  fittings::addRow(form, words("control.view.value"), value_);
  fittings::addRow(form, words("control.view.note"), note_)->setWordWrap(true);
  form->setColumnMinimumWidth(0, 96);
  column->addSpacing(6);
  column->addLayout(form);
  complaint_ = fittings::complaint(around_.theme);
  column->addWidget(complaint_);
  override_ = fittings::button(words("control.view.override"), "take-again", around_.theme, {});
  back_ = fittings::button(words("control.view.back"), "undo", around_.theme, kBackKey);
  column->addWidget(override_, 0, Qt::AlignLeft);
  column->addWidget(back_, 0, Qt::AlignLeft);
  column->addStretch(1);
  connect(override_, &QPushButton::clicked, this, &ControlPlace::overrideIt);
  connect(back_, &QPushButton::clicked, this, &ControlPlace::takeBack);
  connect(note_, &QLineEdit::returnPressed, this, &ControlPlace::overrideIt);
  return pane;
}

void ControlPlace::bindKeys() {
  keys_->add(
      kConfirmKey, words("control.view.key.confirm"), [this] { confirmNext(); },
      [this] { return working() && rows_->hasFocus(); });
  keys_->add(
      kOverrideKey, words("control.view.key.override"),
      [this] {
        right_->setCurrentIndex(0);
        wishesButton_->setChecked(false);
        value_->setFocus(Qt::ShortcutFocusReason);
      },
      [this] { return working() && current() != nullptr; });
  keys_->add(
      kBackKey, words("control.view.key.back"), [this] { takeBack(); },
      [this] { return working() && current() != nullptr; });
  keys_->add(kWishesKey, words("control.view.key.wishes"), [this] { toggleWishes(); });
}

}  // namespace ww::control
