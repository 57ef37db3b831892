// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "document/functions.h"
#include "document/report_builder.h"

namespace ww::document {

/// What the sections share: the sheet the report speaks of and what was worked out of it once.
struct Source {
  const ReportInput& input;
  const sheet::Sheet& sheet;
  job::SheetState sheetState;
  std::vector<FunctionReport> functions;
  std::vector<OpenPoint> open;
};

/// Wraps a sentence of the catalogue.
Phrase phrase(std::string key, std::vector<Argument> args = {});
/// A table cell of any value.
Cell cell(Value value, Emphasis emphasis = Emphasis::plain);
Cell blank();
/// Literal text, or a blank cell when there is none.
Cell typed(const std::string& text, Emphasis emphasis = Emphasis::plain);
Column column(std::string key, double share, Align align = Align::left);

Section ownerSection(const Source& source);
Section equipmentSection(const Source& source);
Section wiringSection(const Source& source);
Section diagramSection(const Source& source);
Section readingsSection(const Source& source);
Section settingsSection(const Source& source);
Section findingsSection(const Source& source);
Section cautionsSection(const Source& source);

/// The transformer's heaviest call: largest load in percent over all calls; null without a source.
struct HeaviestCall {
  const operation::CallResult* call = nullptr;
  const operation::SourceResult* source = nullptr;
};
HeaviestCall heaviestCall(const ReportInput& input, sheet::UnitId unit, const std::string& part);
HeaviestCall heaviestCall(const ReportInput& input);

/// The fuse of the unit's low-voltage circuit, with its setting's choice taken; nothing without one.
std::optional<quantity::Amps> fuseOf(const Source& source, sheet::UnitId id);

/// How the sheet of the report differs from the as-found or the planned one of the job.
struct Differences {
  std::vector<const sheet::Conductor*> moved;  ///< as that sheet has them; an end lies elsewhere now
  std::vector<const sheet::Conductor*> added;  ///< as the report has them; not on that sheet
  std::vector<const sheet::Conductor*> gone;   ///< as that sheet has them; no longer there
};
/// Empty when the job has no such sheet, or when it is the one the report speaks of.
Differences differencesFrom(const Source& source, job::SheetState state);

}  // namespace ww::document
