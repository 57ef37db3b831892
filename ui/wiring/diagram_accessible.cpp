// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/diagram_accessible.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QPointer>
#include <algorithm>
#include <array>
#include <memory>

#include "wiring/diagram_view.h"
#include "wiring/outline.h"

namespace ww::wiring {

namespace {

/// One level of the outline. The diagram's own interface owns the tree and builds it anew after each change,
/// so that a node never outlives what it speaks of while it is asked.
class Node : public QAccessibleInterface {
 public:
  Node(DiagramView* view, QAccessibleInterface* parent, QAccessible::Role role, QString text)
      : view_(view), parent_(parent), role_(role), text_(std::move(text)) {
    QAccessible::registerAccessibleInterface(this);
  }
  void forget() {
    for (Node* child : children_) child->forget();
    QAccessible::deleteAccessibleInterface(QAccessible::uniqueId(this));
  }
  Node* add(QAccessible::Role role, QString text) {
    children_.push_back(new Node(view_, this, role, std::move(text)));
    return children_.back();
  }

  bool isValid() const override { return !view_.isNull(); }
  QObject* object() const override { return nullptr; }
  QAccessibleInterface* parent() const override { return parent_; }
  QAccessibleInterface* child(int index) const override {
    return index >= 0 && index < childCount() ? children_[static_cast<size_t>(index)] : nullptr;
  }
  int childCount() const override { return static_cast<int>(children_.size()); }
  int indexOfChild(const QAccessibleInterface* child) const override {
    const auto at = std::find(children_.begin(), children_.end(), child);
    return at == children_.end() ? -1 : static_cast<int>(at - children_.begin());
  }
  QAccessibleInterface* childAt(int x, int y) const override {
    for (Node* child : children_)
      if (child->rect().contains(x, y)) return child;
    return nullptr;
  }
  QString text(QAccessible::Text kind) const override {
    return kind == QAccessible::Name || kind == QAccessible::Description ? text_ : QString();
  }
  void setText(QAccessible::Text, const QString&) override {}
  QAccessible::Role role() const override { return role_; }
  QAccessible::State state() const override {
    QAccessible::State state;
    state.readOnly = true;
    state.selectable = state.focusable = true;
    if (view_ && end) {
      const auto touched = view_->hand().selection().touched();
      state.selected = touched.count(end->conductor) > 0;
    }
    return state;
  }
  QRect rect() const override {
    if (!view_) return {};
    const auto& picture = view_->picture();
    QRectF box;
    if (end) {
      if (const auto at = picture.anchorOf(*end)) box = QRectF(at->x() - 12, at->y() - 12, 24, 24);
    } else if (const drawing::Plate* plate = picture.diagram().plate(unit)) {
      box = {plate->box.x, plate->box.y, plate->box.w, plate->box.h};
      for (const drawing::TerminalMark& mark : plate->terminals)
        if (mark.id == terminal) box = {mark.square.x, mark.square.y, mark.square.w, mark.square.h};
    }
    const QRectF shown(view_->onScreen(box.topLeft()), view_->onScreen(box.bottomRight()));
    return {view_->viewport()->mapToGlobal(shown.topLeft().toPoint()), shown.size().toSize()};
  }

  sheet::UnitId unit{};
  std::string terminal;
  std::optional<EndRef> end;

 private:
  QPointer<DiagramView> view_;
  QAccessibleInterface* parent_;
  QAccessible::Role role_;
  QString text_;
  std::vector<Node*> children_;
};

class DiagramInterface : public QAccessibleWidget {
 public:
  explicit DiagramInterface(DiagramView* view)
      : QAccessibleWidget(view, QAccessible::Tree, view->accessibleName()), view_(view) {
    const auto stale = [this] { stale_ = true; };
    connections_ = {QObject::connect(&view->hand(), &InHand::sheetChanged, view, stale),
                    QObject::connect(&view->hand(), &InHand::checked, view, stale)};
  }
  ~DiagramInterface() override {
    for (const auto& connection : connections_) QObject::disconnect(connection);
    clear();
  }

  int childCount() const override { return static_cast<int>(nodes().size()); }
  QAccessibleInterface* child(int index) const override {
    return index >= 0 && index < childCount() ? nodes()[static_cast<size_t>(index)] : nullptr;
  }
  int indexOfChild(const QAccessibleInterface* child) const override {
    const auto at = std::find(nodes().begin(), nodes().end(), child);
    return at == nodes().end() ? -1 : static_cast<int>(at - nodes().begin());
  }
  QAccessibleInterface* childAt(int x, int y) const override {
    for (Node* node : nodes())
      if (node->rect().contains(x, y)) return node;
    return nullptr;
  }

 private:
  void clear() const {
    for (Node* node : nodes_) node->forget();
    nodes_.clear();
  }
  const std::vector<Node*>& nodes() const {
    if (!stale_) return nodes_;
    stale_ = false;
    clear();
    auto* self = const_cast<DiagramInterface*>(this);
    for (const auto& unit : outlineOf(view_->hand()).units) {
      auto* node = new Node(view_, self, QAccessible::TreeItem, unit.text);
      node->unit = unit.unit;
      for (const auto& terminal : unit.terminals) {
        Node* inner = node->add(QAccessible::TreeItem, terminal.text);
        inner->unit = unit.unit;
        inner->terminal = terminal.ref.terminal;
        for (const auto& landing : terminal.landings) {
          Node* leaf = inner->add(QAccessible::TreeItem, landing.text);
          leaf->unit = unit.unit;
          leaf->end = landing.end;
        }
      }
      nodes_.push_back(node);
    }
    return nodes_;
  }

  DiagramView* view_;
  mutable std::vector<Node*> nodes_;
  mutable bool stale_ = true;
  std::array<QMetaObject::Connection, 2> connections_;
};

QAccessibleInterface* make(const QString&, QObject* object) {
  auto* view = qobject_cast<DiagramView*>(object);
  return view ? new DiagramInterface(view) : nullptr;
}

}  // namespace

void installDiagramAccessibility() {
  static const bool once = [] {
    QAccessible::installFactory(make);
    return true;
  }();
  (void)once;
}

}  // namespace ww::wiring
