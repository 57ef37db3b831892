// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include "document/report.h"
#include "equipment/profile.h"
#include "job/job.h"
#include "operation/call_result.h"
#include "operation/operation_table.h"

namespace ww::document {

/// Everything the report is made from. The sheet is the job's current one (as left, planned or as found).
struct ReportInput {
  const job::Job& job;
  const equipment::Library& library;
  std::vector<operation::CallDemand> demands;
  std::vector<operation::CallResult> results;  ///< the settled calls at rated line
  std::vector<verify::Finding> findings;       ///< sorted, worst first
  std::vector<checklist::Step> steps;          ///< in walking order
  std::string version;                         ///< of the program
  std::string jobHash;                         ///< hex, of the job's canonical bytes
};

/// Builds the whole report: owner's page, equipment and supply, wiring table, diagram, readings, settings,
/// findings, cautions and signatures. A job without a sheet gives the owner's page and the cautions only.
Report build(const ReportInput& input);

/// The tree as JSON text (ids and figures, no sentences): "format": "wirewright-report", "version": 1.
std::string writeReport(const Report& report);

}  // namespace ww::document
