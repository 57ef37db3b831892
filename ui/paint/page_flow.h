// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFont>
#include <QPainter>
#include <QRectF>
#include <QString>
#include <vector>

#include "document/report.h"
#include "paint/pages.h"
#include "paint/pdf_file.h"
#include "paint/theme.h"
#include "wording/names.h"

namespace ww::paint {

/// Paper is measured in tenths of a point: one device unit at kPaperDpi, so that 9.5 pt is a whole font size.
inline constexpr int kPaperDpi = 720;
inline constexpr double kPt = 10;
inline constexpr double kMm = 720 / 25.4;
inline constexpr double kScreenPx = 7.5;  ///< one px of 96 dpi

/// A bookmark: a section's title and its page, counted from 0.
struct Bookmark {
  QString title;
  int page = 0;
};

/// What stands where on a page, for a preview that is clicked: "step:KEY", "finding:KEY", "section:ID". A
/// section's area begins at its title and ends with the page or at the next.
struct Area {
  std::string what;
  int page = 0;
  QRectF box;
};

/// The pages as they fill from top to bottom: what fits goes on, what does not starts the next page. Draws
/// head and foot on each.
class PageFlow {
 public:
  PageFlow(Pages& pages, const document::RunningHead& head, const wording::Language& language,
           PaperSize paper, int count);

  QPainter& painter() { return painter_; }
  QPaintDevice* painterDevice() const { return painter_.device(); }
  const Theme& theme() const { return theme_; }
  const wording::Language& language() const { return language_; }
  double left() const { return body_.left(); }
  double width() const { return body_.width(); }
  double y() const { return y_; }
  double room() const { return body_.bottom() - y_; }
  QRectF body() const { return body_; }
  int page() const { return page_; }
  /// Notes what stands in a box of this page.
  void note(const std::string& what, const QRectF& box) { areas_.push_back({what, page_, box}); }
  const std::vector<Area>& areas() const { return areas_; }

  void startPage(bool landscape);
  /// Makes sure that so much height is left; otherwise a new page of the same kind. True when it turned.
  bool need(double height);
  void advance(double height) { y_ += height; }
  void finish();

  double textHeight(const QString& text, const QFont& font, double width) const;
  /// Draws wrapped text into a box whose height it has measured.
  void drawText(const QRectF& box, const QString& text, const QFont& font, const QColor& colour,
                int align = Qt::AlignLeft);

 private:
  void drawFrame();

  Pages& sheets_;
  const document::RunningHead& head_;
  const wording::Language& language_;
  const Theme& theme_;
  PaperSize paper_;
  int pages_;
  int page_ = -1;
  bool landscape_ = false;
  QPainter painter_;
  QRectF body_;
  std::vector<Area> areas_;
  double y_ = 0;
};

/// Noto Sans at a size in points.
QFont paperFont(double points, bool bold = false);

}  // namespace ww::paint
