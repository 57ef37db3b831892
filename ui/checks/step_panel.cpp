// SPDX-License-Identifier: GPL-3.0-or-later
#include "checks/step_panel.h"

#include <QFrame>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPainter>
#include <QPushButton>

#include "fittings/icon.h"
#include "fittings/pieces.h"
#include "fittings/severity_badge.h"
#include "fittings/style.h"

namespace ww::checks {

namespace {

constexpr int kMargin = 24, kFieldWidth = 184, kLargeWidth = 320, kLargeField = 104, kChipColumns = 3;

QLabel* wrapped(const char* role) {
  auto* label = fittings::label({}, role);
  label->setWordWrap(true);
  return label;
}

void colour(QWidget* widget, QPalette::ColorRole role, const QColor& ink) {
  QPalette palette = widget->palette();
  palette.setColor(role, ink);
  widget->setPalette(palette);
}

void setOrHide(QLabel* label, const QString& text) {
  label->setText(text);
  label->setVisible(!text.isEmpty());
}

}  // namespace

StepPanel::StepPanel(const session::Surroundings& around, QWidget* parent)
    : QWidget(parent), around_(around) {
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(kMargin, 12, kMargin, 8);
  column->setSpacing(8);
  column->addWidget(headRow());
  auto* standAt = fittings::label(around.language.sentence("checks.stand-at"), "caption");
  column->addWidget(standAt);
  stand_ = wrapped("stand");
  column->addWidget(stand_);
  what_ = wrapped("lead");
  column->addWidget(what_);
  cautions_ = new QVBoxLayout;
  cautions_->setSpacing(8);
  column->addLayout(cautions_);
  column->addWidget(probeRow());
  column->addWidget(readingRow());
  complaint_ = fittings::complaint(around.theme);
  column->addWidget(complaint_);
  bar_ = new BandBar(around.language, around.theme);
  column->addWidget(bar_);
  column->addWidget(askRow());
  chipHead_ = fittings::label(around.language.sentence("checks.seen.head"));
  fittings::setRole(chipHead_, "quiet");
  column->addWidget(chipHead_);
  chipGrid_ = new QGridLayout;
  chipGrid_->setSpacing(8);
  column->addLayout(chipGrid_);
  column->addStretch(1);
  earlier_ = fittings::paragraph({});
  fittings::setRole(earlier_, "quiet");
  column->addWidget(earlier_);
  auto* foot = new QHBoxLayout;
  last_ = fittings::label({});
  last_->setWordWrap(true);
  fittings::setRole(last_, "quiet");
  lastBadge_ = new fittings::SeverityBadge(around.theme);
  paging_ = fittings::label(around.language.sentence("checks.paging"), "quiet");
  foot->addWidget(last_, 1);
  foot->addWidget(lastBadge_);
  foot->addWidget(paging_);
  column->addLayout(foot);
}

QWidget* StepPanel::headRow() {
  auto* row = new QWidget;
  auto* line = new QHBoxLayout(row);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(8);
  head_ = fittings::label({}, "strong");
  call_ = fittings::label({});
  fittings::setRole(call_, "pill");
  cautionsRead_ = fittings::label({}, "quiet");
  line->addWidget(head_);
  line->addWidget(call_);
  line->addStretch(1);
  line->addWidget(cautionsRead_);
  return row;
}

QWidget* StepPanel::probeRow() {
  probes_ = new QWidget;
  auto* line = new QHBoxLayout(probes_);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(24);
  strips_ = new StripView(around_.theme);
  line->addWidget(strips_, 0, Qt::AlignTop);
  auto* where = new QGridLayout;
  where->setHorizontalSpacing(8);
  where->setVerticalSpacing(8);
  probe1_ = fittings::label({});
  probe2_ = fittings::label({});
  meter_ = fittings::label({}, "quiet");
  for (QLabel* label : {probe1_, probe2_, meter_}) label->setWordWrap(true);
  where->addWidget(new ProbeMark(1, around_.theme), 0, 0);
  where->addWidget(probe1_, 0, 1);
  where->addWidget(new ProbeMark(2, around_.theme), 1, 0);
  where->addWidget(probe2_, 1, 1);
  auto* meterSign = new QLabel;
  meterSign->setPixmap(fittings::iconPixmap("meter", around_.theme.ink2, 20, devicePixelRatioF()));
  where->addWidget(meterSign, 2, 0, Qt::AlignCenter);
  where->addWidget(meter_, 2, 1);
  where->setColumnStretch(1, 1);
  where->setRowStretch(3, 1);
  line->addLayout(where, 1);
  return probes_;
}

QWidget* StepPanel::readingRow() {
  auto* row = new QWidget;
  auto* line = new QHBoxLayout(row);
  line->setContentsMargins(0, 0, 0, 0);
  line->setSpacing(16);
  reading_ = new QLineEdit;
  reading_->setAccessibleName(around_.language.sentence("checks.reading-name"));
  reading_->setMaxLength(400);
  unit_ = fittings::label({}, "title");
  band_ = wrapped("heading");
  bandFrom_ = fittings::label({}, "quiet");
  bandFrom_->setWordWrap(true);
  former_ = fittings::label({}, "quiet");
  former_->setWordWrap(true);
  auto* words = new QVBoxLayout;
  words->setSpacing(2);
  words->addStretch(1);
  words->addWidget(band_);
  words->addWidget(bandFrom_);
  words->addWidget(former_);
  words->addStretch(1);
  line->addWidget(reading_);
  line->addWidget(unit_);
  line->addSpacing(8);
  line->addLayout(words, 1);
  fitField();
  return row;
}

QWidget* StepPanel::askRow() {
  askFrame_ = new QFrame;
  askFrame_->setAutoFillBackground(true);
  auto* line = new QHBoxLayout(askFrame_);
  line->setContentsMargins(12, 8, 12, 8);
  line->setSpacing(12);
  askShape_ = new QLabel;
  askText_ = fittings::label({}, "strong");
  askText_->setWordWrap(true);
  askKeys_ = fittings::label({});
  line->addWidget(askShape_);
  line->addWidget(askText_, 1);
  line->addWidget(askKeys_);
  askFrame_->hide();
  return askFrame_;
}

void StepPanel::fitField() {
  const double px = reason_ || hinted_ ? 16 : large_ ? 72 : 40;
  const int height = large_ && !reason_ ? kLargeField : fittings::kReadingField;
  if (reason_)
    reading_->setMinimumWidth(kFieldWidth), reading_->setMaximumWidth(QWIDGETSIZE_MAX);
  else
    reading_->setFixedWidth(large_ ? kLargeWidth : kFieldWidth);
  reading_->setAlignment(reason_ ? Qt::AlignLeft | Qt::AlignVCenter : Qt::AlignRight | Qt::AlignVCenter);
  // The program's style sheet sets font and height; only a sheet of the widget's own goes before it.
  const QString sheet = QStringLiteral("QLineEdit { font-size: %1pt; min-height: %2px; max-height: %2px; }")
                            .arg(px * 0.75)
                            .arg(height - 2);
  if (sheet != reading_->styleSheet()) reading_->setStyleSheet(sheet);
}

void StepPanel::show(const StepShown& step) {
  head_->setText(step.head);
  setOrHide(call_, step.call);
  cautionsRead_->setText(step.cautionsRead);
  stand_->setText(step.stand);
  setOrHide(what_, step.what);
  setCautions(step.cautions);
  probes_->setVisible(!step.strips.empty());
  strips_->setStrips(step.strips,
                     QStringList{step.probe1, step.probe2, step.meter}.join(QStringLiteral(". ")));
  probe1_->setText(step.probe1);
  probe2_->setText(step.probe2);
  meter_->setText(step.meter);
  setOrHide(unit_, step.unit);
  setOrHide(band_, step.band);
  setOrHide(bandFrom_, step.bandFrom);
  setOrHide(former_, step.formerText);
  bar_->setBand(step.scale, step.scaleUnit);
  bar_->setFormer(step.former);
  bar_->setVisible(step.scale.has_value() && !large_);
  hinted_ = !step.hint.isEmpty();
  if (reason_) {
    for (QLabel* label : {unit_, band_, bandFrom_, former_}) label->hide();
  } else {
    reading_->setPlaceholderText(step.hint);
  }
  fitField();
  reading_->setAccessibleDescription(
      QStringList{step.stand, step.what, step.band}.join(QStringLiteral(". ")));
  setChips(step.chips, step.chosen);
  setOrHide(earlier_, step.earlier);
  last_->setText(step.last);
  lastBadge_->setVisible(step.lastVerdict.has_value());
  if (step.lastVerdict) lastBadge_->setJudgement(step.lastVerdict->first, step.lastVerdict->second);
  // At once, so that no frame shows the new step in the old one's places.
  probes_->layout()->activate();
  layout()->activate();
}

void StepPanel::setCautions(const QStringList& cautions) {
  while (QLayoutItem* item = cautions_->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  for (const QString& text : cautions) {
    auto* row = new QWidget;
    auto* line = new QHBoxLayout(row);
    line->setContentsMargins(0, 0, 0, 0);
    auto* sign = new QLabel;
    sign->setPixmap(fittings::iconPixmap("caution", around_.theme.ink, 20, devicePixelRatioF()));
    line->addWidget(sign, 0, Qt::AlignTop);
    line->addWidget(fittings::paragraph(text), 1);
    cautions_->addWidget(row);
  }
}

void StepPanel::setChips(const QStringList& names, const std::vector<char>& chosen) {
  chipHead_->setVisible(!names.isEmpty());
  bool same = names.size() == qsizetype(chips_.size());
  for (qsizetype i = 0; same && i < names.size(); ++i) same = chips_[size_t(i)]->text() == names[i];
  if (!same) {
    for (QPushButton* chip : chips_) {
      chip->hide();
      chip->deleteLater();
    }
    chips_.clear();
    for (int i = 0; i < names.size(); ++i) {
      auto* button = fittings::button(names[i], {}, around_.theme, {}, "chip");
      button->setCheckable(true);
      button->setFocusPolicy(Qt::NoFocus);
      chipGrid_->addWidget(button, i / kChipColumns, i % kChipColumns, Qt::AlignLeft);
      connect(button, &QPushButton::clicked, this, [this, i] { Q_EMIT chip(i); });
      chips_.push_back(button);
    }
    chipGrid_->setColumnStretch(kChipColumns, 1);
  }
  for (size_t i = 0; i < chips_.size(); ++i) chips_[i]->setChecked(i < chosen.size() && chosen[i]);
}

void StepPanel::ask(paint::Severity severity, const QString& question, const QString& keys) {
  askFrame_->setVisible(!question.isEmpty());
  askText_->setText(question);
  askKeys_->setText(keys);
  askFrame_->setAccessibleName(question);
  if (question.isEmpty()) return;
  const auto& tint = around_.theme.severity(severity);
  colour(askFrame_, QPalette::Window, tint.soft);
  colour(askText_, QPalette::WindowText, tint.text);
  const double ratio = devicePixelRatioF();
  QPixmap shape(QSize(16, 16) * ratio);
  shape.setDevicePixelRatio(ratio);
  shape.fill(tint.soft);
  QPainter painter(&shape);
  painter.setRenderHint(QPainter::Antialiasing);
  paint::paintSeverity(painter, severity, {0, 0, 16, 16}, around_.theme);
  painter.end();
  askShape_->setPixmap(shape);
}

QString StepPanel::asked() const { return askFrame_->isHidden() ? QString() : askText_->text(); }

void StepPanel::complain(const QString& sentence) { setOrHide(complaint_, sentence); }

QString StepPanel::complaint() const { return complaint_->isHidden() ? QString() : complaint_->text(); }

void StepPanel::wantReason(const QString& wanted) {
  reason_ = !wanted.isEmpty();
  if (reason_) {
    reading_->setPlaceholderText(wanted);
    for (QLabel* label : {unit_, band_, bandFrom_, former_}) label->hide();
  }
  fitField();
}

void StepPanel::setLarge(bool large) {
  large_ = large;
  bar_->setVisible(!large && band_ && !band_->text().isEmpty());
  fitField();
}

QString StepPanel::stand() const { return stand_->text(); }
QString StepPanel::band() const { return band_->text(); }
QString StepPanel::last() const { return last_->text(); }
QString StepPanel::former() const { return former_->isHidden() ? QString() : former_->text(); }
QString StepPanel::earlier() const { return earlier_->isHidden() ? QString() : earlier_->text(); }

}  // namespace ww::checks
