// SPDX-License-Identifier: GPL-3.0-or-later
#include "control/control_place.h"

#include <QCoreApplication>
#include <QEvent>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QStackedWidget>
#include <algorithm>

#include "control/curve_view.h"
#include "fittings/pieces.h"
#include "fittings/severity_badge.h"
#include "quantity/text.h"
#include "wording/names.h"
#include "wording/settings_text.h"

namespace ww::control {

namespace {

enum Page { kSetting, kWishes };

bool isOpen(const recommend::Setting& setting) {
  return setting.origin == recommend::Origin::toConfirm || setting.origin == recommend::Origin::differs;
}

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

ControlPlace::ControlPlace(const session::Surroundings& surroundings, QWidget* parent)
    : Place(surroundings, parent), keys_(new fittings::KeyMap(this)) {
  setAccessibleName(words("control.view.name"));
  build();
  bindKeys();
  refresh();
}

QString ControlPlace::words(const char* key, const wording::Args& args, std::optional<int> count) const {
  return around_.language.sentence(QLatin1String(key), args, count);
}

std::vector<fittings::KeyLine> ControlPlace::keys() const { return keys_->lines(); }

void ControlPlace::setJob(session::OpenJob* job) {
  if (job_ != nullptr) job_->disconnect(this);
  job_ = job;
  if (job_ != nullptr) {
    connect(job_, &session::OpenJob::edited, this, &ControlPlace::refresh);
    connect(job_, &session::OpenJob::sheetChanged, this, &ControlPlace::refresh);
  }
  shown_.clear();
  refresh();
}

bool ControlPlace::working() const { return job_ != nullptr && !job_->readOnly(); }

const recommend::Setting* ControlPlace::current() const { return settings_.find(rows_->key()); }

void ControlPlace::refresh() {
  settings_ = job_ != nullptr ? recommend::recommend(job_->sheet(), job_->library(), job_->job().control)
                              : recommend::Sheet{};
  const bool any = !settings_.settings.empty();
  rows_->show(settings_);
  rows_->setVisible(any);
  nothing_->setVisible(!any);
  right_->setVisible(any);
  showConflicts();
  showSetting();
  wishes_->show(job_ != nullptr ? job_->job().control.wishes : recommend::Wishes{}, !working());
  const double all = double(settings_.settings.size());
  settled_->setText(
      any ? words("control.view.settled", {{"n", around_.language.number(all - double(settings_.open()), 0)},
                                           {"all", around_.language.number(all, 0)}})
          : QString());
  confirm_->setEnabled(working() && settings_.open() > 0);
  wishesButton_->setEnabled(any);
  Q_EMIT markChanged();
}

void ControlPlace::showConflicts() {
  while (QLayoutItem* item = conflicts_->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  for (const auto& conflict : settings_.conflicts) {
    auto* line = new QWidget;
    auto* row = new QHBoxLayout(line);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(10);
    auto* badge = new fittings::SeverityBadge(around_.theme);
    badge->setJudgement(paint::shapeOf(conflict.severity),
                        wording::severityName(around_.language, conflict.severity));
    QLabel* text = fittings::paragraph(wording::conflictText(around_.language, conflict));
    row->addWidget(badge, 0, Qt::AlignTop);
    row->addWidget(text, 1);
    conflicts_->addWidget(line);
  }
  conflictsBox_->setVisible(!settings_.conflicts.empty());
}

QString ControlPlace::conflictsText() const {
  QStringList texts;
  for (const auto& conflict : settings_.conflicts) texts << wording::conflictText(around_.language, conflict);
  return texts.join(u'\n');
}

QString ControlPlace::complaint() const { return complaint_->isHidden() ? QString() : complaint_->text(); }
QString ControlPlace::whyText() const { return why_->text(); }

void ControlPlace::showSetting() {
  const recommend::Setting* setting = current();
  complaint_->hide();
  shown_ = setting != nullptr ? setting->key : std::string();
  if (setting == nullptr) return;
  const auto& language = around_.language;
  title_->setText(wording::settingName(language, setting->key));
  why_->setText(wording::settingReason(language, *setting));
  wrong_->setText(wording::settingIfWrong(language, *setting));
  source_->setText(wording::settingSource(language, *setting));
  noteText_->setText(q(setting->note));
  noteText_->setVisible(!setting->note.empty());
  noteLabel_->setVisible(!setting->note.empty());
  value_->setSetting(setting->key, setting->value);
  note_->setText(q(setting->note));
  for (QWidget* widget :
       {static_cast<QWidget*>(value_), static_cast<QWidget*>(note_), static_cast<QWidget*>(override_)})
    widget->setEnabled(working());
  back_->setEnabled(working() &&
                    (setting->value != setting->derived || setting->origin == recommend::Origin::confirmed));
  showCurve(*setting);
  // At once, so that no text is ever seen in the room that another one had.
  QEvent request(QEvent::LayoutRequest);
  QCoreApplication::sendEvent(settingPane_, &request);
}

void ControlPlace::showCurve(const recommend::Setting& setting) {
  const bool cycles = setting.key.starts_with("cycles.");
  curve_->setVisible(cycles);
  if (!cycles) return;
  const auto& language = around_.language;
  const double most = quantity::parseNumber(setting.value).value_or(1);
  curve_->setAccessibleName(
      words("control.view.curve", {{"duty", wording::dutyName(language, setting.key.substr(7))}}));
  curve_->show(paint::cyclePicture(language, most, recommend::offTimeOf(settings_, setting)));
}

void ControlPlace::enter() {
  const recommend::Setting* here = current();
  if (here == nullptr || !isOpen(*here))
    for (const auto& setting : settings_.settings)
      if (isOpen(setting)) {
        rows_->choose(setting.key);
        break;
      }
  rows_->setFocus();
}

fittings::StageMark ControlPlace::mark() const {
  fittings::StageMark mark;
  mark.count = working() ? int(settings_.open()) : 0;  // a closed job has nothing left to confirm
  if (mark.count > 0) mark.severity = paint::Severity::note;
  for (const auto& conflict : settings_.conflicts)
    if (conflict.severity > verify::Severity::note) {
      mark.severity = paint::shapeOf(conflict.severity);  // the worst stands first
      mark.count = std::max(mark.count, 1);
      break;
    }
  return mark;
}

bool ControlPlace::stepOut() {
  if (right_->currentIndex() == kSetting && (rows_->hasFocus() || !rows_->isVisible())) return false;
  right_->setCurrentIndex(kSetting);
  wishesButton_->setChecked(false);
  showSetting();
  rows_->setFocus();
  return true;
}

void ControlPlace::bring(const QString& what) { rows_->choose(what.toStdString()); }

std::vector<QWidget*> ControlPlace::panes() {
  if (right_->currentIndex() == kWishes) return {rows_, wishes_->field("changeover")};
  return {rows_, value_};
}

void ControlPlace::nextOpen(const std::string& after) {
  bool passed = false;
  const recommend::Setting* first = nullptr;
  for (const auto& setting : settings_.settings) {
    if (isOpen(setting)) {
      if (first == nullptr) first = &setting;
      if (passed) return rows_->choose(setting.key);
    }
    passed = passed || setting.key == after;
  }
  if (first != nullptr)
    rows_->choose(first->key);
  else
    Q_EMIT say(words("control.view.all-done"));
}

void ControlPlace::confirmNext() {
  if (!working()) return;
  const recommend::Setting* setting = current();
  const std::string at = setting != nullptr ? setting->key : std::string();
  if (setting != nullptr && isOpen(*setting)) {
    const recommend::Setting copy = *setting;
    keep("control.view.edit.confirm", copy, copy.derived, true, {});
  }
  nextOpen(at);
}

void ControlPlace::overrideIt() {
  const recommend::Setting* setting = current();
  if (!working() || setting == nullptr) return;
  const auto complain = [&](const QString& text, QWidget* field) {
    complaint_->setText(text);
    complaint_->show();
    field->setFocus();
  };
  const auto value = value_->value();
  if (!value || value->empty())
    return complain(words("control.view.bad.value", {{"choices", value_->takes()}}), value_);
  const QString note = note_->text().trimmed();
  if (note.isEmpty() && *value != setting->derived) return complain(words("control.view.bad.note"), note_);
  const recommend::Setting copy = *setting;
  keep("control.view.edit.value", copy, *value, true, note);
  rows_->setFocus();
}

void ControlPlace::takeBack() {
  const recommend::Setting* setting = current();
  if (!working() || setting == nullptr) return;
  const recommend::Setting copy = *setting;
  keep("control.view.edit.back", copy, copy.derived, false, {});
}

void ControlPlace::keep(const char* name, const recommend::Setting& setting, const std::string& value,
                        bool chosen, const QString& note) {
  session::Undoable next = session::undoableOf(job_->job());
  if (setting.wired && value != setting.value) {
    auto sheet = recommend::withValue(job_->sheet(), job_->library(), setting.key, value);
    switch (job_->sheetInHand()) {
      case job::SheetState::asFound: next.asFound = std::move(sheet); break;
      case job::SheetState::planned: next.planned = std::move(sheet); break;
      case job::SheetState::asLeft: next.asLeft = std::move(sheet); break;
    }
  }
  const std::string by =
      !job_->job().installer.empty() ? job_->job().installer : around_.preferences.installer;
  if (chosen)
    next.control.put({setting.key, value, note.toStdString(), by, around_.now()});
  else
    next.control.drop(setting.key);
  job_->edit(words(name), next);
}

void ControlPlace::toggleWishes() {
  if (settings_.settings.empty()) return;
  const bool wishes = right_->currentIndex() == kSetting;
  right_->setCurrentIndex(wishes ? kWishes : kSetting);
  wishesButton_->setChecked(wishes);
  if (wishes)
    wishes_->field("changeover")->setFocus(Qt::ShortcutFocusReason);
  else
    rows_->setFocus();
}

void ControlPlace::keepWishes(const recommend::Wishes& wishes) {
  if (!working()) return;
  session::Undoable next = session::undoableOf(job_->job());
  next.control.wishes = wishes;
  job_->edit(words("control.view.edit.wish"), next);
}

}  // namespace ww::control
