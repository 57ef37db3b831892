// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/job_json.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <functional>
#include <nlohmann/json.hpp>

#include "equipment/schema.h"
#include "equipment/shipped.h"
#include "support/json_changes.h"
#include "support/sample_job.h"
#include "support/told.h"

namespace ww::job {
namespace {

using nlohmann::json;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ww::testing::argument;
using ww::testing::sampleId;
using ww::testing::sampleJob;
using ww::testing::told;

quantity::Loaded<Job> read(const json& file) { return readJob(file.dump(), equipment::standardLibrary()); }

json sound() { return json::parse(writeJob(sampleJob())); }

std::function<void(json&)> set(const char* pointer, json value) {
  return [=](json& file) { file[json::json_pointer(pointer)] = value; };
}
std::function<void(json&)> drop(const char* parent, const char* member) {
  return [=](json& file) { file[json::json_pointer(parent)].erase(member); };
}

TEST(JobJson, everythingReadsBackEqual) {
  const auto loaded = readJob(writeJob(sampleJob()), equipment::standardLibrary());
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_EQ(*loaded.value, sampleJob());
}

TEST(JobJson, canonicalBytesDoNotDependOnHowTheFileWasWritten) {
  const std::string canonical = writeJob(sampleJob());
  const auto pretty = readJob(json::parse(canonical).dump(4), equipment::standardLibrary());
  ASSERT_TRUE(pretty);
  EXPECT_EQ(writeJob(*pretty.value), canonical);
  EXPECT_EQ(canonical.back(), '\n');
  EXPECT_EQ(canonical.find('\n'), canonical.size() - 1);
  EXPECT_LT(canonical.find("\"acceptances\""), canonical.find("\"version\""));
  EXPECT_NE(canonical.find("\"accuracyPercent\":0.8,"), std::string::npos);
}

TEST(JobJson, theHashHoldsEverythingButTheSignaturesBesideIt) {
  const Job job = sampleJob();
  const std::string hash = hashOf(job);
  EXPECT_EQ(hash.size(), 64u);
  EXPECT_EQ(hash.find_first_not_of("0123456789abcdef"), std::string::npos);
  Job signedAgain = job;
  signedAgain.signatures.push_back({sampleId(30), "installer", "J. Tamsin", "2026-03-12T11:06:00Z", "drawn"});
  EXPECT_EQ(hashOf(signedAgain), hash);
  Job other = job;
  other.openItems.front().text += ".";
  EXPECT_NE(hashOf(other), hash);
  other = job;
  other.readings.front().entered = "27.30";
  EXPECT_NE(hashOf(other), hash);
}

TEST(JobJson, whatMayBeLeftOut) {
  const auto loaded = read({{"format", "wirewright-job"},
                            {"version", 1},
                            {"id", sampleId(0)},
                            {"number", "2026-0312-02"},
                            {"state", "draft"},
                            {"visit", "2026-03-12"},
                            {"site", {{"address", "9 Larkmoor Terrace"}}},
                            {"sheets", json::object()}});
  ASSERT_THAT(told(loaded.problems), IsEmpty());
  EXPECT_EQ(loaded.value->lowLine, 0.92);
  EXPECT_EQ(loaded.value->highLine, 1.10);
  EXPECT_EQ(currentSheet(*loaded.value), nullptr);
}

struct Fault {
  const char* name;
  std::function<void(json&)> change;
  std::vector<std::string> want;  ///< "where key" of every problem
  bool seenBySchema = false;      ///< a schema can say this much
};

const std::vector<Fault>& faults() {
  static const std::vector<Fault> list{
      {"format", set("/format", "wirewright-sheet"), {"/format wrong-format"}, true},
      {"newer", set("/version", 2), {"/version newer-version"}, true},
      {"versionZero", set("/version", 0), {"/version out-of-range"}, true},
      {"versionText", set("/version", "1"), {"/version wrong-type"}, true},
      {"list", [](json& file) { file = json::array({1}); }, {" wrong-type"}, true},
      {"number", [](json& file) { file = 7; }, {" wrong-type"}, true},
      {"stray", set("/language", "en"), {"/language unknown-member"}, true},
      {"noId", drop("", "id"), {" missing-member"}, true},
      {"id", set("/id", "7"), {"/id not-a-uuid"}, true},
      {"idTwice", set("/openItems/0/id", sampleId(2)), {"/openItems/0/id id-doubled"}},
      {"state", set("/state", "done"), {"/state unknown-word"}, true},
      {"stage", set("/stage", "lunch"), {"/stage unknown-word"}, true},
      {"visit", set("/visit", "12.3.2026"), {"/visit not-a-date"}, true},
      {"visitNoDay", set("/visit", "2026-02-29"), {"/visit not-a-date"}},
      {"noVisit", drop("", "visit"), {" missing-member"}, true},
      {"noSite", drop("", "site"), {" missing-member"}, true},
      {"siteType", set("/site", "7 Larkmoor Terrace"), {"/site wrong-type"}, true},
      {"noAddress", drop("/site", "address"), {"/site missing-member"}, true},
      {"company", set("/company/fax", "555-0100"), {"/company/fax unknown-member"}, true},
      {"lineLow", set("/line/low", 0.1), {"/line/low out-of-range"}, true},
      {"lineOrder",
       [](json& file) {
         file["line"] = {{"low", 1}, {"high", 1}};
       },
       {"/line/low line-order"}},
      {"noSheets", drop("", "sheets"), {" missing-member"}, true},
      {"sheetName", set("/sheets/drawn", json::object()), {"/sheets/drawn unknown-member"}, true},
      {"sheetFault",
       set("/sheets/asLeft/cables/0/metres", -1),
       {"/sheets/asLeft/cables/0/metres length-out-of-range"},
       true},
      {"sheetLanding",
       set("/sheets/asFound/conductors/0/endA/unit", 99),
       {"/sheets/asFound/conductors/0/endA/unit unit-not-there"}},
      {"sheetNull", set("/sheets/planned", nullptr), {"/sheets/planned wrong-type"}, true},
      {"meterAccuracy",
       set("/meters/0/accuracyPercent", 0),
       {"/meters/0/accuracyPercent out-of-range"},
       true},
      {"calibration", set("/meters/0/calibrationDue", "soon"), {"/meters/0/calibrationDue not-a-date"}, true},
      {"meterGone",
       set("/meters", json::array()),
       {"/readings/0/meter meter-not-there", "/readings/1/meter meter-not-there",
        "/readings/2/meter meter-not-there", "/readings/3/meter meter-not-there"}},
      {"readings", set("/readings", "none"), {"/readings wrong-type"}, true},
      {"readingValue", set("/readings/0/value", "27.3"), {"/readings/0/value wrong-type"}, true},
      {"readingHuge", set("/readings/0/value", 1e300), {"/readings/0/value out-of-range"}, true},
      {"readingAt", set("/readings/0/at", "yesterday"), {"/readings/0/at not-a-moment"}, true},
      {"readingHour", set("/readings/0/at", "2026-03-12T24:00:00Z"), {"/readings/0/at not-a-moment"}},
      {"readingZone", set("/readings/0/at", "2026-03-12T10:00:00"), {"/readings/0/at not-a-moment"}, true},
      {"supersedesLater",
       set("/readings/0/supersedes", sampleId(3)),
       {"/readings/0/supersedes reading-not-there"}},
      {"supersedesItself",
       set("/readings/0/supersedes", sampleId(2)),
       {"/readings/0/supersedes reading-not-there"}},
      {"supersedesOther",
       set("/readings/3/supersedes", sampleId(4)),
       {"/readings/3/supersedes reading-of-another-step"}},
      {"strikesNothing",
       drop("/readings/3", "supersedes"),
       {"/readings/3/struckBecause strike-without-reading"}},
      {"skippedAndRead",
       set("/readings/0/skippedBecause", "no ladder"),
       {"/readings/0/skippedBecause skipped-with-value"}},
      {"bandOrder", set("/readings/0/band/high", 20), {"/readings/0/band/high out-of-range"}},
      {"bandOpen", set("/readings/0/band/open", 1), {"/readings/0/band/open wrong-type"}, true},
      {"bandPart", drop("/readings/0/band", "mean"), {"/readings/0/band missing-member"}, true},
      {"cautions",
       set("/acknowledgements/0/cautions", "all"),
       {"/acknowledgements/0/cautions unknown-word"},
       true},
      {"acceptStop", set("/acceptances/0/severity", "stop"), {"/acceptances/0/severity unknown-word"}, true},
      {"role", set("/signatures/0/role", "witness"), {"/signatures/0/role unknown-word"}, true},
      {"form", set("/signatures/0/form", "stamped"), {"/signatures/0/form unknown-word"}, true},
      {"due", set("/openItems/0/due", "2026-13-01"), {"/openItems/0/due not-a-date"}},
      {"longText",
       set("/openItems/0/text", std::string(5000, 'x')),
       {"/openItems/0/text text-too-long"},
       true},
  };
  return list;
}

class FaultyJob : public ::testing::TestWithParam<Fault> {
 protected:
  json file() const {
    json result = sound();
    GetParam().change(result);
    return result;
  }
};

TEST_P(FaultyJob, isRefusedWithEveryProblemPlaced) {
  const auto loaded = read(file());
  EXPECT_FALSE(loaded);
  EXPECT_THAT(told(loaded.problems), ::testing::UnorderedElementsAreArray(GetParam().want));
}

TEST_P(FaultyJob, isRefusedByTheSchemaAsFarAsASchemaCanSay) {
  EXPECT_EQ(!equipment::schemaProblems(file().dump(), "job.schema").empty(), GetParam().seenBySchema);
}

INSTANTIATE_TEST_SUITE_P(Each, FaultyJob, ::testing::ValuesIn(faults()),
                         [](const auto& fault) { return std::string(fault.param.name); });

TEST(JobJson, findsAllProblemsAtOnce) {
  json file = sound();
  for (const char* name : {"state", "visit", "lineLow", "sheetFault", "readingAt", "role", "stray"})
    for (const Fault& fault : faults())
      if (fault.name == std::string(name)) fault.change(file);
  EXPECT_THAT(told(read(file).problems),
              ::testing::UnorderedElementsAre(
                  "/state unknown-word", "/visit not-a-date", "/line/low out-of-range",
                  "/sheets/asLeft/cables/0/metres length-out-of-range", "/readings/0/at not-a-moment",
                  "/signatures/0/role unknown-word", "/language unknown-member"));
}

TEST(JobJson, aFloodOfProblemsIsCutOff) {
  json file = sound();
  for (int i = 0; i < 5000; ++i) file["readings"].push_back(json::object());
  const auto problems = read(file).problems;
  EXPECT_LT(problems.size(), 1100u);
  EXPECT_TRUE(std::any_of(problems.begin(), problems.end(),
                          [](const quantity::Problem& one) { return one.key == "more-problems"; }));
}

TEST(JobJson, aNewerFileIsNotLookedAtFurther) {
  json file = sound();
  file["version"] = 9;
  file["site"] = 5;
  file["invention"] = true;
  const auto loaded = read(file);
  ASSERT_THAT(told(loaded.problems), ElementsAre("/version newer-version"));
  EXPECT_EQ(argument(loaded.problems.front(), "version"), "9");
  EXPECT_EQ(argument(loaded.problems.front(), "known"), "1");
}

TEST(JobSchema, takesWhatTheWriterWrites) {
  EXPECT_THAT(told(equipment::schemaProblems(writeJob(sampleJob()), "job.schema")), IsEmpty());
}

TEST(JobSchema, refusesOnlyWhatTheReaderRefuses) {
  std::mt19937 random(5);
  int refused = 0;
  for (int round = 0; round < 300; ++round) {
    json changed = sound();
    ww::testing::changeAtRandom(changed, random);
    const auto problems = equipment::schemaProblems(changed.dump(), "job.schema");
    if (problems.empty()) continue;
    ++refused;
    EXPECT_FALSE(read(changed)) << changed.dump() << problems.front().where;
  }
  EXPECT_GT(refused, 150);
}

// The validator keeps definitions of all schemas in one cache.
TEST(JobSchema, sharesADefinitionsNameWithTheSheetOnlyWhereItSaysTheSame) {
  const auto definitions = [](const char* name) {
    return json::parse(equipment::textOf(equipment::shippedSchemas(), name)).at("definitions");
  };
  const json sheet = definitions("sheet.schema"), job = definitions("job.schema");
  for (const auto& [name, definition] : job.items())
    if (sheet.contains(name)) {
      EXPECT_EQ(definition, sheet.at(name)) << name;
    }
}

}  // namespace
}  // namespace ww::job
