// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "document/sections.h"

namespace ww::document {

namespace {

Table findingTable(const std::vector<const verify::Finding*>& findings) {
  Table table{{column("report.column.severity", 2), column("report.column.finding", 8)}, {}};
  for (const auto* finding : findings) {
    table.rows.push_back(
        {{{SeverityMark{finding->severity}, Emphasis::plain}, cell(FindingTitle{*finding}, Emphasis::strong)},
         false});
    table.rows.push_back({{blank(), cell(FindingText{*finding})}, true});
  }
  return table;
}

}  // namespace

Section findingsSection(const Source& source) {
  Section section{"findings", 0, phrase("report.section.findings"), {}, Start::below, false, {}, {}};
  std::vector<const verify::Finding*> open;
  std::vector<const verify::Finding*> accepted;
  for (const auto& finding : source.input.findings)
    (acceptanceOf(source.input.job, finding) != nullptr ? accepted : open).push_back(&finding);
  if (open.empty() && accepted.empty()) section.nodes.push_back(Paragraph{phrase("report.no-findings")});
  if (!open.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.open-findings")});
    section.nodes.push_back(findingTable(open));
  }
  if (!accepted.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.accepted-findings")});
    section.nodes.push_back(findingTable(accepted));
    for (const auto* finding : accepted) {
      const auto* acceptance = acceptanceOf(source.input.job, *finding);
      section.nodes.push_back(Paragraph{phrase("report.accepted", {{"finding", FindingTitle{*finding}},
                                                                   {"who", Literal{acceptance->by}},
                                                                   {"note", Literal{acceptance->note}},
                                                                   {"at", Moment{acceptance->at}}}),
                                        Emphasis::quiet});
    }
  }
  return section;
}

Section cautionsSection(const Source& source) {
  Section section{"cautions", 0, phrase("report.section.cautions"), {}, Start::below, false, {}, {}};
  const job::Job& job = source.input.job;
  for (const auto& fact : job.acknowledgements)
    section.nodes.push_back(Paragraph{
        phrase("report.acknowledged." + fact.cautions, {{"who", Literal{fact.by}}, {"at", Moment{fact.at}}}),
        Emphasis::strong});
  if (!job.surveys.empty()) {
    const job::SurveyTaken& taken = job.surveys.back();
    NamedList answers{"survey", {}};
    for (const auto& [question, answer] : taken.answers)
      if (answer != "none") answers.ids.emplace_back(question).append("-").append(answer);
    section.nodes.push_back(Paragraph{phrase(
        "report.surveyed", {{"answers", answers}, {"who", Literal{taken.by}}, {"at", Moment{taken.at}}})});
    if (const auto refusals = job::refusalsOf(job); !refusals.empty())
      section.nodes.push_back(
          Paragraph{phrase("report.surveyed-refused", {{"refusal", NamedList{"refusal", refusals}}}),
                    Emphasis::strong});
  }
  if (job.acknowledgements.empty())
    section.nodes.push_back(Paragraph{phrase("report.not-acknowledged"), Emphasis::strong});
  Table table{{column("report.column.caution", 7), column("report.column.source", 3)}, {}};
  std::set<std::string> shown;
  for (const auto& step : source.input.steps)
    for (const auto& caution : step.cautions)
      if (shown.insert(caution).second)
        table.rows.push_back(
            {{cell(Named{"caution", caution}), cell(Named{"caution-source", caution}, Emphasis::quiet)},
             false});
  if (!table.rows.empty()) section.nodes.push_back(std::move(table));
  section.nodes.push_back(Heading{phrase("report.heading.method")});
  section.nodes.push_back(Paragraph{phrase("report.method"), Emphasis::quiet});
  return section;
}

}  // namespace ww::document
