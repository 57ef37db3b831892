// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/caution_sheet.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>

#include "fittings/icon.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "wording/sentences.h"

namespace ww::checks {

namespace {

constexpr int kWidth = 640;

}  // namespace

CautionSheet::CautionSheet(const session::Surroundings& around, bool live, QWidget* parent)
    : QWidget(parent), around_(around) {
  const auto say = [&](const char* key) { return around_.language.sentence(QLatin1String(key)); };
  setAccessibleName(say(live ? "checks.caution.live" : "checks.caution.dead"));
  auto* sheet = new QWidget;
  sheet->setMaximumWidth(std::max(kWidth, fontMetrics().averageCharWidth() * 96));  // larger texts
  auto* column = new QVBoxLayout(sheet);
  column->setContentsMargins(24, 24, 24, 24);
  column->setSpacing(12);
  QLabel* title = fittings::label(accessibleName(), "title");
  title->setWordWrap(true);
  column->addWidget(title);
  again_ = fittings::complaint(around.theme);
  column->addWidget(again_);
  texts_ = new QVBoxLayout;
  texts_->setSpacing(12);
  column->addLayout(texts_);
  column->addSpacing(8);
  auto* row = new QHBoxLayout;
  initials_ = new QLineEdit;
  initials_->setMaxLength(40);
  initials_->setFixedWidth(120);
  initials_->setAccessibleName(say("checks.caution.initials"));
  QLabel* label = fittings::label(say("checks.caution.initials"));
  label->setBuddy(initials_);
  button_ = fittings::button(say("checks.caution.take"), {}, around.theme, Qt::Key_Return, "primary");
  row->addWidget(label);
  row->addWidget(initials_);
  row->addWidget(button_);
  row->addStretch(1);
  column->addLayout(row);
  complaint_ = fittings::complaint(around.theme);
  column->addWidget(complaint_);
  column->addStretch(1);
  QScrollArea* area = fittings::scrolled(sheet);
  auto* whole = new QVBoxLayout(this);
  whole->setContentsMargins(0, 0, 0, 0);
  whole->addWidget(area);
  connect(initials_, &QLineEdit::returnPressed, this, &CautionSheet::take);
  connect(button_, &QPushButton::clicked, this, &CautionSheet::take);
  setFocusProxy(initials_);
}

void CautionSheet::setCautions(const std::vector<std::string>& cautions, const QString& again) {
  again_->setText(again);
  again_->setVisible(!again.isEmpty());
  while (QLayoutItem* item = texts_->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  for (const std::string& caution : cautions) {
    auto* row = new QWidget;
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    line->setSpacing(12);
    auto* sign = new QLabel;
    sign->setPixmap(fittings::iconPixmap("caution", around_.theme.ink, 20, devicePixelRatioF()));
    line->addWidget(sign, 0, Qt::AlignTop);
    QLabel* text = fittings::paragraph(wording::cautionWithSource(around_.language, caution));
    text->setFont(paint::font(14));
    line->addWidget(text, 1);
    texts_->addWidget(row);
  }
  initials_->clear();
  complaint_->hide();
}

QString CautionSheet::complaint() const { return complaint_->isHidden() ? QString() : complaint_->text(); }

void CautionSheet::take() {
  const QString typed = initials_->text().trimmed();
  bool letter = false;
  for (const QChar c : typed) letter |= c.isLetter();
  complaint_->setVisible(!letter);
  if (!letter) {
    complaint_->setText(around_.language.sentence("checks.caution.missing"));
    initials_->setFocus();
    return;
  }
  Q_EMIT acknowledged(typed);
}

}  // namespace ww::checks
