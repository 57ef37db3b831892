// SPDX-License-Identifier: GPL-3.0-or-later
// The report tree: which facts of the job stand where.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

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

/// Where the row of a step stands among the readings.
size_t rowOf(const std::vector<Row>& rows, const std::string& step) {
  for (size_t i = 0; i < rows.size(); ++i)
    if (const auto* what = in<Instruction>(rows[i].cells[0]); what != nullptr && what->step.key == step)
      return i;
  throw std::out_of_range(step);
}

TEST(Report, HasItsSectionsInOrderAndNumbered) {
  const SampleReport sample(testing::rowA());
  const Report report = sample.report();
  std::vector<std::string> ids;
  for (const auto& part : report.sections) {
    EXPECT_EQ(part.number, int(ids.size())) << part.id;
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
  ASSERT_EQ(row.cells.size(), 5u);
  ASSERT_NE(in<BandText>(row.cells[1]), nullptr);
  EXPECT_EQ(in<BandText>(row.cells[1])->band, *step.band);
  ASSERT_NE(in<Number>(row.cells[2]), nullptr);
  EXPECT_DOUBLE_EQ(in<Number>(row.cells[2])->value, step.band->mean);
  EXPECT_EQ(std::get<VerdictMark>(row.cells[3].content).verdict, checklist::Verdict::good);
  ASSERT_NE(in<Phrase>(row.cells[4]), nullptr);
  EXPECT_EQ(std::get<Literal>(in<Phrase>(row.cells[4])->args[0].value).text, "J. Tamsin");
}

TEST(Readings, NotTakenStandAsNotMeasured) {
  const SampleReport sample(testing::rowA());
  int judged = 0;
  for (const auto& row : rowsOf(section(sample.report(), "readings"))) {
    const auto* mark = std::get_if<VerdictMark>(&row.cells[3].content);
    if (mark == nullptr) continue;
    ++judged;
    EXPECT_EQ(mark->verdict, checklist::Verdict::notMeasured);
    EXPECT_TRUE(std::holds_alternative<Blank>(row.cells[2].content));
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
  EXPECT_EQ(std::get<VerdictMark>(rows[at].cells[3].content).verdict, checklist::Verdict::good);
  const Row& earlier = rows[at + 1];
  EXPECT_TRUE(earlier.small);
  EXPECT_EQ(in<Phrase>(earlier.cells[0])->key, "report.reading.superseded");
  EXPECT_EQ(earlier.cells[2].emphasis, Emphasis::struck);
  EXPECT_DOUBLE_EQ(in<Number>(earlier.cells[2])->value, step.band->mean - 5 * step.band->sigma);
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
  EXPECT_EQ(std::get<VerdictMark>(rows[at].cells[3].content).verdict, checklist::Verdict::notMeasured);
  bool value = false, reason = false;
  for (size_t i = at + 1; i < rows.size() && rows[i].small; ++i) {
    const auto* note = in<Phrase>(rows[i].cells[0]);
    value |= rows[i].cells[2].emphasis == Emphasis::struck && in<Number>(rows[i].cells[2]) != nullptr;
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
  EXPECT_EQ(std::get<VerdictMark>(rows[at].cells[3].content).verdict, checklist::Verdict::notMeasured);
  EXPECT_EQ(in<Phrase>(rows[at + 1].cells[0])->key, "report.reading.skipped");
  const size_t seen = rowOf(rows, look->key);
  EXPECT_EQ(std::get<VerdictMark>(rows[seen].cells[3].content).verdict, checklist::Verdict::fault);
  const auto* what = in<Phrase>(rows[seen + 1].cells[0]);
  ASSERT_NE(what, nullptr);
  EXPECT_EQ(what->key, "report.reading.seen-runs-hum");
  EXPECT_EQ(std::get<NamedList>(what->args[0].value).ids, std::vector<std::string>{"compressor1"});
}

TEST(AsFound, DifferencesStandInTheWiringTableAndTheDiagram) {
  SampleReport sample(testing::rowA());
  sample.job.asFound = testing::rowASwapped();
  const Report report = sample.report();
  std::map<std::string, std::string> was;  // colour -> terminal found at End B
  for (const auto& row : rowsOf(section(report, "wiring"))) {
    const auto* remark = in<Phrase>(row.cells[4]);
    if (remark == nullptr) continue;
    for (const auto& argument : remark->args)
      if (argument.name == "b")
        was[sheet::print(std::get<Tag>(row.cells[0].content).colour)] =
            std::get<sheet::TerminalRef>(std::get<LandingName>(argument.value).landing).terminal;
  }
  EXPECT_EQ(was, (std::map<std::string, std::string>{{"YE", "G"}, {"GN", "Y"}}));
  for (const auto& node : section(report, "diagram").nodes)
    if (const auto* page = std::get_if<DiagramPage>(&node)) {
      EXPECT_EQ(page->foundOtherwise.size(), 2u);
    }
}

TEST(AsFound, AloneIsTheSheetOfTheReportAndDiffersFromNothing) {
  SampleReport sample(testing::rowASwapped());
  sample.job.asFound = sample.job.asLeft;
  sample.job.asLeft.reset();
  const Report report = sample.report();
  for (const auto& row : rowsOf(section(report, "wiring")))
    EXPECT_TRUE(std::holds_alternative<Blank>(row.cells[4].content));
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
