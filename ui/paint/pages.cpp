// SPDX-License-Identifier: GPL-3.0-or-later
#include "paint/pages.h"

#include "paint/page_flow.h"

namespace ww::paint {

QPaintDevice* DevicePages::turn(const QPageLayout& layout) {
  device_.setPageLayout(layout);
  if (begun_) device_.newPage();
  begun_ = true;
  return &device_;
}

int PagePicture::metric(PaintDeviceMetric metric) const {
  switch (metric) {
    case PdmWidth: return size_.width();
    case PdmHeight: return size_.height();
    case PdmDpiX:
    case PdmDpiY:
    case PdmPhysicalDpiX:
    case PdmPhysicalDpiY: return kPaperDpi;
    case PdmWidthMM: return int(size_.width() / kMm);
    case PdmHeightMM: return int(size_.height() / kMm);
    default: return QPicture::metric(metric);
  }
}

QPaintDevice* PicturePages::turn(const QPageLayout& layout) {
  return &pictures_.emplace_back(layout.fullRectPixels(kPaperDpi).size());
}

}  // namespace ww::paint
