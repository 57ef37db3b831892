// SPDX-License-Identifier: GPL-3.0-or-later
#include "document/report_builder.h"

#include <algorithm>

#include "document/sections.h"

namespace ww::document {

namespace {

/// The newest time that anything in the job carries; the report is as old as its job.
std::string newestMoment(const job::Job& job) {
  std::string newest = job.visit;
  const auto look = [&](const auto& facts) {
    for (const auto& fact : facts) newest = std::max(newest, fact.at);
  };
  look(job.readings);
  look(job.acknowledgements);
  look(job.acceptances);
  look(job.signatures);
  return newest;
}

RunningHead headOf(const ReportInput& input) {
  const job::Job& job = input.job;
  std::string address = job.site.address;
  if (!job.site.unit.empty()) address += (address.empty() ? "" : ", ") + job.site.unit;
  return {job.company.name, job.company.phone,           address,       job.visit,
          job.number,       input.jobHash.substr(0, 12), input.version, newestMoment(job)};
}

}  // namespace

Phrase phrase(std::string key, std::vector<Argument> args) { return {std::move(key), std::move(args)}; }
Cell cell(Value value, Emphasis emphasis) { return {CellContent(std::move(value)), emphasis}; }
Cell blank() { return {Blank{}, Emphasis::plain}; }
Cell typed(const std::string& text, Emphasis emphasis) {
  return text.empty() ? blank() : cell(Literal{text}, emphasis);
}
Column column(std::string key, double share, Align align) { return {phrase(std::move(key)), share, align}; }

Report build(const ReportInput& input) {
  Report report{headOf(input), {}};
  const sheet::Sheet* sheet = job::currentSheet(input.job);
  const sheet::Sheet none;
  Source source{input,
                sheet != nullptr ? *sheet : none,
                job::currentSheetState(input.job).value_or(job::SheetState::planned),
                functionsOf(input),
                {}};
  source.open = openPoints(input, source.functions);
  report.sections.push_back(ownerSection(source));
  if (sheet != nullptr) {
    report.sections.push_back(equipmentSection(source));
    report.sections.push_back(wiringSection(source));
    report.sections.push_back(diagramSection(source));
    report.sections.push_back(readingsSection(source));
    report.sections.push_back(settingsSection(source));
    report.sections.push_back(findingsSection(source));
  }
  report.sections.push_back(cautionsSection(source));
  int number = 0;
  for (Section& section : report.sections) section.number = ++number;
  return report;
}

}  // namespace ww::document
