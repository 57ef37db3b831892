// SPDX-License-Identifier: GPL-3.0-or-later
#include "job/job.h"

#include <gtest/gtest.h>

#include <cmath>

#include "support/sample_job.h"

namespace ww::job {
namespace {

using ww::testing::sampleId;
using ww::testing::sampleJob;
using ww::testing::sampleReading;

TEST(Job, aSkippedStepHasAReasonAndNoValue) {
  const Job job;
  Reading skip;
  skip.id = sampleId(1);
  skip.step = "rest:R-C";
  skip.skippedBecause = "no ladder";
  const auto with = withReading(job, skip);
  ASSERT_TRUE(with);
  EXPECT_EQ(standing(*with, "rest:R-C")->skippedBecause, "no ladder");
  EXPECT_TRUE(observationsOf(*with).empty());
  skip.id = sampleId(2);
  skip.value = 24;
  EXPECT_FALSE(withReading(*with, skip));
}

TEST(Job, findingsComeFromAsLeftElsePlannedElseAsFound) {
  Job job;
  EXPECT_EQ(currentSheet(job), nullptr);
  EXPECT_EQ(currentSheetState(job), std::nullopt);
  job.asFound = ww::testing::rowASwapped();
  EXPECT_EQ(currentSheet(job), &*job.asFound);
  EXPECT_EQ(currentSheetState(job), SheetState::asFound);
  job.planned = ww::testing::rowB();
  EXPECT_EQ(currentSheet(job), &*job.planned);
  EXPECT_EQ(currentSheetState(job), SheetState::planned);
  job.asLeft = ww::testing::rowA();
  EXPECT_EQ(currentSheet(job), &*job.asLeft);
  EXPECT_EQ(currentSheetState(job), SheetState::asLeft);
}

TEST(Job, readingsAreOnlyEverAppended) {
  const Job before = sampleJob();
  const auto after = withReading(before, sampleReading(20, "cool1:Y-C"));
  ASSERT_TRUE(after);
  ASSERT_EQ(after->readings.size(), before.readings.size() + 1);
  for (size_t i = 0; i < before.readings.size(); ++i) EXPECT_EQ(after->readings[i], before.readings[i]);
}

TEST(Job, aReadingThatFitsNowhereIsRefused) {
  const Job job = sampleJob();
  Reading reading = sampleReading(20, "rest:R-C");
  reading.id.clear();
  EXPECT_FALSE(withReading(job, reading));
  EXPECT_FALSE(withReading(job, sampleReading(2, "rest:R-C")));  // id taken
  reading = sampleReading(20, "rest:R-C");
  reading.supersedes = sampleId(19);
  EXPECT_FALSE(withReading(job, reading));  // not there
  reading.supersedes = sampleId(4);
  EXPECT_FALSE(withReading(job, reading));  // of another step
  reading.supersedes.clear();
  reading.struckBecause = "slip";
  EXPECT_FALSE(withReading(job, reading));  // strikes nothing
  for (const double value : {std::nan(""), HUGE_VAL, -1.1e9}) {
    reading = sampleReading(20, "rest:R-C");
    reading.value = value;
    EXPECT_FALSE(withReading(job, reading)) << value;
  }
}

TEST(Job, theNewestReadingOfAStepStands) {
  Job job;
  EXPECT_EQ(standing(job, "a"), nullptr);
  job = *withReading(job, sampleReading(1, "a"));
  job = *withReading(job, sampleReading(2, "b"));
  EXPECT_EQ(standing(job, "a")->id, sampleId(1));
  Reading retake = sampleReading(3, "a");
  retake.supersedes = sampleId(1);
  job = *withReading(job, retake);
  EXPECT_EQ(standing(job, "a")->id, sampleId(3));
  Reading strike = sampleReading(4, "a");
  strike.supersedes = sampleId(3);
  strike.struckBecause = "wrong post";
  job = *withReading(job, strike);
  EXPECT_EQ(standing(job, "a"), nullptr);
  EXPECT_EQ(standing(job, "b")->id, sampleId(2));
  job = *withReading(job, sampleReading(5, "a"));
  EXPECT_EQ(standing(job, "a")->id, sampleId(5));
}

}  // namespace
}  // namespace ww::job
