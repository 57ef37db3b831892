// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/findings_strip.h"

#include <QHBoxLayout>
#include <QScrollArea>
#include <QStackedWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

#include "document/functions.h"
#include "fittings/pieces.h"
#include "fittings/severity_badge.h"
#include "fittings/style.h"
#include "wiring/finding_delegate.h"
#include "wording/sentences.h"

namespace ww::wiring {

namespace {

constexpr std::array kWorstFirst{verify::Severity::stop, verify::Severity::fail, verify::Severity::warn,
                                 verify::Severity::note};

QString q(const std::string& text) { return QString::fromStdString(text); }

}  // namespace

void FindingsStrip::setOpen(bool open) {
  if (open == open_) return;
  open_ = open;
  line_->setVisible(!open);
  pages_->setVisible(open);
  if (open) {
    showChosen(false);
  } else {
    endPreview();
    finder_->forget();
    asked_.reset();
    entry_->close();
    Q_EMIT closed();
  }
}

void FindingsStrip::step(int by) {
  const int count = list_->count();
  if (count == 0) {
    setOpen(true);
    Q_EMIT say(hand_.words("no-findings"));
    return;
  }
  const bool was = open_;
  setOpen(true);
  const int now = list_->currentRow();
  list_->setCurrentRow(was && now >= 0 ? (now + by + count) % count : std::max(0, now));
  list_->setFocus(Qt::OtherFocusReason);
  showChosen(true);
}

void FindingsStrip::choose(const std::string& key) {
  for (size_t i = 0; i < keysShown_.size(); ++i)
    if (keysShown_[i] == key) {
      setOpen(true);
      list_->setCurrentRow(static_cast<int>(i));
      showChosen(true);
    }
}

void FindingsStrip::toMends() {
  if (!open_) step(0);
  if (mends_->count() == 0) {
    Q_EMIT say(mendState_->text());
    return;
  }
  if (mends_->currentRow() < 0) mends_->setCurrentRow(0);
  mends_->setFocus(Qt::OtherFocusReason);
}

bool FindingsStrip::stepOut() {
  if (entry_->open()) {
    entry_->close();
    return true;
  }
  if (previewed_ >= 0) {
    endPreview();
    return true;
  }
  if (!open_) return false;
  setOpen(false);
  return true;
}

void FindingsStrip::takeFindings() {
  filling_ = true;
  keysShown_.clear();
  list_->clear();
  int row = -1;
  if (hand_.job())
    for (const verify::Finding* finding : hand_.job()->openFindings()) {
      keysShown_.push_back(verify::keyOf(*finding));
      if (keysShown_.back() == key_) row = list_->count();
      auto* item = new QListWidgetItem(list_);
      const auto& language = hand_.around().language;
      const QString title = wording::findingTitle(language, *finding, hand_.context());
      QStringList places;
      for (const verify::Place& place : finding->places)
        if (const QString name = wording::placeName(language, hand_.context(), place); !name.isEmpty())
          if (places.size() < 3 && !places.contains(name)) places << name;
      item->setText(title);
      item->setData(FindingDelegate::placesRole, places.join(QStringLiteral(" · ")));
      item->setData(FindingDelegate::severityRole, static_cast<int>(finding->severity));
      const QString word = wording::severityName(language, finding->severity);
      item->setData(FindingDelegate::wordRole, word);
      item->setData(Qt::AccessibleTextRole,
                    hand_.words("spoken.finding-row", {{"severity", word}, {"title", title}}));
      item->setToolTip(title);
    }
  list_->setCurrentRow(row >= 0 ? row : list_->count() > 0 ? 0 : -1);
  count_->setText(hand_.around().language.number(list_->count(), 0));
  filling_ = false;
  takeLine();
  if (open_) showChosen(false);
  announceNewStops();
}

/// What can hurt people is said by itself: once when it appears, not at every edit that leaves it there, and
/// not for what a job was opened with.
void FindingsStrip::announceNewStops() {
  if (!hand_.job() || hand_.checking()) return;
  std::set<std::string> now;
  const verify::Finding* first = nullptr;
  int fresh = 0;
  for (const verify::Finding* finding : hand_.job()->openFindings()) {
    if (finding->severity != verify::Severity::stop) continue;
    const std::string key = verify::keyOf(*finding);
    now.insert(key);
    if (!stops_ || stops_->count(key)) continue;
    if (++fresh == 1) first = finding;
  }
  stops_ = std::move(now);
  if (!first || !hand_.around().announce) return;
  const auto& language = hand_.around().language;
  hand_.around().announce(hand_.words("spoken.new-stops",
                                      {{"title", wording::findingTitle(language, *first, hand_.context())},
                                       {"what", wording::findingWhat(language, *first, hand_.context())}},
                                      fresh));
}

void FindingsStrip::takeLine() {
  while (QLayoutItem* item = badges_->takeAt(0)) {
    delete item->widget();
    delete item;
  }
  std::map<verify::Severity, int> counts;
  const verify::Finding* first = nullptr;
  if (hand_.job())
    for (const verify::Finding* finding : hand_.job()->openFindings()) {
      ++counts[finding->severity];
      if (!first) first = finding;
    }
  const auto& language = hand_.around().language;
  for (const verify::Severity severity : kWorstFirst)
    if (counts[severity] > 0) {
      auto* badge = new fittings::SeverityBadge(hand_.around().theme, line_);
      badge->setJudgement(paint::shapeOf(severity),
                          hand_.words(QStringLiteral("count.") + q(std::string(verify::idOf(severity))),
                                      {{"n", language.number(counts[severity], 0)}}, counts[severity]));
      badges_->addWidget(badge);
    }
  if (!first && hand_.job() && !hand_.sheet().conductors.empty() && hand_.hasCalls() && !hand_.checking()) {
    auto* badge = new fittings::SeverityBadge(hand_.around().theme, line_);
    badge->setJudgement(paint::Severity::right, hand_.words("all-right"));
    badges_->addWidget(badge);
  }
  sentence_->setWhole(hand_.checking() ? hand_.words("checking-sheet")
                      : first          ? wording::findingWhat(language, *first, hand_.context())
                      : hand_.sheet().conductors.empty() ? hand_.words("nothing-to-check")
                      : hand_.hasCalls()                 ? hand_.words("no-findings")
                                                         : hand_.words("no-calls"));
}

const verify::Finding* FindingsStrip::chosen() const {
  const int row = list_->currentRow();
  if (row < 0 || !hand_.job()) return nullptr;
  for (const verify::Finding* finding : hand_.job()->openFindings())
    if (verify::keyOf(*finding) == keysShown_[static_cast<size_t>(row)]) return finding;
  return nullptr;
}

Selection FindingsStrip::placesOf(const verify::Finding& finding) const {
  Selection places;
  for (const verify::Place& place : finding.places) {
    if (place.conductor != sheet::ConductorId{} && place.end != 0)
      places.ends.push_back({place.conductor, place.end == 'A'});
    else if (place.conductor != sheet::ConductorId{})
      places.conductors.insert(place.conductor);
    else if (!place.terminal.empty())
      for (const sheet::Conductor& wire : hand_.sheet().conductors) {
        const sheet::Landing here = sheet::TerminalRef{place.unit, place.terminal};
        if (wire.endA == here || wire.endB == here) places.conductors.insert(wire.id);
      }
    else if (place.unit != sheet::UnitId{})
      places.unit = place.unit;
  }
  for (const sheet::ConductorId odd : hand_.crossedOn(finding)) places.conductors.insert(odd);
  if (!places.conductors.empty()) places.ends.clear();
  if (!places.conductors.empty() || !places.ends.empty()) places.unit.reset();
  return places;
}

void FindingsStrip::showChosen(bool byPerson) {
  const verify::Finding* finding = chosen();
  const std::string key = finding ? verify::keyOf(*finding) : std::string();
  if (byPerson || key != key_) endPreview();
  key_ = key;
  const auto& language = hand_.around().language;
  what_->setText(finding ? wording::findingWhat(language, *finding, hand_.context())
                         : hand_.words("no-findings"));
  const QString why = finding ? wording::findingWhy(language, *finding, hand_.context()) : QString();
  why_->setText(why);
  why_->setVisible(!why.isEmpty());
  whyCaption_->setVisible(!why.isEmpty());
  const bool may = finding && finding->severity <= verify::Severity::warn && hand_.canEdit();
  accept_->setVisible(may);
  askForMends();
  if (!byPerson || !finding) return;
  for (const verify::Place& place : finding->places)
    if (!place.call.empty()) {
      hand_.job()->setCall(place.call);
      break;
    }
  hand_.select(placesOf(*finding));
  Q_EMIT say(list_->currentItem()->data(Qt::AccessibleTextRole).toString());
}

/// Mends are searched for the whole sheet once; each finding shows those that clear it.
void FindingsStrip::askForMends() {
  const verify::Finding* finding = chosen();
  if (!finding || !open_ || hand_.checking() || !hand_.canEdit()) {
    finder_->forget();
    asked_.reset();
    all_.clear();
    showMends();
    mendState_->setText(finding && hand_.checking() ? hand_.words("checking-sheet") : QString());
    return;
  }
  if (asked_ == hand_.sheet()) return showMends();
  asked_ = hand_.sheet();
  all_.clear();
  const auto& job = hand_.job()->job();
  finder_->ask({hand_.sheet(), hand_.job()->check(), {job.lowLine, job.highLine}, hand_.library()});
  showMends();
}

void FindingsStrip::takeMends(const std::vector<Mend>& mends) {
  all_ = mends;
  showMends();
}

void FindingsStrip::showMends() {
  found_.clear();
  mends_->clear();
  for (const Mend& mend : all_)
    if (mend.clears.empty() || std::find(mend.clears.begin(), mend.clears.end(), key_) != mend.clears.end())
      found_.push_back(mend);
  for (const Mend& mend : found_) {
    auto* item = new QListWidgetItem(mend.act, mends_);
    item->setToolTip(mend.act);
    item->setData(FindingDelegate::placesRole, mend.effect);
    item->setData(Qt::AccessibleTextRole,
                  hand_.words("mends.spoken", {{"act", mend.act}, {"effect", mend.effect}}));
  }
  mends_->setVisible(!found_.empty());
  int height = 4;
  for (int row = 0; row < mends_->count(); ++row) height += mends_->sizeHintForRow(row);
  mends_->setFixedHeight(height);
  if (!found_.empty()) mends_->setCurrentRow(0);
  fitMendRow();
  mendState_->setText(hand_.words(finder_->searching() ? "mends.searching"
                                  : found_.empty()     ? "mends.none"
                                                       : "mends.keys"));
}

/// A way that takes hardware is told and changes nothing.
void FindingsStrip::fitMendRow() {
  const int row = mends_->currentRow();
  const bool does =
      row >= 0 && row < static_cast<int>(found_.size()) && found_[static_cast<size_t>(row)].after.has_value();
  for (QPushButton* button : {preview_, apply_}) {
    button->setVisible(!found_.empty());
    button->setEnabled(does);
  }
}

void FindingsStrip::previewMend() {
  const int row = mends_->currentRow();
  if (row < 0 || row >= static_cast<int>(found_.size())) return;
  if (previewed_ == row) return endPreview();
  if (!found_[static_cast<size_t>(row)].after) return;
  previewed_ = row;
  Q_EMIT preview(found_[static_cast<size_t>(row)].after);
  Q_EMIT say(hand_.words("mends.previewed", {{"n", hand_.around().language.number(row + 1, 0)},
                                             {"all", hand_.around().language.number(mends_->count(), 0)}}));
}

void FindingsStrip::endPreview() {
  if (previewed_ < 0) return;
  previewed_ = -1;
  Q_EMIT preview(std::nullopt);
}

void FindingsStrip::applyMend() {
  const int row = mends_->currentRow();
  if (row < 0 || row >= static_cast<int>(found_.size())) return;
  const Mend mend = found_[static_cast<size_t>(row)];
  if (!mend.after) return;
  endPreview();
  const QString wrong = hand_.apply(mend.act, *mend.after);
  Q_EMIT say(wrong.isEmpty() ? hand_.words("mends.done", {{"act", mend.act}}) : wrong);
  list_->setFocus(Qt::OtherFocusReason);
}

void FindingsStrip::acceptChosen() {
  const verify::Finding* finding = chosen();
  if (!finding || finding->severity > verify::Severity::warn) return;
  const std::string key = verify::keyOf(*finding);
  const char* severity = finding->severity == verify::Severity::warn ? "warn" : "note";
  entry_->ask(hand_.words("accept.question", {{"title", list_->currentItem()->text()}}), {},
              [this, key, severity](const QString& text) {
                const QString note = text.trimmed();
                if (note.isEmpty()) return hand_.words("bad.note-empty");
                const auto& around = hand_.around();
                const std::string by = hand_.job()->job().installer.empty() ? around.preferences.installer
                                                                            : hand_.job()->job().installer;
                const bool done = hand_.job()->accept(
                    {around.newId(), key, severity, note.toStdString(), by, around.now()});
                return done ? QString() : hand_.words("bad.read-only");
              });
}

QString FindingsStrip::shownText() const {
  return QStringList{what_->text(), why_->text(), mendState_->text()}.join(u'\n');
}

}  // namespace ww::wiring
