// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QKeySequence>
#include <QObject>
#include <functional>
#include <vector>

#include "fittings/place.h"

class QKeyEvent;

namespace ww::fittings {

/// The keys of one context: a widget and everything in it that has no nearer context with the same key. Keys
/// are taken before a focused field can eat them (Delete, Space, Home, Ctrl+Z, Ctrl+A ...).
class KeyMap : public QObject {
  Q_OBJECT
 public:
  /// Works as long as `context` lives, which owns it.
  explicit KeyMap(QWidget* context);
  ~KeyMap() override;

  /// `does`: for the list of keys; empty leaves the key out of it. With `when` false the key goes on, to the
  /// focused widget or to a wider context.
  void add(const QKeySequence& keys, const QString& does, std::function<void()> act,
           std::function<bool()> when = {});
  std::vector<KeyLine> lines() const;
  /// Every key bound, those without a line included; a key that stands twice is two entries.
  std::vector<QKeySequence> all() const;

 private:
  friend class KeyFilter;
  struct Binding {
    QKeySequence keys;
    QString does;
    std::function<void()> act;
    std::function<bool()> when;
  };
  const Binding* find(const QKeyEvent& event) const;

  std::vector<Binding> bindings_;
};

}  // namespace ww::fittings
