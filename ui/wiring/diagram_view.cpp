// SPDX-License-Identifier: GPL-3.0-or-later
#include "wiring/diagram_view.h"

#include <QMouseEvent>
#include <QScrollBar>
#include <QWheelEvent>
#include <cmath>

namespace ww::wiring {

namespace {

constexpr double kLeastZoom = 0.2, kMostZoom = 4, kStep = 1.25;
constexpr double kMostFit = 1.5;   ///< fitting enlarges no further
constexpr double kHitRadius = 14;  ///< on screen

}  // namespace

DiagramView::DiagramView(InHand& hand, QWidget* parent)
    : QAbstractScrollArea(parent), hand_(hand), picture_(hand), keys_(new fittings::KeyMap(this)) {
  setFocusPolicy(Qt::StrongFocus);
  setFrameShape(NoFrame);
  setAccessibleName(hand_.words("diagram"));
  viewport()->setMouseTracking(true);
  connect(&hand_, &InHand::sheetChanged, this, &DiagramView::takeSheet);
  connect(&hand_, &InHand::checked, this, &DiagramView::takeCall);
  connect(&hand_, &InHand::callChanged, this, &DiagramView::takeCall);
  connect(&hand_, &InHand::selectionChanged, this, [this] { viewport()->update(); });
  connect(&hand_, &InHand::jobChanged, this, [this] {
    focus_.reset();
    letGo();
    fitting_ = true;
  });
  bindKeys();
  takeSheet();
}

void DiagramView::takeSheet() {
  picture_.preview(std::nullopt);
  if (picked_ && !hand_.sheet().conductors.find(picked_->conductor)) picked_.reset();
  if (hovered_ && !hand_.sheet().conductors.find(*hovered_)) hovered_.reset();
  if (focus_) {
    const auto at = picture_.indexOf(*focus_);
    if (at)
      focus_ = picture_.spots()[*at];
    else if (focus_->terminal || picture_.spots().empty())
      focus_.reset();
    else
      focus_ = picture_.spots().front();
  }
  placeBars();
  viewport()->update();
  Q_EMIT pictureChanged();
}

void DiagramView::takeCall() {
  picture_.takeCall();
  placeBars();
  viewport()->update();
}

void DiagramView::setPreview(const std::optional<sheet::Sheet>& sheet) {
  if (!sheet && !picture_.previewing()) return;
  picture_.preview(sheet);
  placeBars();
  viewport()->update();
}

double DiagramView::reach() const { return std::max(kHitRadius / zoom_, 8.0); }

QPointF DiagramView::onScreen(QPointF at) const {
  const QRectF bounds = picture_.bounds();
  const QSizeF view = viewport()->size(), whole = bounds.size() * zoom_;
  const double left =
      whole.width() < view.width() ? (view.width() - whole.width()) / 2 : -horizontalScrollBar()->value();
  const double top =
      whole.height() < view.height() ? (view.height() - whole.height()) / 2 : -verticalScrollBar()->value();
  return QPointF(left, top) + (at - bounds.topLeft()) * zoom_;
}

QPointF DiagramView::inDiagram(QPointF at) const {
  return (at - onScreen(picture_.bounds().topLeft())) / zoom_ + picture_.bounds().topLeft();
}

void DiagramView::placeBars() {
  const QSizeF bounds = picture_.bounds().size();
  const QSize view = maximumViewportSize();
  if (fitting_ && bounds.width() > 0 && bounds.height() > 0) {
    const double whole = std::min(view.width() / bounds.width(), view.height() / bounds.height());
    zoom_ = std::clamp(std::min(whole, kMostFit), kLeastZoom, kMostZoom);
  }
  const QSizeF whole = bounds * zoom_;
  const auto place = [](QScrollBar* bar, double all, int page) {
    bar->setPageStep(page);
    bar->setSingleStep(32);
    bar->setRange(0, std::max(0, static_cast<int>(std::ceil(all)) - page));
  };
  place(horizontalScrollBar(), fitting_ ? 0 : whole.width(), viewport()->width());
  place(verticalScrollBar(), fitting_ ? 0 : whole.height(), viewport()->height());
  Q_EMIT zoomed();
}

void DiagramView::zoomAround(double zoom, QPointF at) {
  const QPointF held = inDiagram(at);
  fitting_ = false;
  zoom_ = std::clamp(zoom, kLeastZoom, kMostZoom);
  placeBars();
  const QPointF off = onScreen(held) - at;
  horizontalScrollBar()->setValue(horizontalScrollBar()->value() + static_cast<int>(std::lround(off.x())));
  verticalScrollBar()->setValue(verticalScrollBar()->value() + static_cast<int>(std::lround(off.y())));
  viewport()->update();
}

void DiagramView::zoomTo(double zoom) { zoomAround(zoom, QRectF(viewport()->rect()).center()); }

void DiagramView::fit() {
  fitting_ = true;
  placeBars();
  viewport()->update();
}

void DiagramView::scrollContentsBy(int, int) { viewport()->update(); }

void DiagramView::resizeEvent(QResizeEvent* event) {
  QAbstractScrollArea::resizeEvent(event);
  placeBars();
}

void DiagramView::wheelEvent(QWheelEvent* event) {
  const double turns = event->angleDelta().y() / 120.0;
  if (turns != 0) zoomAround(zoom_ * std::pow(kStep, turns), event->position());
  event->accept();
}

void DiagramView::scrollTo(QPointF at) {
  const QPointF seen = onScreen(at);
  const QRectF view = QRectF(viewport()->rect()).adjusted(48, 48, -48, -48);
  if (view.width() <= 0 || view.contains(seen)) return;
  const double dx = seen.x() - std::clamp(seen.x(), view.left(), view.right());
  const double dy = seen.y() - std::clamp(seen.y(), view.top(), view.bottom());
  horizontalScrollBar()->setValue(horizontalScrollBar()->value() + static_cast<int>(std::lround(dx)));
  verticalScrollBar()->setValue(verticalScrollBar()->value() + static_cast<int>(std::lround(dy)));
}

void DiagramView::ensureFocus() {
  if (!focus_ && !picture_.spots().empty()) focus_ = picture_.spots().front();
}

void DiagramView::focusInEvent(QFocusEvent* event) {
  QAbstractScrollArea::focusInEvent(event);
  ensureFocus();
  if (event->reason() != Qt::MouseFocusReason) tellFocus();
  viewport()->update();
}

void DiagramView::focusOutEvent(QFocusEvent* event) {
  QAbstractScrollArea::focusOutEvent(event);
  viewport()->update();
}

void DiagramView::mousePressEvent(QMouseEvent* event) {
  if (event->button() != Qt::LeftButton) return;
  const Under under = picture_.under(inDiagram(event->position()), reach());
  pressed_ = event->position();
  dragging_ = false;
  if (under.spot) focus_ = picture_.spots()[*under.spot];
  if (!under.spot && !under.conductor && !under.cable && !under.unit) panFrom_ = event->position().toPoint();
  selectUnder(under, event->modifiers() & Qt::ControlModifier);
  viewport()->update();
}

void DiagramView::mouseMoveEvent(QMouseEvent* event) {
  const QPointF at = inDiagram(event->position());
  if (panFrom_) {
    const QPoint by = event->position().toPoint() - *panFrom_;
    panFrom_ = event->position().toPoint();
    horizontalScrollBar()->setValue(horizontalScrollBar()->value() - by.x());
    verticalScrollBar()->setValue(verticalScrollBar()->value() - by.y());
    return;
  }
  const bool far = pressed_ && (event->position() - *pressed_).manhattanLength() > 4;
  if (far && !dragging_ && hand_.canEdit() && !picture_.previewing()) {
    const Under from = picture_.under(inDiagram(*pressed_), reach());
    const auto end = from.spot ? endToPick(picture_.spots()[*from.spot]) : std::nullopt;
    if (end) {
      dragging_ = true;
      picked_ = end;
    }
  }
  pointer_ = at;
  const Under under = picture_.under(at, reach());
  if (!dragging_) {
    hovered_ = under.conductor;
    if (under.spot)
      if (const auto ends = picture_.endsAt(picture_.spots()[*under.spot]); !ends.empty())
        hovered_ = ends.front().conductor;
    if (const QString sentence = sentenceOf(under); sentence != pointedAt_) {
      pointedAt_ = sentence;
      if (!sentence.isEmpty()) Q_EMIT say(sentence);
    }
  }
  viewport()->update();
}

void DiagramView::mouseReleaseEvent(QMouseEvent* event) {
  panFrom_.reset();
  pressed_.reset();
  if (!dragging_) return;
  dragging_ = false;
  const Under under = picture_.under(inDiagram(event->position()), reach());
  if (under.spot)
    dropOn(picture_.spots()[*under.spot]);
  else
    letGo();
}

void DiagramView::leaveEvent(QEvent* event) {
  QAbstractScrollArea::leaveEvent(event);
  hovered_.reset();
  pointer_.reset();
  pointedAt_.clear();
  viewport()->update();
}

bool DiagramView::viewportEvent(QEvent* event) {
  if (event->type() == QEvent::Leave) leaveEvent(event);
  return QAbstractScrollArea::viewportEvent(event);
}

}  // namespace ww::wiring
