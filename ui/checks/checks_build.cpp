// SPDX-License-Identifier: GPL-3.0-or-later
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>

#include "checks/checks_place.h"
#include "fittings/pieces.h"
#include "fittings/style.h"

namespace ww::checks {

namespace {

constexpr int kSide = 320;

}  // namespace

void ChecksPlace::build() {
  nothing_ = fittings::paragraph(words("checks.nothing"));
  nothing_->setAlignment(Qt::AlignCenter);
  nothing_->setFocusPolicy(Qt::StrongFocus);
  cautions_ = new CautionSheet(around_, live_);
  panel_ = new StepPanel(around_);
  QScrollArea* area = fittings::scrolled(panel_);
  pages_ = new QStackedWidget;
  pages_->addWidget(nothing_);
  pages_->addWidget(cautions_);
  pages_->addWidget(area);

  side_ = new QWidget;
  fittings::setRole(side_, "panel");
  side_->setFixedWidth(kSide);
  auto* side = new QVBoxLayout(side_);
  side->setContentsMargins(0, 12, 0, 0);
  side->setSpacing(8);
  auto* head = new QHBoxLayout;
  head->setContentsMargins(16, 0, 12, 0);
  sideHead_ = fittings::label({}, "heading");
  sideHead_->setWordWrap(true);
  sideCount_ = fittings::label({}, "quiet");
  head->addWidget(sideHead_, 1);
  head->addWidget(sideCount_, 0, Qt::AlignBottom);
  side->addLayout(head);
  rows_ = new StepRows(around_.theme);
  rows_->setAccessibleName(words("checks.side.name"));
  QScrollArea* list = fittings::scrolled(rows_);
  list->viewport()->setAutoFillBackground(false);
  side->addWidget(list, 1);
  findingsHead_ = fittings::label(words("checks.side.findings"), "caption");
  findingsHead_->setContentsMargins(16, 8, 12, 0);
  side->addWidget(findingsHead_);
  findings_ = new StepRows(around_.theme);
  findings_->setAccessibleName(words("checks.side.findings"));
  side->addWidget(findings_);
  side->addSpacing(8);

  line_ = new StepLine(around_.theme);
  line_->setAccessibleName(words("checks.line.name"));
  auto* upper = new QHBoxLayout;
  upper->setSpacing(0);
  upper->addWidget(pages_, 1);
  edge_ = fittings::hairline(Qt::Vertical);
  upper->addWidget(edge_);
  upper->addWidget(side_);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->setSpacing(0);
  whole->addLayout(upper, 1);
  whole->addWidget(line_);

  topBar_ = new QWidget;
  auto* bar = new QHBoxLayout(topBar_);
  bar->setContentsMargins(0, 0, 0, 0);
  bar->setSpacing(8);
  if (live_) {
    power_ = fittings::button(words("checks.power-cut"), "power-off", around_.theme,
                              QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_P));
    power_->setFocusPolicy(Qt::NoFocus);
    bar->addWidget(power_);
    connect(power_, &QPushButton::clicked, this, &ChecksPlace::cutPower);
  }
  skip_ = fittings::button(words("checks.skip"), "skip", around_.theme, QKeySequence(Qt::CTRL | Qt::Key_K));
  skip_->setFocusPolicy(Qt::NoFocus);
  bar->addWidget(skip_);

  connect(skip_, &QPushButton::clicked, this, &ChecksPlace::skip);
  connect(cautions_, &CautionSheet::acknowledged, this, &ChecksPlace::acknowledge);
  connect(panel_->reading(), &QLineEdit::textEdited, this, &ChecksPlace::typed);
  connect(panel_->reading(), &QLineEdit::returnPressed, this, &ChecksPlace::enterPressed);
  connect(panel_, &StepPanel::chip, this, &ChecksPlace::toggle);
  connect(findings_, &StepRows::chosen, this, [this](int row) {
    if (size_t(row) < findingKeys_.size())
      Q_EMIT goTo(QStringLiteral("wiring"), QString::fromStdString(findingKeys_[size_t(row)]));
  });
  connect(line_, &StepLine::chosen, this, [this](int at) { goToStep(size_t(at)); });
  connect(rows_, &StepRows::chosen, this, [this](int row) {
    const auto stands = standsOf(steps_);
    if (!stands.empty()) goToStep(stands[standAt(stands, index())].first + size_t(row));
  });
}

void ChecksPlace::bindKeys() {
  const auto here = [this] { return pages_->currentIndex() == kStep; };
  const auto open = [this] { return working(); };
  keys_->add(
      Qt::Key_PageUp, words("checks.key.back"), [this] { move(-1); }, here);
  keys_->add(
      Qt::Key_PageDown, words("checks.key.on"), [this] { move(1); }, here);
  keys_->add(
      Qt::Key_Down, words("checks.key.meant"), [this] { takeMeant(); },
      [this] {
        return working() && current() && probablyMeant(*current(), parseEntry(panel_->reading()->text()));
      });
  keys_->add(
      Qt::CTRL | Qt::Key_K, words("checks.key.skip"), [this] { skip(); }, open);
  keys_->add(
      Qt::CTRL | Qt::Key_R, words("checks.key.again"), [this] { takeAgain(); }, open);
  keys_->add(
      Qt::CTRL | Qt::SHIFT | Qt::Key_R, words("checks.key.strike"), [this] { strike(); }, open);
  keys_->add(Qt::CTRL | Qt::Key_M, words("checks.key.meter"), [this] { nextMeter(); });
  if (live_)
    keys_->add(
        Qt::CTRL | Qt::SHIFT | Qt::Key_P, words("checks.key.power"), [this] { cutPower(); }, open);
  keys_->add(
      Qt::Key_Escape, {}, [this] { stepOut(); },
      [this] { return working() && (wanted_ != Wanted::figure || !panel_->reading()->text().isEmpty()); });
}

}  // namespace ww::checks
