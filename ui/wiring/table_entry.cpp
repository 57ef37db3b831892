// SPDX-License-Identifier: GPL-3.0-or-later
// Typing into the conductor table, and what it takes.
#include <QItemSelectionModel>
#include <QStyle>

#include "wiring/conductor_table.h"
#include "wiring/paste.h"
#include "wiring/typed.h"

namespace ww::wiring {

void ConductorTable::beginEdit(const QString& typed) {
  const QModelIndex index = currentIndex();
  if (!index.isValid() || index.column() > ConductorModel::endB) return;
  if (!hand_.canEdit()) return complain(hand_.words("bad.read-only"));
  const auto& row = model_->at(index.row());
  if (!row.conductor && !row.cable) return;
  QString text = typed;
  if (text.isEmpty() && !row.conductor) {
    text = typedForm(hand_.sheet(), *hand_.sheet().cables.find(*row.cable), hand_.around().language);
  } else if (text.isEmpty() && index.column() == ConductorModel::tag) {
    text = index.data().toString();
  } else if (text.isEmpty()) {
    const sheet::Landing landing = landingOf(hand_.sheet(), *model_->endAt(index));
    if (std::holds_alternative<sheet::Capped>(landing)) text = QStringLiteral("*");
    if (std::holds_alternative<sheet::TerminalRef>(landing) || std::holds_alternative<sheet::Splice>(landing))
      text = hand_.landingText(*model_->endAt(index));
  }
  complain({});
  lastLength_ = 0;
  editor_->show();
  editor_->raise();
  placeEditor();
  editor_->setText(text);
  editor_->setFocus(Qt::OtherFocusReason);
  if (typed.isEmpty())
    editor_->selectAll();
  else
    completeTyped(typed);
}

void ConductorTable::cancelEdit() {
  const bool had = editor_->hasFocus();
  editor_->hide();
  complain({});
  if (had) setFocus(Qt::OtherFocusReason);
}

/// Completes the letters in place: what was added is selected, so that the next letter replaces it.
void ConductorTable::completeTyped(const QString& typed) {
  complain({});
  const auto end = endHere();
  const bool grows = static_cast<size_t>(typed.size()) > lastLength_;
  lastLength_ = static_cast<size_t>(typed.size());
  const auto home = end ? homeOf(hand_.sheet(), *end) : std::nullopt;
  if (!home || !grows || editor_->cursorPosition() != typed.size()) return;
  const QString whole = completed(typed, lettersOf(hand_.sheet(), hand_.library(), *home));
  if (whole.isEmpty()) return;
  editor_->setText(whole);
  editor_->setSelection(static_cast<int>(typed.size()), static_cast<int>(whole.size() - typed.size()));
  if (whole.size() == typed.size()) editor_->setCursorPosition(static_cast<int>(typed.size()));
}

QString ConductorTable::takeEnd(EndRef end, const QString& text) {
  const auto home = homeOf(hand_.sheet(), end);
  if (!home) return hand_.words("bad.nothing-there");
  const auto landing =
      landingTyped(text, hand_.sheet(), hand_.around().library, *home, hand_.around().language);
  return landing.value ? hand_.land(end, *landing.value) : landing.complaint;
}

QString ConductorTable::takeColour(sheet::ConductorId conductor, const QString& text) {
  const auto colour = sheet::parseColour(text.trimmed().toStdString());
  if (!colour)
    return hand_.words("bad.colour",
                       {{"typed", text}, {"known", QString::fromLatin1(sheet::kColourCodes.data())}});
  sheet::Sheet next = hand_.sheet();
  sheet::Conductor wire = *next.conductors.find(conductor);
  wire.colour = *colour;
  next.conductors.put(wire);
  return hand_.apply(hand_.words("step.colour", {{"colour", QString::fromStdString(sheet::print(*colour))}}),
                     next);
}

QString ConductorTable::takeCable(sheet::CableId cable, const QString& text) {
  const auto& language = hand_.around().language;
  const auto typed = cableTyped(text, hand_.sheet(), language);
  if (!typed.value) return typed.complaint;
  const auto next = withCableRetyped(hand_.sheet(), cable, *typed.value, language);
  if (!next.value) return next.complaint;
  const sheet::Cable* known = hand_.sheet().cables.find(cable);
  return hand_.apply(
      hand_.words("step.cable-changed", {{"cable", known ? QString::fromStdString(known->name) : QString()}}),
      *next.value);
}

bool ConductorTable::takeEdit() {
  if (!editing()) return true;
  const QModelIndex index = currentIndex();
  const auto& row = model_->at(index.row());
  const QString text = editor_->text();
  QString wrong;
  if (const auto end = model_->endAt(index))
    wrong = takeEnd(*end, text);
  else if (row.conductor)
    wrong = takeColour(*row.conductor, text);
  else if (row.cable)
    wrong = takeCable(*row.cable, text);
  if (wrong.isEmpty()) {
    cancelEdit();
    return true;
  }
  complain(wrong);
  editor_->selectAll();
  return false;
}

void ConductorTable::takeAndGoOn() {
  const QModelIndex from = currentIndex();
  const auto end = model_->endAt(from);
  if (editing()) {
    if (!takeEdit()) return;
  } else if (const auto offer = end ? hand_.ghost(*end) : std::nullopt) {
    if (const QString wrong = hand_.land(*end, *offer); !wrong.isEmpty()) return complain(wrong);
  }
  goTo(nextEnd(from));
}

void ConductorTable::landHere(const sheet::Landing& landing) {
  const QModelIndex from = currentIndex();
  const auto end = model_->endAt(from);
  if (!end) return;
  if (const QString wrong = hand_.land(*end, landing); !wrong.isEmpty()) return complain(wrong);
  goTo(nextEnd(from));
}

void ConductorTable::paste(const QString& text) {
  if (!hand_.canEdit()) return complain(hand_.words("bad.read-only"));
  const auto next = pasted(text, hand_.sheet(), hand_.around().library, cableHere(), conductorHere(),
                           hand_.around().language);
  complain(next.value ? hand_.apply(hand_.words("step.paste"), *next.value) : next.complaint);
}

/// What is chosen in the table becomes what is chosen on the sheet.
void ConductorTable::tellSelection() {
  Selection chosen;
  const QModelIndex current = currentIndex();
  QModelIndexList cells = selectionModel()->selectedIndexes();
  if (cells.isEmpty() && current.isValid()) cells << current;
  if (current.isValid() && model_->isHeading(current.row())) {
    chosen.cable = model_->at(current.row()).cable;
  } else {
    for (const QModelIndex& cell : cells) {
      if (model_->isHeading(cell.row())) continue;
      if (const auto end = model_->endAt(cell))
        chosen.ends.push_back(*end);
      else
        chosen.conductors.insert(*model_->at(cell.row()).conductor);
    }
    // Whole conductors and single ends do not mix: Delete must act on one kind.
    if (!chosen.conductors.empty()) chosen.ends.clear();
  }
  following_ = true;
  hand_.select(chosen);
  following_ = false;
  viewport()->update();
  told_ = sentenceHere();
  if (current.isValid() && hasFocus()) Q_EMIT say(told_);
}

QString ConductorTable::sentenceHere() const {
  const QModelIndex current = currentIndex();
  if (!current.isValid()) return {};
  return model_->isHeading(current.row()) || !conductorHere()
             ? model_->data(current, Qt::AccessibleTextRole).toString()
             : hand_.spoken(*conductorHere());
}

/// What was said of the conductor in front stops being true when it is landed elsewhere or found otherwise.
void ConductorTable::tellAgain() {
  const QString sentence = sentenceHere();
  if (!hasFocus() || sentence.isEmpty() || sentence == told_) return;
  told_ = sentence;
  Q_EMIT say(sentence);
}

/// The cursor follows what was chosen elsewhere.
void ConductorTable::showSelection() {
  viewport()->update();
  if (following_) return;
  const Selection& chosen = hand_.selection();
  QModelIndex wanted;
  if (!chosen.ends.empty())
    wanted = model_->indexOf(chosen.ends.front());
  else if (!chosen.conductors.empty())
    wanted = model_->index(model_->rowOf(*chosen.conductors.begin()), ConductorModel::tag);
  else if (chosen.cable)
    wanted = model_->index(model_->rowOf(*chosen.cable), ConductorModel::tag);
  following_ = true;
  if (wanted.isValid()) {
    goTo(wanted);
    for (size_t i = 1; i < chosen.ends.size(); ++i)
      selectionModel()->select(model_->indexOf(chosen.ends[i]), QItemSelectionModel::Select);
  } else {
    clearSelection();
  }
  following_ = false;
}

}  // namespace ww::wiring
