// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QImage>
#include <QScrollArea>
#include <functional>

#include "paint/theme.h"

namespace ww::report {

/// One page of the report on the desk. Fits the window until it is zoomed.
class PageView : public QScrollArea {
  Q_OBJECT
 public:
  explicit PageView(const paint::Theme& theme, QWidget* parent = nullptr);

  /// The size of the page on paper, in any unit; the view then asks for an image.
  void setPage(QSizeF paper);
  void setImage(const QImage& image);
  const QImage& image() const { return image_; }
  void zoomBy(double factor);
  void fit();
  double zoom() const { return zoom_; }  ///< 1: the page fits
  /// Where the page lies in the view's content.
  QRect pageRect() const;

 Q_SIGNALS:
  /// The page is wanted as wide as this many device pixels.
  void wanted(int widthPixels);
  /// A click on the page, in shares of its width and height.
  void clicked(QPointF share);
  void turn(int by);

 protected:
  void resizeEvent(QResizeEvent* event) override;
  void wheelEvent(QWheelEvent* event) override;

 private:
  class Sheet;
  void arrange();

  const paint::Theme& theme_;
  Sheet* sheet_;
  QSizeF paper_;
  QImage image_;
  double zoom_ = 1;
};

}  // namespace ww::report
