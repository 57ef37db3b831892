// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QImage>
#include <memory>
#include <set>
#include <string>
#include <vector>

#include "document/report_builder.h"
#include "job/job.h"
#include "paint/page_flow.h"
#include "paint/pages.h"
#include "paint/report_painter.h"

namespace ww::report {

/// Everything a report is made from, copied so that it can be made beside the window.
struct Source {
  job::Job job;
  const equipment::Library* library = nullptr;  ///< beside the profiles that travel in the job
  const wording::Language* language = nullptr;  ///< of the report
  paint::PaperSize paper = paint::PaperSize::letter;
  std::set<std::string> leftOut;  ///< ids of sections
  std::string version;            ///< of the program
};

/// One point that stands open, with where to go for it.
struct OpenLine {
  enum class Kind {
    address,
    units,
    cautions,
    wrongReadings,
    readings,
    finding,
    item,
    signature
  } kind = Kind::address;
  paint::Severity severity = paint::Severity::notMeasured;
  int count = 0;
  std::string what;                        ///< cautions and signature: "dead", "owner"; item: its text
  std::optional<verify::Finding> finding;  ///< of kind finding
  std::string stage, goTo;                 ///< "dead" and a step's key; "wiring" and a finding's key
};

/// The report of one source: the tree, its pages, what stands open.
struct Made {
  document::Report all;    ///< with every section, for the list of contents
  document::Report shown;  ///< without those left out
  sheet::Sheet sheet;
  paint::PaintedReport painted;
  std::shared_ptr<paint::PicturePages> pages;
  std::vector<OpenLine> open;
  int missing = 0;       ///< readings
  int openFindings = 0;  ///< above note and not accepted
};

/// Solves, checks, builds and paints; a few tenths of a second at most.
std::shared_ptr<const Made> make(const Source& source);

/// One page as a picture of so many pixels in width.
QImage pageImage(const Made& made, int page, int widthPixels);

/// Paints all pages on a printer or another paged device.
paint::PaintedReport paintOn(QPagedPaintDevice& device, const Made& made, const Source& source);

}  // namespace ww::report
