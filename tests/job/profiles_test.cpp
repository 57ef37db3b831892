// SPDX-License-Identifier: GPL-3.0-or-later
// A job takes the profiles along that did not ship with the program.
#include "job/profiles.h"

#include <gmock/gmock.h>

#include "equipment/schema.h"
#include "job/document_file.h"
#include "job/job_json.h"
#include "support/own_units.h"
#include "support/sample_job.h"
#include "support/told.h"

namespace ww::job {
namespace {

using equipment::standardLibrary;
using nlohmann::json;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ww::testing::libraryWith;
using ww::testing::ownProfile;
using ww::testing::sampleJob;
using ww::testing::told;

/// The outdoor unit of row A is one of the person's own.
Job ownJob() {
  Job job = sampleJob();
  for (auto* sheet : {&job.asFound, &job.asLeft}) {
    sheet::Sheet& own = **sheet;
    for (sheet::Unit unit : std::vector<sheet::Unit>(own.units.begin(), own.units.end()))
      if (unit.profile == "od-cool-1") {
        unit.profile = "my-outdoor";
        own.units.put(unit);
      }
  }
  return job;
}

testing::ChangeProfile titled(const char* title) {
  return [=](auto& profile) { profile["title"]["en"] = title; };
}

equipment::Library own(const char* title = "Mine") {
  return libraryWith(ownProfile("od-cool-1", "my-outdoor", titled(title)));
}

TEST(JobProfiles, whatIsUsedAndDidNotShipTravelsInside) {
  const Job job = withProfiles(ownJob(), own());
  ASSERT_EQ(job.profiles.size(), 1u);
  EXPECT_EQ(job.profiles.begin()->first, "my-outdoor");
  // Where the profile was never heard of, the job opens with its own copy.
  const auto read = readJob(writeJob(job), standardLibrary());
  ASSERT_THAT(told(read.problems), IsEmpty());
  EXPECT_EQ(*read.value, job);
  EXPECT_EQ(libraryOf(*read.value, standardLibrary()).find("my-outdoor")->title.at("en"), "Mine");
}

TEST(JobProfiles, withoutItsCopyAJobThatNamesOneDoesNotOpen) {
  const auto read = readJob(writeJob(ownJob()), standardLibrary());
  EXPECT_FALSE(read);
  EXPECT_EQ(read.problems.front().key, "unknown-profile");
}

TEST(JobProfiles, theCopyStandsBeforeAProfileThatWasChangedLater) {
  const Job job = withProfiles(ownJob(), own());
  const equipment::Library later = own("Changed");
  EXPECT_EQ(libraryOf(job, later).find("my-outdoor")->title.at("en"), "Mine");
  EXPECT_EQ(withProfiles(job, later), job);
  const auto read = readJob(writeJob(job), later);
  ASSERT_TRUE(read);
  EXPECT_EQ(hashOf(withProfiles(*read.value, later)), hashOf(job));
}

TEST(JobProfiles, theBytesDependOnTheProfileAndNotOnItsSpelling) {
  const std::string text = ownProfile("od-cool-1", "my-outdoor");
  const Job spread = withProfiles(ownJob(), libraryWith(text));
  const Job dense = withProfiles(ownJob(), libraryWith(json::parse(text).dump()));
  EXPECT_EQ(hashOf(spread), hashOf(dense));
  EXPECT_NE(hashOf(withProfiles(ownJob(), own("Other"))), hashOf(spread));
}

TEST(JobProfiles, jobsWithoutAnyKeepTheirBytes) {
  EXPECT_EQ(writeJob(sampleJob()).find("\"profiles\""), std::string::npos);
  EXPECT_EQ(withProfiles(sampleJob(), own()), sampleJob());
}

TEST(JobProfiles, whatIsNoLongerUsedStaysBehind) {
  Job job = withProfiles(ownJob(), own());
  job.asFound = job.asLeft = sampleJob().asLeft;
  EXPECT_TRUE(withProfiles(job, own()).profiles.empty());
}

TEST(JobProfiles, anUnsoundCopyIsToldWithItsPlaces) {
  json file = json::parse(writeJob(withProfiles(ownJob(), own())));
  file["profiles"]["my-outdoor"]["kind"] = "robot";
  file["profiles"]["my-outdoor"]["terminals"][0]["role"] = "plug";
  const auto read = readJob(file.dump(), standardLibrary());
  const auto lines = told(read.problems);
  EXPECT_THAT(lines, ::testing::IsSupersetOf({"/profiles/my-outdoor/kind unknown-word",
                                              "/profiles/my-outdoor/terminals/0/role unknown-word"}));
}

TEST(JobProfiles, aCopyStandsUnderItsOwnId) {
  json file = json::parse(writeJob(withProfiles(ownJob(), own())));
  file["profiles"]["other"] = file["profiles"]["my-outdoor"];
  EXPECT_THAT(told(readJob(file.dump(), standardLibrary()).problems),
              ElementsAre("/profiles/other/id profile-other-id"));
}

TEST(JobProfiles, theSchemaKnowsThem) {
  const std::string text = writeJob(withProfiles(ownJob(), own()));
  EXPECT_THAT(told(equipment::schemaProblems(text, "job.schema")), IsEmpty());
  json file = json::parse(text);
  file["profiles"]["my-outdoor"]["kind"] = "robot";
  EXPECT_FALSE(equipment::schemaProblems(file.dump(), "job.schema").empty());
}

}  // namespace
}  // namespace ww::job
