// SPDX-License-Identifier: GPL-3.0-or-later
// What keys and mouse do on the diagram: choosing, picking up, dropping.
#include <QContextMenuEvent>
#include <QMenu>
#include <utility>

#include "wiring/diagram_view.h"

namespace ww::wiring {

void DiagramView::bindKeys() {
  const auto add = [this](QKeySequence keys, const char* does, std::function<void()> act,
                          std::function<bool()> when = {}) {
    keys_->add(keys, does ? hand_.words(does) : QString(), std::move(act), std::move(when));
  };
  const auto holding = [this] { return picked_ || jumperFrom_; };
  add(Qt::Key_Up, "key.arrows", [this] { move(Towards::up); });
  add(Qt::Key_Down, nullptr, [this] { move(Towards::down); });
  add(Qt::Key_Left, nullptr, [this] { move(Towards::left); });
  add(Qt::Key_Right, nullptr, [this] { move(Towards::right); });
  add(Qt::Key_Return, "key.pick", [this] { enter(); });
  add(Qt::Key_Space, "key.choose", [this] { choose(); });
  add(Qt::Key_Plus, "key.zoom-in", [this] { zoomTo(zoom_ * 1.25); });
  add(Qt::Key_Equal, nullptr, [this] { zoomTo(zoom_ * 1.25); });
  add(Qt::Key_Minus, "key.zoom-out", [this] { zoomTo(zoom_ / 1.25); });
  add(Qt::Key_Home, "key.fit", [this] { fit(); });
  add(Qt::Key_O, "key.open-unit", [this] {
    if (const auto unit = unitInFocus()) Q_EMIT openUnit(*unit);
  });
  add(Qt::Key_Delete, "key.delete", [this] {
    if (picked_) hand_.selectEnd(*picked_);
    letGo();
    if (const QString wrong = hand_.deleteSelected(); !wrong.isEmpty()) Q_EMIT say(wrong);
  });
  add(
      Qt::Key_Escape, nullptr, [this] { letGo(); }, holding);
}

void DiagramView::focusOn(const Spot& spot) {
  focus_ = spot;
  scrollTo(spot.at);
  tellFocus();
  viewport()->update();
}

void DiagramView::focusOn(EndRef end) {
  if (const Spot* spot = picture_.spotOf(end)) focusOn(*spot);
}

void DiagramView::move(Towards towards) {
  if (!focus_) {
    ensureFocus();
    tellFocus();
  } else if (const auto next = picture_.next(focus_->at, towards)) {
    focusOn(picture_.spots()[*next]);
  }
  viewport()->update();
}

/// The chosen end where one of several is, else the first.
std::optional<EndRef> DiagramView::endToPick(const Spot& spot) const {
  const auto ends = picture_.endsAt(spot);
  for (const EndRef& end : ends)
    for (const EndRef& chosen : hand_.selection().ends)
      if (end == chosen) return end;
  for (const EndRef& end : ends)
    if (hand_.selection().conductors.count(end.conductor)) return end;
  return ends.empty() ? std::nullopt : std::optional(ends.front());
}

void DiagramView::enter() {
  if (!focus_) return ensureFocus();
  if (picked_ || jumperFrom_) return dropOn(*focus_);
  if (!hand_.canEdit()) return void(Q_EMIT say(hand_.words("bad.read-only")));
  if (const auto end = endToPick(*focus_))
    pick(*end);
  else
    Q_EMIT say(hand_.words("bad.nothing-to-pick"));
}

void DiagramView::pick(EndRef end) {
  picked_ = end;
  pointer_.reset();
  hand_.selectEnd(end);
  Q_EMIT say(hand_.words("picked", {{"end", hand_.endName(end)}}));
  viewport()->update();
}

void DiagramView::startJumper() {
  if (!focus_ || !focus_->terminal) return void(Q_EMIT say(hand_.words("bad.jumper-screw")));
  picked_.reset();
  jumperFrom_ = focus_->terminal;
  Q_EMIT say(hand_.words("jumper-from", {{"terminal", hand_.spoken(*jumperFrom_)}}));
  viewport()->update();
}

bool DiagramView::letGo() {
  const bool had = picked_ || jumperFrom_;
  picked_.reset();
  jumperFrom_.reset();
  dragging_ = false;
  viewport()->update();
  return had;
}

void DiagramView::dropOn(const Spot& spot) {
  const auto end = std::exchange(picked_, std::nullopt);
  const auto from = std::exchange(jumperFrom_, std::nullopt);
  QString wrong;
  if (end && (spot.terminal || spot.splice)) {
    wrong = spot.terminal ? hand_.land(*end, *spot.terminal) : hand_.land(*end, *spot.splice);
    if (wrong.isEmpty()) hand_.selectEnd(*end);
  } else if (end && spot.hanging && *spot.hanging != *end) {
    wrong = hand_.words("bad.not-a-screw");
  } else if (from && spot.terminal) {
    wrong = hand_.join(*from, *spot.terminal);
  }
  if (const auto at = picture_.indexOf(spot)) focus_ = picture_.spots()[*at];
  viewport()->update();
  if (!wrong.isEmpty())
    Q_EMIT say(wrong);
  else
    tellFocus();
}

/// Space: the next end on the screw is chosen, the unit where the screw is empty.
void DiagramView::choose() {
  if (!focus_) return ensureFocus();
  const auto ends = picture_.endsAt(*focus_);
  if (ends.empty()) {
    if (focus_->terminal) hand_.select({{}, {}, {}, focus_->terminal->unit});
    return;
  }
  size_t at = 0;
  for (size_t i = 0; i < ends.size(); ++i)
    if (hand_.selection().ends == std::vector{ends[i]}) at = (i + 1) % ends.size();
  hand_.selectEnd(ends[at]);
  Q_EMIT say(hand_.spoken(ends[at].conductor));
}

void DiagramView::selectUnder(const Under& under, bool more) {
  Selection chosen = more ? hand_.selection() : Selection();
  if (under.spot) {
    if (const auto end = endToPick(picture_.spots()[*under.spot])) chosen.ends.push_back(*end);
  } else if (under.conductor) {
    chosen.conductors.insert(*under.conductor);
  } else if (under.cable) {
    chosen = {{}, {}, under.cable, {}};
  } else if (under.unit) {
    chosen = {{}, {}, {}, under.unit};
  }
  if (!chosen.conductors.empty()) chosen.ends.clear();
  if (!picture_.previewing()) hand_.select(chosen);
}

/// Whatever the pointer shows, the status bar says.
QString DiagramView::sentenceOf(const Under& under) const {
  if (under.spot) {
    const Spot& spot = picture_.spots()[*under.spot];
    const auto ends = picture_.endsAt(spot);
    if (!ends.empty()) return hand_.spoken(ends.front().conductor);
    return spot.terminal ? hand_.spoken(*spot.terminal) : QString();
  }
  if (under.conductor) return hand_.spoken(*under.conductor);
  if (const auto* cable = under.cable ? hand_.sheet().cables.find(*under.cable) : nullptr)
    return hand_.words("spoken.cable",
                       {{"cable", hand_.cableName(*cable)}, {"landed", hand_.cableCount(*under.cable)}});
  return under.unit ? hand_.unitName(*under.unit) : QString();
}

std::optional<sheet::UnitId> DiagramView::unitUnder(const Under& under) const {
  if (!under.spot) return under.unit;
  const Spot& spot = picture_.spots()[*under.spot];
  if (spot.terminal) return spot.terminal->unit;
  if (spot.splice) return spot.splice->unit;
  return spot.hanging ? homeOf(hand_.sheet(), *spot.hanging) : std::nullopt;
}

std::optional<sheet::UnitId> DiagramView::unitInFocus() const {
  Under under;
  if (focus_) under.spot = picture_.indexOf(*focus_);
  return under.spot ? unitUnder(under) : hand_.selection().unit;
}

void DiagramView::mouseDoubleClickEvent(QMouseEvent* event) {
  const Under under = picture_.under(inDiagram(event->position()), reach());
  if (under.unit) Q_EMIT openUnit(*under.unit);
}

/// By mouse what lies under it, by key what has the keyboard.
void DiagramView::contextMenuEvent(QContextMenuEvent* event) {
  const bool byMouse = event->reason() == QContextMenuEvent::Mouse;
  const Under under = byMouse ? picture_.under(inDiagram(QPointF(event->pos())), reach()) : Under();
  const auto unit = byMouse ? unitUnder(under) : unitInFocus();
  auto* menu = new QMenu(this);
  menu->setAttribute(Qt::WA_DeleteOnClose);
  if (unit)
    menu->addAction(hand_.words("menu.open-unit", {{"unit", hand_.unitName(*unit)}}), Qt::Key_O, this,
                    [this, unit] { Q_EMIT openUnit(*unit); });
  menu->addAction(hand_.words("menu.fit"), Qt::Key_Home, this, &DiagramView::fit);
  const QPoint at =
      byMouse || !focus_ ? event->globalPos() : viewport()->mapToGlobal(onScreen(focus_->at).toPoint());
  menu->popup(at);
}

void DiagramView::tellFocus() {
  if (!focus_) return;
  Under under;
  under.spot = picture_.indexOf(*focus_);
  if (const QString sentence = sentenceOf(under); !sentence.isEmpty()) Q_EMIT say(sentence);
}

}  // namespace ww::wiring
