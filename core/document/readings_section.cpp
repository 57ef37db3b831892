// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <set>

#include "checklist/sighting.h"
#include "document/sections.h"

namespace ww::document {

namespace {

using checklist::Measure;
using checklist::Step;

/// The value as it was entered, in the unit of its band; OL stays OL.
Value enteredValue(const job::Reading& reading) {
  if (reading.openLine) return phrase("report.reading.open");
  if (!reading.value) return Literal{reading.entered};
  return ReadingText{*reading.value, reading.unit, reading.band};
}

Value skippedNote(const job::Reading& reading) {
  return phrase("report.reading.skipped", {{"reason", Literal{reading.skippedBecause}}});
}

Value seenNote(const checklist::Sighting& seen) {
  const std::string key = seen.runs.empty() ? "report.reading.seen-nothing" : "report.reading.seen-runs";
  return phrase(seen.hum ? key + "-hum" : key, {{"what", NamedList{"duty", seen.runs}}});
}

/// The meters that readings were taken with. One alone is named above the tables, several in each row.
class MetersUsed {
 public:
  explicit MetersUsed(const job::Job& job) : job_(job) {
    for (const auto& reading : job.readings)
      if (!reading.meter.empty()) ids_.insert(reading.meter);
  }

  const job::Meter* only() const { return ids_.size() == 1 ? find(*ids_.begin()) : nullptr; }

  Value nameFor(const job::Reading& reading) const {
    const job::Meter* meter = ids_.size() > 1 ? find(reading.meter) : nullptr;
    return Literal{meter == nullptr ? std::string() : meter->name};
  }

 private:
  const job::Meter* find(const std::string& id) const {
    const auto at = std::find_if(job_.meters.begin(), job_.meters.end(),
                                 [&](const job::Meter& meter) { return meter.id == id; });
    return at == job_.meters.end() ? nullptr : &*at;
  }

  const job::Job& job_;
  std::set<std::string> ids_;
};

/// The readings at one place: its steps in walking order, under each what was read before and why not.
class PlaceTable {
 public:
  PlaceTable(const job::Job& job, const MetersUsed& meters) : job_(job), meters_(meters) {
    table_.columns = {column("report.column.step", 1, Align::right),
                      column("report.column.state", 2.1),
                      column("report.column.measured", 4),
                      column("report.column.band", 2.9, Align::right),
                      column("report.column.reading", 1.9, Align::right),
                      column("report.column.verdict", 3.2),
                      column("report.column.who", 2.8)};
  }

  void add(const Step& step, int line) {
    const job::Reading* counts = job::standing(job_, step.key);
    if (step.measure == Measure::look)
      addLook(step, line, counts);
    else
      addMeasured(step, line, counts);
    if (counts != nullptr && !counts->skippedBecause.empty()) note(skippedNote(*counts));
    for (const job::Reading& reading : job_.readings)
      if (reading.step == step.key && &reading != counts) earlier(reading);
  }

  Table take() { return std::move(table_); }

 private:
  static Cell stateOf(const Step& step) {
    return step.phase == checklist::Phase::dead ? cell(phrase("report.reading.power-off"), Emphasis::quiet)
                                                : cell(Named{"call", step.call}, Emphasis::quiet);
  }
  static Cell lineOf(int line) { return cell(Number{double(line), "", 0}, Emphasis::quiet); }

  void addMeasured(const Step& step, int line, const job::Reading* counts) {
    const std::optional<checklist::Band> band = counts != nullptr && counts->band ? counts->band : step.band;
    const bool read = counts != nullptr && counts->skippedBecause.empty();
    table_.rows.push_back({{lineOf(line),
                            stateOf(step),
                            cell(Instruction{step, true}),
                            band            ? cell(BandText{*band, std::string(unitOf(step))})
                            : step.halfWave ? cell(phrase("report.reading.half-wave"), Emphasis::quiet)
                                            : blank(),
                            read ? cell(enteredValue(*counts), Emphasis::strong) : blank(),
                            {VerdictMark{verdictOf(step, counts)}},
                            who(counts)},
                           false});
  }

  /// What is seen and heard has no figures: the text takes their columns.
  void addLook(const Step& step, int line, const job::Reading* counts) {
    const bool skipped = counts != nullptr && !counts->skippedBecause.empty();
    const auto seen = counts != nullptr ? checklist::parseSighting(counts->entered) : std::nullopt;
    const Cell verdict = counts != nullptr && !skipped && !seen ? cell(phrase("report.reading.seen"))
                                                                : Cell{VerdictMark{verdictOf(step, counts)}};
    table_.rows.push_back({{lineOf(line),
                            stateOf(step),
                            {Value(Instruction{step, true}), Emphasis::plain, 3},
                            blank(),
                            blank(),
                            verdict,
                            who(counts)},
                           false});
    if (seen && checklist::judge(step, *seen) != checklist::Verdict::good) note(seenNote(*seen));
  }

  void note(const Value& text) {
    table_.rows.push_back(
        {{blank(), blank(), {text, Emphasis::quiet, 5}, blank(), blank(), blank(), blank()}, true});
  }

  void earlier(const job::Reading& reading) {
    if (!reading.skippedBecause.empty()) return note(skippedNote(reading));
    const Value what =
        reading.struckBecause.empty()
            ? Value(phrase("report.reading.superseded"))
            : Value(phrase("report.reading.struck", {{"reason", Literal{reading.struckBecause}}}));
    const bool read = reading.value || reading.openLine;
    table_.rows.push_back(
        {{blank(), blank(), Cell{what, Emphasis::quiet, 2}, blank(),
          read ? cell(enteredValue(reading), Emphasis::struck) : blank(), blank(), who(&reading)},
         true});
  }

  Cell who(const job::Reading* reading) const {
    if (reading == nullptr) return blank();
    const bool onDay = reading->at.substr(0, 10) == job_.visit;
    return cell(phrase("report.reading.who", {{"who", Literal{reading->by}},
                                              {"at", Moment{reading->at, onDay}},
                                              {"meter", meters_.nameFor(*reading)}}),
                Emphasis::quiet);
  }

  const job::Job& job_;
  const MetersUsed& meters_;
  Table table_;
};

Value placeTitle(const Source& source, sheet::UnitId unit) {
  const auto* row = source.sheet.units.find(unit);
  return phrase("report.heading.place",
                {{"unit", UnitName{unit}}, {"place", Literal{row == nullptr ? "" : row->place}}});
}

}  // namespace

Section readingsSection(const Source& source) {
  Section section{"readings", 0, phrase("report.section.readings"), {}, Start::page, false, {}, {}};
  const MetersUsed meters(source.input.job);
  if (const job::Meter* meter = meters.only())
    section.nodes.push_back(Paragraph{phrase("report.reading.meter", {{"meter", Literal{meter->name}},
                                                                      {"serial", Literal{meter->serial}},
                                                                      {"due", Day{meter->calibrationDue}}}),
                                      Emphasis::quiet});
  // Place by place as they are first walked to; the line number is that of the whole checklist.
  std::vector<std::pair<sheet::UnitId, PlaceTable>> places;
  int line = 0;
  for (const Step& step : source.input.steps) {
    ++line;
    if (step.measure == Measure::act) continue;
    auto place = std::find_if(places.begin(), places.end(),
                              [&](const auto& candidate) { return candidate.first == step.standAt; });
    if (place == places.end()) {
      places.emplace_back(step.standAt, PlaceTable(source.input.job, meters));
      place = std::prev(places.end());
    }
    place->second.add(step, line);
  }
  for (auto& [unit, table] : places) {
    section.nodes.push_back(Heading{placeTitle(source, unit)});
    section.nodes.push_back(table.take());
  }
  return section;
}

}  // namespace ww::document
