// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/undo_bar.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>

#include "fittings/icon.h"
#include "fittings/style.h"

namespace ww::fittings {

UndoBar::UndoBar(const session::Surroundings& around, QWidget* parent)
    : QFrame(parent), around_(around), text_(new QLabel(this)), button_(new QPushButton(this)) {
  setRole(this, "bar");
  text_->setWordWrap(true);
  button_->setText(around.language.sentence(QStringLiteral("window.undo")));
  button_->setIcon(icon(QStringLiteral("undo"), around.theme));
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(16, 4, 8, 4);
  row->addWidget(text_, 1);
  row->addWidget(button_);
  timer_.setSingleShot(true);
  timer_.setInterval(6000);
  connect(&timer_, &QTimer::timeout, this, &UndoBar::lapse);
  connect(button_, &QPushButton::clicked, this, [this] {
    const auto undo = std::exchange(undo_, nullptr);
    lapse();
    if (undo) undo();
  });
  hide();
}

void UndoBar::offer(const QString& sentence, std::function<void()> undo) {
  text_->setText(sentence);
  setAccessibleName(sentence);
  if (around_.announce) around_.announce(sentence);
  undo_ = std::move(undo);
  button_->setVisible(static_cast<bool>(undo_));
  show();
  raise();
  timer_.start();
}

void UndoBar::lapse() {
  timer_.stop();
  undo_ = nullptr;
  hide();
}

}  // namespace ww::fittings
