// SPDX-License-Identifier: GPL-3.0-or-later
// The report tree: which facts of the job stand where.
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "document/report_builder.h"
#include "support/sample_report.h"

namespace ww::document {
namespace {

using testing::SampleReport;

const Section& section(const Report& report, const std::string& id) {
  const auto at = std::find_if(report.sections.begin(), report.sections.end(),
                               [&](const Section& candidate) { return candidate.id == id; });
  if (at == report.sections.end()) throw std::out_of_range(id);
  return *at;
}

std::vector<Row> rowsOf(const Section& section) {
  std::vector<Row> rows;
  for (const auto& node : section.nodes)
    if (const auto* table = std::get_if<Table>(&node))
      rows.insert(rows.end(), table->rows.begin(), table->rows.end());
  return rows;
}

template <class Kind>
const Kind* in(const Cell& cell) {
  const auto* value = std::get_if<Value>(&cell.content);
  return value != nullptr ? std::get_if<Kind>(value) : nullptr;
}

/// Columns of the readings.
enum Readings { kLine, kState, kWhat, kBand, kReading, kVerdict, kWho };

/// Where the row of a step stands among the readings.
size_t rowOf(const std::vector<Row>& rows, const std::string& step) {
  for (size_t i = 0; i < rows.size(); ++i)
    if (const auto* what = in<Instruction>(rows[i].cells[kWhat]); what != nullptr && what->step.key == step)
      return i;
  throw std::out_of_range(step);
}

TEST(Report, HasItsSectionsInOrderAndNumbered) {
  const SampleReport sample(testing::rowA());
  const Report report = sample.report();
  std::vector<std::string> ids;
  for (const auto& part : report.sections) {
    EXPECT_EQ(part.number, int(ids.size()) + 1) << part.id;
    ids.push_back(part.id);
  }
  EXPECT_EQ(ids, (std::vector<std::string>{"owner", "equipment", "wiring", "diagram", "readings", "settings",
                                           "findings", "cautions"}));
  EXPECT_EQ(report.head.address, "7 Larkmoor Terrace, Flat 1");
  EXPECT_EQ(report.head.hash, "001122334455") << "twelve digits are enough to compare by eye";
}

TEST(Report, WithoutASheetHasTheOwnersPageAndTheCautions) {
  const job::Job job = [] {
    job::Job draft;
    draft.site.address = "7 Larkmoor Terrace";
    return draft;
  }();
  const Report report = build({job, equipment::standardLibrary(), {}, {}, {}, {}, "test", ""});
  ASSERT_EQ(report.sections.size(), 2u);
  EXPECT_EQ(report.sections[0].id, "owner");
  EXPECT_EQ(report.sections[1].id, "cautions");
}

TEST(Readings, StandWithBandVerdictAndWho) {
  SampleReport sample(testing::rowA());
  const auto& step = sample.voltsIn("cool1");
  sample.read(step);
  const auto rows = rowsOf(section(sample.report(), "readings"));
  const Row& row = rows[rowOf(rows, step.key)];
  ASSERT_EQ(row.cells.size(), 7u);
  ASSERT_NE(in<BandText>(row.cells[kBand]), nullptr);
  EXPECT_EQ(in<BandText>(row.cells[kBand])->band, *step.band);
  ASSERT_NE(in<ReadingText>(row.cells[kReading]), nullptr);
  EXPECT_DOUBLE_EQ(in<ReadingText>(row.cells[kReading])->value, step.band->mean);
  EXPECT_EQ(in<ReadingText>(row.cells[kReading])->band, step.band) << "both are told in one unit";
  ASSERT_NE(in<Named>(row.cells[kState]), nullptr);
  EXPECT_EQ(in<Named>(row.cells[kState])->id, "cool1");
  EXPECT_EQ(std::get<VerdictMark>(row.cells[kVerdict].content).verdict, checklist::Verdict::good);
  ASSERT_NE(in<Phrase>(row.cells[kWho]), nullptr);
  EXPECT_EQ(std::get<Literal>(in<Phrase>(row.cells[kWho])->args[0].value).text, "J. Tamsin");
}

TEST(Readings, NotTakenStandAsNotMeasured) {
  const SampleReport sample(testing::rowA());
  int judged = 0;
  for (const auto& row : rowsOf(section(sample.report(), "readings"))) {
    const auto* mark = std::get_if<VerdictMark>(&row.cells[kVerdict].content);
    if (mark == nullptr) continue;
    ++judged;
    EXPECT_EQ(mark->verdict, checklist::Verdict::notMeasured);
    EXPECT_TRUE(std::holds_alternative<Blank>(row.cells[kReading].content));
  }
  EXPECT_GT(judged, 20);
}

TEST(Readings, SupersededStandSmallAndStruckBelowTheOneThatCounts) {
  SampleReport sample(testing::rowA());
  const auto& step = sample.voltsIn("cool1");
  const std::string first = sample.read(step, -5);
  sample.read(step);
  sample.job.readings.back().supersedes = first;
  const auto rows = rowsOf(section(sample.report(), "readings"));
  const size_t at = rowOf(rows, step.key);
  EXPECT_EQ(std::get<VerdictMark>(rows[at].cells[kVerdict].content).verdict, checklist::Verdict::good);
  const Row& earlier = rows[at + 1];
  EXPECT_TRUE(earlier.small);
  EXPECT_EQ(in<Phrase>(earlier.cells[kWhat])->key, "report.reading.superseded");
  EXPECT_EQ(earlier.cells[kReading].emphasis, Emphasis::struck);
  EXPECT_DOUBLE_EQ(in<ReadingText>(earlier.cells[kReading])->value, step.band->mean - 5 * step.band->sigma);
}

TEST(Readings, StruckOutStayOnThePageWithTheReason) {
  SampleReport sample(testing::rowA());
  const auto& step = sample.voltsIn("cool1");
  const std::string first = sample.read(step);
  sample.read(step);
  auto& strike = sample.job.readings.back();
  strike.supersedes = first;
  strike.value.reset();
  strike.entered.clear();
  strike.struckBecause = "wrong screw";
  const auto rows = rowsOf(section(sample.report(), "readings"));
  const size_t at = rowOf(rows, step.key);
  EXPECT_EQ(std::get<VerdictMark>(rows[at].cells[kVerdict].content).verdict, checklist::Verdict::notMeasured);
  bool value = false, reason = false;
  for (size_t i = at + 1; i < rows.size() && rows[i].small; ++i) {
    const auto* note = in<Phrase>(rows[i].cells[kWhat]);
    value |= rows[i].cells[kReading].emphasis == Emphasis::struck &&
             in<ReadingText>(rows[i].cells[kReading]) != nullptr;
    reason |= note != nullptr && note->key == "report.reading.struck" &&
              std::get<Literal>(note->args[0].value).text == "wrong screw";
  }
  EXPECT_TRUE(value);
  EXPECT_TRUE(reason);
}

TEST(Readings, SkippedStepsAndWhatWasSeenOtherwiseAreTold) {
  SampleReport sample(testing::rowA());
  const auto& step = sample.voltsIn("cool1");
  sample.read(step);
  auto& skip = sample.job.readings.back();
  skip.value.reset();
  skip.skippedBecause = "no ladder";
  const auto look = std::find_if(sample.steps.begin(), sample.steps.end(), [](const auto& s) {
    return s.measure == checklist::Measure::look && s.call == "cool1";
  });
  sample.read(*look);
  sample.job.readings.back().entered = "runs compressor1, hum";
  const auto rows = rowsOf(section(sample.report(), "readings"));
  const size_t at = rowOf(rows, step.key);
  EXPECT_EQ(std::get<VerdictMark>(rows[at].cells[kVerdict].content).verdict, checklist::Verdict::notMeasured);
  EXPECT_EQ(in<Phrase>(rows[at + 1].cells[kWhat])->key, "report.reading.skipped");
  const size_t seen = rowOf(rows, look->key);
  EXPECT_EQ(std::get<VerdictMark>(rows[seen].cells[kVerdict].content).verdict, checklist::Verdict::fault);
  const auto* what = in<Phrase>(rows[seen + 1].cells[kWhat]);
  ASSERT_NE(what, nullptr);
  EXPECT_EQ(what->key, "report.reading.seen-runs-hum");
  EXPECT_EQ(std::get<NamedList>(what->args[0].value).ids, std::vector<std::string>{"compressor1"});
}

/// The meters that stand in the who column of the rows that were read.
std::set<std::string> metersInRows(const Section& readings) {
  std::set<std::string> meters;
  for (const auto& row : rowsOf(readings))
    if (const auto* who = in<Phrase>(row.cells[kWho]))
      meters.insert(std::get<Literal>(who->args.at(2).value).text);
  return meters;
}

TEST(Readings, StandPlaceByPlaceInWalkingOrder) {
  const SampleReport sample(testing::rowG());
  const Report report = sample.report();
  std::vector<sheet::UnitId> places;
  std::set<std::string> steps;
  for (const auto& node : section(report, "readings").nodes) {
    if (const auto* heading = std::get_if<Heading>(&node))
      places.push_back(std::get<UnitName>(std::get<Phrase>(heading->text).args.at(0).value).unit);
    const auto* table = std::get_if<Table>(&node);
    if (table == nullptr) continue;
    double before = 0;
    for (const auto& row : table->rows) {
      const auto& step = in<Instruction>(row.cells[kWhat])->step;
      EXPECT_EQ(step.standAt, places.back());
      steps.insert(step.key);
      const double line = in<Number>(row.cells[kLine])->value;
      EXPECT_GT(line, before);
      EXPECT_EQ(sample.steps.at(size_t(line) - 1).key, step.key) << "the line of the whole checklist";
      before = line;
    }
  }
  EXPECT_EQ(std::set(places.begin(), places.end()).size(), places.size()) << "one table for each place";
  EXPECT_EQ(places.size(), 3u);
  size_t measured = 0;
  for (const auto& step : sample.steps) measured += step.measure != checklist::Measure::act;
  EXPECT_EQ(steps.size(), measured);
}

TEST(Readings, OneMeterIsNamedOnceAndSeveralInEachRow) {
  SampleReport sample(testing::rowA());
  for (const char* name : {"Bench meter 1", "Bench meter 2"}) {
    job::Meter meter;
    meter.id = testing::sampleId(700 + int(sample.job.meters.size()));
    meter.name = name;
    meter.serial = "QM-0207";
    sample.job.meters.push_back(meter);
  }
  sample.read(sample.voltsIn("cool1"));
  sample.job.readings.back().meter = sample.job.meters[0].id;
  const Report one = sample.report();
  const auto* above = std::get_if<Paragraph>(&section(one, "readings").nodes.at(0));
  ASSERT_NE(above, nullptr);
  EXPECT_EQ(std::get<Literal>(std::get<Phrase>(above->text).args.at(0).value).text, "Bench meter 1");
  EXPECT_EQ(metersInRows(section(one, "readings")), std::set<std::string>{""});
  sample.read(sample.voltsIn("heat1"));
  sample.job.readings.back().meter = sample.job.meters[1].id;
  const Report two = sample.report();
  EXPECT_TRUE(std::holds_alternative<Heading>(section(two, "readings").nodes.at(0)));
  EXPECT_EQ(metersInRows(section(two, "readings")),
            (std::set<std::string>{"Bench meter 1", "Bench meter 2"}));
}

TEST(AsFound, DifferencesStandInTheWiringTableAndTheDiagram) {
  SampleReport sample(testing::rowA());
  sample.job.asFound = testing::rowASwapped();
  const Report report = sample.report();
  std::map<std::string, std::string> was;  // colour -> terminal found at End B
  std::string colour;
  for (const auto& row : rowsOf(section(report, "wiring"))) {
    if (const auto* tag = std::get_if<Tag>(&row.cells[0].content)) colour = sheet::print(tag->colour);
    if (!row.small) continue;
    ASSERT_NE(in<Named>(row.cells[3]), nullptr);
    EXPECT_EQ(in<Named>(row.cells[3])->id, "asFound");
    was[colour] = std::get<sheet::TerminalRef>(in<LandingName>(row.cells[2])->landing).terminal;
  }
  EXPECT_EQ(was, (std::map<std::string, std::string>{{"YE", "G"}, {"GN", "Y"}}));
  for (const auto& node : section(report, "diagram").nodes)
    if (const auto* page = std::get_if<DiagramPage>(&node)) {
      EXPECT_EQ(page->foundOtherwise.size(), 2u);
    }
}

TEST(AsFound, WhatWasAddedOrTakenAwayIsMarkedAndToldToTheOwner) {
  SampleReport sample(testing::rowA());
  sheet::Sheet found = *sample.job.asLeft;
  const sheet::ConductorId added = found.conductors.rows().front().id;
  sheet::Conductor gone = found.conductors.rows().back();
  found.conductors.erase(added);
  gone.remark.clear();
  found.addConductor(gone);
  sample.job.asFound = found;
  const Report report = sample.report();
  int absent = 0, struck = 0;
  for (const auto& row : rowsOf(section(report, "wiring"))) {
    const auto* note = in<Phrase>(row.cells[1]);
    absent += row.small && note != nullptr && note->key == "report.wire.absent";
    struck += row.cells[1].emphasis == Emphasis::struck;
  }
  EXPECT_EQ(absent, 1);
  EXPECT_EQ(struck, 1);
  std::set<std::string> told;
  for (const auto& node : section(report, "owner").nodes)
    if (const auto* paragraph = std::get_if<Paragraph>(&node))
      told.insert(std::get<Phrase>(paragraph->text).key);
  EXPECT_TRUE(told.count("report.done.added") && told.count("report.done.gone"));
  EXPECT_FALSE(told.count("report.done.changed"));
}

TEST(Planned, DifferencesStandInTheWiringTableButWereNotPutRight) {
  SampleReport sample(testing::rowA());
  sample.job.planned = testing::rowASwapped();
  const Report report = sample.report();
  int planned = 0;
  for (const auto& row : rowsOf(section(report, "wiring")))
    if (row.small) planned += in<Named>(row.cells[3])->id == "planned";
  EXPECT_EQ(planned, 2);
  for (const auto& node : section(report, "owner").nodes)
    if (const auto* heading = std::get_if<Heading>(&node)) {
      EXPECT_NE(std::get<Phrase>(heading->text).key, "report.heading.done");
    }
}

TEST(Equipment, HasTheFuseAndTheLoadOfEveryCall) {
  const SampleReport sample(testing::rowG());
  const auto input = sample.input();
  std::vector<Table> tables;
  const Report report = sample.report();
  for (const auto& node : section(report, "equipment").nodes)
    if (const auto* table = std::get_if<Table>(&node)) tables.push_back(*table);
  ASSERT_GE(tables.size(), 3u);
  const Row& supply = tables[1].rows.at(0);
  ASSERT_NE(in<Number>(supply.cells[3]), nullptr);
  EXPECT_EQ(in<Number>(supply.cells[3])->value, 3) << "as the unit profile has it";
  EXPECT_EQ(in<Number>(supply.cells[3])->unit, "A");
  const std::string heaviest = in<Named>(supply.cells[1])->id;
  const Table& loads = tables[2];
  ASSERT_EQ(loads.rows.size(), input.results.size());
  for (size_t i = 0; i < loads.rows.size(); ++i) {
    const Row& row = loads.rows[i];
    EXPECT_EQ(in<Named>(row.cells[0])->id, input.results[i].call);
    EXPECT_DOUBLE_EQ(in<Number>(row.cells[1])->value, input.results[i].sources.at(0).shown.si());
    EXPECT_EQ(row.cells[1].emphasis == Emphasis::strong, input.results[i].call == heaviest);
  }
}

TEST(Cautions, EachStandsOnceWithItsSource) {
  const SampleReport sample(testing::rowG());
  std::set<std::string> wanted, shown;
  for (const auto& step : sample.steps) wanted.insert(step.cautions.begin(), step.cautions.end());
  for (const auto& row : rowsOf(section(sample.report(), "cautions"))) {
    EXPECT_TRUE(shown.insert(in<Named>(row.cells[0])->id).second);
    EXPECT_EQ(in<Named>(row.cells[1])->kind, "caution-source");
    EXPECT_EQ(in<Named>(row.cells[1])->id, in<Named>(row.cells[0])->id);
  }
  EXPECT_EQ(shown, wanted);
  EXPECT_GT(shown.size(), 8u);
}

TEST(OwnersPage, TellsWhatWasAgreedOnlyWhereTheJobHasIt) {
  SampleReport sample(testing::rowG());
  const auto agreedRows = [&] {
    const Report report = sample.report();
    const auto& nodes = section(report, "owner").nodes;
    for (size_t i = 0; i + 1 < nodes.size(); ++i)
      if (const auto* heading = std::get_if<Heading>(&nodes[i]);
          heading != nullptr && std::get<Phrase>(heading->text).key == "report.heading.agreed")
        return std::get<Table>(nodes[i + 1]).rows;
    return std::vector<Row>();
  };
  EXPECT_TRUE(agreedRows().empty());
  verify::Finding marginal = sample.findings.empty() ? verify::Finding{} : sample.findings.front();
  marginal.rule = "pull-in-late";
  marginal.severity = verify::Severity::warn;
  sample.findings.push_back(marginal);
  sample.job.acceptances.push_back({testing::sampleId(800), verify::keyOf(marginal), "warn",
                                    "heavier wire next year", "A. Pennick", "2026-03-12T10:00:00Z"});
  ASSERT_EQ(agreedRows().size(), 1u);
  EXPECT_EQ(in<Literal>(agreedRows()[0].cells[1])->text, "heavier wire next year");
  sample.job.asLeft->settings.set("dualFuel", "outdoor");
  ASSERT_EQ(agreedRows().size(), 2u);
  EXPECT_EQ(in<Named>(agreedRows()[0].cells[1])->id, "outdoor");
}

TEST(AsFound, AloneIsTheSheetOfTheReportAndDiffersFromNothing) {
  SampleReport sample(testing::rowASwapped());
  sample.job.asFound = sample.job.asLeft;
  sample.job.asLeft.reset();
  const Report report = sample.report();
  for (const auto& row : rowsOf(section(report, "wiring"))) EXPECT_FALSE(row.small);
  const auto* sheet = std::get_if<Named>(&section(report, "wiring").subtitle.at(0));
  ASSERT_NE(sheet, nullptr);
  EXPECT_EQ(sheet->id, "asFound");
}

TEST(OpenPoints, StandOnTheOwnersPageWithOwnerAndDay) {
  SampleReport sample(testing::rowA());
  sample.readAll();
  sample.job.openItems.push_back({testing::sampleId(600), "Label the strip", "J. Tamsin", "2026-04-01"});
  sample.job.openItems.push_back({testing::sampleId(601), "Order a filter", "A. Pennick", ""});
  int found = 0;
  for (const auto& row : rowsOf(section(sample.report(), "owner"))) {
    const auto* text = in<Literal>(row.cells[1]);
    if (text == nullptr) continue;
    if (text->text == "Label the strip") {
      ++found;
      const auto* due = in<Phrase>(row.cells[2]);
      ASSERT_NE(due, nullptr);
      EXPECT_EQ(std::get<Day>(due->args[1].value).iso, "2026-04-01");
    }
    if (text->text == "Order a filter") {
      ++found;
      ASSERT_NE(in<Literal>(row.cells[2]), nullptr);
      EXPECT_EQ(in<Literal>(row.cells[2])->text, "A. Pennick");
    }
  }
  EXPECT_EQ(found, 2);
}

TEST(Findings, AreToldWithTitleAndTextAndAcceptedOnesApart) {
  SampleReport sample(testing::rowASwapped());
  const Report report = sample.report();
  const auto& node = section(report, "findings").nodes;
  ASSERT_FALSE(node.empty());
  EXPECT_EQ(std::get<Phrase>(std::get<Heading>(node[0]).text).key, "report.heading.open-findings");
  const auto rows = rowsOf(section(sample.report(), "findings"));
  ASSERT_EQ(rows.size(), 2 * sample.findings.size());
  for (size_t i = 0; i < sample.findings.size(); ++i) {
    EXPECT_EQ(std::get<SeverityMark>(rows[2 * i].cells[0].content).severity, sample.findings[i].severity);
    EXPECT_EQ(verify::keyOf(in<FindingTitle>(rows[2 * i].cells[1])->finding),
              verify::keyOf(sample.findings[i]));
    EXPECT_EQ(verify::keyOf(in<FindingText>(rows[2 * i + 1].cells[1])->finding),
              verify::keyOf(sample.findings[i]));
  }
}

TEST(Settings, TellWhyWhenceAndWhoseNote) {
  SampleReport sample(testing::rowG());
  sample.job.control.put({"auxiliaryAbove", "-5", "dear power", "M. Ode", "2026-03-12T10:00:00-05:00"});
  sample.job.control.put({"compressorBelow", "2", "old compressor", "M. Ode", "2026-03-12T10:00:00-05:00"});
  const auto rows = rowsOf(section(sample.report(), "settings"));
  ASSERT_FALSE(rows.empty());
  EXPECT_EQ(std::get<SeverityMark>(rows[0].cells[0].content).severity, verify::Severity::stop);
  EXPECT_EQ(in<ConflictText>(rows[0].cells[1])->conflict.rule, "lock-out-gap");
  bool found = false;
  for (size_t i = 1; i + 1 < rows.size(); ++i) {
    const auto* words = in<SettingWords>(rows[i].cells[0]);
    if (words == nullptr || words->setting.key != "auxiliaryAbove") continue;
    found = true;
    EXPECT_EQ(words->setting.value, "-5");
    EXPECT_EQ(in<SettingWords>(rows[i].cells[3])->setting.by, "M. Ode");
    ASSERT_TRUE(rows[i + 1].small);
    EXPECT_EQ(std::get<Literal>(in<Phrase>(rows[i + 1].cells[0])->args[0].value).text, "dear power");
  }
  EXPECT_TRUE(found);
  EXPECT_NE(writeReport(sample.report()).find("lock-out-gap"), std::string::npos);
}

TEST(Settings, DrawHowOftenEachStageMayStart) {
  SampleReport sample(testing::rowG());
  const auto report = sample.report();
  const CycleCurves* curves = nullptr;
  for (const Node& node : section(report, "settings").nodes)
    if (const auto* found = std::get_if<CycleCurves>(&node)) curves = found;
  ASSERT_NE(curves, nullptr);
  std::map<std::string, double> off;
  for (const CycleCurve& curve : curves->curves) off[curve.duty] = curve.least.si();
  EXPECT_EQ(off.at("compressor1"), 300) << "its off time holds it back";
  EXPECT_EQ(off.at("electricHeat1"), 0);
  EXPECT_NE(writeReport(report).find("\"cycles\""), std::string::npos);
}

TEST(ReportJson, ParsesAndHoldsTheSameSections) {
  SampleReport sample(testing::rowG());
  sample.readAll();
  const std::string text = writeReport(sample.report());
  const auto json = nlohmann::json::parse(text, nullptr, false);
  ASSERT_FALSE(json.is_discarded());
  EXPECT_EQ(json.at("format"), "wirewright-report");
  EXPECT_EQ(json.at("version"), 1);
  EXPECT_EQ(json.at("head").at("address"), "7 Larkmoor Terrace, Flat 1");
  ASSERT_EQ(json.at("sections").size(), 8u);
  const auto& owner = json.at("sections")[0];
  EXPECT_EQ(owner.at("id"), "owner");
  bool verdict = false;
  for (const auto& node : owner.at("nodes"))
    if (node.contains("verdict")) verdict = node["verdict"][0]["phrase"] == "report.verdict.both.works";
  EXPECT_TRUE(verdict);
  EXPECT_EQ(text, writeReport(sample.report())) << "the same job gives the same text";
}

TEST(ReportJson, SurvivesTextsAsPeopleTypeThem) {
  SampleReport sample(testing::rowA());
  sample.job.site.address = "7 \"Larkmoor\" \\ Terrace\n\u00f1";
  sample.job.openItems.push_back({testing::sampleId(600), "{n} <b>", "", ""});
  const auto json = nlohmann::json::parse(writeReport(sample.report()), nullptr, false);
  ASSERT_FALSE(json.is_discarded());
  EXPECT_EQ(json.at("head").at("address"), "7 \"Larkmoor\" \\ Terrace\n\u00f1, Flat 1");
}

}  // namespace
}  // namespace ww::document
