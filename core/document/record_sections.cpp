// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "checklist/sighting.h"
#include "document/sections.h"

namespace ww::document {

namespace {

bool isMeasured(const checklist::Step& step) {
  return step.measure == checklist::Measure::ohms || step.measure == checklist::Measure::acVolts;
}

std::string unitOf(const checklist::Step& step) {
  return step.measure == checklist::Measure::ohms ? "ohm" : "V";
}

/// The value as it was entered, with its unit; OL stays OL.
Value enteredValue(const job::Reading& reading) {
  if (reading.openLine) return phrase("report.reading.open");
  if (!reading.value) return Literal{reading.entered};
  return Number{*reading.value, reading.unit, *reading.value >= 1000 ? 0 : 1};
}

Cell who(const job::Reading& reading, const std::string& visit) {
  const bool onDay = reading.at.substr(0, 10) == visit;
  return cell(phrase("report.reading.who", {{"who", Literal{reading.by}}, {"at", Moment{reading.at, onDay}}}),
              Emphasis::quiet);
}

class ReadingTable {
 public:
  explicit ReadingTable(const job::Job& job) : job_(job) {
    table_.columns = {column("report.column.step", 6), column("report.column.band", 2.6, Align::right),
                      column("report.column.reading", 1.6, Align::right),
                      column("report.column.verdict", 2.6), column("report.column.who", 2.6)};
  }

  void add(const checklist::Step& step) {
    const job::Reading* counts = job::standing(job_, step.key);
    const bool look = step.measure == checklist::Measure::look;
    Row row;
    row.cells.push_back(cell(Instruction{step}));
    const std::optional<checklist::Band> band = counts != nullptr && counts->band ? counts->band : step.band;
    row.cells.push_back(band ? cell(BandText{*band, unitOf(step)}) : blank());
    const bool skipped = counts != nullptr && !counts->skippedBecause.empty();
    const auto seen = look && counts != nullptr ? checklist::parseSighting(counts->entered) : std::nullopt;
    row.cells.push_back(counts == nullptr || skipped ? blank()
                        : look                       ? cell(phrase("report.reading.seen"))
                                                     : cell(enteredValue(*counts), Emphasis::strong));
    row.cells.push_back(look && counts != nullptr && !skipped && !seen
                            ? blank()
                            : Cell{VerdictMark{verdictOf(step, counts)}, Emphasis::plain});
    row.cells.push_back(counts == nullptr ? blank() : who(*counts, job_.visit));
    table_.rows.push_back(std::move(row));
    if (skipped) table_.rows.push_back(note(skippedNote(*counts)));
    if (seen && checklist::judge(step, *seen) != checklist::Verdict::good)
      table_.rows.push_back(note(seenNote(*seen)));
    for (const job::Reading& reading : job_.readings)
      if (reading.step == step.key && &reading != counts) table_.rows.push_back(earlier(reading));
  }

  Table take() { return std::move(table_); }

 private:
  static Row note(const Value& text) {
    return {{cell(text, Emphasis::quiet), blank(), blank(), blank(), blank()}, true};
  }
  static Value skippedNote(const job::Reading& reading) {
    return phrase("report.reading.skipped", {{"reason", Literal{reading.skippedBecause}}});
  }
  static Value seenNote(const checklist::Sighting& seen) {
    const std::string key = seen.runs.empty() ? "report.reading.seen-nothing" : "report.reading.seen-runs";
    return phrase(seen.hum ? key + "-hum" : key, {{"what", NamedList{"duty", seen.runs}}});
  }

  Row earlier(const job::Reading& reading) const {
    const Value what =
        !reading.struckBecause.empty()
            ? Value(phrase("report.reading.struck", {{"reason", Literal{reading.struckBecause}}}))
        : !reading.skippedBecause.empty() ? skippedNote(reading)
                                          : Value(phrase("report.reading.superseded"));
    return {{cell(what, Emphasis::quiet), blank(),
             reading.value || reading.openLine ? cell(enteredValue(reading), Emphasis::struck) : blank(),
             blank(), who(reading, job_.visit)},
            true};
  }

  const job::Job& job_;
  Table table_;
};

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

Section readingsSection(const Source& source) {
  Section section{"readings", 0, phrase("report.section.readings"), {}, true, false, {}};
  // By phase and call, and within it in walking order, which goes place by place.
  std::optional<std::pair<checklist::Phase, std::string>> group;
  std::optional<ReadingTable> table;
  const auto flush = [&] {
    if (table) section.nodes.push_back(table->take());
    table.reset();
  };
  for (const auto& step : source.input.steps) {
    if (!isMeasured(step) && step.measure != checklist::Measure::look) continue;
    if (!group || *group != std::pair(step.phase, step.call)) {
      flush();
      group = {step.phase, step.call};
      const Value title = step.phase == checklist::Phase::dead
                              ? Value(phrase("name.phase.dead"))
                              : Value(phrase("report.heading.live", {{"call", Named{"call", step.call}}}));
      section.nodes.push_back(Heading{title});
      table.emplace(source.input.job);
    }
    table->add(step);
  }
  flush();
  return section;
}

Section findingsSection(const Source& source) {
  Section section{"findings", 0, phrase("report.section.findings"), {}, false, false, {}};
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
  Section section{"cautions", 0, phrase("report.section.cautions"), {}, false, false, {}};
  const job::Job& job = source.input.job;
  for (const auto& fact : job.acknowledgements)
    section.nodes.push_back(Paragraph{
        phrase("report.acknowledged." + fact.cautions, {{"who", Literal{fact.by}}, {"at", Moment{fact.at}}}),
        Emphasis::strong});
  if (job.acknowledgements.empty())
    section.nodes.push_back(Paragraph{phrase("report.not-acknowledged"), Emphasis::strong});
  std::set<std::string> shown;
  for (const auto& step : source.input.steps)
    for (const auto& caution : step.cautions)
      if (shown.insert(caution).second)
        section.nodes.push_back(Paragraph{Named{"caution", caution}, Emphasis::plain, true});
  section.nodes.push_back(Heading{phrase("report.heading.method"), false});
  section.nodes.push_back(Paragraph{phrase("report.method"), Emphasis::quiet});
  return section;
}

}  // namespace ww::document
