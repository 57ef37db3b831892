// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>

#include "document/report.h"
#include "equipment/profile.h"
#include "sheet/sheet.h"
#include "wording/language.h"

namespace ww::paint {

enum class PaperSize { letter, a4 };

/// Why a PDF was not written. Nothing is left half-written.
struct PdfFailure {
  enum class Reason { cannotWrite, cannotRename, cannotRender } reason = Reason::cannotWrite;
  QString path;
  QString detail;  ///< what the system said
};

struct PdfResult {
  int pages = 0;
  std::optional<PdfFailure> failure;
  explicit operator bool() const { return !failure; }
};

/// Renders the report (PDF 1.4 with A-1b identification, bookmarks, embedded fonts, no transparency) and
/// writes it beside `path`, then renames. Needs a QGuiApplication (offscreen will do). The same input gives
/// the same bytes.
PdfResult writePdf(const document::Report& report, const sheet::Sheet& sheet,
                   const equipment::Library& library, const wording::Language& language, PaperSize paper,
                   const QString& path);

}  // namespace ww::paint
