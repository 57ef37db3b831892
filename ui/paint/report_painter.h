// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paint/page_flow.h"

namespace ww::paint {

/// Paints a whole report and returns the bookmarks; the number of pages is that of the last page painted.
struct PaintedReport {
  std::vector<Bookmark> bookmarks;
  int pages = 0;
};
PaintedReport paintReport(QPdfWriter& writer, const document::Report& report, const sheet::Sheet& sheet,
                          const equipment::Library& library, const wording::Language& language,
                          PaperSize paper, int pages);

}  // namespace ww::paint
