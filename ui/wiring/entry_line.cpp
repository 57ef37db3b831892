// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/entry_line.h"

#include <QCompleter>
#include <QVBoxLayout>

#include "fittings/key_map.h"
#include "fittings/pieces.h"
#include "fittings/style.h"
#include "sheet/systems.h"
#include "wiring/typed.h"
#include "wording/names.h"

namespace ww::wiring {

EntryLine::EntryLine(InHand& hand, QWidget* parent)
    : QFrame(parent),
      hand_(hand),
      question_(fittings::label({}, nullptr, this)),
      field_(new QLineEdit(this)),
      wrong_(fittings::label({}, "status-alarm", this)) {
  fittings::setRole(this, "sunk");
  setAttribute(Qt::WA_StyledBackground);
  auto* column = new QVBoxLayout(this);
  column->setContentsMargins(16, 8, 16, 8);
  column->setSpacing(4);
  column->addWidget(question_);
  column->addWidget(field_);
  column->addWidget(wrong_);
  question_->setWordWrap(true);
  question_->setBuddy(field_);
  wrong_->setWordWrap(true);
  wrong_->hide();
  auto* keys = new fittings::KeyMap(this);
  keys->add(Qt::Key_Return, {}, [this] { take(); });
  keys->add(Qt::Key_Escape, {}, [this] { close(); });
  connect(field_, &QLineEdit::textEdited, this, [this] { wrong_->hide(); });
  hide();
}

void EntryLine::ask(const QString& question, const QStringList& offers,
                    std::function<QString(const QString&)> take) {
  question_->setText(question);
  field_->setAccessibleName(question);
  field_->clear();
  wrong_->clear();
  wrong_->hide();
  field_->setCompleter(nullptr);
  delete std::exchange(offers_, nullptr);
  if (!offers.isEmpty()) {
    offers_ = new QCompleter(offers, this);
    offers_->setCaseSensitivity(Qt::CaseInsensitive);
    offers_->setCompletionMode(QCompleter::InlineCompletion);
    field_->setCompleter(offers_);
  }
  take_ = std::move(take);
  show();
  field_->setFocus(Qt::OtherFocusReason);
}

void EntryLine::close() {
  if (!isVisible()) return;
  hide();
  take_ = nullptr;
  Q_EMIT closed(false);
}

void EntryLine::take() {
  if (!take_) return;
  const auto act = take_;
  const QString wrong = act(field_->text());
  if (!wrong.isEmpty()) {
    wrong_->setText(wrong);
    wrong_->show();
    field_->setAccessibleDescription(wrong);
    field_->selectAll();
    return;
  }
  hide();
  take_ = nullptr;
  Q_EMIT closed(true);
}

void EntryLine::askForNew(std::optional<std::pair<sheet::UnitId, sheet::UnitId>> usual) {
  QStringList titles;
  for (const auto& [id, profile] : hand_.around().library.profiles)
    if (profile->kind != equipment::Kind::refused)
      titles << wording::inLanguage(hand_.around().language, profile->title);
  titles.sort(Qt::CaseInsensitive);
  const QString question = usual ? hand_.words("entry.new-between", {{"a", hand_.unitName(usual->first)},
                                                                     {"b", hand_.unitName(usual->second)}})
                                 : hand_.words("entry.new");
  ask(question, titles, [this, usual](const QString& text) { return addNew(text, usual); });
}

QString EntryLine::addUnit(const equipment::Profile& profile) {
  sheet::Sheet next = hand_.sheet();
  sheet::Unit unit;
  unit.tag = sheet::freeTag(next, profile);
  unit.profile = profile.id;
  next.addUnit(unit);
  return hand_.apply(
      hand_.words("step.unit", {{"unit", wording::inLanguage(hand_.around().language, profile.title)}}),
      next);
}

QString EntryLine::addNew(const QString& text, std::optional<std::pair<sheet::UnitId, sheet::UnitId>> usual) {
  const auto& language = hand_.around().language;
  const QString typed = text.trimmed();
  if (typed.isEmpty()) return hand_.words("bad.cable-empty");
  const equipment::Profile* unit = nullptr;
  int like = 0;
  for (const auto& [id, profile] : hand_.around().library.profiles) {
    const QString title = wording::inLanguage(language, profile->title);
    if (title.compare(typed, Qt::CaseInsensitive) == 0) return addUnit(*profile);
    if (!title.contains(typed, Qt::CaseInsensitive)) continue;
    ++like;
    unit = profile.get();
  }
  const auto cable = cableTyped(typed, hand_.sheet(), language);
  if (!cable.value) return like == 1 ? addUnit(*unit) : cable.complaint;
  const auto next = withTypedCable(hand_.sheet(), *cable.value, usual, language);
  if (!next.value) return next.complaint;
  return hand_.apply(
      hand_.words("step.cable", {{"cable", QString::fromStdString(freeCableName(hand_.sheet()))}}),
      *next.value);
}

void EntryLine::askForJumper(sheet::UnitId unit) {
  ask(hand_.words("entry.jumper", {{"unit", hand_.unitName(unit)}}), {},
      [this, unit](const QString& text) { return addJumper(unit, text); });
}

QString EntryLine::addJumper(sheet::UnitId unit, const QString& text) {
  const QStringList letters = text.split(u' ', Qt::SkipEmptyParts);
  if (letters.size() != 2) return hand_.words("bad.jumper-two");
  std::vector<sheet::TerminalRef> ends;
  for (const QString& each : letters) {
    const auto landing =
        landingTyped(each, hand_.sheet(), hand_.around().library, unit, hand_.around().language);
    if (!landing.value) return landing.complaint;
    const auto* terminal = std::get_if<sheet::TerminalRef>(&*landing.value);
    if (!terminal) return hand_.words("bad.jumper-two");
    ends.push_back(*terminal);
  }
  return hand_.join(ends[0], ends[1]);
}

}  // namespace ww::wiring
