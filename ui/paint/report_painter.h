// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "paint/page_flow.h"

namespace ww::paint {

struct PaintedReport {
  std::vector<Bookmark> bookmarks;
  std::vector<Area> areas;
  int pages = 0;
};
/// Paints a whole report. It is laid out on pages that nobody sees first: the feet tell how many pages there
/// are, the first section is kept to one, and the last page is no spill of a few lines.
PaintedReport paintReport(Pages& pages, const document::Report& report, const sheet::Sheet& sheet,
                          const equipment::Library& library, const wording::Language& language,
                          PaperSize paper);

}  // namespace ww::paint
