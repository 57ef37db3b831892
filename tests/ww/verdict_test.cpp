// SPDX-License-Identifier: GPL-3.0-or-later
// Exit status of check and report: what is above marginal, what --strict adds, what a person accepted.
#include "support/reference_rows.h"
#include "support/sample_job.h"
#include "ww/program.h"

#include "job/job_json.h"
#include "sheet/sheet_csv.h"

namespace ww {
namespace {

using testing::demoPath;
using testing::edited;
using testing::kRowA;
using testing::runWw;

/// Row A with the two yellow ends spliced past the furnace board: cooling at the wrong blower speed.
const std::string kMarginal =
    edited(edited(kRowA, "YE,T,Y,F,Y", "YE,T,Y,F,/S1"), "YE,F,Y,O,Y", "YE,F,/S1,O,Y");

class Verdict : public testing::InFolder {};

TEST_F(Verdict, ofTheDemosIsTheSameForCheckAndReport) {
  const std::pair<const char*, int> demos[] = {{"larkmoor-a-furnace-cooling.json", 0},
                                               {"larkmoor-b-electric-air-handler.json", 0},
                                               {"larkmoor-g-heat-pump.json", 0},
                                               {"larkmoor-a-swapped-at-furnace.json", 1},
                                               {"larkmoor-g-wrong-valve-sense.json", 1}};
  for (const auto& [name, exit] : demos)
    for (const bool strict : {false, true}) {
      std::vector<std::string> check{"check", demoPath(name)},
          report{"report", demoPath(name), "-o", path(std::string(name) + ".pdf")};
      if (strict) check.push_back("--strict"), report.push_back("--strict");
      EXPECT_EQ(runWw(check).exit, exit) << name;
      const auto ran = runWw(report);
      EXPECT_EQ(ran.exit, exit) << name << ran.err;
      EXPECT_EQ(ran.err, "") << name;
      EXPECT_EQ(testing::contentOf(report[3]).substr(0, 5), "%PDF-")
          << name << ": a fault does not stop the paper";
    }
}

TEST_F(Verdict, countsWhatIsMarginalOnlyWhenStrict) {
  const std::string sheet = file("marginal.csv", kMarginal);
  const auto findings = runWw({"check", "--json", sheet}).json()["findings"];
  ASSERT_EQ(findings[0]["severity"], "warn") << findings;
  EXPECT_EQ(runWw({"check", sheet}).exit, 0);
  EXPECT_EQ(runWw({"check", "--strict", sheet}).exit, 1);
  EXPECT_EQ(runWw({"report", sheet, "-o", path("r.pdf")}).exit, 0);
  EXPECT_EQ(runWw({"report", "--strict", sheet, "-o", path("r.pdf")}).exit, 1);
}

TEST_F(Verdict, leavesOutWhatWasAcceptedAtItsSeverity) {
  auto job = testing::sampleJob();
  job.asLeft = sheet::readCsv(kMarginal, equipment::standardLibrary()).value;
  const std::string open = file("open.json", job::writeJob(job));
  EXPECT_EQ(runWw({"check", "--strict", open}).exit, 1);
  int id = 20;
  const auto result = runWw({"check", "--json", open}).json();
  for (const auto& finding : result["findings"])
    job.acceptances.push_back({testing::sampleId(id++), finding["id"], finding["severity"], "as agreed",
                               "J. Tamsin", "2026-03-12T11:00Z"});
  EXPECT_EQ(runWw({"check", "--strict", file("accepted.json", job::writeJob(job))}).exit, 0);
  for (auto& acceptance : job.acceptances) acceptance.severity = "note";
  EXPECT_EQ(runWw({"check", "--strict", file("changed.json", job::writeJob(job))}).exit, 1)
      << "a change of severity opens it again";
}

TEST_F(Verdict, isNotSpokenByTheOtherCommands) {
  const std::string swapped = demoPath("larkmoor-a-swapped-at-furnace.json");
  EXPECT_EQ(runWw({"solve", swapped}).exit, 0);
  EXPECT_EQ(runWw({"steps", swapped}).exit, 0);
  EXPECT_EQ(runWw({"netlist", swapped, "--call", "fan"}).exit, 0);
  EXPECT_EQ(runWw({"draw", swapped, "-o", path("d.svg")}).exit, 0);
}

TEST_F(Verdict, neitherReadingNorPrintingChangesTheFile) {
  const std::string before = testing::contentOf(demoPath("larkmoor-g-heat-pump.json"));
  const std::string copy = file("copy.json", before);
  for (const char* command : {"check", "solve", "steps"}) runWw({command, copy});
  runWw({"report", copy, "-o", path("r.pdf")});
  EXPECT_EQ(testing::contentOf(copy), before);
}

}  // namespace
}  // namespace ww
