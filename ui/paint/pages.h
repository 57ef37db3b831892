// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPagedPaintDevice>
#include <QPicture>
#include <deque>

namespace ww::paint {

/// Where the pages of a report go. All devices count in tenths of a point.
class Pages {
 public:
  Pages() = default;
  Pages(const Pages&) = delete;
  Pages& operator=(const Pages&) = delete;
  virtual ~Pages() = default;
  /// The next page, of this size and orientation: the device of the page before, or another.
  virtual QPaintDevice* turn(const QPageLayout& layout) = 0;
};

/// A PDF or a printer: one device that turns its own pages.
class DevicePages : public Pages {
 public:
  explicit DevicePages(QPagedPaintDevice& device) : device_(device) {}
  QPaintDevice* turn(const QPageLayout& layout) override;

 private:
  QPagedPaintDevice& device_;
  bool begun_ = false;
};

/// A page recorded, to be played at any scale. It measures like paper, so that it breaks lines where the PDF
/// does.
class PagePicture : public QPicture {
 public:
  explicit PagePicture(QSize size) : size_(size) {}
  QSize pageSize() const { return size_; }

 protected:
  int metric(PaintDeviceMetric metric) const override;

 private:
  QSize size_;
};

/// Pictures, one for each page.
class PicturePages : public Pages {
 public:
  QPaintDevice* turn(const QPageLayout& layout) override;
  const std::deque<PagePicture>& pictures() const { return pictures_; }

 private:
  std::deque<PagePicture> pictures_;  // a painter keeps the address of the last
};

}  // namespace ww::paint
