// SPDX-License-Identifier: GPL-3.0-or-later
#include "fittings/key_map.h"

#include <QApplication>
#include <QKeyEvent>
#include <QPointer>

namespace ww::fittings {

namespace {

/// The keys as a sequence of one; keypad and shifted symbols ("+", "*") count as the symbol itself.
QKeySequence sequenceOf(const QKeyEvent& event) {
  Qt::KeyboardModifiers held = event.modifiers() & ~Qt::KeypadModifier;
  int key = event.key();
  if (key == Qt::Key_Backtab) {
    key = Qt::Key_Tab;
    held |= Qt::ShiftModifier;
  }
  if (key == Qt::Key_Enter) key = Qt::Key_Return;
  const bool symbol = key > Qt::Key_Space && key < Qt::Key_A;
  if (symbol && !(held & (Qt::ControlModifier | Qt::AltModifier))) held &= ~Qt::ShiftModifier;
  return {static_cast<int>(held) | key};
}

}  // namespace

/// One filter over the application finds the nearest context of the focused widget that takes the key.
class KeyFilter : public QObject {
 public:
  explicit KeyFilter(QObject* parent) : QObject(parent) { qApp->installEventFilter(this); }

  bool eventFilter(QObject* watched, QEvent* event) override {
    const bool asks = event->type() == QEvent::ShortcutOverride;
    if (!asks && event->type() != QEvent::KeyPress) return false;
    auto* widget = qobject_cast<QWidget*>(watched);
    if (!widget) return false;
    for (; widget; widget = widget->isWindow() ? nullptr : widget->parentWidget()) {
      for (QObject* child : widget->children()) {
        auto* map = dynamic_cast<KeyMap*>(child);
        const KeyMap::Binding* binding = map ? map->find(static_cast<QKeyEvent&>(*event)) : nullptr;
        if (!binding) continue;
        event->accept();
        // Asked first whether the key is taken; the press that follows does it.
        if (!asks) std::function<void()>(binding->act)();
        return true;
      }
    }
    return false;
  }
};

KeyMap::KeyMap(QWidget* context) : QObject(context) {
  static QPointer<KeyFilter> filter;
  if (!filter) filter = new KeyFilter(qApp);
}

KeyMap::~KeyMap() = default;

void KeyMap::add(const QKeySequence& keys, const QString& does, std::function<void()> act,
                 std::function<bool()> when) {
  bindings_.push_back({keys, does, std::move(act), std::move(when)});
}

const KeyMap::Binding* KeyMap::find(const QKeyEvent& event) const {
  const QKeySequence pressed = sequenceOf(event);
  for (const Binding& binding : bindings_)
    if (binding.keys == pressed && (!binding.when || binding.when())) return &binding;
  return nullptr;
}

std::vector<KeyLine> KeyMap::lines() const {
  std::vector<KeyLine> result;
  for (const Binding& binding : bindings_)
    if (!binding.does.isEmpty()) result.push_back({binding.keys, binding.does});
  return result;
}

std::vector<QKeySequence> KeyMap::all() const {
  std::vector<QKeySequence> result;
  for (const Binding& binding : bindings_) result.push_back(binding.keys);
  return result;
}

}  // namespace ww::fittings
