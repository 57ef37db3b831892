// SPDX-License-Identifier: GPL-3.0-or-later
// The keys of the stage, wherever in it the focus is.
#include <QApplication>

#include "wiring/wiring_place.h"

namespace ww::wiring {

void WiringPlace::bindKeys() {
  const auto add = [this](QKeySequence keys, const char* does, std::function<void()> act) {
    keys_->add(keys, does ? hand_->words(does) : QString(), std::move(act));
  };
  const auto readOnly = [this] {
    if (hand_->canEdit()) return false;
    told(hand_->words("bad.read-only"));
    return true;
  };
  for (int n = 0; n < 10; ++n)
    add(Qt::CTRL | static_cast<Qt::Key>(Qt::Key_0 + n),
        n == 0   ? "key.rest"
        : n == 1 ? "key.calls"
                 : nullptr,
        [this, n] { calls_->showCall(n); });
  add(Qt::CTRL | Qt::Key_PageUp, "key.previous-call", [this] { calls_->step(-1); });
  add(Qt::CTRL | Qt::Key_PageDown, "key.next-call", [this] { calls_->step(1); });
  add(Qt::Key_F3, "key.next-finding", [this] { findings_->step(1); });
  add(Qt::SHIFT | Qt::Key_F3, "key.previous-finding", [this] { findings_->step(-1); });
  add(Qt::Key_F4, "key.mends", [this] { findings_->toMends(); });
  add(Qt::Key_F5, "key.propose", [this] { propose(); });
  add(Qt::Key_F8, "key.listing", [this] { showListing(!showsListing()); });
  add(Qt::Key_Insert, "key.insert", [this, readOnly] {
    if (!readOnly()) insert();
  });
  add(Qt::CTRL | Qt::Key_J, "key.jumper", [this, readOnly] {
    if (!readOnly()) jumper();
  });
  add(Qt::CTRL | Qt::Key_B, "key.same", [this] {
    const auto touched = hand_->selection().touched();
    if (touched.empty()) return told(hand_->words("bad.nothing-chosen"));
    if (table_->hasFocus()) table_->cancelEdit();
    told(hand_->sameAtB(*touched.begin()));
  });
  add(Qt::CTRL | Qt::SHIFT | Qt::Key_X, "key.swap", [this] { told(hand_->swapSelected()); });
}

std::vector<fittings::KeyLine> WiringPlace::keys() const {
  std::vector<fittings::KeyLine> all = keys_->lines();
  for (const auto* more : {&table_->keyMap(), &diagram_->keyMap()})
    for (const auto& line : more->lines()) all.push_back(line);
  for (const auto& line : findings_->keys()) all.push_back(line);
  return all;
}

void WiringPlace::propose() {
  if (!hand_->canEdit()) return told(hand_->words("bad.read-only"));
  told(hand_->propose());
}

/// A new cable goes beside the one the cursor is on, where a cable is there already; else where one is
/// missing.
void WiringPlace::insert() { entry_->askForNew(nextPair(hand_->sheet(), hand_->library())); }

void WiringPlace::jumper() {
  if (diagram_->hasFocus()) return diagram_->startJumper();
  std::optional<sheet::UnitId> unit;
  if (const auto end = table_->endHere()) unit = homeOf(hand_->sheet(), *end);
  if (!unit && table_->conductorHere()) unit = homeOf(hand_->sheet(), {*table_->conductorHere(), true});
  if (const sheet::Cable* cable =
          !unit && table_->cableHere() ? hand_->sheet().cables.find(*table_->cableHere()) : nullptr)
    unit = cable->endA;
  if (!unit) return told(hand_->words("bad.jumper-where"));
  entry_->askForJumper(*unit);
}

}  // namespace ww::wiring
