// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "document/sections.h"

namespace ww::document {

namespace {

std::string stateWord(FunctionState state) {
  constexpr const char* kWords[] = {"works", "worksWithLimits", "notTested", "doesNotWork"};
  return kWords[static_cast<size_t>(state)];
}

FunctionState worstOf(const std::vector<FunctionReport>& functions) {
  FunctionState worst = FunctionState::works;
  for (const auto& function : functions) worst = std::max(worst, function.state);
  return functions.empty() ? FunctionState::notTested : worst;
}

/// "Heating and cooling work." from the state of both services, then how many points are open.
VerdictBox verdict(const Source& source) {
  VerdictBox box;
  box.worst = worstOf(source.functions);
  const auto heating = stateOf(source.functions, Service::heating);
  const auto cooling = stateOf(source.functions, Service::cooling);
  if (heating && cooling && *heating == *cooling) {
    box.sentences.push_back(phrase("report.verdict.both." + stateWord(*heating)));
  } else {
    if (heating) box.sentences.push_back(phrase("report.verdict.heating." + stateWord(*heating)));
    if (cooling) box.sentences.push_back(phrase("report.verdict.cooling." + stateWord(*cooling)));
  }
  const bool stops = std::any_of(source.open.begin(), source.open.end(), [](const OpenPoint& point) {
    return point.finding && point.finding->severity == verify::Severity::stop;
  });
  if (stops) {
    box.worst = FunctionState::doesNotWork;
    box.sentences.insert(box.sentences.begin(), phrase("report.verdict.stop"));
  }
  if (box.sentences.empty()) box.sentences.push_back(phrase("report.verdict.nothing"));
  const int open = int(source.open.size());
  if (open == 0)
    box.sentences.push_back(phrase("report.verdict.nothing-open"));
  else
    box.sentences.push_back(phrase("report.verdict.open", {{"n", Count{open}}}));
  return box;
}

KeyFigures figures(const Source& source) {
  KeyFigures key;
  const ReadingCount count = countReadings(source.input);
  key.figures.push_back(
      {phrase("report.figure.readings"),
       phrase("report.figure.of",
              {{"a", Number{double(count.good), "", 0}}, {"b", Number{double(count.steps), "", 0}}}),
       phrase("report.figure.readings-remark", {{"taken", Number{double(count.taken), "", 0}}})});
  if (const HeaviestCall heaviest = heaviestCall(source.input); heaviest.source != nullptr)
    key.figures.push_back(
        {phrase("report.figure.load"), Number{heaviest.source->loadPercent, "%", 0},
         phrase("report.figure.load-remark", {{"call", Named{"call", heaviest.call->call}}})});
  const auto right =
      std::count_if(source.functions.begin(), source.functions.end(), [](const FunctionReport& f) {
        return f.state == FunctionState::works || f.state == FunctionState::worksWithLimits;
      });
  key.figures.push_back({phrase("report.figure.functions"),
                         phrase("report.figure.of", {{"a", Number{double(right), "", 0}},
                                                     {"b", Number{double(source.functions.size()), "", 0}}}),
                         phrase("report.figure.functions-remark")});
  return key;
}

Cell remarkOf(const FunctionReport& function) {
  if (function.readingOutside) return cell(phrase("report.remark.reading-outside"));
  if (function.because) return cell(FindingTitle{*function.because});
  if (function.readingAgain) return cell(phrase("report.remark.reading-again"));
  if (function.state == FunctionState::notTested && function.measured > 0)
    return cell(phrase("report.remark.partly", {{"a", Number{double(function.measured), "", 0}},
                                                {"b", Number{double(function.toMeasure), "", 0}}}));
  return blank();
}

Table functionTable(const Source& source) {
  Table table{{column("report.column.function", 3), column("report.column.result", 2.2),
               column("report.column.remark", 4)},
              {}};
  for (const FunctionReport& function : source.functions) {
    const Value name =
        function.word.empty() ? Value(Named{"call", function.call}) : Value(Named{"function", function.word});
    table.rows.push_back(
        {{cell(name, Emphasis::strong), {FunctionMark{function.state}, Emphasis::plain}, remarkOf(function)},
         false});
  }
  return table;
}

/// What has no owner yet is the installer's.
Row openRow(const OpenPoint& point, const std::string& installer) {
  if (point.finding)
    return {{{SeverityMark{point.finding->severity}, Emphasis::plain},
             cell(FindingTitle{*point.finding}),
             typed(installer)},
            false};
  if (point.item != nullptr) {
    const Value due = point.item->due.empty()
                          ? Value(Literal{point.item->owner})
                          : Value(phrase("report.by-until", {{"who", Literal{point.item->owner}},
                                                             {"day", Day{point.item->due}}}));
    return {
        {{OpenMark{phrase("report.open.task")}, Emphasis::plain}, cell(Literal{point.item->text}), cell(due)},
        false};
  }
  const Value name = point.untested->word.empty() ? Value(Named{"call", point.untested->call})
                                                  : Value(Named{"function", point.untested->word});
  return {{{OpenMark{phrase("report.open.untested")}, Emphasis::plain}, cell(name), typed(installer)}, false};
}

/// What was put right, as the sheets as found and as left tell it.
std::vector<Node> done(const Source& source) {
  std::vector<Node> nodes;
  if (source.sheetState != job::SheetState::asLeft) return nodes;
  const Differences found = differencesFrom(source, job::SheetState::asFound);
  const auto tell = [&](const char* key, size_t count) {
    if (count == 0) return;
    if (nodes.empty()) nodes.push_back(Heading{phrase("report.heading.done")});
    nodes.push_back(Paragraph{phrase(key, {{"n", Count{int(count)}}})});
  };
  tell("report.done.changed", found.moved.size());
  tell("report.done.added", found.added.size());
  tell("report.done.gone", found.gone.size());
  return nodes;
}

/// Changeover as it was set for this job, and what was found marginal and accepted as it is.
Table agreed(const Source& source) {
  Table table{
      {column("report.column.point", 5), column("report.column.agreed", 4), column("report.column.by", 3)},
      {}};
  const job::Job& job = source.input.job;
  for (const auto& unit : source.sheet.units)
    if (const auto set = source.sheet.settings.find(unit.tag, "dualFuel"); set && *set != "off")
      if (const auto* profile = source.input.library.find(unit.profile);
          profile != nullptr && profile->setting("dualFuel") != nullptr)
        table.rows.push_back({{cell(Named{"setting", "dualFuel"}, Emphasis::strong),
                               cell(Named{"value", *set}), typed(job.installer)},
                              false});
  for (const auto& finding : source.input.findings)
    if (const auto* acceptance = acceptanceOf(job, finding);
        acceptance != nullptr && finding.severity > verify::Severity::note)
      table.rows.push_back({{cell(FindingTitle{finding}, Emphasis::strong), typed(acceptance->note),
                             cell(phrase("report.by-until",
                                         {{"who", Literal{acceptance->by}}, {"day", Day{acceptance->at}}}))},
                            false});
  return table;
}

/// What the owner may need later: the fuse, and whom to call.
std::vector<Node> goodToKnow(const Source& source) {
  std::vector<Node> nodes;
  for (const auto& unit : source.sheet.units)
    if (const auto fuse = fuseOf(source, unit.id))
      nodes.push_back(Paragraph{
          phrase("report.know.fuse", {{"amps", Number{fuse->si(), "A", 0}}, {"unit", UnitName{unit.id}}})});
  const job::Company& company = source.input.job.company;
  if (!company.phone.empty())
    nodes.push_back(Paragraph{phrase("report.know.contact",
                                     {{"company", Literal{company.name}}, {"phone", Literal{company.phone}}}),
                              Emphasis::strong});
  if (!nodes.empty()) nodes.insert(nodes.begin(), Heading{phrase("report.heading.know")});
  return nodes;
}

SignatureBlock signatures(const job::Job& job) {
  SignatureBlock block;
  for (const char* role : {"installer", "owner"}) {
    const auto found = std::find_if(job.signatures.rbegin(), job.signatures.rend(),
                                    [&](const auto& s) { return s.role == role; });
    SignatureLine line{phrase(std::string("name.role.") + role), "", "", ""};
    if (found != job.signatures.rend()) line = {line.role, found->name, found->at, found->form};
    block.lines.push_back(std::move(line));
  }
  return block;
}

}  // namespace

Section ownerSection(const Source& source) {
  const job::Job& job = source.input.job;
  Section section;
  section.id = "owner";
  section.start = Start::page;
  section.contents = phrase("report.section.owner");
  const std::string address =
      job.site.address.empty() ? "" : job.site.address + (job.site.unit.empty() ? "" : ", " + job.site.unit);
  section.title = address.empty() ? Value(phrase("report.title")) : Value(Literal{address});
  if (!job.site.customer.empty()) section.subtitle.push_back(Literal{job.site.customer});
  if (!job.visit.empty()) section.subtitle.push_back(Day{job.visit});
  if (!job.installer.empty())
    section.subtitle.push_back(phrase("report.work-by", {{"who", Literal{job.installer}}}));
  section.nodes.push_back(verdict(source));
  section.nodes.push_back(figures(source));
  for (Node& node : done(source)) section.nodes.push_back(std::move(node));
  section.nodes.push_back(Heading{phrase("report.heading.works")});
  section.nodes.push_back(functionTable(source));
  if (Table points = agreed(source); !points.rows.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.agreed")});
    section.nodes.push_back(std::move(points));
  }
  if (!source.open.empty()) {
    section.nodes.push_back(Heading{phrase("report.heading.open")});
    Table table{
        {column("report.column.kind", 2), column("report.column.point", 5), column("report.column.by", 3)},
        {}};
    for (const OpenPoint& point : source.open) table.rows.push_back(openRow(point, job.installer));
    section.nodes.push_back(std::move(table));
  }
  for (Node& node : goodToKnow(source)) section.nodes.push_back(std::move(node));
  section.nodes.push_back(signatures(job));
  return section;
}

}  // namespace ww::document
