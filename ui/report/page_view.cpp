// SPDX-License-Identifier: GPL-3.0-or-later
#include "report/page_view.h"

#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>
#include <algorithm>
#include <cmath>

namespace ww::report {

namespace {

constexpr double kMargin = 16, kLeastZoom = 0.5, kMostZoom = 6;

}  // namespace

/// The ground with the page on it.
class PageView::Sheet : public QWidget {
 public:
  explicit Sheet(PageView& view) : view_(view) { setCursor(Qt::PointingHandCursor); }
  QRect page;

 protected:
  void paintEvent(QPaintEvent*) override {
    QPainter painter(this);
    painter.fillRect(rect(), view_.theme_.sunk);
    if (page.isEmpty()) return;
    painter.fillRect(page, Qt::white);
    painter.setRenderHint(QPainter::SmoothPixmapTransform);
    if (!view_.image_.isNull()) painter.drawImage(page, view_.image_);
    painter.setPen(view_.theme_.controlEdge);
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(page.adjusted(-1, -1, 0, 0));
  }
  void mouseReleaseEvent(QMouseEvent* event) override {
    if (event->button() != Qt::LeftButton || !page.contains(event->position().toPoint())) return;
    Q_EMIT view_.clicked({(event->position().x() - page.x()) / page.width(),
                          (event->position().y() - page.y()) / page.height()});
  }

 private:
  PageView& view_;
};

PageView::PageView(const paint::Theme& theme, QWidget* parent)
    : QScrollArea(parent), theme_(theme), sheet_(new Sheet(*this)) {
  setWidget(sheet_);
  setFrameShape(QFrame::NoFrame);
  setAlignment(Qt::AlignCenter);
}

void PageView::setPage(QSizeF paper) {
  paper_ = paper;
  image_ = {};
  arrange();
  verticalScrollBar()->setValue(0);
}

void PageView::setImage(const QImage& image) {
  image_ = image;
  sheet_->update();
}

void PageView::zoomBy(double factor) {
  zoom_ = std::clamp(zoom_ * factor, kLeastZoom, kMostZoom);
  arrange();
}

void PageView::fit() {
  zoom_ = 1;
  arrange();
}

QRect PageView::pageRect() const { return sheet_->page; }

void PageView::arrange() {
  const QSizeF room(std::max(60, viewport()->width()) - 2 * kMargin,
                    std::max(60, viewport()->height()) - 2 * kMargin);
  if (paper_.isEmpty()) {
    sheet_->page = {};
    sheet_->resize(viewport()->size());
    return;
  }
  const double scale = zoom_ * std::min(room.width() / paper_.width(), room.height() / paper_.height());
  const QSize page(int(std::lround(paper_.width() * scale)), int(std::lround(paper_.height() * scale)));
  const QSize whole(std::max(viewport()->width(), page.width() + int(2 * kMargin)),
                    std::max(viewport()->height(), page.height() + int(2 * kMargin)));
  sheet_->resize(whole);
  sheet_->page =
      QRect(QPoint((whole.width() - page.width()) / 2, (whole.height() - page.height()) / 2), page);
  sheet_->update();
  Q_EMIT wanted(int(std::lround(page.width() * devicePixelRatioF())));
}

void PageView::resizeEvent(QResizeEvent* event) {
  QScrollArea::resizeEvent(event);
  arrange();
}

void PageView::wheelEvent(QWheelEvent* event) {
  const int turned = event->angleDelta().y();
  if (event->modifiers() & Qt::ControlModifier) {
    zoomBy(std::pow(1.25, turned / 120.0));
    event->accept();
    return;
  }
  const QScrollBar* bar = verticalScrollBar();
  const bool atEnd = turned > 0 ? bar->value() == bar->minimum() : bar->value() == bar->maximum();
  if (atEnd && turned != 0) {
    Q_EMIT turn(turned > 0 ? -1 : 1);
    event->accept();
    return;
  }
  QScrollArea::wheelEvent(event);
}

}  // namespace ww::report
